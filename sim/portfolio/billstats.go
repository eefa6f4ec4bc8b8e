package portfolio

import (
	"slices"

	"loamledger/sim/draw"
)

// BillStats describe what one measure takes off the bills of accounts, in the currency of the rates a year.
type BillStats struct {
	Reference              float64 // what irrigation adds to the bill as found, on average
	Mean, P10, Median, P90 float64
	Falls, Stays, Rises    float64 // shares of the accounts, which add up to 1
}

// BillStats returns the statistics of measure m; they have a meaning only if HasMoney. A bill falls or rises if
// it changes by more than threshold, a share of what irrigation adds to it as found.
func (t *Table) BillStats(m int, threshold float64) (s BillStats) {
	saved := t.BillSavings(m)
	falls, rises := 0, 0
	for a, v := range saved {
		u := t.use(0, a)
		was := u.money / float64(u.years)
		s.Reference += was
		if limit := threshold * was; v > limit {
			falls++
		} else if v < -limit {
			rises++
		}
	}
	n := float64(len(saved))
	s.Reference /= n
	s.Mean = draw.Mean(saved)
	slices.Sort(saved)
	s.P10, s.Median, s.P90 = draw.Quantile(saved, 0.1), draw.Quantile(saved, 0.5), draw.Quantile(saved, 0.9)
	s.Falls, s.Rises = float64(falls)/n, float64(rises)/n
	s.Stays = float64(len(saved)-falls-rises) / n
	return s
}
