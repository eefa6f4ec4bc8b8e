package strategy

import (
	"math"
	"slices"
	"testing"
)

// Hand: 1.2 times 22 and 10 min are 26.4 and 12, rounded up to 27 and 12. A manual run
// and a zone that is not short stay, and so does the strategy itself.
func TestWithRunTimes(t *testing.T) {
	st := Strategy{Name: "a", Parts: []Part{Programs{List: []Program{
		{Name: "p", Minutes: []float64{22, 40}}, {Name: "q", Minutes: []float64{10, 0}}, {Name: "hand", Minutes: []float64{5, 5}, ByHand: true},
	}}}}
	more, entered := st.WithRunTimes([]float64{1.2, 1})
	if want := []RunTime{{"p", 0, 27}, {"q", 0, 12}}; !slices.Equal(entered, want) {
		t.Errorf("%v, want %v", entered, want)
	}
	list := more.Parts[0].(Programs).List
	for i, want := range [][]float64{{27, 40}, {12, 0}, {5, 5}} {
		if !slices.Equal(list[i].Minutes, want) {
			t.Errorf("%s: %v, want %v", list[i].Name, list[i].Minutes, want)
		}
	}
	if got := st.Parts[0].(Programs).List[0].Minutes[0]; got != 22 {
		t.Errorf("the strategy itself now has %g min", got)
	}
	refill := Strategy{Name: "r", Parts: []Part{&Refill{}}}
	more, entered = refill.WithRunTimes([]float64{1, 1.35})
	share := more.Parts[1].(ZonePercent).Share
	if entered != nil || !math.IsNaN(share[0]) || share[1] != 1.35 {
		t.Errorf("a refill: %v, shares %v", entered, share)
	}
}
