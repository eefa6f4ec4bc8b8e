package plots_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

var fileName = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// TestEveryChartSaysWhatItShows holds each chart to what every chart must
// carry: title, sentence, description, site, station, dates, units, panels with
// marks that lie within the axes.
func TestEveryChartSaysWhatItShows(t *testing.T) {
	for name, s := range studies() {
		seen := map[string]bool{}
		for _, c := range plots.Charts(s) {
			t.Run(name+"/"+c.Name, func(t *testing.T) {
				for what, text := range map[string]string{
					"title": c.Title, "sentence": c.See, "description": c.Alt, "site": c.Site, "station": c.Station,
				} {
					if strings.TrimSpace(text) == "" {
						t.Errorf("no %s", what)
					}
				}
				if c.Label != plots.Estimated {
					t.Errorf("label %q, want %q", c.Label, plots.Estimated)
				}
				if !strings.HasSuffix(strings.TrimSuffix(c.See, "”"), ".") {
					t.Errorf("not a sentence: %q", c.See)
				}
				if !fileName.MatchString(c.Name) || seen[c.Name] {
					t.Errorf("name %q is no fresh file name", c.Name)
				}
				seen[c.Name] = true
				if c.To <= c.From {
					t.Errorf("dates %v to %v", c.From, c.To)
				}
				if c.Kind != plots.StressKind && c.Y.Unit == "" && c.X.Unit == "" {
					t.Error("no unit on either axis")
				}
				if len(c.Panels) < s.Table.NoWaterIndex() {
					t.Errorf("%d panels for %d strategies", len(c.Panels), s.Table.NoWaterIndex())
				}
				if len(c.Keys) == 0 {
					t.Error("no legend")
				}
				for i := range c.Panels {
					within(t, &c, &c.Panels[i])
				}
			})
		}
	}
}

func within(t *testing.T, c *plots.Chart, p *plots.Panel) {
	t.Helper()
	marks := 0
	for _, s := range p.Series {
		for i, y := range s.Y {
			if math.IsNaN(y) {
				continue
			}
			marks++
			if y < c.Y.Min-1e-9 || y > c.Y.Max+1e-9 {
				t.Errorf("panel %q: y %g outside %g to %g", p.Title, y, c.Y.Min, c.Y.Max)
				return
			}
			if s.X != nil && (s.X[i] < c.X.Min-1e-9 || s.X[i] > c.X.Max+1e-9) {
				t.Errorf("panel %q: x %g outside %g to %g", p.Title, s.X[i], c.X.Min, c.X.Max)
				return
			}
		}
	}
	if marks == 0 {
		t.Errorf("panel %q is empty", p.Title)
	}
}

// tiny is a study small enough to work by hand: one zone of 100 m², January to
// December 2001, one strategy.
func tiny() *plots.Study {
	tb := &tally.Table{
		Strategies: []string{"fixed", tally.NoWater, tally.LeastWater}, Zones: []sim.Zone{{Name: "lawn", AreaM2: 100, TAWMM: 40}},
	}
	day := 0
	tb.Outcomes = [][]tally.Outcome{{{}}, {{}}, {{}}}
	for m := 1; m <= 12; m++ {
		n := cal.DaysIn(2001, m)
		tb.Spans = append(tb.Spans, sim.Span{Year: 2001, Month: m, From: day, To: day + n})
		day += n
		fixed := sim.Sums{
			Days: n, Minutes: 120, GrossMM: 50.8, SprayLossMM: 2, IrrRunoffMM: 5, PercIrrMM: 3,
			RainMM: 20, RainRunoffMM: 1, RainEvapMM: 4, PercRainMM: 2, StressZoneDays: m, BrownDays: max(m-1, 0),
		}
		least := sim.Sums{Days: n, GrossMM: 25.4, RainMM: 20}
		tb.Outcomes[0][0].Months = append(tb.Outcomes[0][0].Months, fixed)
		tb.Outcomes[1][0].Months = append(tb.Outcomes[1][0].Months, sim.Sums{Days: n, RainMM: 20, StressZoneDays: n})
		tb.Outcomes[2][0].Months = append(tb.Outcomes[2][0].Months, least)
	}
	return &plots.Study{Site: "Juniper Court", Station: "Dry Fork", From: cal.Of(2001, 1, 1), To: cal.Of(2001, 12, 31), Table: tb}
}

