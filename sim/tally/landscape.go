package tally

// Thresholds of the public test landscape of six zones for weather-based
// controllers: minimum adequacy and maximum excess in each zone, and maximum mean
// excess over the zones. From memory, and the denominator of the excess is
// uncertain: no conformance is claimed for figures compared with them.
const (
	LeastAdequacy   = 0.80
	MostExcess      = 0.10
	MostMeanExcess  = 0.05
	ThresholdSource = "adequacy at least 80%, excess at most 10% in a zone and 5% on average: " +
		"thresholds of a public test landscape, from memory; no conformance is claimed"
)

// A Score compares one strategy with the thresholds of the test landscape.
type Score struct {
	Adequacy   []float64 // by zone: (ΣETc − Σdeficit)/ΣETc
	Excess     []float64 // by zone: surplus over ΣETc
	MeanExcess float64   // over the zones, with equal weights
	Within     bool      // all thresholds are met
}

// Score rates strategy s by the measures of the test landscape. Surplus is
// irrigation that ran off or drained below the roots. Water lost to the stated
// efficiency is a loss, not surplus, and rain that drains does not count.
func (t *Table) Score(s int) Score {
	score := Score{Within: true}
	for z := range t.Zones {
		sum := t.Total(s, z)
		excess := 0.0
		if sum.ETcMM > 0 {
			excess = (sum.PercIrrMM + sum.IrrRunoffMM) / sum.ETcMM
		}
		score.Adequacy = append(score.Adequacy, sum.Adequacy())
		score.Excess = append(score.Excess, excess)
		score.MeanExcess += excess / float64(len(t.Zones))
		score.Within = score.Within && sum.Adequacy() >= LeastAdequacy && excess <= MostExcess
	}
	score.Within = score.Within && score.MeanExcess <= MostMeanExcess
	return score
}
