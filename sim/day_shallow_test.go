package sim

import "testing"

// Worked by hand: TAW 6 and p 0.5 leave 3 mm beyond RAW. A day of 4 mm uses it up;
// a day of 3 mm does not.
func TestShallowDays(t *testing.T) {
	z := &Zone{TAWMM: 6, P: 0.5, PConstant: true}
	days := []Day{{ETcMM: 4, RAWMM: 3}, {ETcMM: 3, RAWMM: 3}, {ETcMM: 5, RAWMM: 3}}
	if n := ShallowDays(z, days); n != 2 {
		t.Errorf("%d days, want 2", n)
	}
	z.WorkingStorage = true
	if n := ShallowDays(z, days); n != 0 {
		t.Errorf("a plain store has no RAW, but %d days are counted", n)
	}
}
