package meter

import (
	"math"

	"loamledger/weather/portable"
)

// Uncertainty returns the half-width of the interval of a saving, as a share of
// what the baseline predicts:
//
//	t (a M² + b M + d) CV sqrt((P/P')(1 + 2/P')/Q)
//
// m and s are metered and predicted use of the P periods before the change, of
// which c numbers were fitted; Q is the number of periods after it, which take
// M months; CV is CV(RMSE) with P − c, and t is Student's for P − c and the
// two-sided confidence. P' = P (1 − ρ)/(1 + ρ) allows for errors that follow each
// other, ρ being their correlation at lag 1; it is at most P, so that errors that
// alternate narrow nothing. ok is false if P does not exceed c, or P < 4.
//
// Source: CalTRACK 2.0, 4.3.2.4, for bills, after Sun and Baltazar (2013). The
// limit of P' is ours. For bills every other month the polynomial extrapolates.
func Uncertainty(m, s []float64, c, q int, months, confidence float64) (share float64, ok bool) {
	const a, b, d = -0.00022, 0.03306, 0.94054
	sc, ok := ScoreOf(m, s, c)
	if !ok || len(m) < 4 || q < 1 {
		return 0, false
	}
	p := float64(len(m))
	t := portable.StudentQuantile(p-float64(c), 0.5+float64(confidence/2))
	eff := p
	if rho := lagOne(m, s); rho > 0 {
		eff = p * (1 - rho) / (1 + rho)
	}
	if eff <= 0 {
		return 0, false
	}
	return t * (float64(a*months*months) + float64(b*months) + d) * sc.CV / 100 * math.Sqrt(p/eff*(1+2/eff)/float64(q)), true
}

// lagOne returns the correlation of the errors with those of the period before; 0
// if it is not defined.
func lagOne(m, s []float64) float64 {
	n := len(m) - 1
	var mx, my float64
	for i := range n {
		mx, my = mx+(m[i]-s[i])/float64(n), my+(m[i+1]-s[i+1])/float64(n)
	}
	var xx, yy, xy float64
	for i := range n {
		x, y := m[i]-s[i]-mx, m[i+1]-s[i+1]-my
		xx, yy, xy = xx+float64(x*x), yy+float64(y*y), xy+float64(x*y)
	}
	if xx == 0 || yy == 0 {
		return 0
	}
	return xy / math.Sqrt(xx*yy)
}
