package plots

import (
	"slices"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// TestFrontColumnsAreMeasures: a view with a heading for the first page is a
// column of it, in its units; the references are on later pages.
func TestFrontColumnsAreMeasures(t *testing.T) {
	s := study([]float64{1000, 700}, []int{6, 8})
	s.Measures = append(tally.Measures(), tally.Measure{
		Key: "weary_mm", Title: "Weariness", About: "a made-up measure", Kind: tally.Depth,
		Get:   func(*tally.Cell) float64 { return 12 },
		Views: []tally.View{{Over: tally.Record, Front: "Weary"}, {Over: tally.DryYear}},
	})
	got := NewReport(s, &Facts{}).Front.Options
	want := []string{
		"Water (m³/yr)", "Change", "Thirsty days, typical year", "Thirsty days, dry year",
		"Browning days, driest part, dry year", "Runoff events a year", "Weary (mm)", "Meets the rule",
	}
	if !slices.Equal(got.Head, want) {
		t.Errorf("head %q, want %q", got.Head, want)
	}
	// 700 mm on 1000 m² in one whole year, of which 365 - 8 days are fine.
	if row := []string{"700", "30% less", "8 of 365", "8 of 365", "0", "0.0", "12", "yes"}; len(got.Rows) != 2 ||
		!slices.Equal(got.Rows[1].Cells, row) {
		t.Errorf("rows %+v, want 2 and the last %q", got.Rows, row)
	}
	if got.Rows[0].Named || !got.Rows[1].Named || got.Rows[0].Cells[1] != "baseline" {
		t.Errorf("rows %+v: the second is the one of the verdict, the first the baseline", got.Rows)
	}
}

// TestSmallPrintIsTheOtherPart by hand: whole zone 8 thirsty days, its driest quarter
// 31; the driest quarter 5 browning days, the whole zone 2.
func TestSmallPrintIsTheOtherPart(t *testing.T) {
	s := study([]float64{1000, 700}, []int{6, 8})
	july := &s.Table.Outcomes[1][0].Months[6]
	july.StressDays, july.BrownDays, july.BrownZoneDays = 31, 5, 2
	const want = "Also 31 (typical) and 31 (dry) thirsty days in driest parts, 2 (dry) browning days of whole zones."
	got := NewReport(s, &Facts{}).Front.Options.Rows[1]
	if !strings.HasPrefix(got.About, want) || got.Cells[2] != "8 of 365" || got.Cells[4] != "5" {
		t.Errorf("%q under %q, want %q", got.About, got.Cells, want)
	}
	s.Measures = slices.DeleteFunc(tally.Measures(), func(m tally.Measure) bool { return m.Part != "" })
	if got := NewReport(s, &Facts{}).Front.Options.Rows[1].About; strings.Contains(got, "Also") {
		t.Errorf("small print without its measure: %q", got)
	}
}

// TestLegalLine covers each way to comply with the limits.
func TestLegalLine(t *testing.T) {
	s := study([]float64{1000, 700, 600, 500}, []int{6, 8, 8, 8})
	s.Table.Breaches = [][]sim.Breach{{{Rule: "window"}}, {}, {{Rule: "window"}}, {}}
	f := &Facts{Legal: "B complies", LeftOut: []float64{0, 0, 90, 0}}
	for st, want := range []string{"It runs when local rules forbid it.", "", "Local rules shorten or drop some of its runs", ""} {
		if got := s.legalLine(f, st); !strings.HasPrefix(got, want) || want == "" && got != "" {
			t.Errorf("strategy %d: %q, want %q", st, got, want)
		}
	}
	f.Legal = ""
	if got := s.legalLine(f, 0); got != "" {
		t.Errorf("nothing is checked: %q", got)
	}
	for i, row := range NewReport(s, f).Front.Options.Rows[1:2] { // within every part that was checked
		if row.SpreadOf(len(row.Cells)-1) != "local rules not checked" {
			t.Errorf("row %d: %q", i, row.Spread)
		}
	}
}

// TestDoubtsByWeight by hand: a guessed rate on a zone with a quarter of the
// water weighs 0.25/4 = 0.0625; K from memory everywhere 0.20·0.8 = 0.16;
// uniformity as given 0.09; rain 0.08.
func TestDoubtsByWeight(t *testing.T) {
	s := study([]float64{1000, 700}, []int{6, 8})
	zone := s.Table.Zones[0]
	zone.Name, zone.AreaM2 = "bed", 3*zone.AreaM2
	s.Table.Zones = append(s.Table.Zones, zone)
	for st := range s.Table.Outcomes {
		s.Table.Outcomes[st] = append(s.Table.Outcomes[st], s.Table.Outcomes[st][0])
	}
	f := &Facts{Defaults: []Default{
		{Where: "lawn", Key: "sprinkler.rate", Grade: quantity.Guess},
		{Where: "lawn", Key: "plant.k", Grade: quantity.Memory},
		{Where: "bed", Key: "plant.k", Grade: quantity.Memory},
		{Where: "lawn", Key: "strips", Grade: quantity.Guess},
	}}
	front := NewReport(s, f).Front
	want := []string{"The water need of the plants in all zones is a general value", "Sprinkler uniformity is used as given",
		"Rain at the site"}
	if len(front.Uncertainties) != len(want) {
		t.Fatalf("%q, want three", front.Uncertainties)
	}
	for i := range want {
		if !strings.HasPrefix(front.Uncertainties[i], want[i]) {
			t.Errorf("%d: %q, want %q", i+1, front.Uncertainties[i], want[i])
		}
	}
	if !strings.Contains(front.Measure, "catch cans") { // K has no simple measurement
		t.Errorf("measure %q first", front.Measure)
	}
	f.Weather = WeatherFacts{Days: 365, SyntheticDays: 365}
	if got := NewReport(s, f).Front.Uncertainties[0]; !strings.HasPrefix(got, "The weather is synthetic") {
		t.Errorf("first %q", got)
	}
	f.Uncertainties, f.measure = []string{"one", "two"}, "the soil"
	if front := NewReport(s, f).Front; len(front.Uncertainties) != 2 || front.Measure != "the soil" {
		t.Errorf("given %q and %q", front.Uncertainties, front.Measure)
	}
}

// TestFrontHasRoomForAlarms: two of five implausible inputs are on the first
// page, which counts the others.
func TestFrontHasRoomForAlarms(t *testing.T) {
	r := NewReport(study([]float64{1000, 700}, []int{6, 8}), &Facts{Warnings: []string{"a", "b", "c", "d", "e"}})
	if len(r.Front.Alarms) != 2 || r.Front.MoreAlarms != 3 || len(r.Alarms) != 5 {
		t.Errorf("%q and %d more, of %q", r.Front.Alarms, r.Front.MoreAlarms, r.Alarms)
	}
}

// TestStepsFollowTheVerdict: nobody is sent to enter what saves nothing, a trade-off is
// a decision, and no reader of the first page is sent to a file or a command.
func TestStepsFollowTheVerdict(t *testing.T) {
	for _, tt := range []struct {
		mm     []float64
		stress []int
		at     int
		want   string
	}{
		{[]float64{1000, 700}, []int{6, 6}, enterStep,
			"Read the water meter. Then have whoever programs the controller enter the settings for “B.”"},
		{[]float64{1000, 700}, []int{6, 14}, enterStep, "Decide whether the extra thirst is acceptable. If so, read the water meter, then have"},
		{[]float64{1000, 1200}, []int{6, 0}, enterStep, "Keep “A” for now"},
		{[]float64{1000, 980}, []int{6, 6}, enterStep, "Keep “A” for now"},
		{[]float64{1000, 700}, []int{6, 60}, 0,
			"Keep “A” for now. Do not enter any of the options yet. Ask whoever prepared this report to try more minutes"},
		{[]float64{1000}, []int{6}, enterStep, "Have whoever prepared this report add other options"},
	} {
		r := NewReport(study(tt.mm, tt.stress), &Facts{})
		if got := r.Front.Steps[tt.at]; !strings.HasPrefix(got, tt.want) {
			t.Errorf("%v, %v: %q, want %q", tt.mm, tt.stress, got, tt.want)
		}
		for _, step := range r.Front.Steps {
			for _, word := range []string{"loamledger", "scenario", "replay"} {
				if strings.Contains(step, word) {
					t.Errorf("%v, %v: %q has %q", tt.mm, tt.stress, step, word)
				}
			}
		}
	}
	r := NewReport(study([]float64{1000, 700}, []int{6, 60}), &Facts{})
	if got := r.Front.Technical[0]; got.Term != "For whoever runs the program" || !strings.Contains(got.Text, "loamledger tune") {
		t.Errorf("%+v", got)
	}
}

// TestOptionsSayWhatTheyDo: each row has its plain line, the baseline without
// equipment; the step for the recommended option names what it needs.
func TestOptionsSayWhatTheyDo(t *testing.T) {
	r := NewReport(study([]float64{1000, 700, 900}, []int{6, 6, 6}), &Facts{About: []About{
		{Text: "1 program", Sheet: true}, {Text: "off after rain", Needs: "rain sensor", Sheet: true}, {Text: "2 programs", Sheet: true},
	}})
	want := []string{"1 program.", "Off after rain. New equipment: rain sensor.", "2 programs. No new equipment."}
	for i, row := range r.Front.Options.Rows {
		if row.About != want[i] {
			t.Errorf("row %d: %q, want %q", i, row.About, want[i])
		}
	}
	if step := r.Front.Steps[enterStep]; !strings.Contains(step, "New equipment: rain sensor") ||
		!strings.Contains(step, "A settings sheet lists the values") {
		t.Errorf("step %q", step)
	}
}

// TestPunctuationGoesInsideQuotes covers both marks.
func TestPunctuationGoesInsideQuotes(t *testing.T) {
	if got := punctuated("“a”, “b” and “c”."); got != "“a,” “b” and “c.”" {
		t.Errorf("%q", got)
	}
}
