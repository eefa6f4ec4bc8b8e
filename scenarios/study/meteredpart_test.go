package study

import (
	"testing"

	"loamledger/sim/meter"
)

// A saving is never without its confidence. Hand: 20 ± 4 of 100 m³ are 20% ± 4 points, and
// 4 is below half of 20; ± 10 is not, and then it is too close to call.
func TestAVerifiedSavingHasItsConfidence(t *testing.T) {
	for _, tt := range []struct {
		by   meter.SavingBy
		want string
	}{
		{meter.SavingBy{BaselineM3: 100, M3: 20, Plus: 4, PlusOK: true},
			"Saving of 20.0% ± 4.0 points at 68% confidence, verified at this meter"},
		{meter.SavingBy{BaselineM3: 100, M3: 20, Plus: 10, PlusOK: true},
			"Saving of 20.0% ± 10.0 points at 68% confidence, verified at this meter: too close to call"},
		{meter.SavingBy{BaselineM3: 100, M3: -20, Plus: 4, PlusOK: true},
			"Increase of 20.0% ± 4.0 points at 68% confidence, verified at this meter"},
		{meter.SavingBy{BaselineM3: 100, M3: 20}, "Saving of 20.0%, verified at this meter: too close to call"},
	} {
		s := &meter.Saving{Status: meter.VerifiedSaving, By: []meter.SavingBy{tt.by}}
		if got := savingText(s); got != tt.want {
			t.Errorf("%+v: %s; want %s", tt.by, got, tt.want)
		}
	}
	if got := inSentences([]string{"One", "Two."}); got != "One. Two." {
		t.Error(got)
	}
}