// TestNumbersOfCharts checks charts of the tiny study against values worked by
// hand: 50.8 mm a month is 2 in, 609.6 mm a year over 100 m² is 60.96 m³ or
// 60,960/3.785411784 = 16,104 gal.
func TestNumbersOfCharts(t *testing.T) {
	s := tiny()
	months := plots.Months(s)
	bars, need := series(t, months.Panels[0], plots.Applied), series(t, months.Panels[0], plots.Need)
	for m := range 12 {
		near(t, "applied in a month", bars.Y[m], 2)
		near(t, "needed in a month", need.Y[m], 1)
	}
	years := plots.Years(s)
	near(t, "thousand gallons a year", series(t, years.Panels[0], plots.Applied).Y[0], 60.96/3.785411784)
	if want := "thousand gal/year"; years.Y.Unit != want {
		t.Errorf("unit %q, want %q", years.Y.Unit, want)
	}
	flows := plots.Flows(s)
	ends := map[plots.Role]float64{}
	for _, x := range flows.Panels[0].Series[:4] { // watering: 40.8 stays, 5 run off, 3 percolate, 2 to the air, each month
		ends[x.Role] = x.X[0] - x.Base[0]
	}
	perYear := 12 / 25.4
	near(t, "stayed", ends[plots.ToPlants], 40.8*perYear)
	near(t, "ran off", ends[plots.RanOff], 5*perYear)
	near(t, "percolated", ends[plots.Percolated], 3*perYear)
	near(t, "to the air", ends[plots.ToAir], 2*perYear)
	cells := series(t, plots.Stress(s).Panels[0], plots.Heat)
	// Stress days 1 to 12, month by month, in classes up to 5, 6 to 10, 11 to 20.
	for m, want := range []float64{1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 3, 3} {
		near(t, "class", cells.Base[m], want)
	}
	// Browning days 0 to 11: a dot from February on, a large one for the 11 of December.
	dots := series(t, plots.Stress(s).Panels[0], plots.Browned)
	if len(dots.X) != 11 {
		t.Fatalf("%d dots, want 11", len(dots.X))
	}
	for i := range dots.X {
		near(t, "month of a dot", dots.X[i], float64(i+2))
		near(t, "size of a dot", dots.Base[i], map[bool]float64{true: 1}[i == 10])
	}
	// By hand: 1 + 2 + ... + 12 = 78 and 0 + 1 + ... + 11 = 66.
	if want := "78 stress days, 66 browning days a year; dry year 78 and 66"; plots.Stress(s).Panels[0].Note != want {
		t.Errorf("note %q, want %q", plots.Stress(s).Panels[0].Note, want)
	}
}

// TestFlowsCountEveryLoss: of 50.8 mm a month, 2 go to the air, 4 beside the
// zone, 3 through broken heads, 1 into pipes and 0.8 leaks: by hand 10.8 are
// lost, 32 stay, and 18.8 of 50.8, or 37%, pass the plants.
func TestFlowsCountEveryLoss(t *testing.T) {
	s := tiny()
	for m := range s.Table.Outcomes[0][0].Months {
		x := &s.Table.Outcomes[0][0].Months[m]
		x.OversprayMM, x.BrokenMM, x.FillDrainMM, x.LeakMM = 4, 3, 1, 0.8
	}
	c := plots.Flows(s)
	perYear := 12 / 25.4
	near(t, "stayed", series(t, c.Panels[0], plots.ToPlants).X[0], 32*perYear)
	lost := series(t, c.Panels[0], plots.ToAir)
	near(t, "lost", lost.X[0]-lost.Base[0], 10.8*perYear)
	if note := c.Panels[0].Note; !strings.Contains(note, "37% of it lost") {
		t.Errorf("note %q, by hand 37%%", note)
	}
	if key := c.Keys[len(c.Keys)-1].Label; !strings.Contains(key, "leaks") {
		t.Errorf("the key of all losses says %q", key)
	}
}

