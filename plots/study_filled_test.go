package plots

import (
	"testing"

	"loamledger/weather/cal"
)

// Worked by hand: ten days, of which the third and the fifth were filled.
func TestFilledNote(t *testing.T) {
	from := cal.Of(2030, 6, 1)
	s := &Study{From: from, To: from + 9, Filled: make([]bool, 10)}
	s.Filled[2], s.Filled[4] = true, true
	for _, tt := range []struct {
		from, to cal.Date
		want     string
	}{
		{from, from + 9, "Weather is filled or synthetic, not observed, on 2 of 10 days shown."},
		{from + 3, from + 9, "Weather is filled or synthetic, not observed, on 1 of 7 days shown."},
		{from + 5, from + 9, ""},
		{from + 2, from + 2, "All weather shown is filled or synthetic, not observed."},
	} {
		if got := s.filledNote(&Chart{From: tt.from, To: tt.to}); got != tt.want {
			t.Errorf("%v to %v: %q, want %q", tt.from, tt.to, got, tt.want)
		}
	}
	if got := (&Study{}).filledNote(&Chart{}); got != "" {
		t.Errorf("a study without filled days says %q", got)
	}
}
