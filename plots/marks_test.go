package plots

import (
	"strings"
	"testing"
)

// TestMarksVerdict by hand: B saves 30 % and may have 5 stress days more than A.
func TestMarksVerdict(t *testing.T) {
	mm := []float64{1000, 700, 800}
	given := study(mm, []int{6, 8, 7})
	at := func(low, high []int) *PlantMarks {
		return &PlantMarks{Cases: []MarksCase{{-0.1, study(mm, low).Table}, {0, given.Table}, {0.1, study(mm, high).Table}}}
	}
	for _, tt := range []struct {
		name      string
		low, high []int
		same      bool
		want      []string
	}{
		{"the same", []int{0, 0, 0}, []int{9, 14, 30}, true, []string{"The verdict is the same with marks 0.1 lower and higher",
			"Stress days of “B” a year on average: 0 with marks 0.1 lower, 8 with marks as given, 14 with marks 0.1 higher."}},
		{"another is recommended", []int{0, 0, 0}, []int{8, 14, 13}, false, []string{"The verdict flips with marks moved by 0.1",
			"With marks 0.1 higher, “C” is recommended: it saves an estimated 200 m³ a year, 20% of what “A” uses"}},
		{"none is recommended", []int{0, 6, 6}, []int{10, 12, 12}, false, []string{"The verdict flips",
			"With marks 0.1 lower, no strategy is recommended: Best trade-off: “B” saves"}},
	} {
		text := given.MarksVerdict(at(tt.low, tt.high))
		for _, want := range tt.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q lacks %q", tt.name, text, want)
			}
		}
		answers := given.MarksAnswers(at(tt.low, tt.high))
		if same := answers[0].Same && answers[2].Same; same != tt.same || !answers[1].Same || answers[1].Recommended != "B" {
			t.Errorf("%s: %+v", tt.name, answers)
		}
	}
	if text := given.MarksVerdict(nil); text != "" {
		t.Errorf("no replays: %q", text)
	}
}

// TestWinterWater by hand: 12 dry winter days in the year's one whole year; a zone
// with none is not named, nor is a strategy that only references have.
func TestWinterWater(t *testing.T) {
	s := study([]float64{1000, 700}, []int{6, 8})
	if note := s.WinterNote(); note != "" {
		t.Errorf("no dry winter day: %q", note)
	}
	dry := func(st int) {
		for m, days := range []int{7, 5} {
			s.Table.Outcomes[st][0].Months[m].DryWinterDays = days
		}
	}
	dry(s.Table.NoWaterIndex())
	if note := s.WinterNote(); note != "" {
		t.Errorf("only without water: %q", note)
	}
	dry(1)
	const want = "Dry winter days a year, with dormant plants in dry soil that is not frozen: lawn 12 under “B”. " +
		"On a day above 4.4 °C without snow or ice, water these zones once a month if local rules allow it (common practice, no source)."
	if got := s.WinterNote(); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	r := NewReport(s, &Facts{})
	if got := r.Notes[len(r.Notes)-2]; got.Term != "Winter" || got.Text != want {
		t.Errorf("the page has %+v", r.Notes)
	}
	other := *s.Table
	other.Cut = 1
	s.Table = &other
	if note := s.WinterNote(); note != "" {
		t.Errorf("the baseline under limits is advised on: %q", note)
	}
}
