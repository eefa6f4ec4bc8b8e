package cli

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"maps"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/htmlfile"
	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/sim"
	"loamledger/sim/ledgerfile"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// twoZones is a hand-made year of one strategy and the references: 30 stress
// days on the lawn of 300 m², 10 on the bed of 100 m², so 25 on the site.
func twoZones() *tally.Table {
	t := &tally.Table{
		Strategies: []string{"as found", tally.NoWater, tally.LeastWater},
		Zones:      []sim.Zone{{Name: "lawn", AreaM2: 300, Strips: 1, DULQ: 1}, {Name: "bed", AreaM2: 100, Strips: 1, DULQ: 1}},
		Spans:      sim.NewCalendar(cal.Of(2001, 1, 1), 365).Spans,
	}
	for s := range t.Strategies {
		t.Outcomes = append(t.Outcomes, make([]tally.Outcome, len(t.Zones)))
		for z := range t.Zones {
			months := make([]sim.Sums, len(t.Spans))
			for i, span := range t.Spans {
				months[i] = sim.Sums{Days: span.To - span.From, ETcMM: 100, ETaMM: 80, GrossMM: 40}
			}
			if s == 0 {
				months[6].StressZoneDays = [2]int{30, 10}[z]
			}
			t.Outcomes[s][z].Months = months
		}
	}
	return t
}

// measured returns a study with the given measures, or the usual ones for nil.
func measured(measures []tally.Measure) *study.Study {
	return &study.Study{Scenario: &scenarios.Scenario{Units: quantity.SI}, Measures: measures}
}

// Adding one entry to the list of measures adds it to every output.
func TestAMeasureIsOneEntry(t *testing.T) {
	table := twoZones()
	// Made up: twice the stress days plus one. By hand, 61 and 21 by zone, and 51
	// for the site, weighted by area.
	measures := append(tally.Measures(), tally.Measure{
		Key: "weary_days", Title: "Weary days", About: "a made-up measure", Kind: tally.Days, Better: tally.Less,
		Get:   func(c *tally.Cell) float64 { return float64(2*c.Sums.StressZoneDays + 1) },
		Views: []tally.View{{Over: tally.DryYear}},
	})

	var b bytes.Buffer
	if err := ledgerfile.WriteTally(&b, table, measures, nil); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	last := len(lines[0]) - 1
	if lines[0][last] != "weary_days" || lines[1][last] != "61" || lines[2][last] != "21" {
		t.Errorf("tally.csv: %q\n%q\n%q", lines[0], lines[1], lines[2])
	}

	b.Reset()
	printGrid(&b, measured(measures).Comparison(table))
	var head, row string
	for line := range strings.Lines(b.String()) {
		if strings.HasPrefix(strings.TrimSpace(line), "as found") {
			row = strings.TrimSpace(line)
		} else if row == "" {
			head += line
		}
	}
	if !strings.HasSuffix(row, " 51") || !strings.Contains(head, "Weary") {
		t.Errorf("printed comparison:\n%s", b.String())
	}

	charted := &plots.Study{
		Site: "Test Court", From: cal.Of(2001, 1, 1), To: cal.Of(2001, 12, 31), Table: table, Measures: measures, Units: plots.SI,
	}
	report := plots.NewReport(charted, &plots.Facts{})
	for _, tt := range []struct {
		what        string
		table       plots.Table
		title, cell string
	}{
		{"comparison", report.Comparison, "Weary days, dry year", "51"},
		{"lawn", report.Zones[0].Table, "Weary days a year", "61"}, // 365 days are a quarter of a day short of a year
	} {
		n := len(tt.table.Head) - 1
		if tt.table.Head[n] != tt.title || tt.table.Rows[0].Cells[n] != tt.cell {
			t.Errorf("report, %s: %q %q, want %q %q", tt.what, tt.table.Head, tt.table.Rows[0].Cells, tt.title, tt.cell)
		}
	}
	b.Reset()
	if err := htmlfile.Write(&b, &htmlfile.Page{Report: report}); err != nil {
		t.Fatal(err)
	}
	for _, title := range []string{"Weary days, dry year", "Weary days a year"} {
		if !strings.Contains(b.String(), title) {
			t.Errorf("report.html lacks %q", title)
		}
	}

	b.Reset()
	if err := printJSON(&b, measured(measures).Summary(table)); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Figures    []map[string]string
		Strategies []map[string]any
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"key": "weary_days_dry_year", "about": "a made-up measure", "unit": "d", "better": "less"}
	if f := got.Figures[len(got.Figures)-1]; !maps.Equal(f, want) {
		t.Errorf("JSON: figures end with %v", f)
	}
	if v := got.Strategies[0]["weary_days_dry_year"]; v != 51.0 {
		t.Errorf("JSON: %v, want 51", v)
	}
}

// A measure without a value is null in JSON and a dash in print.
func TestAMeasureWithoutAValue(t *testing.T) {
	table := twoZones()
	table.Spans[0].From++ // no whole year
	var b bytes.Buffer
	if err := printJSON(&b, measured(nil).Summary(table)); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(b.String(), `"stress_days_zone_dry_year": null`); n != len(table.Strategies) {
		t.Errorf("%d nulls\n%s", n, b.String())
	}
	b.Reset()
	printGrid(&b, measured(nil).Comparison(table))
	if !strings.Contains(b.String(), " - ") {
		t.Errorf("no dash in\n%s", b.String())
	}
}
