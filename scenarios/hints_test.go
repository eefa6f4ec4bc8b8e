package scenarios

import (
	"strings"
	"testing"
)

// Names are distinguished by their numbers, however they are written.
func TestNearestByNumber(t *testing.T) {
	known := []string{"Zone 01 lawn", "Zone 02 lawn", "Zone 03 bed", "Zone 04 lawn", "Zone 14 lawn", "courtyard"}
	for word, want := range map[string]string{
		"Zone 4 lawn":    "Zone 04 lawn",
		"zone-4-lawn":    "Zone 04 lawn",
		"Zone 004 lawn":  "Zone 04 lawn",
		"Zone 04 lwan":   "Zone 04 lawn",
		"Zone 4 lwan":    "Zone 04 lawn",
		"Zone 14 lawns":  "Zone 14 lawn",
		"Zone 3 beds":    "Zone 03 bed",
		"Zone 05 lawn":   "Zone 01 lawn", // no zone has the number, so any that is spelled alike
		"court yard":     "courtyard",
		"something else": "",
	} {
		if got := nearest(word, known); got != want {
			t.Errorf("nearest(%q) = %q, want %q", word, got, want)
		}
	}
}

// Worked by hand: 17' is 17/60 of a degree, 30" is 30/3600.
func TestDegrees(t *testing.T) {
	for text, want := range map[string]float64{
		"32,28": 32.28, "32.28 N": 32.28, "N 32.28": 32.28, "33.9 S": -33.9, "104.8W": -104.8, "-33,9": -33.9, "-33.9 S": -33.9,
		"32° 17'": 32.2833, "32°17'30\"S": -32.2917, "32 deg": 32,
	} {
		if got, ok := degrees(text); !ok || got != want {
			t.Errorf("degrees(%q) = %v, %v; want %v", text, got, ok, want)
		}
	}
	for _, text := range []string{"", "north", "N 32 S", "104,5 9 9 9", "32° 77'", "1e3"} {
		if got, ok := degrees(text); ok {
			t.Errorf("degrees(%q) = %v", text, got)
		}
	}
}

// The list of plants is long, so only one error has it.
func TestPlantsAreListedOnce(t *testing.T) {
	b := &builder{sc: &Scenario{}}
	if fix := b.plantFix("maize"); !strings.HasPrefix(fix, "write one of: cool-season turf;") {
		t.Errorf("first %q", fix)
	}
	if fix := b.plantFix("millet"); fix != "write one of the plants listed by the catalog command, or give k and p instead" {
		t.Errorf("then %q", fix)
	}
}
