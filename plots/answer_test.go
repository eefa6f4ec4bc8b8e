package plots

import (
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// study makes one year on one zone of 1000 m²: own strategies of the given
// yearly depths [mm] and stress days, then the references; the need is 500 mm.
func study(mm []float64, stress []int) *Study {
	t := &tally.Table{Zones: []sim.Zone{{Name: "lawn", AreaM2: 1000}}, Spans: []sim.Span{}}
	add := func(name string, gross float64, days int) {
		t.Strategies = append(t.Strategies, name)
		months := make([]sim.Sums, 12)
		for m := range months {
			months[m] = sim.Sums{Days: 30, GrossMM: gross / 12, StressDays: 0}
		}
		months[6].StressDays = days
		t.Outcomes = append(t.Outcomes, []tally.Outcome{{Months: months}})
	}
	for i := range mm {
		add(string(rune('A'+i)), mm[i], stress[i])
	}
	add(tally.NoWater, 0, 31)
	add(tally.LeastWater, 500, 0)
	day := 0
	for m := 1; m <= 12; m++ {
		n := cal.DaysIn(2001, m)
		t.Spans = append(t.Spans, sim.Span{Year: 2001, Month: m, From: day, To: day + n})
		day += n
	}
	return &Study{Units: SI, Table: t}
}

// TestAnswer covers each way the comparison can come out; the wording follows
// from the depths by hand.
func TestAnswer(t *testing.T) {
	tests := []struct {
		name   string
		mm     []float64
		stress []int
		want   []string
	}{
		{"a saving", []float64{1000, 700, 900}, []int{6, 8, 0}, []string{"“B” uses an estimated 30 % less water than “A”", "8 stress days in a dry year instead of 6"}},
		{"a saving that browns", []float64{1000, 700}, []int{6, 12}, []string{"None of the other strategies uses less water than “A”", "the nearest is “B”: an estimated 30 % less water, with 12 such days instead of 6"}},
		{"the cheapest in stress", []float64{1000, 400, 700, 950}, []int{6, 30, 14, 12}, []string{"the nearest is “C”: an estimated 30 % less water, with 14 such days instead of 6"}},
		{"at the limit", []float64{1000, 700}, []int{6, 11}, []string{"“B” uses an estimated 30 % less"}},
		{"too close", []float64{1000, 950}, []int{6, 6}, []string{"Too close to call", "5 % less"}},
		{"all use more", []float64{400, 600, 500}, []int{20, 0, 2}, []string{"None of the other", "the nearest is “C”: an estimated 25 % more water, with 2 such days instead of 20"}},
		{"alone", []float64{1000}, []int{6}, []string{"no other strategy"}},
		{"nothing applied", []float64{0, 600}, []int{6, 0}, []string{"applies no water"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := study(tt.mm, tt.stress)
			got := answer(s, s.Table.Compare())
			for _, want := range tt.want {
				if !strings.Contains(got, want) {
					t.Errorf("%q lacks %q", got, want)
				}
			}
		})
	}
}

// TestMoreWaterIsSaidPlainly holds that a strategy that uses more says so in
// the table, and that a low ratio is warned of.
func TestMoreWaterIsSaidPlainly(t *testing.T) {
	r := NewReport(study([]float64{300, 600}, []int{20, 0}), &Facts{})
	if got := r.Comparison.Rows[1].Cells[1]; got != "100 % more" {
		t.Errorf("change %q, want 100 %% more", got)
	}
	if want := "will use more water"; !strings.Contains(r.Diagnosis, want) {
		t.Errorf("%q lacks %q", r.Diagnosis, want)
	}
	if r.Label != Estimated {
		t.Errorf("label %q", r.Label)
	}
	for _, row := range r.Comparison.Rows {
		if len(row.Cells) != len(r.Comparison.Head) {
			t.Errorf("%s: %d cells under %d heads", row.Name, len(row.Cells), len(r.Comparison.Head))
		}
	}
	for _, row := range r.Zones[0].Table.Rows {
		if len(row.Cells) != len(r.Zones[0].Table.Head) {
			t.Errorf("%s: %d cells under %d heads", row.Name, len(row.Cells), len(r.Zones[0].Table.Head))
		}
	}
}
