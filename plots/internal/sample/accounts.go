package sample

import (
	"math"

	"loamledger/plots"
	"loamledger/weather/cal"
)

// Accounts returns a view of n invented accounts under two measures: application ratios
// spread evenly from 0.3 to 2.3, a need of 100 m³ a year, and bills that find the
// accounts in another order than the savings.
func Accounts(n int, u plots.Units) *plots.AccountsView {
	v := &plots.AccountsView{Program: "Controller rebate", Station: "Cottonwood Wash", From: cal.Of(2001, 1, 1), To: cal.Of(2012, 12, 31),
		Units: u, Currency: "USD", RankedBy: "simulated bills", Smallest: 10,
		Notes: []string{"For all accounts the run times as found were drawn, not observed."}}
	for k, name := range []string{"monthly settings", "weather controller"} {
		m := plots.AccountsMeasure{Name: name, Avoided: 0.9, Saves: 0.55, Stays: 0.1, Rises: 0.35}
		for a := range n {
			ratio := 0.3 + float64(2*float64(a)/float64(n))
			saved := float64(100*ratio) - 105
			if k == 0 {
				saved = 25 * max(0, ratio-1.1)
			}
			m.Ratio, m.SavedM3 = append(m.Ratio, ratio), append(m.SavedM3, saved)
			m.Late = append(m.Late, saved)
		}
		for a := range m.Late { // mostly in order: every third place is another account's
			if b := (a*7 + 3) % n; a%3 == 0 {
				m.Late[a], m.Late[b] = m.Late[b], m.Late[a]
			}
		}
		for i, j := 0, n-1; i < j; i, j = i+1, j-1 {
			m.Late[i], m.Late[j] = m.Late[j], m.Late[i]
		}
		for i := range 10 {
			share := float64(i+1) / 10
			sum := 0.0
			for _, s := range m.Late[:int(share*float64(n))] {
				sum += s
			}
			cost := math.Inf(1)
			if sum > 0 {
				cost = 150 * share * float64(n) / (7 * sum)
			}
			m.Costs = append(m.Costs, plots.CostPoint{Share: share, Accounts: int(share * float64(n)), M3PerYear: sum, PerM3: cost})
		}
		v.Measures = append(v.Measures, m)
	}
	return v
}