// TestDrySeasonMarksStress checks that exactly the days of each grade are marked,
// whatever the depletion, and that a gap stays a gap.
func TestDrySeasonMarksStress(t *testing.T) {
	nan := math.NaN()
	s := tiny()
	s.Units = plots.SI
	tr := &plots.DepletionTrace{Zone: "lawn", Start: cal.Of(2001, 6, 1), Strategies: []string{"fixed"},
		TAWMM:        [][]float64{{40, 40, 40, 40, 40}},
		LowQuarterMM: [][]float64{{10, 20, 21, nan, 30}}, RAWMM: [][]float64{{20, 20, 20, 20, 20}},
		RainMM: []float64{0, 0, 3, 0, 0},
		Stress: [][]bool{{false, false, true, true, false}}, Browning: [][]bool{{false, false, false, true, false}}}
	c := plots.DrySeason(s, tr)
	if want := "2 stress days, 1 browning day"; c.Panels[0].Note != want {
		t.Errorf("note %q, want %q", c.Panels[0].Note, want)
	}
	for role, days := range map[plots.Role][]bool{plots.Stressed: tr.Stress[0], plots.Browned: tr.Browning[0]} {
		band := series(t, c.Panels[0], role)
		for i, want := range days {
			if got := !math.IsNaN(band.Y[i]) && !math.IsNaN(band.Base[i]); got != want {
				t.Errorf("role %d, day %d marked: %v, want %v", role, i, got, want)
			}
		}
	}
	// Browning lies clear of the line and the shade, which end at TAW.
	if lane := series(t, c.Panels[0], plots.Browned); lane.Y[3] <= 40 || lane.Base[3] > c.Y.Max {
		t.Errorf("browning is drawn from %g to %g, TAW is 40 and the axis ends at %g", lane.Y[3], lane.Base[3], c.Y.Max)
	}
	if !c.Y.Down || c.Y.Max < 40 {
		t.Errorf("axis %+v should grow downward to TAW and beyond", c.Y)
	}
	if rule := series(t, c.Panels[0], plots.EmptyLine); rule.Y[0] != 40 {
		t.Errorf("TAW line at %g, want 40", rule.Y[0])
	}
}

func series(t *testing.T, p plots.Panel, r plots.Role) plots.Series {
	t.Helper()
	for _, s := range p.Series {
		if s.Role == r {
			return s
		}
	}
	t.Fatalf("panel %q has no series of role %d", p.Title, r)
	return plots.Series{}
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
		t.Errorf("%s: %g, want %g", what, got, want)
	}
}

// TestZonesOfOneNameHaveFilesOfTheirOwn covers names that differ only in signs.
func TestZonesOfOneNameHaveFilesOfTheirOwn(t *testing.T) {
	s := tiny()
	for _, zone := range []string{"Lawn/1", "lawn 1", "草地", "???"} {
		s.Traces = append(s.Traces, plots.DepletionTrace{Zone: zone, Start: s.From, TAWMM: [][]float64{{40}},
			RAWMM: [][]float64{{20}}, RainMM: []float64{0}, Strategies: []string{"fixed"}, LowQuarterMM: [][]float64{{1}},
			Stress: [][]bool{{false}}, Browning: [][]bool{{false}}})
	}
	seen := map[string]bool{}
	for _, c := range plots.Charts(s) {
		if seen[c.Name] || !fileName.MatchString(c.Name) {
			t.Errorf("name %q is taken or no file name", c.Name)
		}
		seen[c.Name] = true
	}
}

// TestGradesHaveOneLegend: the calendar and the depletion chart name the two grades
// by the same words and say whose days they are.
func TestGradesHaveOneLegend(t *testing.T) {
	s := tiny()
	tr := &plots.DepletionTrace{Zone: "lawn", Start: s.From, TAWMM: [][]float64{{40}}, RAWMM: [][]float64{{20}}, RainMM: []float64{0},
		Strategies: []string{"fixed"}, LowQuarterMM: [][]float64{{1}}, Stress: [][]bool{{true}}, Browning: [][]bool{{true}}}
	for _, c := range []plots.Chart{plots.Stress(s), plots.DrySeason(s, tr)} {
		var labels []string
		for _, k := range c.Keys {
			labels = append(labels, k.Label)
		}
		for _, want := range []string{"stress (thirsty), whole zone", "browning, driest quarter"} {
			if !strings.Contains(strings.Join(labels, "|"), want) {
				t.Errorf("%s: no key with %q among %q", c.Name, want, labels)
			}
		}
	}
}
