package plots_test

import (
	"slices"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
	"loamledger/sim/draw"
	"loamledger/sim/tally"
)

// TestRangeVerdictAtItsBounds: of a thousand draws, all make a verdict that stands
// whatever the inputs are, nine tenths a firm one, a tenth none, and what is between is
// too close to call; one draw decides at each bound.
func TestRangeVerdictAtItsBounds(t *testing.T) {
	s := sample.Study(sample.Options{Strategies: 3, Zones: 1, Years: 12})
	for _, c := range []struct {
		better int
		want   string
		close  bool
	}{
		{1000, "The verdict is the same in all 1,000 tries", false},
		{999, "The verdict is firm", false}, {900, "The verdict is firm", false},
		{899, "Too close to call", true}, {101, "Too close to call", true},
		{100, "Not recommended", false}, {1, "Not recommended", false},
		{0, "In none of 1,000 tries", false},
	} {
		r := sample.Ranges(s, c.better, 1000)
		if got := s.RangeVerdict(r); !strings.Contains(got, c.want) || r.TooClose() != c.close {
			t.Errorf("%d of 1,000: %q", c.better, got)
		}
	}
	r := sample.Ranges(s, 500, 1000)
	r.Option = s.Table.Baseline
	if s.RangeVerdict(r)+s.RangeSaving(r)+s.OtherSettings(r) != "" {
		t.Error("without an option there is nothing to decide")
	}
}

// TestRivalIsNamed: another option that is best in more than a tenth of the draws is
// named, and not in a tenth.
func TestRivalIsNamed(t *testing.T) {
	s := sample.Study(sample.Options{Strategies: 4, Zones: 1, Years: 12})
	for best, named := range map[int]bool{101: true, 100: false, 0: false} {
		r := sample.Ranges(s, 900, 1000)
		r.Options[2].Best = best
		if got := strings.Contains(s.RangeVerdict(r), "is the better choice"); got != named {
			t.Errorf("best in %d of 1,000 draws: named %v", best, got)
		}
	}
}

// TestPageOneWithDraws: numbers have their range below them; an answer on which the draws
// are divided recommends nothing, and one that they confirm does.
func TestPageOneWithDraws(t *testing.T) {
	s := sample.Study(sample.Options{Strategies: 3, Zones: 1, Years: 12})
	plain := plots.NewReport(s, &plots.Facts{})
	if plain.Ranges != nil || plain.Front.Ranges != "" || len(plain.Front.Options.Rows[0].SpreadOf(0)) > 0 {
		t.Error("ranges without draws")
	}
	for better, close := range map[int]bool{1000: false, 600: true} {
		r := plots.NewReport(s, &plots.Facts{Ranges: sample.Ranges(s, better, 1000)})
		row := r.Front.Options.Rows[1]
		if !strings.Contains(row.SpreadOf(0), " to ") {
			t.Errorf("no range below %q: %q", row.Cells[0], row.SpreadOf(0))
		}
		if len(r.Front.Uncertainties) != 2 || !strings.Contains(r.Front.Uncertainties[0], "at 0.80 the saving is") {
			t.Errorf("the inputs that move the saving most: %q", r.Front.Uncertainties)
		}
		if !strings.Contains(r.Front.Measure, "the flow of front") || !strings.Contains(r.Front.Measure, "20%") {
			t.Errorf("what to measure: %q", r.Front.Measure)
		}
		if strings.HasPrefix(plain.Answer, "Recommended") && close == strings.HasPrefix(r.Answer, "Recommended") {
			t.Errorf("%d of 1,000 draws: %q", better, r.Answer)
		}
		if r.Ranges == nil || len(r.Ranges.Tables) < 4 {
			t.Error("no section on ranges")
		}
	}
}

