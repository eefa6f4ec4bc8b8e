package sim

// A Day is one zone's day before any decision, computed once per zone and shared
// by all strategies. Slope contains the only division of the stress coefficient,
// so Ks = (TAW − Dr)·Slope.
type Day struct {
	ETcMM    float64 // unstressed plant water use, K·ETo
	RAWMM    float64 // depletion at which stress begins, eq. 83
	Slope    float64 // 1/((1 − p)·TAW) [1/mm]
	RainInMM float64 // rain that enters the soil
}

// Forcing fills dst with the day records of zone z under weather w and returns
// it. It reuses dst if that is long enough. The coefficient is the one that the
// calendar gives, as a controller knows it; [Growth.Forcing] is the truth.
func Forcing(dst []Day, z *Zone, w Weather, c *Calendar) []Day {
	dst = resized(dst, w.Days())
	for i := range dst {
		dst[i].ETcMM = z.kOf(c.Month[i], c.Dom[i])
	}
	z.days(dst, w, c)
	return dst
}

// Forcing fills dst with the day records of zone z, whose coefficient follows the
// warmth of the station, and g with what the plants do. The first spin days are
// the spin-up pass.
func (g *Growth) Forcing(dst []Day, z *Zone, w Weather, c *Calendar, warmth *Warmth, spin int) []Day {
	dst = resized(dst, w.Days())
	g.fill(z, c, warmth, spin)
	for i, k := range g.K[:len(dst)] {
		dst[i].ETcMM = k
	}
	z.days(dst, w, c)
	g.week(dst)
	g.Head = g.Head[:0]
	if z.Seasonal() && warmth.Known() {
		g.Head = resized(g.Head, spin)
		copy(g.Head, dst)
		for i := range warmth.headC {
			s := z.Season
			if z.Overseed != nil && z.Overseed.In(c.Month[i], c.Dom[i]) {
				s = z.Overseed.Season
			}
			if ramps(s) {
				g.Head[i].ETcMM = s.K(s.Activity(warmth.headC[i]))
			} else {
				g.Head[i].ETcMM = z.kOf(c.Month[i], c.Dom[i])
			}
		}
		z.days(g.Head[:len(warmth.headC)], w, c)
	}
	return dst
}

// days fills the first day records of zone z, whose ETc holds the coefficient of
// the day so far.
func (z *Zone) days(dst []Day, w Weather, c *Calendar) {
	n := len(dst)
	rain, eto := w.RainMM[:n], w.EToMM[:n]
	constant, raw, slope := z.PConstant, z.P*z.TAWMM, 1/((1-z.P)*z.TAWMM)
	over := z.Overseed
	if z.WorkingStorage {
		constant, raw, slope, over = true, z.TAWMM, 0, nil
	}
	for i := range dst {
		d := &dst[i]
		d.ETcMM = float64(d.ETcMM * eto[i])
		pTable := z.P
		if over != nil && over.In(c.Month[i], c.Dom[i]) {
			pTable = over.P
		}
		switch {
		case !constant:
			p := StressFraction(pTable, d.ETcMM)
			d.RAWMM, d.Slope = p*z.TAWMM, 1/((1-p)*z.TAWMM)
		case over != nil:
			d.RAWMM, d.Slope = pTable*z.TAWMM, 1/((1-pTable)*z.TAWMM)
		default:
			d.RAWMM, d.Slope = raw, slope
		}
		d.RainInMM = 0
		if rain[i] > 0 {
			d.RainInMM, _, _ = z.Rain.Split(rain[i], eto[i])
		}
	}
}

// ShallowDays returns the number of days on which plants need more water than the
// soil of z holds beyond RAW. Such a day begins at RAW, unstressed by definition,
// and ends with the root zone empty. The least-water reference keeps depletion at
// or below RAW, yet on such days ETa is still below ETc.
func ShallowDays(z *Zone, days []Day) int {
	n := 0
	for i := range days {
		if days[i].ETcMM > z.TAWMM-days[i].RAWMM && !z.WorkingStorage {
			n++
		}
	}
	return n
}
