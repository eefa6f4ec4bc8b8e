package catalog_test

import (
	"testing"

	"loamledger/scenarios/catalog"
)

// Days between waterings by the balance, MAD·AWC·Zr/(K·ETo), against the printed
// intervals of the low desert. A row passes from 0.7 × the shortest to 1.3 × the
// longest, bands fixed before the figures were compared.
//
// Inputs: loam, MAD 0.50 and for flowers 0.40; mean ETo of the Tucson station,
// June 8.0 and December 1.8 mm/d; roots and K of the catalog, turf with the K of
// the season. Winter rows are compared for bermuda and desert ground cover only:
// woody plants are watered two to four times more often in winter than a balance
// asks for.
//
// Where the model misses, miss says so, and the test holds that it still does:
// trees by the factor of dry climates, 15 days, are past the band; the factor of
// humid climates fits. With MAD 0.60 desert trees come to 29 days, also past it:
// the tables water part of the ground and stay on the safe side.
func TestIntervalsOfTheLowDesert(t *testing.T) {
	const june, december = 8.0, 1.8
	summer := func(w catalog.Watering) catalog.Interval { return w.Summer }
	winter := func(w catalog.Watering) catalog.Interval { return w.Winter }
	flat := func(p catalog.Plant) float64 { return p.Coefficients[0].K[5] }
	growing := func(p catalog.Plant) float64 { return p.Ka.Value }
	dormant := func(p catalog.Plant) float64 { return p.Kd.High } // 0.35, the winter value of Florida
	for _, tt := range []struct {
		plant    string
		k        func(catalog.Plant) float64
		interval func(catalog.Watering) catalog.Interval
		mad, eto float64
		miss     bool
	}{
		{"desert trees", flat, summer, 0.50, june, false},
		{"desert trees", flat, summer, 0.60, june, true},
		{"trees, humid climate", flat, summer, 0.50, june, false},
		{"trees, dry climate", flat, summer, 0.50, june, true},
		{"palms, humid climate", flat, summer, 0.50, june, false},
		{"desert shrubs", flat, summer, 0.50, june, false},
		{"shrubs, dry climate", flat, summer, 0.50, june, false},
		{"shrubs, humid climate", flat, summer, 0.50, june, false},
		{"desert ground cover", flat, summer, 0.50, june, false},
		{"ground cover, dry climate", flat, summer, 0.50, june, false},
		{"ground cover, humid climate", flat, summer, 0.50, june, false},
		{"cacti and succulents", flat, summer, 0.50, june, false}, // its K was chosen for this: no independent test
		{"annual flowers", flat, summer, 0.40, june, false},
		{"bermudagrass", growing, summer, 0.50, june, false},
		{"bermudagrass", dormant, winter, 0.50, december, false},
		{"desert ground cover", flat, winter, 0.50, december, false},
	} {
		p := plant(t, tt.plant)
		w, ok := catalog.FindWatering(p.Watering)
		if !ok {
			t.Fatalf("%s: no row %q", p.Name, p.Watering)
		}
		loam := soil(t, "loam")
		days := tt.mad * loam.AWC.Value * p.RootDepth.Value / (tt.k(p) * tt.eto)
		i := tt.interval(w)
		if in := days >= 0.7*i.Low && days <= 1.3*i.High; in == tt.miss {
			t.Errorf("%s, MAD %g: %.1f days, printed %g to %g, expected to miss: %v", p.Name, tt.mad, days, i.Low, i.High, tt.miss)
		}
		t.Logf("%s: %.1f days, printed %g to %g", p.Name, days, i.Low, i.High)
	}
}
