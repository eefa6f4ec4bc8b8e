package sim

// A Trace receives the daily results of a replay, one value a day of the
// record. The fields are means over the zone [mm] but for Ks and Dose.
type Trace struct {
	Dose         []int32 // the dose given: the plan's, or 0 where the gate held it back
	PercIrrMM    []float64
	PercRainMM   []float64
	ETaMM        []float64
	DepletionMM  []float64 // at the end of the day
	LowQuarterMM []float64 // after watering and rain
	Ks           []float64 // mean over strips
}

// Grow makes every column n days long, keeping memory where it can.
func (t *Trace) Grow(n int) {
	if cap(t.Ks) < n {
		t.Dose = make([]int32, n)
		for _, c := range t.columns() {
			*c = make([]float64, n)
		}
	}
	t.Dose = t.Dose[:n]
	for _, c := range t.columns() {
		*c = (*c)[:n]
	}
}

func (t *Trace) columns() [6]*[]float64 {
	return [6]*[]float64{&t.PercIrrMM, &t.PercRainMM, &t.ETaMM, &t.DepletionMM, &t.LowQuarterMM, &t.Ks}
}

// A Balance is the state of one zone's soil during a replay. [Balance.Reset]
// makes it ready; it is not for use by several goroutines at once.
type Balance struct {
	DepletionMM []float64 // of each strip, strip 0 watered least
	tawMM       float64
	quarter     int // number of strips in the low quarter
	streak      int // stress days in a row up to yesterday
}

// Reset puts every strip of zone z at the given depletion, keeping memory.
func (b *Balance) Reset(z *Zone, depletionMM float64) {
	if cap(b.DepletionMM) < z.Strips {
		b.DepletionMM = make([]float64, z.Strips)
	}
	b.DepletionMM = b.DepletionMM[:z.Strips]
	for i := range b.DepletionMM {
		b.DepletionMM[i] = depletionMM
	}
	b.tawMM, b.quarter, b.streak = z.TAWMM, max(z.Strips/4, 1), 0
}

// ForgetStreak makes the next stress day the first of its streak: spin-up days
// do not count.
func (b *Balance) ForgetStreak() { b.streak = 0 }

// Mean returns the mean depletion over the strips [mm].
func (b *Balance) Mean() float64 {
	sum := 0.0
	for _, d := range b.DepletionMM {
		sum += d
	}
	return sum / float64(len(b.DepletionMM))
}

// Replay steps the balance through days, which are days from..from+len(days)
// of plan p counted from the first day of its spin-up, and adds what the soil
// and the strategy did to sums; what follows from weather alone ([WeatherSums])
// is not added. tr, if not nil, receives the daily values from its index at on.
func (b *Balance) Replay(days []Day, p *Plan, from int, sums *Sums, tr *Trace, at int) {
	dr := b.DepletionMM
	n := len(dr)
	taw, streak := b.tawMM, b.streak
	lowest := dr[:b.quarter]
	perLow, perStrip := 1/float64(b.quarter), 1/float64(n)
	before := b.Mean()
	var percIrr, percRain, eta, unstressedETa, lostKs float64 // sums over strips, but unstressedETa: a mean
	stressDays, longest := 0, 0
	dose := p.Dose[from : from+len(days)]
	for t := range days {
		day := &days[t]
		dayPercIrr, dayPercRain, dayETa, dayLost := 0.0, 0.0, 0.0, 0.0

		given := dose[t]
		if given != 0 && (p.Gate == nil || p.Gate.permits(dr, from+t)) {
			in := p.In[int(given)*n:][:n:n]
			for i, d := range dr {
				if d -= in[i]; d < 0 {
					dayPercIrr -= d
					d = 0
				}
				dr[i] = d
			}
			percIrr += dayPercIrr
			sums.addDose(&p.Doses[given])
		} else {
			given = 0
		}

		if rain := day.RainInMM; rain > 0 {
			for i, d := range dr {
				if d -= rain; d < 0 {
					dayPercRain -= d
					d = 0
				}
				dr[i] = d
			}
			percRain += dayPercRain
		}

		low := 0.0
		for _, d := range lowest {
			low += d
		}
		low *= perLow
		raw, etc := day.RAWMM, day.ETcMM
		if low > raw {
			stressDays++
			streak++
			longest = max(longest, streak)
		} else {
			streak = 0
		}

		// Strip 0 is watered least, so no strip is drier than it.
		if dr[0] <= raw && etc <= taw-raw {
			for i := range dr {
				dr[i] += etc
			}
			unstressedETa += etc
			dayETa = etc * float64(n)
		} else {
			slope := day.Slope
			for i, d := range dr {
				take, left := etc, taw-d
				if d > raw {
					ks := left * slope
					dayLost += 1 - ks
					take *= ks
				}
				if take > left {
					take = left
				}
				dayETa += take
				dr[i] = d + take
			}
			eta += dayETa
			lostKs += dayLost
		}

		if tr != nil {
			k := at + t
			tr.Dose[k] = given
			tr.PercIrrMM[k], tr.PercRainMM[k] = dayPercIrr*perStrip, dayPercRain*perStrip
			tr.ETaMM[k], tr.Ks[k] = dayETa*perStrip, 1-dayLost*perStrip
			tr.LowQuarterMM[k], tr.DepletionMM[k] = low, b.Mean()
		}
	}
	b.streak = streak
	sums.Days += len(days)
	sums.StressDays += stressDays
	sums.LongestStreak = max(sums.LongestStreak, longest)
	sums.PercIrrMM += percIrr * perStrip
	sums.PercRainMM += percRain * perStrip
	sums.ETaMM += eta*perStrip + unstressedETa
	sums.SeverityDays += lostKs * perStrip
	sums.StorageMM += before - b.Mean()
}

func (s *Sums) addDose(d *Dose) {
	s.WateringDays++
	s.Minutes += d.Minutes
	s.GrossMM += d.GrossMM
	s.SprayLossMM += d.SprayLossMM
	s.IrrRunoffMM += d.RunoffMM
	if d.RunoffMM >= EventRunoffMM {
		s.RunoffEvents++
	}
}

func (g *Gate) permits(dr []float64, day int) bool {
	reading := 0.0
	for i, w := range g.Weights[:len(dr)] {
		reading += w * dr[i]
	}
	if g.ErrorMM != nil {
		reading += g.ErrorMM[day]
	}
	return reading >= g.PermitAtMM
}

// WeatherSums adds to sums what the weather alone decides for zone z on the
// days of span s.
func WeatherSums(sums *Sums, z *Zone, w Weather, days []Day, s Span) {
	for i := s.From; i < s.To; i++ {
		sums.EToMM += w.EToMM[i]
		sums.ETcMM += days[i].ETcMM
		if w.RainMM[i] > 0 {
			_, runoff, evap := z.Rain.Split(w.RainMM[i], w.EToMM[i])
			sums.RainMM += w.RainMM[i]
			sums.RainRunoffMM += runoff
			sums.RainEvapMM += evap
			if runoff >= EventRunoffMM {
				sums.RainRunoffDays++
			}
		}
	}
}
