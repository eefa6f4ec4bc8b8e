package sim

import "math"

// A Trace receives the daily results of a replay, one value per day of the
// record. All fields except Ks and Dose are means over the zone [mm].
type Trace struct {
	Dose         []int32 // the dose given: the plan's, or 0 if the gate blocked it
	PercIrrMM    []float64
	PercRainMM   []float64
	ETaMM        []float64
	DepletionMM  []float64 // at the end of the day
	LowQuarterMM []float64 // after watering and rain
	Ks           []float64 // mean over strips
	ShortMM      []float64 // ETc − ETa; exactly 0 on a day without stress
	LowShortMM   []float64 // the same, mean of the driest quarter
	// Steps are the days on which a change of the root zone changes depletion.
	Steps []SoilStep
}

// Grow makes every column n days long. It reuses memory if possible.
func (t *Trace) Grow(n int) {
	if cap(t.Ks) < n {
		t.Dose = make([]int32, n)
		for _, c := range t.columns() {
			*c = make([]float64, n)
		}
	}
	t.Dose, t.Steps = t.Dose[:n], t.Steps[:0]
	for _, c := range t.columns() {
		*c = (*c)[:n]
	}
}

func (t *Trace) columns() [8]*[]float64 {
	return [8]*[]float64{&t.PercIrrMM, &t.PercRainMM, &t.ETaMM, &t.DepletionMM, &t.LowQuarterMM, &t.Ks, &t.ShortMM, &t.LowShortMM}
}

// A Balance is the state of one zone's soil during a replay. Call [Balance.Reset]
// before use. A Balance is not safe for concurrent use.
type Balance struct {
	DepletionMM []float64 // of each strip, strip 0 watered least
	tawMM       float64
	quarter     int // number of strips in the low quarter
	streak      int // consecutive stress days up to yesterday
	moved       []movedStress
	// short is by how much the draw of each day fell short: six days of the record
	// before those under way, and then those, all 0 until a day falls short.
	short   []short
	carried bool // one of the six is not 0
	// first and final are the first and the last of the days under way that fall
	// short; final is below 0 if none does.
	first, final int
	phases       []Phase // of the days under way
	rests        bool    // plants are dormant on some days of the record
	working      bool
	level        int // of a watcher
	seen, calm   int // consecutive days with and without stress visible to a watcher
}

// Reset sets every strip of zone z to the given depletion. It reuses memory.
func (b *Balance) Reset(z *Zone, depletionMM float64) {
	if cap(b.DepletionMM) < z.Strips {
		b.DepletionMM = make([]float64, z.Strips)
	}
	b.DepletionMM = b.DepletionMM[:z.Strips]
	for i := range b.DepletionMM {
		b.DepletionMM[i] = depletionMM
	}
	b.tawMM, b.quarter, b.working = z.TAWMM, max(z.Strips/4, 1), z.WorkingStorage
	b.level, b.seen, b.calm = 0, 0, 0
	b.moved = b.moved[:0]
	b.forget()
}

// Level returns the number of levels by which a watcher has raised run times.
func (b *Balance) Level() int { return b.level }

// within removes rounding, from sums and the shift, that would carry a depletion
// past the empty or the full root zone.
func (b *Balance) within(depletionMM float64) float64 { return min(max(depletionMM, 0), b.tawMM) }

