package meter

import "math"

// A Score says how well simulated use follows metered use. Use is that of periods.
type Score struct {
	N      int     // periods
	P      int     // numbers that were fitted to these periods
	MeanM3 float64 // mean metered use of a period [m³]
	// NMBE is the normalized mean bias error [%]: above 0, the replay is too low.
	NMBE float64
	// CV is CV(RMSE), the typical size of an error as a share of the mean [%].
	CV float64
}

// ScoreOf scores simulated use s against metered use m [m³], p of whose numbers
// were fitted:
//
//	NMBE = 100 Σ(m − s) / ((n − p) mean m)
//	CV(RMSE) = 100 sqrt(Σ(m − s)² / (n − p)) / mean m
//
// Source: ASHRAE Guideline 14, as restated by building modelers; see [Labels].
// ok is false unless n > p and the mean is above 0.
func ScoreOf(m, s []float64, p int) (sc Score, ok bool) {
	sc = Score{N: len(m), P: p}
	var sum, d, d2 float64
	for i := range m {
		e := m[i] - s[i]
		sum, d, d2 = sum+m[i], d+e, d2+float64(e*e)
	}
	free := float64(sc.N - p)
	if free <= 0 || !(sum > 0) {
		return sc, false
	}
	sc.MeanM3 = sum / float64(sc.N)
	sc.NMBE = 100 * d / (free * sc.MeanM3)
	sc.CV = 100 * math.Sqrt(d2/free) / sc.MeanM3
	return sc, true
}

// Few reports whether there are too few periods to say much: fewer than 12.
func (s *Score) Few() bool { return s.N < LeastPeriods }

// LeastPeriods is the number of periods below which statistics say little.
const LeastPeriods = 12

// RoundingCV returns the CV(RMSE) [%] that rounding causes by itself, of periods with a
// mean use, if a register is read in whole units, the rest carried on: the error of a
// period is the difference of two that are even over a unit, whose variance is a
// sixth of its square.
func RoundingCV(unitM3, meanM3 float64) float64 { return 100 * unitM3 * math.Sqrt(1.0/6) / meanM3 }