// TestNarrowDraws: draws that move the saving by less than counts, here 4 of 100, leave
// the doubts of the report in place and say why they are narrow; a saving of 50 to 130
// does not. What a rejected option would save is no statement of fact.
func TestNarrowDraws(t *testing.T) {
	s := sample.Study(sample.Options{Strategies: 3, Zones: 1, Years: 12})
	of := sample.Ranges(s, 0, 1000)
	of.Saving = draw.Spread{P10: 98, P50: 100, P90: 102}
	plain, r := plots.NewReport(s, &plots.Facts{}), plots.NewReport(s, &plots.Facts{Ranges: of})
	if !slices.Equal(r.Front.Uncertainties, plain.Front.Uncertainties) || r.Front.Measure != plain.Front.Measure {
		t.Errorf("narrow draws decide the doubts: %q, %q", r.Front.Uncertainties, r.Front.Measure)
	}
	if got := s.RangeSaving(of); !strings.Contains(got, " would save ") || !strings.Contains(got, "That is narrow because") {
		t.Errorf("a narrow saving: %q", got)
	}
	if got := s.RangeSaving(sample.Ranges(s, 1000, 1000)); strings.Contains(got, "would save") || strings.Contains(got, "narrow") {
		t.Errorf("a wide saving: %q", got)
	}
}

// TestRangesBelowTheCells by hand: of a spread from 0.8 to 1.3 of each value, the lower
// number comes first, of a change the smaller saving; water that no
// draw changes is “not varied”, since “same” would look certain.
func TestRangesBelowTheCells(t *testing.T) {
	s := sample.Study(sample.Options{Strategies: 3, Zones: 1, Years: 12})
	of := sample.Ranges(s, 1000, 1000)
	for i := range of.Spreads {
		f := &of.Spreads[i]
		switch {
		case f.Figure.Measure.Kind == tally.Change:
			f.Of[1] = draw.Spread{P10: -0.6, P50: -0.5, P90: -0.46}
		case f.Figure.Measure.Kind == tally.Volume:
			f.Of[1] = draw.Spread{P10: 5, P50: 5, P90: 5}
		case f.Figure.Rest:
			f.Of[1] = draw.Spread{P10: 5, P50: 7, P90: 17}
		}
	}
	row := plots.NewReport(s, &plots.Facts{Ranges: of}).Front.Options.Rows[1]
	for i, want := range []string{"not varied", "46% to 60% less", "5 to 17", "5 to 17"} {
		if got := row.SpreadOf(i); got != want {
			t.Errorf("cell %d: %q, want %q", i, got, want)
		}
	}
}

// TestWhatIsNotDrawn: notes say that prices are not drawn, and how many defaults are not.
func TestWhatIsNotDrawn(t *testing.T) {
	s := sample.Study(sample.Options{Strategies: 3, Zones: 1, Years: 12})
	of := sample.Ranges(s, 1000, 1000)
	if got := strings.Join(s.RangeNotes(of), " "); strings.Contains(got, "not drawn") {
		t.Errorf("%q", got)
	}
	of.Priced, of.General = true, 3
	for _, want := range []string{"Prices are not drawn", "3 defaults of density, microclimate or slope are not drawn"} {
		if got := strings.Join(s.RangeNotes(of), " "); !strings.Contains(got, want) {
			t.Errorf("%q lacks %q", got, want)
		}
	}
}

// TestRangeCharts: bars reach from P10 to P90, and inputs that do not move the saving are
// not drawn.
func TestRangeCharts(t *testing.T) {
	s := sample.Study(sample.Options{Strategies: 3, Zones: 1, Years: 12})
	charts := plots.RangeCharts(s, sample.Ranges(s, 900, 1000))
	if len(charts) != 2 || plots.RangeCharts(s, nil) != nil {
		t.Fatalf("%d charts", len(charts))
	}
	bars := charts[0].Panels[0].Series[0]
	for i := range bars.X {
		if bars.Base[i] >= bars.X[i] {
			t.Errorf("bar %d from %v to %v", i, bars.Base[i], bars.X[i])
		}
	}
	if n := len(charts[1].Y.Ticks); n != 2 {
		t.Errorf("%d inputs drawn, 2 move the saving", n)
	}
	r := sample.Ranges(s, 900, 1000)
	r.Swings = nil
	if len(plots.RangeCharts(s, r)) != 1 {
		t.Error("a chart of inputs without any")
	}
}
