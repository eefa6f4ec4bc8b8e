package plots

import (
	"fmt"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/weather/cal"
)

// TestEqualDefaultsShareALine: of 5 zones all have one default, four another
// and two a third; the site has one of its own.
func TestEqualDefaultsShareALine(t *testing.T) {
	var zones []sim.Zone
	var all []Default
	for i := range 5 {
		name := fmt.Sprintf("zone %d", i+1)
		zones = append(zones, sim.Zone{Name: name})
		all = append(all, Default{Where: name, Key: "strips", Value: "8"})
		if i > 0 {
			all = append(all, Default{Where: name, Key: "plant.p", Value: "0.4"})
		}
		if i > 2 {
			all = append(all, Default{Where: name, Key: "plant.p", Value: "0.5"})
		}
	}
	all = append(all, Default{Where: "site", Key: "rain", Value: "curve number"})
	got := Grouped(all, zones, nil)
	want := []string{"all 5 zones", "4 zones: zone 2, zone 3 and two others", "zone 4, zone 5", "site"}
	if len(got) != len(want) {
		t.Fatalf("%d lines, want %d: %+v", len(got), len(want), got)
	}
	for i := range want {
		if got[i].Where != want[i] {
			t.Errorf("line %d is for %q, want %q", i, got[i].Where, want[i])
		}
	}
}

// TestManyZonesShareATable: of 25 zones the 12 largest have a part each, and
// the 13 others stand in one table, in the order of the site.
func TestManyZonesShareATable(t *testing.T) {
	s := study([]float64{1000, 600}, []int{10, 10})
	zone, months := s.Table.Zones[0], make([][]sim.Sums, len(s.Table.Strategies))
	for st := range months {
		months[st] = s.Table.Outcomes[st][0].Months
	}
	s.Table.Zones = nil
	for i := range 25 {
		zone.Name, zone.AreaM2 = fmt.Sprintf("zone %d", i+1), float64(100+i)
		s.Table.Zones = append(s.Table.Zones, zone)
	}
	for st := range months {
		out := s.Table.Outcomes[st][0]
		s.Table.Outcomes[st] = nil
		for range 25 {
			s.Table.Outcomes[st] = append(s.Table.Outcomes[st], out)
		}
	}
	r := NewReport(s, &Facts{})
	if len(r.Zones) != 12 || r.Zones[0].Name != "zone 14" || r.OtherZones == nil ||
		len(r.OtherZones.Rows) != 13 || r.OtherZones.Rows[12].Name != "zone 13" {
		t.Fatalf("%d parts from %q, others %+v", len(r.Zones), r.Zones[0].Name, r.OtherZones)
	}
	for _, row := range r.OtherZones.Rows {
		if len(row.Cells) != len(r.OtherZones.Head) {
			t.Errorf("%s: %d cells under %d heads", row.Name, len(row.Cells), len(r.OtherZones.Head))
		}
	}
	if got := r.OtherZones.Rows[0].Cells[4]; got != "1,000; 600" { // 1000 and 600 mm on 1000 m² in one year
		t.Errorf("water %q", got)
	}
	if small := NewReport(study([]float64{1000, 600}, []int{10, 10}), &Facts{}); small.OtherZones != nil {
		t.Error("one zone, and a table of others")
	}
}

// TestNothingToSayIsLeftOut holds that no line of the first page says only that
// something is not known, but for local watering rules.
func TestNothingToSayIsLeftOut(t *testing.T) {
	r := NewReport(study([]float64{1000, 600}, []int{10, 10}), &Facts{})
	for _, item := range r.Front.Facts {
		if strings.TrimSpace(item.Text) == "" || strings.HasPrefix(item.Text, "not ") && item.Term != "Watering rules" {
			t.Errorf("%s: %q", item.Term, item.Text)
		}
	}
}

// TestInventedWeatherIsToldOnce covers what the page says of days that nobody
// observed.
func TestInventedWeatherIsToldOnce(t *testing.T) {
	for _, tt := range []struct {
		w    WeatherFacts
		want string
	}{
		{WeatherFacts{}, ""},
		{WeatherFacts{Days: 4383}, "no filled values on 4,383 days"},
		{WeatherFacts{Days: 4383, FilledDays: 17}, "filled values on 17 of 4,383 days"},
		{WeatherFacts{Days: 4383, SyntheticDays: 4383}, "synthetic weather (all 4,383 days)"},
		{WeatherFacts{Days: 4383, SyntheticDays: 365, FilledDays: 2}, "synthetic weather on 365 of 4,383 days; filled values on 2 of 4,383 days"},
	} {
		if got := filled(&tt.w); got != tt.want {
			t.Errorf("%+v: %q, want %q", tt.w, got, tt.want)
		}
	}
}

// TestTiesAreNotNamedAlone: of three strategies of 2 stress days none is named
// without the others.
func TestTiesAreNotNamedAlone(t *testing.T) {
	tr := &DepletionTrace{Zone: "lawn", Start: cal.Of(2001, 6, 1), Strategies: []string{"A", "B", "C", "D"},
		LowQuarterMM: [][]float64{{30, 30, 10}, {30, 30, 10}, {10, 10, 10}, {10, 30, 30}},
		RainMM:       []float64{0, 0, 0}}
	for _, low := range tr.LowQuarterMM {
		tr.RAWMM, tr.TAWMM = append(tr.RAWMM, []float64{20, 20, 20}), append(tr.TAWMM, []float64{40, 40, 40})
		on := make([]bool, len(low))
		for i := range on {
			on[i] = low[i] > 20
		}
		tr.Stress, tr.Browning = append(tr.Stress, on), append(tr.Browning, make([]bool, len(on)))
	}
	c := DrySeason(study([]float64{1000}, []int{0}), tr)
	for _, want := range []string{"zone: 2 under “A” and two others, 0 under “C”.", "quarter: 0 under every strategy."} {
		if !strings.Contains(c.See, want) {
			t.Errorf("%q lacks %q", c.See, want)
		}
	}
	if want := "June 1 to June 3, 2001: lawn"; !strings.HasSuffix(c.Title, want) {
		t.Errorf("title %q lacks %q", c.Title, want)
	}
}
