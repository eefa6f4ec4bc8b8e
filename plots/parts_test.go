package plots_test

import (
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
	"loamledger/sim"
)

// TestPartsKeepEveryPanel holds that splitting loses, doubles and reorders
// nothing, keeps axes, and gives each part a name of its own.
func TestPartsKeepEveryPanel(t *testing.T) {
	for name, s := range studies() {
		for _, c := range plots.Charts(s) {
			parts := c.Parts()
			var titles []string
			names := map[string]bool{}
			for _, p := range parts {
				for i := range p.Panels {
					titles = append(titles, p.Panels[i].Title)
				}
				if names[p.Name] {
					t.Errorf("%s/%s: two parts named %s", name, c.Name, p.Name)
				}
				names[p.Name] = true
				if p.Y.Max != c.Y.Max || p.X.Max != c.X.Max || len(p.Keys) != len(c.Keys) {
					t.Errorf("%s/%s: a part has another scale or legend", name, p.Name)
				}
				if len(p.Panels)%max(c.Columns, 1) != 0 && p.Name != parts[len(parts)-1].Name {
					t.Errorf("%s/%s: a part before the last has an unfilled row", name, p.Name)
				}
			}
			if len(titles) != len(c.Panels) {
				t.Fatalf("%s/%s: %d panels became %d", name, c.Name, len(c.Panels), len(titles))
			}
			for i, title := range titles {
				if title != c.Panels[i].Title {
					t.Errorf("%s/%s: panel %d is %q, was %q", name, c.Name, i, title, c.Panels[i].Title)
				}
			}
		}
	}
}

// TestShortRecord takes a record of ten weeks, without a whole year.
func TestShortRecord(t *testing.T) {
	s := sample.Study(sample.Options{Strategies: 2, Zones: 1, Years: 1})
	s.Table.Spans = []sim.Span{{Year: 2012, Month: 5, From: 0, To: 31}, {Year: 2012, Month: 6, From: 31, To: 70}}
	for st := range s.Table.Outcomes {
		s.Table.Outcomes[st][0].Months = s.Table.Outcomes[st][0].Months[4:6]
	}
	for _, c := range plots.Charts(s) {
		if c.Kind == plots.YearsKind {
			t.Error("a chart by year of a record without a year")
		}
		for i := range c.Panels {
			within(t, &c, &c.Panels[i])
		}
	}
	r := plots.NewReport(s, &plots.Facts{})
	head := strings.Join(r.Comparison.Head, "|") + "|" + strings.Join(r.Front.Options.Head, "|")
	if strings.Contains(head, "year") || strings.Contains(head, "/yr") || !strings.Contains(head, "|Stress days in these 70 days|") ||
		!strings.Contains(head, "|Thirsty days in these 70 days|") {
		t.Errorf("headings %q: there is no year, and stress days are those of the record", head)
	}
	if got := r.Comparison.Rows[0].Cells[2]; got == "–" {
		t.Error("no stress days")
	}
}
