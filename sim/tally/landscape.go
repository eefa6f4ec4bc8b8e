package tally

// Thresholds of the public test landscape of six zones for weather-based
// controllers: in each zone at least this adequacy and at most this excess, and
// on average over the zones at most that. From memory, and the excess's
// denominator is uncertain: results compared with them claim no conformance.
const (
	leastAdequacy   = 0.80
	mostExcess      = 0.10
	mostMeanExcess  = 0.05
	ThresholdSource = "adequacy of at least 80%, excess of at most 10% in a zone and 5% on average: " +
		"thresholds of a public test landscape, not verified; no conformance is claimed"
)

// A Score compares one strategy with the thresholds of the test landscape.
type Score struct {
	Adequacy   []float64 // by zone: (ΣETc − Σdeficit)/ΣETc
	Excess     []float64 // by zone: surplus over ΣETc
	MeanExcess float64   // over the zones, with equal weights
	Within     bool      // all thresholds are met
}

// Score returns how strategy s did by the measures of the test landscape.
// Surplus is irrigation that ran off or drained below the roots; losses within
// the stated efficiency and rain that drains do not count.
func (t *Table) Score(s int) Score {
	score := Score{Within: true}
	for z := range t.Zones {
		sum := t.Total(s, z)
		excess := 0.0
		if sum.ETcMM > 0 {
			excess = (sum.PercIrrMM + sum.IrrRunoffMM) / sum.ETcMM
		}
		score.Adequacy = append(score.Adequacy, sum.NeedMet())
		score.Excess = append(score.Excess, excess)
		score.MeanExcess += excess / float64(len(t.Zones))
		score.Within = score.Within && sum.NeedMet() >= leastAdequacy && excess <= mostExcess
	}
	score.Within = score.Within && score.MeanExcess <= mostMeanExcess
	return score
}
