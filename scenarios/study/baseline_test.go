package study

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/diag"
)

// ruledYard is a yard whose baseline waters 29 min a day and whose limits allow 20.
const ruledYard = `
site: {name: Sorrel Row, latitude: 38.9, elevation: 490 m}
units: si
weather: {file: weather.csv, wind_height: 2 m}
zones:
  - {name: lawn, area: 100 m2, plant: cool-season turf, soil: loam,
     sprinkler: {kind: spray, rate: 6 mm/h, uniformity: 55 %, spray_loss: 0 %}}
programs:
  - {name: p, days: any, starts: ["05:00"], minutes: {lawn: 29}}
limits: {max_minutes: 20 min}
baseline: ran
strategies:
  - {name: first, programs: [p], zone_percent: {lawn: 11 %}}
  - {name: ran, programs: [p]}
  - {name: older, like: ran, zone_percent: {lawn: 51 %}}
  - {name: option, like: ran, zone_percent: {lawn: 60 %}}
`

func ruled(tb testing.TB, years int, edits ...string) (*Study, *tally.Table) {
	tb.Helper()
	l, err := ruledStudy(tb, years, edits...)
	if err != nil {
		tb.Fatal(err)
	}
	t, err := replay.Run(context.Background(), &l.Job, nil)
	if err != nil {
		tb.Fatal(err)
	}
	return l, t
}

