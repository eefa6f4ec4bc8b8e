package meter

import "math"

// Outdoor returns the metered use less base use of each day of the weather [m³/d], with
// the use of a period spread evenly over its days: of the periods before the change that
// count. It is NaN on other days, and below 0 where a period has less than base use. It
// is nil if no method gives base use.
func (s *Site) Outdoor(c *Comparison) []float64 {
	if c.Base < 0 {
		return nil
	}
	out := make([]float64, len(s.Days.SimM3))
	for i := range out {
		out[i] = math.NaN()
	}
	for _, i := range c.Before {
		p := &s.Periods[i]
		perDay := p.PerDay() - c.Bases[c.Base].M3Day
		for d := max(p.From, s.Days.Start); d < min(p.To, s.Days.End()); d++ {
			out[d-s.Days.Start] = perDay
		}
	}
	return out
}
