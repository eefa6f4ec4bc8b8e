package catalog

import (
	"slices"
	"testing"
)

// Which grasses are warm-season and which cool-season is common knowledge of
// turf science; from memory.
func TestLikePlants(t *testing.T) {
	for name, want := range map[string][]string{
		"warm season grass": {"warm-season turf"}, "bermuda grass": {"warm-season turf"}, "St. Augustine": {"warm-season turf"},
		"zoysia": {"warm-season turf"}, "Cool Season Grass": {"cool-season turf"}, "tall fescue": {"cool-season turf"},
		"kentucky bluegrass": {"cool-season turf"}, "perennial ryegrass": {"cool-season turf"},
		"lawn": {"cool-season turf", "warm-season turf"}, "maize": nil,
	} {
		if got := LikePlants(name); !slices.Equal(got, want) {
			t.Errorf("LikePlants(%q) = %q, want %q", name, got, want)
		}
	}
	for _, w := range plantWords {
		for _, p := range w.plants {
			if _, ok := FindPlant(p); !ok {
				t.Errorf("%v suggest %q, which is no plant", w.words, p)
			}
		}
		for _, word := range w.words {
			if _, ok := FindPlant(word); ok && word != "flowers" {
				t.Errorf("%q is a plant of the catalog and needs no suggestion", word)
			}
		}
	}
}
