package tally_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/testdata/published"
)

// years is the number of whole years of handTable, by which sums are divided.
const years = 3.0

// TestCompareVolumes by hand, the sign of a saving included: less water is
// negative change, more is positive.
func TestCompareVolumes(t *testing.T) {
	rows := handTable().Compare()
	for i, want := range []struct {
		name   string
		m3     float64
		change float64
		ratio  float64
	}{
		{"as found", 150, 0, 150.0 / 66}, {"less", 75, -0.5, 75.0 / 66}, {"more", 180, 0.2, 180.0 / 66},
		{tally.NoWater, 0, -1, 0}, {tally.LeastWater, 66, 66.0/150 - 1, 1},
	} {
		r := rows[i]
		if r.Strategy != want.name {
			t.Errorf("row %d is %q, want %q", i, r.Strategy, want.name)
		}
		wantNear(t, want.name+": volume", r.M3PerYear, want.m3/years)
		wantNear(t, want.name+": depth", r.GrossMMPerYear, want.m3/0.4/years) // 400 m²
		wantNear(t, want.name+": change", r.Change, want.change)
		wantNear(t, want.name+": application ratio", r.ApplicationRatio, want.ratio)
	}
}

// TestCompareMeasures by hand for "less".
func TestCompareMeasures(t *testing.T) {
	table := handTable()
	small, large := table.Outcomes[1][0].Months, table.Outcomes[1][1].Months
	for y := range 3 {
		small[y].StressZoneDays, large[y].StressZoneDays = []int{10, 20, 40}[y], []int{2, 4, 12}[y]
		small[y].LongestStreak, large[y].LongestStreak = []int{3, 9, 5}[y], []int{2, 2, 11}[y]
		small[y].RunoffEvents, large[y].RunoffEvents = y+1, y/2
	}
	// Given in one year each, since sums are sums.
	small[0].ETcMM, small[0].ETaMM, large[2].ETcMM, large[2].ETaMM = 800, 500, 1000, 400
	small[1].SprayLossMM, small[1].IrrRunoffMM, small[1].PercIrrMM, small[1].PercRainMM = 10, 20, 30, 40
	large[1].SprayLossMM, large[1].IrrRunoffMM, large[1].PercRainMM = 5, 10, 12
	small[2].SeverityDays, large[2].SeverityDays = 8, 4
	r := table.Compare()[1]
	wantNear(t, "stress days of the median year", r.StressMedian, (10*100+2*300)/400.0)
	wantNear(t, "stress days of the dry year", r.StressDry, (40*100+12*300)/400.0)
	if r.LongestStreak != 11 || r.StreakZone != "large" {
		t.Errorf("longest streak %d in %q, by hand 11 in the large zone", r.LongestStreak, r.StreakZone)
	}
	wantNear(t, "runoff events", r.RunoffEvents, (1+2+3+0+0+1)/years)
	wantNear(t, "need_met", r.NeedMet, (0.25*500+0.75*400)/(0.25*800+0.75*1000))
	wantNear(t, "share_lost", r.ShareLost, (0.25*60+0.75*15)/(0.25*300+0.75*150))
	wantNear(t, "percolation", r.PercMMPerYear, (0.25*70+0.75*12)/years)
	wantNear(t, "percolation of irrigation", r.PercIrrMMPerYear, 0.25*30/years)
	wantNear(t, "severity", r.SeverityPerYear, (0.25*8+0.75*4)/years)
}

// TestCompareWithoutABase: against a first strategy that uses nothing there is
// no change to state, and where nothing is required no ratio.
func TestCompareWithoutABase(t *testing.T) {
	table := handTable()
	table.Outcomes[0], table.Outcomes[4] = table.Outcomes[3], table.Outcomes[3]
	for _, r := range table.Compare() {
		if !math.IsNaN(r.Change) || !math.IsNaN(r.ApplicationRatio) {
			t.Errorf("%s: change %g, ratio %g, want neither", r.Strategy, r.Change, r.ApplicationRatio)
		}
		if r.NeedMet != 1 {
			t.Errorf("%s: need met %g where nothing was asked for", r.Strategy, r.NeedMet)
		}
	}
	if r := table.Compare()[0]; r.ShareLost != 0 {
		t.Errorf("excess %g of no water", r.ShareLost)
	}
}

// TestSumsByHand: need met and share lost of one zone.
func TestSumsByHand(t *testing.T) {
	s := sim.Sums{ETcMM: 800, ETaMM: 500, GrossMM: 300, SprayLossMM: 10, IrrRunoffMM: 20, PercIrrMM: 30, PercRainMM: 99}
	wantNear(t, "need_met", s.NeedMet(), 0.625)
	wantNear(t, "share_lost", s.ShareLost(), 0.2)
	// 300 + 400 in; 10 + 20 + 30 + 99 + 500 + 5 + 6 out, so 30 must have stayed.
	s.RainMM, s.RainRunoffMM, s.RainEvapMM, s.StorageMM = 400, 5, 6, 30
	wantNear(t, "residual", s.Residual(), 0)
	s.StorageMM = 29
	wantNear(t, "residual", s.Residual(), 1)
}

// TestVolumes turns depth over an area into gallons, by the identities of US
// units, half a unit in the last printed place.
func TestVolumes(t *testing.T) {
	rows := published.Cells(t, "units-water.csv")
	if len(rows) != 7 {
		t.Fatalf("%d rows, want 7", len(rows))
	}
	for _, line := range rows {
		var v [3]float64
		for i := range v {
			var err error
			if v[i], err = strconv.ParseFloat(line[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		table := rankTable(1, func(int) float64 { return v[1] * 25.4 })
		table.Zones[0].AreaM2 = v[0] * 0.3048 * 0.3048
		gallons := table.VolumeInYear(table.LeastWaterIndex(), 2001) * 1000 / 3.785411784
		_, places, _ := strings.Cut(line[2], ".")
		if math.Abs(gallons-v[2]) > 0.5*math.Pow10(-len(places)) {
			t.Errorf("%g in over %g ft2: %.6f gallons, want %s", v[1], v[0], gallons, line[2])
		}
	}
}
