package replay_test

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// bits turns sums into numbers that are equal only bit for bit.
func bits(s sim.Sums) []uint64 {
	v := reflect.ValueOf(s)
	out := make([]uint64, v.NumField())
	for i := range out {
		if f := v.Field(i); f.CanFloat() {
			out[i] = math.Float64bits(f.Float())
		} else {
			out[i] = uint64(f.Int())
		}
	}
	return out
}

func sameBits(a, b []sim.Sums) bool {
	return slices.EqualFunc(a, b, func(x, y sim.Sums) bool { return slices.Equal(bits(x), bits(y)) })
}

// identical fails unless both tables are the same to the last bit; order maps
// zones of a to zones of b.
func identical(t failer, why string, a, b *tally.Table, order func(z int) int) {
	t.Helper()
	for s := range a.Outcomes {
		for z := range a.Outcomes[s] {
			if !sameBits(a.Outcomes[s][z].Months, b.Outcomes[s][order(z)].Months) {
				t.Fatalf("%s: strategy %q on zone %q differs", why, a.Strategies[s], a.Zones[z].Name)
			}
		}
	}
}

func same(z int) int { return z }

// TestRepeatsToTheBit holds that the same job twice, on any number of
// goroutines, with or without a ledger, gives the same digits, and that the
// same strategy under two names has no difference.
func TestRepeatsToTheBit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 3, 420)
		drawMore(t, s)
		twin := s.job.Strategies[0]
		twin.Name = "twin"
		s.job.Strategies = append(s.job.Strategies, twin)
		first := tableOf(t, &s.job)
		for z := range s.job.Zones {
			last := len(s.job.Strategies) - 1
			if !sameBits(first.Outcomes[0][z].Months, first.Outcomes[last][z].Months) {
				t.Fatalf("strategy %q and its twin differ on zone %q", s.job.Strategies[0].Name, s.job.Zones[z].Name)
			}
		}
		identical(t, "again", first, tableOf(t, &s.job), same)
		for _, workers := range []int{2, 5} {
			job := s.job
			job.Workers = workers
			identical(t, "on other goroutines", first, tableOf(t, &job), same)
		}
		withLedger, rows := rowsOf(t, &s.job)
		identical(t, "with a ledger", first, withLedger, same)
		for _, workers := range []int{2, 5} {
			job := s.job
			job.Workers = workers
			table, others := rowsOf(t, &job)
			identical(t, "with a ledger on other goroutines", first, table, same)
			if !reflect.DeepEqual(rows, others) {
				t.Fatalf("on %d goroutines the ledger has other rows or another order", workers)
			}
		}
	})
}

// reversed returns the job with its zones, and all that goes by zone, the
// other way round.
func reversed(s *site) replay.Job {
	job := s.job
	job.Zones = slices.Clone(job.Zones)
	slices.Reverse(job.Zones)
	job.Strategies = nil
	flip := func(b []bool) []bool {
		b = slices.Clone(b)
		slices.Reverse(b)
		return b
	}
	for _, set := range s.settings {
		c := *set
		c.programs = slices.Clone(set.programs)
		for i := range c.programs {
			c.programs[i].Minutes = slices.Clone(c.programs[i].Minutes)
			slices.Reverse(c.programs[i].Minutes)
		}
		if c.refill != nil {
			r := *c.refill
			r.Zones = flip(r.Zones)
			c.refill = &r
		}
		if c.sensor != nil {
			r := *c.sensor
			r.Zones = flip(r.Zones)
			c.sensor = &r
		}
		job.Strategies = append(job.Strategies, c.strategy())
	}
	return job
}

// TestOrderOfZonesChangesNothing includes sensors with a reading error, whose
// noise must belong to the zone and not to its place in the list.
func TestOrderOfZonesChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 4, 2, 420)
		for i, set := range s.settings {
			if set.sensor != nil {
				set.sensor.Error, set.sensor.Seed = 0.08, 9
				s.job.Strategies[i] = set.strategy()
			}
		}
		job := reversed(s)
		identical(t, "zones the other way round", tableOf(t, &s.job), tableOf(t, &job), func(z int) int { return len(job.Zones) - 1 - z })
	})
}

