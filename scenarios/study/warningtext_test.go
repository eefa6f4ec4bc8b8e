package study

import (
	"slices"
	"testing"

	"loamledger/scenarios"
	"loamledger/weather/diag"
)

// TestWarningsOfOneKindAreOneSentence: warnings of the same kind and place about several
// strategies are one sentence with the worst of them; others keep theirs, and no place in
// a file is printed.
func TestWarningsOfOneKindAreOneSentence(t *testing.T) {
	overdraw := func(strategy string, days float64, line int, joint string) scenarios.Warning {
		return scenarios.Warning{Code: scenarios.MeterOverdrawn, Strategy: strategy, Value: days, Unit: "d",
			Pos: diag.Pos{File: "yard.yaml", Line: line, Col: 2}, Joint: joint, Text: "strategy \"" + strategy + "\": " + joint}
	}
	plain := scenarios.Warning{Code: scenarios.LargeZone, Pos: diag.Pos{File: "yard.yaml", Line: 3, Col: 1}, Text: "zone is large"}
	list := []scenarios.Warning{overdraw("a", 5, 10, "on 5 days"), plain, overdraw("b", 9, 10, "on 9 days"), overdraw("c", 7, 10, "on 7 days"),
		overdraw("a", 1, 11, "on 1 day"), plain}
	want := []string{"Under “a”, “b”, “c” (worst under “b”): on 9 days.", "Zone is large.", "Strategy \"a\": on 1 day.",
		"Zone is large."}
	if got := joinedTexts(list); !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	list = append(list, overdraw("d", 2, 10, "on 2 days"))
	if got, want := joinedTexts(list)[0], "Under “a”, “b”, and 2 others (worst under “b”): on 9 days."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
