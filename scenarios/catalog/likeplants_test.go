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
		"zoysia lawn": {"zoysiagrass"}, "Cool Season Lawn": {"cool-season turf"}, "fescue": {"cool-season turf", "tall fescue"},
		"fine fescue":            {"cool-season turf"},
		"kentucky bluegrass sod": {"Kentucky bluegrass"}, "rye": {"perennial ryegrass", "overseeded ryegrass"},
		"desert tree": {"desert trees"}, "date palms": {"palms, dry climate", "palms, humid climate"},
		"lawn": {"cool-season turf", "warm-season turf"}, "maize": nil,
	} {
		if got := LikePlants(name); !slices.Equal(got, want) {
			t.Errorf("LikePlants(%q) = %q, want %q", name, got, want)
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
		"Bermuda lawn": "bermudagrass", "warm-season lawn": "warm-season turf", "coolseason turf": "cool-season turf",
		"fine fescue": "cool-season turf",
	} {
		if p, ok := FindPlant(name); !ok || p.Name != want {
			t.Errorf("%q finds %q, %v, want %q", name, p.Name, ok, want)
		}
	}
}

// A name with two or three meanings finds all of them. Which grasses and shrubs
// share a name is common knowledge of the trade; from memory.
func TestNamesOfSeveral(t *testing.T) {
	plants := func(name string) []string { return namesOf(FindPlants(name), func(p Plant) string { return p.Name }) }
	soilsOf := func(name string) []string { return namesOf(FindSoils(name), func(s Soil) string { return s.Name }) }
	kinds := func(name string) []string {
		return namesOf(FindSprinklers(name), func(s Sprinkler) string { return s.Name })
	}
	for _, tt := range []struct {
		of   func(string) []string
		name string
		want []string
	}{
		{plants, "lawn", []string{"cool-season turf", "warm-season turf"}},
		{plants, "Grass", []string{"cool-season turf", "warm-season turf"}},
		{plants, "fescue", []string{"cool-season turf", "tall fescue"}},
		{plants, "hedge", []string{"shrubs, dry climate", "shrubs, humid climate"}},
		{plants, "desert", []string{"desert plants", "desert trees", "desert shrubs"}},
		{plants, "flower lawn", nil},
		{soilsOf, "heavy clay", []string{"clay"}},
		{soilsOf, "Clay soil", []string{"clay"}},
		{soilsOf, "sandy", []string{"sand", "loamy sand", "sandy loam"}},
		{soilsOf, "clayey", []string{"clay loam", "clay"}},
		{soilsOf, "peat", nil},
		{kinds, "popup", []string{"spray", "rotor"}},
		{kinds, "pop-up spray", []string{"spray"}},
		{kinds, "sprinklers", []string{"spray", "rotor", "multi-stream"}},
		{kinds, "emitters", []string{"drip"}},
	} {
		if got := tt.of(tt.name); !slices.Equal(got, tt.want) {
			t.Errorf("%q finds %q, want %q", tt.name, got, tt.want)
		}
	}
}
