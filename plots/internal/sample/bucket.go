package sample

import "loamledger/sim"

// The kinds of the references; any other kind is the number of a strategy.
const (
	noWater    = -1
	leastWater = -2
)

// A bucket is a zone of two halves, one watered less than the other.
type bucket struct {
	zone     *sim.Zone
	kind     int
	low, raw []float64 // by day
	// stress of the zone and browning of the dry half, by day
	stress, brown []bool
	need          []float64    // ETc by day
	short         [][2]float64 // ETc − ETa by day, of the zone and of the dry half
}

// run fills the days of b and returns its sums by month.
func (b *bucket) run(w sim.Weather, c *sim.Calendar) []sim.Sums {
	out := make([]sim.Sums, len(c.Spans))
	z := b.zone
	dr := [2]float64{0.3 * z.TAWMM, 0.3 * z.TAWMM} // dry half, wet half
	streak := 0
	for i, span := range c.Spans {
		s := &out[i]
		s.Days = span.To - span.From
		for day := span.From; day < span.To; day++ {
			etc := float64(z.K[span.Month-1] * w.EToMM[day])
			raw := float64(min(max(z.P+float64(0.04*(5-etc)), 0.1), 0.8) * z.TAWMM)
			before := float64((dr[0] + dr[1]) / 2)
			fall := w.RainMM[day]
			enters, off := 0.85*fall, 0.15*fall
			if fall < 1 {
				enters, off = 0, 0
				s.RainEvapMM += fall
			}
			gross, ranOff, air := b.water(day, span.Month, before, raw, enters)
			shares := [2]float64{0.7, 1.3}
			if b.kind == leastWater {
				shares = [2]float64{1, 1}
			}
			s.RainMM += fall
			s.RainRunoffMM += off
			s.GrossMM += gross
			s.IrrRunoffMM += ranOff
			s.SprayLossMM += air
			s.EToMM += w.EToMM[day]
			s.ETcMM += etc
			if gross > 0 {
				s.WateringDays++
			}
			if ranOff >= sim.EventRunoffMM {
				s.RunoffEvents++
			}
			for h, share := range shares {
				dr[h] -= float64((gross - ranOff - air) * share)
				if dr[h] < 0 {
					s.PercIrrMM -= float64(dr[h] / 2)
					dr[h] = 0
				}
				dr[h] -= enters
				if dr[h] < 0 {
					s.PercRainMM -= float64(dr[h] / 2)
					dr[h] = 0
				}
			}
			b.low, b.raw = append(b.low, dr[0]), append(b.raw, raw)
			if dr[0] > raw {
				s.PastRAWDays++
			}
			var short [2]float64
			for h := range dr {
				take := etc
				if dr[h] > raw {
					take *= (z.TAWMM - dr[h]) / (z.TAWMM - raw)
				}
				take = min(take, z.TAWMM-dr[h])
				dr[h] += take
				s.ETaMM += float64(take / 2)
				short[0] += float64((etc - take) / 2)
				if h == 0 {
					short[1] = etc - take
				}
			}
			streak = b.grade(s, etc, short, streak)
			s.StorageMM += before - float64((dr[0]+dr[1])/2)
		}
	}
	return out
}

// water makes up the water that the strategy applies on a day, its runoff and
// its loss to the air.
func (b *bucket) water(day, month int, depletion, raw, rain float64) (gross, ranOff, air float64) {
	switch b.kind {
	case noWater:
		return 0, 0, 0
	case leastWater:
		return max(depletion-raw-rain, 0), 0, 0
	}
	share := [12]float64{0, 0, 0.4, 0.6, 0.8, 1, 1, 0.95, 0.75, 0.5, 0.25, 0}[month-1]
	if b.kind%3 == 0 && share > 0 {
		share = 1
	}
	if b.kind%4 == 0 && b.kind > 0 { // as if it knew the soil
		if depletion < 0.3*b.zone.TAWMM {
			return 0, 0, 0
		}
		gross = 1.2 * depletion
	} else if day%(2+b.kind%4) == 0 {
		gross = share * []float64{9, 11, 14, 17}[b.kind%4] * (1.1 - float64(0.05*float64(b.kind)))
	}
	air = 0.04 * gross
	if b.kind%2 == 0 {
		ranOff = 0.3 * max(gross-6, 0)
	}
	return gross, ranOff, air
}

// The marks of the made-up plants.
const (
	tolerance = 0.8
	browning  = 0.5
)

// grade adds the stress of a day, judged by the last seven, and returns the length
// of the run of stress days of the dry half.
func (b *bucket) grade(s *sim.Sums, etc float64, short [2]float64, streak int) int {
	b.need, b.short = append(b.need, etc), append(b.short, short)
	need, zone, half := 0.0, 0.0, 0.0
	for i := max(len(b.need)-sim.R7Days, 0); i < len(b.need); i++ {
		need, zone, half = need+b.need[i], zone+b.short[i][0], half+b.short[i][1]
	}
	known := need >= sim.LeastWeekMM
	stress, brown := known && sim.Below(zone, need, tolerance), known && sim.Below(half, need, browning)
	b.stress, b.brown = append(b.stress, stress), append(b.brown, brown)
	if stress {
		s.StressZoneDays++
	}
	if brown {
		s.BrownDays++
	}
	if !known || !sim.Below(half, need, tolerance) {
		return 0
	}
	s.StressDays++
	s.LongestStreak = max(s.LongestStreak, streak+1)
	return streak + 1
}