// positive returns max(d, 0) without a branch, which a processor would often
// mispredict: the sign bit, spread over all bits, masks the number. d must not be
// NaN.
func positive(d float64) float64 {
	b := int64(math.Float64bits(d))
	return math.Float64frombits(uint64(b &^ (b >> 63)))
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// Replay steps the balance through days, which are days from..from+len(days) of
// plan p, counted from the first day of its spin-up. It adds the results for soil
// and strategy to sums, but not what depends on weather alone ([WeatherSums]). The
// days are those from index at of the record on, which g and tr are indexed by; tr
// may be nil. g is nil for days that do not count, such as the spin-up pass: they
// add nothing to stress.
//
// Three facts keep the loop short. Strips are in ascending order of their share of
// the water, so strip 0 is never wetter and the last strip never drier than any
// other: one comparison shows that no strip is short, or that none overflows. On
// such a day all strips move by the same depth, which is kept in one number, the
// shift, and added to the strips only when they next differ. And the strips short
// of water are the first few, so their draw needs no test per strip.
func (b *Balance) Replay(days []Day, g *Growth, p *Plan, from int, sums *Sums, tr *Trace, at int) {
	if b.working {
		b.replayStore(days, g, p, from, sums, tr, at)
		return
	}
	b.begin(g, at, len(days)) // what few days need is kept out of the way of the loop's registers
	strip := b.DepletionMM
	n := len(strip)
	last := &strip[n-1]
	lowest := strip[:b.quarter]
	perStrip := 1 / float64(n)
	taw, watcher := b.tawMM, p.Watcher
	before := mean(strip)
	shift, low := 0.0, mean(lowest)
	var percIrr, percRain, eta float64 // sums over days and strips; eta: over days, mean of strips
	dose := p.Dose[from : from+len(days)]
	for t := range days {
		day := &days[t]
		dayPercIrr, dayPercRain, dayLost := 0.0, 0.0, 0.0

		given := dose[t]
		if watcher != nil && b.level > 0 {
			given = watcher.Levels[b.level-1][from+t]
		}
		if given != 0 && p.Gate != nil && !p.Gate.permits(strip, shift, from+t) {
			given = 0
		}
		if given != 0 {
			in := p.In[int(given)*n:][:len(strip)]
			for i, d := range strip {
				d -= in[i] - shift
				held := positive(d)
				dayPercIrr += held - d
				strip[i] = held
			}
			shift = 0
			percIrr += dayPercIrr
			sums.addDose(&p.Doses[given])
			low = mean(lowest)
		}

		if rain := day.RainInMM; *last+shift >= rain {
			shift -= rain
		} else {
			drop := rain - shift
			for i, d := range strip {
				d -= drop
				held := positive(d)
				dayPercRain += held - d
				strip[i] = held
			}
			shift = 0
			percRain += dayPercRain
			low = mean(lowest)
		}

		raw, etc, slope := day.RAWMM, day.ETcMM, day.Slope
		lowQuarter := low + shift
		if Stressed(lowQuarter, raw) {
			sums.PastRAWDays++
			if b.rests && b.phases[t]&WinterOpen != 0 && lowQuarter > dryWinterShare*taw { // past RAW, since p is at most 0.8
				sums.DryWinterDays++
			}
		}

		dayETa := etc
		driest := strip[0] + shift
		switch even := strip[0] == *last; {
		case driest <= raw && etc*slope <= 1:
			shift += etc
		case even:
			left := taw - driest
			if left < 0 { // by a rounding
				left = 0
			}
			if ks := float64(left * slope); driest > raw && ks < 1 {
				dayLost = 1 - ks
				dayETa = etc * ks
			}
			if dayETa > left {
				dayETa = left
			}
			shift += dayETa
			b.missed(t, etc-dayETa, etc-dayETa, dayLost)
		case etc*slope <= 1:
			k, dry, pull := 0, 0.0, etc*slope
			for ; k < n; k++ {
				d := strip[k] + shift
				if d <= raw {
					break
				}
				left := taw - d
				dry += left
				strip[k] = d + float64(pull*left)
			}
			// The rest draw etc in full.
			draw, rest := shift+etc, strip[k:]
			for i := range rest {
				rest[i] += draw
			}
			shift = 0
			// The k short strips have the sum of Ks slope·dry between them.
			if dry < 0 { // by a rounding
				dry = 0
			}
			if ks := float64(slope * dry); ks < float64(k) {
				dayLost = float64((float64(k) - ks) * perStrip)
				dayETa = etc * (1 - dayLost)
			}
			low = mean(lowest)
			b.missed(t, etc-dayETa, etc-(low-lowQuarter), dayLost)
		default: // so shallow that one day's draw can empty the root zone
			dayETa = 0
			for i, d := range strip {
				d += shift
				take, left := etc, positive(taw-d)
				if d > raw {
					lost := positive(1 - float64(left*slope))
					dayLost += lost
					take *= 1 - lost
				}
				take = min(take, left)
				dayETa += take
				strip[i] = d + take
			}
			shift = 0
			dayLost *= perStrip
			dayETa = min(dayETa*perStrip, etc)
			low = mean(lowest)
			b.missed(t, etc-dayETa, etc-(low-lowQuarter), dayLost)
		}
		eta += dayETa
		if watcher != nil {
			b.watch(watcher, 1-dayLost)
		}

		if tr != nil {
			k := at + t
			tr.Dose[k] = given
			tr.PercIrrMM[k], tr.PercRainMM[k] = dayPercIrr*perStrip, dayPercRain*perStrip
			tr.ETaMM[k], tr.Ks[k] = dayETa, 1-dayLost
			tr.LowQuarterMM[k], tr.DepletionMM[k] = b.within(lowQuarter), b.within(mean(strip)+shift)
			tr.ShortMM[k], tr.LowShortMM[k] = b.short[earlier+t].zone, b.short[earlier+t].quarter
		}
	}
	for i := range strip {
		strip[i] += shift
	}
	b.grade(g, at, len(days), sums)
	sums.Days += len(days)
	sums.PercIrrMM += float64(percIrr * perStrip)
	sums.PercRainMM += float64(percRain * perStrip)
	sums.ETaMM += eta
	sums.StorageMM += before - mean(strip)
}

func (s *Sums) addDose(d *Dose) {
	s.WateringDays++
	s.Minutes += d.Minutes
	s.GrossMM += d.GrossMM
	s.SprayLossMM += d.SprayLossMM
	if d.OversprayMM+d.BrokenMM+d.FillDrainMM > 0 { // rare
		s.OversprayMM += d.OversprayMM
		s.BrokenMM += d.BrokenMM
		s.FillDrainMM += d.FillDrainMM
	}
	s.IrrRunoffMM += d.RunoffMM
	if d.RunoffMM >= EventRunoffMM {
		s.RunoffEvents++
	}
}

// permits reads the depletion of the strips, each changed by shift.
func (g *Gate) permits(dr []float64, shift float64, day int) bool {
	return g.reading(dr, shift, day) >= g.PermitAtMM
}

// Reading returns the sensor's reading on a day of the plan [mm], given the
// depletion of the strips in the morning [mm].
func (g *Gate) Reading(depletionMM []float64, day int) float64 { return g.reading(depletionMM, 0, day) }

func (g *Gate) reading(dr []float64, shift float64, day int) float64 {
	reading := 0.0
	for i, w := range g.Weights[:len(dr)] {
		reading += float64(w * (dr[i] + shift))
	}
	if len(g.ErrorMM) > 0 {
		reading += g.ErrorMM[day]
	}
	return reading
}

// watch shows the watcher a day with mean stress coefficient ks.
func (b *Balance) watch(w *Watcher, ks float64) {
	if ks < w.SeenKs {
		b.seen, b.calm = b.seen+1, 0
	} else {
		b.seen, b.calm = 0, b.calm+1
	}
	switch {
	case b.seen >= w.AfterDays && b.level < len(w.Levels):
		b.level, b.seen = b.level+1, 0
	case b.calm >= w.CalmDays && b.level > 0:
		b.level, b.calm = b.level-1, 0
	}
}

// WeatherSums returns the sums that depend on weather alone, for zone z on the
// days of span s.
func WeatherSums(z *Zone, w Weather, days []Day, s Span) Sums {
	var sums Sums
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
	return sums
}
