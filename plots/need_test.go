package plots

import (
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// TestNeedIsThatOfTheChangedSite: the site needs 40 mm in each month of a year, and 10 mm after
// the changes of one strategy. Its panels draw 10 mm, and the volume of 12 times that on 100 m²,
// 12 m³; the others 40 mm and 48 m³; the strategy is named.
func TestNeedIsThatOfTheChangedSite(t *testing.T) {
	table := &tally.Table{
		Strategies: []string{"as found", "less turf", tally.NoWater, tally.LeastWater}, LeastRows: []int{0, 4},
		Zones: []sim.Zone{{Name: "lawn", AreaM2: 100, Strips: 1, DULQ: 1}}, Spans: sim.NewCalendar(cal.Of(2001, 1, 1), 365).Spans,
	}
	for _, gross := range []float64{50, 20, 0, 40, 10} {
		months := make([]sim.Sums, len(table.Spans))
		for i, span := range table.Spans {
			months[i] = sim.Sums{Days: span.To - span.From, GrossMM: gross}
		}
		table.Outcomes = append(table.Outcomes, []tally.Outcome{{Months: months}})
	}
	s := &Study{Units: SI, From: cal.Of(2001, 1, 1), To: cal.Of(2001, 12, 31), Table: table}
	for _, test := range []struct {
		chart Chart
		want  [2]float64
	}{{Months(s), [2]float64{40, 10}}, {Years(s), [2]float64{48, 12}}} {
		for st, want := range test.want {
			for _, series := range test.chart.Panels[st].Series {
				for _, y := range series.Y {
					if series.Role == Need && !(y > want-1e-9 && y < want+1e-9) {
						t.Errorf("%s, %s: need %g, by hand %g", test.chart.Name, table.Strategies[st], y, want)
					}
				}
			}
		}
		if notes := strings.Join(test.chart.Notes, " "); !strings.Contains(notes, "“less turf”; in the other panels") {
			t.Errorf("%s: notes %q", test.chart.Name, notes)
		}
	}
}
