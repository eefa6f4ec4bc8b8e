package study

import (
	"strings"
	"testing"

	"loamledger/sim/meter"
	"loamledger/weather/cal"
)

// TestMeasuredAndEstimatedAreApart: a saving that a meter verified is named with its change,
// its days and its confidence, and not among the estimates; without it, or if it is not verified,
// nothing is said to be measured.
func TestMeasuredAndEstimatedAreApart(t *testing.T) {
	by := []meter.SavingBy{{BaselineM3: 100, M3: 20, Plus: 4, PlusOK: true}}
	m := &ComparedMeter{MeterInput: &MeterInput{}, strategy: "as found", afterName: "months",
		supports: meter.TestsSchedule, Comparison: &meter.Comparison{Scores: []meter.ScopeScore{{Scope: meter.Outdoor}}},
		Saving: &meter.Saving{Status: meter.VerifiedSaving, By: by, From: cal.Of(2022, 4, 1), To: cal.Of(2023, 4, 1)}}
	m.Name, m.Use.Changed = "house", cal.Of(2022, 3, 5)
	l, list := yard(t, 1), []*ComparedMeter{m}
	want := "the change of March 5, 2022 from “as found” to “months”, by meter house from April 1, 2022 to April 1, 2023: " +
		"saving of 20.0% ± 4.0 points at 68% confidence, verified at this meter. A bias of the baseline is not in it. " +
		"All other savings are estimated."
	if got := l.VerifiedFact(list); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := l.RunningFact(list), "“months” has run since March 5, 2022, not “as found.”"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := l.MeteredFact(list); strings.Contains(got, "verified") {
		t.Errorf("a measured saving among estimates: %q", got)
	}
	m.Saving.Status, m.afterName = meter.EstimatedSaving, ""
	if got := l.VerifiedFact(list) + l.RunningFact(list) + l.VerifiedFact(nil); got != "" {
		t.Errorf("not verified: %q", got)
	}
}

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
