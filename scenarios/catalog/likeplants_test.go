package catalog

import (
	"slices"
	"testing"
)

// Which grasses are warm-season and which cool-season is common knowledge of
// turf science; from memory.
func TestLikePlants(t *testing.T) {
	for name, want := range map[string][]string{
		"warm season lawn": {"warm-season turf"}, "bermuda lawn": {"bermudagrass"}, "St. Augustine sod": {"St. Augustinegrass"},
		"zoysia lawn": {"zoysiagrass"}, "Cool Season Lawn": {"cool-season turf"}, "fescue": {"tall fescue"}, "fine fescue": {"cool-season turf"},
		"kentucky bluegrass sod": {"Kentucky bluegrass"}, "rye": {"perennial ryegrass", "overseeded ryegrass"},
		"desert tree": {"desert trees"}, "date palms": {"palms, dry climate", "palms, humid climate"},
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
			if p, ok := FindPlant(word); ok && !slices.Contains(w.plants, p.Name) {
				t.Errorf("%q is %s, and longer names with it suggest %q", word, p.Name, w.plants)
			}
		}
	}
}

// Names that people type find the plant without a suggestion.
func TestNamesPeopleType(t *testing.T) {
	for name, want := range map[string]string{
		"tall fescue": "tall fescue", "Bermuda": "bermudagrass", "bermuda grass": "bermudagrass", "Kentucky Bluegrass": "Kentucky bluegrass",
		"St Augustine": "St. Augustinegrass", "st. augustine grass": "St. Augustinegrass", "Zoysia": "zoysiagrass",
		"buffalo grass": "buffalograss", "perennial rye": "perennial ryegrass", "winter rye": "overseeded ryegrass",
		"palms": "palms, dry climate", "conifers": "conifers, dry climate", "cactus": "cacti and succulents", "bahia": "bahiagrass",
	} {
		if p, ok := FindPlant(name); !ok || p.Name != want {
			t.Errorf("%q finds %q, %v, want %q", name, p.Name, ok, want)
		}
	}
}
