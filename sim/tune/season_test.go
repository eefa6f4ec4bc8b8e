package tune

import "testing"

// TestSmoothed by hand: a month alone at 0 between 4 and 8 gets (4 + 0 + 8)/4 =
// 3 of a highest 8; the highest stays; 1 next to 8 gets (0 + 2 + 8)/4.
func TestSmoothed(t *testing.T) {
	got := smoothed([12]float64{4, 0, 8, 1})
	want := [12]float64{0.5, 0.375, 1, 0.3125, 0.03125, 0, 0, 0, 0, 0, 0, 0.125}
	if got != want {
		t.Errorf("smoothed %v, by hand %v", got, want)
	}
	if all := smoothed([12]float64{}); all[0] != 1 || all[11] != 1 {
		t.Errorf("nothing at all gives %v, by definition all months equal", all)
	}
}

// TestClosed by hand: only the longest time off counts, also across the year end;
// every other month that is off gets one step.
func TestClosed(t *testing.T) {
	for _, c := range []struct{ from, want row }{
		{row{0, 0, 3, 9, 0, 9, 3, 0, 0, 0, 0, 0}, row{0, 0, 3, 9, 1, 9, 3, 0, 0, 0, 0, 0}},
		{row{5, 0, 0, 0, 0, 7, 0, 0, 2, 0, 3, 4}, row{5, 0, 0, 0, 0, 7, 1, 1, 2, 1, 3, 4}},
		{row{0, 4, 0, 4, 4, 4, 4, 4, 4, 4, 4, 0}, row{0, 4, 1, 4, 4, 4, 4, 4, 4, 4, 4, 0}},
		{row{}, row{}},
		{row{1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}, row{1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}},
	} {
		if got := c.from.closed(); got != c.want {
			t.Errorf("%v is closed to %v, by hand %v", c.from, got, c.want)
		}
	}
}
