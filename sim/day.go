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
// it. It reuses dst if that is long enough.
func Forcing(dst []Day, z *Zone, w Weather, c *Calendar) []Day {
	n := w.Days()
	if cap(dst) < n {
		dst = make([]Day, n)
	}
	dst = dst[:n]
	rain, eto, month := w.RainMM[:n], w.EToMM[:n], c.Month[:n]
	constant, raw, slope := z.PConstant, z.P*z.TAWMM, 1/((1-z.P)*z.TAWMM)
	if z.WorkingStorage {
		constant, raw, slope = true, z.TAWMM, 0
	}
	for i := range dst {
		d := &dst[i]
		d.ETcMM = z.K[month[i]-1] * eto[i]
		if constant {
			d.RAWMM, d.Slope = raw, slope
		} else {
			p := StressFraction(z.P, d.ETcMM)
			d.RAWMM, d.Slope = p*z.TAWMM, 1/((1-p)*z.TAWMM)
		}
		d.RainInMM = 0
		if rain[i] > 0 {
			d.RainInMM, _, _ = z.Rain.Split(rain[i], eto[i])
		}
	}
	return dst
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
