package cal

import "testing"

// The first day of 1970 is the number 0, which must not be read as a missing date.
func TestPeriod(t *testing.T) {
	epoch := Of(1970, 1, 1)
	tests := []struct {
		p                 Period
		before, on, after bool
	}{
		{Period{}, true, true, true},
		{Period{}.From(epoch), false, true, true},
		{Period{}.To(epoch), true, true, false},
		{Period{}.From(epoch).To(epoch), false, true, false},
	}
	for _, tt := range tests {
		if tt.p.Holds(epoch-1) != tt.before || tt.p.Holds(epoch) != tt.on || tt.p.Holds(epoch+1) != tt.after {
			t.Errorf("%+v: %v %v %v, want %v %v %v", tt.p, tt.p.Holds(epoch-1), tt.p.Holds(epoch), tt.p.Holds(epoch+1), tt.before, tt.on, tt.after)
		}
	}
	if _, ok := (Period{}).First(); ok {
		t.Error("an open end has a first day")
	}
	if d, ok := (Period{}.From(epoch)).First(); !ok || d != epoch {
		t.Errorf("first day %v, %v", d, ok)
	}
}