// TestEvenCoverageEqualsOneStrip: with DU 1 every strip is the zone.
func TestEvenCoverageEqualsOneStrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 2, 2, 300)
		one := s.job
		one.Zones = slices.Clone(s.job.Zones)
		for z := range s.job.Zones {
			s.job.Zones[z].DULQ, one.Zones[z].DULQ, one.Zones[z].Strips = 1, 1, 1
			if s.job.Zones[z].Strips == 1 {
				s.job.Zones[z].Strips = 8
			}
		}
		_, many := rowsOf(t, &s.job)
		_, single := rowsOf(t, &one)
		for k := range many {
			for z := range many[k] {
				for i := range many[k][z] {
					a, b := &many[k][z][i], &single[k][z][i]
					if !near(a.DepletionMM, b.DepletionMM) || !near(a.ETaMM, b.ETaMM) || !near(a.PercIrrMM, b.PercIrrMM) ||
						!near(a.PercRainMM, b.PercRainMM) || !near(a.IrrRunoffMM, b.IrrRunoffMM) || !near(a.Ks, b.Ks) ||
						!near(a.LowQuarterMM, b.LowQuarterMM) {
						t.Fatalf("%v, zone %q, strategy %q: %+v with strips, %+v with one", a.Date, a.Zone, a.Strategy, *a, *b)
					}
				}
			}
		}
	})
}

// TestStripsAreZones: strip i of a zone is a zone of its own that is watered at
// the rate PR·w_i. That gives each strip of the engine a ledger, which must
// close every day, ascend in water, and average to the zone's.
func TestStripsAreZones(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zone := drawZone(t, "zone")
		job := replay.Job{Weather: drawWeather(t, rapid.IntRange(5, 200).Draw(t, "days")), NoSpinUp: true,
			StartShare: rapid.Float64Range(0, 1).Draw(t, "start")}
		job.Zones = []sim.Zone{zone}
		for _, w := range sim.Shares(zone.Strips, zone.DULQ) {
			strip := zone
			strip.Strips, strip.DULQ, strip.PRMMH = 1, 1, max(zone.PRMMH*w, 1e-300)
			strip.FillDrainMM *= w // the pipes' share of this strip
			job.Zones = append(job.Zones, strip)
		}
		set := drawSetting(t, "set", len(job.Zones), job.Weather.Start)
		set.refill, set.sensor = nil, nil // these look at the zone, not at the strip
		for i := range set.programs {
			for z := range job.Zones {
				set.programs[i].Minutes[z] = set.programs[i].Minutes[0]
			}
		}
		job.Strategies = []strategy.Strategy{set.strategy()}
		_, rows := rowsOf(t, &job)
		n, quarter := float64(zone.Strips), max(zone.Strips/4, 1)
		for i := range job.Weather.Days() {
			var eta, percIrr, percRain, runoff, depletion, low, ks float64
			for k := range zone.Strips {
				r := &rows[0][1+k][i]
				before := job.StartShare * zone.TAWMM
				if i > 0 {
					before = rows[0][1+k][i-1].DepletionMM
				}
				if off := residual(r, before); !sim.Closed(off) {
					t.Fatalf("%v: strip %d is off balance by %g mm", r.Date, k, off)
				}
				if k > 0 && (r.DepletionMM > rows[0][k][i].DepletionMM+1e-9 || r.LowQuarterMM > rows[0][k][i].LowQuarterMM+1e-9) {
					t.Fatalf("%v: strip %d is drier than strip %d, which gets less water", r.Date, k, k-1)
				}
				eta, percIrr, percRain, runoff = eta+r.ETaMM/n, percIrr+r.PercIrrMM/n, percRain+r.PercRainMM/n, runoff+r.IrrRunoffMM/n
				depletion, ks = depletion+r.DepletionMM/n, ks+r.Ks/n
				if k < quarter {
					low += r.LowQuarterMM / float64(quarter)
				}
			}
			z := &rows[0][0][i]
			if !near(z.ETaMM, eta) || !near(z.PercIrrMM, percIrr) || !near(z.PercRainMM, percRain) || !near(z.IrrRunoffMM, runoff) ||
				!near(z.DepletionMM, depletion) || !near(z.LowQuarterMM, low) || !near(z.Ks, ks) {
				t.Fatalf("%v: the zone is not the mean of its strips: %+v", z.Date, *z)
			}
		}
	})
}

