package sim

import "testing"

// Worked by hand: TAW 6, p 0.5: 3 mm lie past RAW; a day of 4 mm empties them,
// one of 3 mm does not.
func TestShallowDays(t *testing.T) {
	z := &Zone{TAWMM: 6, P: 0.5, PConstant: true}
	days := []Day{{ETcMM: 4, RAWMM: 3}, {ETcMM: 3, RAWMM: 3}, {ETcMM: 5, RAWMM: 3}}
	if n := ShallowDays(z, days); n != 2 {
		t.Errorf("%d days, want 2", n)
	}
	z.WorkingStorage = true
	if n := ShallowDays(z, days); n != 0 {
		t.Errorf("a plain store has no RAW, and %d days", n)
	}
}