func ruledStudy(tb testing.TB, years int, edits ...string) (*Study, error) {
	tb.Helper()
	text := ruledYard
	for i := 0; i < len(edits); i += 2 {
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	sc := readYard(tb, text)
	w, err := Prepare(sc, Records{Parts: []*weather.Record{inventRecord(tb, years)}})
	if err != nil {
		tb.Fatal(err)
	}
	return New(sc, w, nil)
}

// Worked by hand. At 6 mm/h the baseline's 29 min a day are 2.9 mm; the limit
// allows 20 min, 2 mm. The option takes 60% of 29 min: 17.4 min, 1.74 mm, which
// the limit leaves alone. Against what ran that is 1.74/2.9 − 1 = −40%; against
// what the limit would leave of it 1.74/2 − 1 = −13%. Both are shown.
func TestBaselineAsItRanAndCut(t *testing.T) {
	l, table := ruled(t, 1)
	names := []string{"first", "ran", "older", "option", "ran, if cut to the rules", tally.NoWater, tally.LeastWater}
	if !slices.Equal(table.Strategies, names) || table.Baseline != 1 || table.Cut != 4 {
		t.Fatalf("%q, baseline %d, cut %d", table.Strategies, table.Baseline, table.Cut)
	}
	rows := table.Compare()
	for s, want := range []float64{-0.89, 0, -0.49, -0.40, 2/2.9 - 1} {
		if math.Abs(rows[s].Change-want) > 1e-12 {
			t.Errorf("%s changes water by %g, want %g", names[s], rows[s].Change, want)
		}
	}
	// 365 days of 2.9 mm on 100 m².
	if got := table.VolumeInYear(1, 2013); math.Abs(got-365*0.29) > 1e-9 {
		t.Errorf("the baseline applies %g m³, want %g", got, 365*0.29)
	}
	// Each day of the exempt baseline is listed, 9 min beyond the limit, and so it is
	// when it is cut; the others break nothing.
	for s, want := range []int{0, 365, 0, 0, 365} {
		if got := len(table.Breaches[s]); got != want || want > 0 && math.Abs(table.Breaches[s][0].Minutes-9) > 1e-9 {
			t.Errorf("%s: %d breaches, want %d: %+v", names[s], got, want, table.Breaches[s][:min(1, got)])
		}
	}
	notes, err := l.Notes(table)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(notes, "\n")
	for _, want := range []string{
		"Baseline: ran, named in the scenario.",
		"Change against the baseline as it ran, and against it cut to the limits:\n  first: 89% less; 84% less\n" +
			"  older: 49% less; 26% less\n  option: 40% less; 13% less\n", // 3.19 and 14.79 min against 20: −84.05% and −26.05%
		"  ran: 365 breaches, 3,285 minutes applied anyway", // 365 · 9
		"  option: none",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the notes lack %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "ran, if cut to the rules: 365") {
		t.Errorf("the breaches of the baseline are listed twice:\n%s", text)
	}
	page := plots.NewReport(l.ChartData(table, &Season{}), l.Facts(table, 0))
	// With so little water every option leaves the lawn thirstier than the baseline.
	if !strings.HasPrefix(page.Answer, "Nothing here is ready to recommend: every option browns part of “lawn” on ") ||
		!strings.Contains(page.Basis, "Cut to the limits it would use") ||
		!strings.Contains(page.Basis, "31% less") {
		t.Errorf("page one says\n%s\n%s", page.Answer, page.Basis)
	}
	for i, want := range []string{"", "It runs when local rules forbid it.", "", "", "Local rules shorten or drop some of its runs"} {
		about := page.Front.Options.Rows[i].Fails
		if want == "" && !strings.Contains(about, "ocal rules") || want != "" && strings.Contains(about, want) {
			continue
		}
		t.Errorf("row %d: %q, want %q", i, about, want)
	}
}

// A baseline that the scenario binds is cut as the others are, and there is no
// second one beside it; nor is there where breaches are applied anyway or none
// happens.
func TestNoCutBaseline(t *testing.T) {
	for why, edits := range map[string][]string{
		"bound":       {"name: ran,", "name: ran, limits: binding,"},
		"flagged":     {"{max_minutes: 20 min}", "{max_minutes: 20 min, on_conflict: flag}"},
		"never cut":   {"{max_minutes: 20 min}", "{max_minutes: 29 min}"},
		"no limits":   {"limits: {max_minutes: 20 min}\n", ""},
		"exempt zone": {"{max_minutes: 20 min}", "{max_minutes: 20 min, exempt: [lawn]}"},
	} {
		_, table := ruled(t, 1, edits...)
		want := -0.40 // of 29 min
		if why == "bound" {
			want = 17.4/20 - 1
		}
		if got := table.Compare()[3].Change; table.Cut != 0 || len(table.Strategies) != 6 || math.Abs(got-want) > 1e-12 {
			t.Errorf("%s: cut %d, the option changes water by %g, want %g", why, table.Cut, got, want)
		}
	}
}

// Limits from July 2014 on, in a record of 2013 to 2016: figures are of 2015 and
// 2016. By hand, as above: the cut baseline applies 2.9 mm a day until then.
func TestLimitsFromADate(t *testing.T) {
	l, table := ruled(t, 4, "limits: {", "limits: {from: 2014-07-01, ")
	if years := table.RankYears().Years; !slices.Equal(slices.Sorted(slices.Values(years)), []int{2015, 2016}) || table.Days() != 365+366 {
		t.Errorf("years %v, %d days", years, table.Days())
	}
	// 181 days of 2.9 mm and 184 of 2 mm on 100 m².
	for year, want := range map[int]float64{2013: 365 * 0.29, 2014: 181*0.29 + 184*0.2, 2015: 365 * 0.2} {
		if got := table.VolumeInYear(table.Cut, year); math.Abs(got-want) > 1e-9 {
			t.Errorf("in %d the cut baseline applies %g m³, want %g", year, got, want)
		}
	}
	if got := table.Compare()[table.Cut].Change; math.Abs(got-(2/2.9-1)) > 1e-12 {
		t.Errorf("the limits cut %g of the baseline in the years that count", got)
	}
	const line = "The limits hold from 2014-07-01; all figures use the whole years after it, 2015 to 2016 (2)."
	notes, err := l.Notes(table)
	if err != nil || !slices.Contains(notes, line) {
		t.Errorf("%v, the notes are %q", err, notes)
	}
	if page := plots.NewReport(l.ChartData(table, &Season{}), l.Facts(table, 0)); !strings.Contains(page.Basis, line) {
		t.Errorf("page one says %q", page.Basis)
	}
	// On the record's first day or before, they hold for all of it.
	if _, all := ruled(t, 2, "limits: {", "limits: {from: 2013-01-01, "); len(all.RankYears().Years) != 2 {
		t.Errorf("years %v", all.RankYears())
	}
	// No whole year is left.
	_, err = ruledStudy(t, 2, "limits: {", "limits: {from: 2014-01-02, ")
	var fault *diag.Error
	if !errors.As(err, &fault) || fault.Code != diag.NoWholeYear || fault.Pos.Line == 0 {
		t.Errorf("got %v", err)
	}
}

// JSON has the flags of each strategy, and the years that count.
func TestFlagsInJSON(t *testing.T) {
	l, table := ruled(t, 3, "limits: {", "limits: {from: 2013-05-01, ", "name: older,", "name: older, limits: none,")
	var got struct {
		Baseline   BaselineRecord
		Strategies []struct {
			Strategy  string
			Baseline  bool
			Cut       bool `json:"baseline_cut_to_limits"`
			Limits    string
			Breaches  *int
			Applied   *bool    `json:"breaches_applied"`
			Reference bool     `json:"reference"`
			Change    *float64 `json:"change_against_baseline"`
			OfCut     *float64 `json:"change_against_cut_baseline"`
		}
	}
	data, err := json.Marshal(l.Summary(table))
	if err == nil {
		err = json.Unmarshal(data, &got)
	}
	if err != nil {
		t.Fatal(err)
	}
	if b := got.Baseline; b.Strategy != "ran" || !b.Named || b.LimitsFrom != "2013-05-01" || !slices.Equal(b.Years, []int{2014, 2015}) {
		t.Errorf("%+v", b)
	}
	for s, limits := range []string{"binding", "none", "none", "binding", "binding", "", ""} {
		st := got.Strategies[s]
		if st.Limits != limits || st.Baseline != (s == 1) || st.Cut != (s == 4) || st.Reference != (s > 4) || st.Change == nil ||
			(st.OfCut == nil) != (s > 4) || s <= 4 && (st.Applied == nil || *st.Applied != (limits == "none")) {
			t.Errorf("%+v", st)
		}
	}
	if got := *got.Strategies[3].OfCut; math.Abs(got-(-0.13)) > 1e-12 { // 17.4 of 20 min
		t.Errorf("against the cut baseline the option changes water by %g, want -0.13", got)
	}
	var codes []string
	for _, w := range l.Warnings(table) {
		if w.Code == string(scenarios.BreaksLimits) {
			codes = append(codes, w.Strategy)
		}
	}
	if !slices.Equal(codes, []string{"ran"}) {
		t.Errorf("warned of %q", codes)
	}
}