// TestNothingInNothingOut: without demand, rain or water nothing moves.
func TestNothingInNothingOut(t *testing.T) {
	job := replay.Job{Weather: still(invented(1).Start, 800, 0), Zones: []sim.Zone{plainZone("a")},
		Strategies: []strategy.Strategy{{Name: "empty"}}}
	uneven := plainZone("b")
	uneven.Strips, uneven.DULQ, uneven.PConstant = 8, 0.5, false
	job.Zones = append(job.Zones, uneven)
	table, rows := rowsOf(t, &job)
	for s := range rows {
		for z := range rows[s] {
			for _, r := range rows[s][z] {
				if r.GrossMM != 0 || r.ETaMM != 0 || r.DepletionMM != 0 || r.PercIrrMM != 0 || r.PercRainMM != 0 || r.LowQuarterMM != 0 ||
					r.Ks != 1 || r.PastRAW || r.HasR7 {
					t.Fatalf("something moved: %+v", r)
				}
			}
			sum := table.Total(s, z)
			if sum.NeedMet() != 1 || sum.ShareLost() != 0 || sum.PastRAWDays+sum.StressDays != 0 || sum.Residual() != 0 || sum.Days != 800 {
				t.Errorf("need met %g, share lost %g, %+v", sum.NeedMet(), sum.ShareLost(), sum)
			}
		}
	}
}

// TestMoreCapacityNeverLowersUptake: on rain alone, from a full root zone, a
// larger TAW has drawn at least as much by every date. (At equal depletion Ks
// grows with TAW, and a larger store spills less.)
func TestMoreCapacityNeverLowersUptake(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := drawZone(t, "small")
		large := small
		large.TAWMM *= rapid.Float64Range(1, 5).Draw(t, "times")
		job := replay.Job{Weather: drawWeather(t, rapid.IntRange(1, 400).Draw(t, "days")), Zones: []sim.Zone{small, large},
			NoSpinUp: rapid.Bool().Draw(t, "no spin-up")}
		_, rows := rowsOf(t, &job)
		a, b := 0.0, 0.0
		for i := range rows[0][0] {
			a, b = a+rows[0][0][i].ETaMM, b+rows[0][1][i].ETaMM
			if job.NoSpinUp && b < a-1e-9 {
				t.Fatalf("%v: TAW %g has drawn %g mm, TAW %g only %g mm", rows[0][0][i].Date, small.TAWMM, a, large.TAWMM, b)
			}
			if rows[0][1][i].DepletionMM < rows[0][0][i].DepletionMM-1e-9 {
				t.Fatalf("%v: the larger store is the fuller one", rows[0][0][i].Date)
			}
		}
	})
}

// TestStressFractionLimits holds the p of each day to 0.1..0.8 where it is
// adjusted, and to the tabled value where it is not.
func TestStressFractionLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := drawZone(t, "zone")
		z.Overseed = nil
		job := replay.Job{Weather: drawWeather(t, 60), Zones: []sim.Zone{z}, NoSpinUp: true}
		_, rows := rowsOf(t, &job)
		for _, r := range rows[0][0] {
			p := r.RAWMM / r.TAWMM
			switch want := z.P + 0.04*(5-r.ETcMM); {
			case z.PConstant && math.Abs(p-z.P) > 1e-12:
				t.Fatalf("p %g, tabled %g and constant", p, z.P)
			case !z.PConstant && (p < 0.1-1e-12 || p > 0.8+1e-12):
				t.Fatalf("p %g is outside 0.1 to 0.8", p)
			case !z.PConstant && want > 0.1 && want < 0.8 && math.Abs(p-want) > 1e-12:
				t.Fatalf("p %g, FAO-56 gives %g for ETc %g", p, want, r.ETcMM)
			}
		}
	})
}
