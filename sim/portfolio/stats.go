package portfolio

import (
	"math"
	"slices"

	"loamledger/sim/draw"
)

// Stats describe how the savings of some accounts under one measure are distributed.
// Quantiles are by straight lines, as of [draw.Quantile].
type Stats struct {
	N                              int
	MeanM3, P10M3, MedianM3, P90M3 float64 // saving of an account a year
	MeanMM, P10MM, MedianMM, P90MM float64 // the same as a depth over its area as found
	SumM3                          float64 // of all accounts a year
	ReferenceM3                    float64 // use of an account as found a year, on average
	Change                         float64 // of the use of all accounts; below 0 if it falls; NaN without use
	Saves, Stays, Rises            float64 // shares of the accounts, which add up to 1
	Threshold                      float64 // change of an account's use that counts, as a share
	StressDays                     float64 // change of stress days a year, on average
	BrownDays                      float64 // change of days with browning a year, on average
	Stressed                       float64 // share of accounts with more than [MoreStress] stress days a year more
	Ratio                          float64 // application ratio of all accounts together as found; NaN if nothing is required
	// Largest is the share of one account, that with the largest change of use, in the changes of all, whether they save or rise;
	// NaN if no use changes.
	Largest float64
}

// Stats returns the statistics of the given accounts under measure m. An account saves or
// rises if its use changes by more than threshold, a share of its use as found. Without
// accounts every number is NaN.
func (t *Table) Stats(m int, accounts []int, threshold float64) Stats {
	s := Stats{N: len(accounts), Threshold: threshold}
	volume, depth := make([]float64, 0, s.N), make([]float64, 0, s.N)
	ref, need, saves, rises, stressed := 0.0, 0.0, 0, 0, 0
	for _, a := range accounts {
		was, is := t.use(0, a), t.use(m, a)
		years := float64(was.years)
		v := (was.volumeM3 - is.volumeM3) / years
		volume, depth = append(volume, v), append(depth, 1000*v/t.areaM2(a))
		ref += was.volumeM3 / years
		need += was.requirementM3 / years
		if limit := threshold * was.volumeM3 / years; v > limit {
			saves++
		} else if v < -limit {
			rises++
		}
		more := (is.stressDays - was.stressDays) / years
		s.StressDays += more
		s.BrownDays += (is.brownDays - was.brownDays) / years
		if more > MoreStress {
			stressed++
		}
	}
	n := float64(s.N)
	s.MeanM3, s.MeanMM = draw.Mean(volume), draw.Mean(depth)
	s.SumM3 = s.MeanM3 * n
	largest, changes := 0.0, 0.0
	for _, v := range volume {
		largest, changes = max(largest, math.Abs(v)), changes+math.Abs(v)
	}
	s.Largest = quotient(largest, changes)
	slices.Sort(volume)
	slices.Sort(depth)
	s.P10M3, s.MedianM3, s.P90M3 = draw.Quantile(volume, 0.1), draw.Quantile(volume, 0.5), draw.Quantile(volume, 0.9)
	s.P10MM, s.MedianMM, s.P90MM = draw.Quantile(depth, 0.1), draw.Quantile(depth, 0.5), draw.Quantile(depth, 0.9)
	s.ReferenceM3 = ref / n
	s.Change, s.Ratio = quotient(-s.SumM3, ref), quotient(ref, need)
	s.Saves, s.Rises = float64(saves)/n, float64(rises)/n
	s.Stays = float64(s.N-saves-rises) / n
	s.StressDays, s.BrownDays, s.Stressed = s.StressDays/n, s.BrownDays/n, float64(stressed)/n
	return s
}

// Largest returns the share of one account in the use of all under measure m: that of the account with the most.
func (t *Table) Largest(m int) float64 {
	most, sum := 0.0, 0.0
	for a := range t.Accounts {
		v := t.use(m, a).volumeM3 / float64(t.use(m, a).years)
		sum += v
		most = max(most, v)
	}
	return quotient(most, sum)
}

// quotient returns a ÷ b, NaN if b is not above 0.
func quotient(a, b float64) float64 {
	if !(b > 0) {
		return math.NaN()
	}
	return a / b
}

// Interaction is what measures save together, beside the sum of what each saves alone,
// as means of an account a year [m³].
type Interaction struct {
	Both    float64
	singles []float64
	Sum     float64
	// Overlap is Sum − Both: the water that would be counted twice; below 0 if the
	// measures help each other.
	Overlap float64
}

// Interaction compares measure m with the measures that it combines.
func (t *Table) Interaction(m int, of []int) Interaction {
	x := Interaction{Both: draw.Mean(t.Savings(m))}
	for _, one := range of {
		v := draw.Mean(t.Savings(one))
		x.singles = append(x.singles, v)
		x.Sum += v
	}
	x.Overlap = x.Sum - x.Both
	return x
}
