package strategy

import (
	"slices"
	"testing"
)

// Hand: 1.25 times 20 is 25; other programs, runs by hand and the strategy itself stay.
func TestWithProgramTimes(t *testing.T) {
	st := Strategy{Name: "a", Unbound: true, Role: Baseline, Parts: []Part{Monthly{}, Programs{List: []Program{
		{Name: "p", Minutes: []float64{20, 0}}, {Name: "q", Minutes: []float64{10, 4}}, {Name: "p", Minutes: []float64{5}, ByHand: true}}}}}
	if got := st.ProgramNames(); !slices.Equal(got, []string{"p", "q"}) {
		t.Errorf("programs %q", got)
	}
	out := st.WithProgramTimes([]string{"p"}, 1.25)
	list := out.Parts[1].(Programs).List
	for i, want := range [][]float64{{25, 0}, {10, 4}, {5}} {
		if !slices.Equal(list[i].Minutes, want) {
			t.Errorf("%s: %v, want %v", list[i].Name, list[i].Minutes, want)
		}
	}
	if st.Parts[1].(Programs).List[0].Minutes[0] != 20 || !out.Unbound || out.Role != Baseline {
		t.Errorf("%+v", out)
	}
}
