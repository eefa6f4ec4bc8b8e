package scenarios_test

import (
	"testing"

	"loamledger/scenarios/catalog"
)

// A plant from the catalog has a group; a custom plant has the group that the
// user gives, whatever its name.
func TestPlantGroup(t *testing.T) {
	for plant, want := range map[string]catalog.Group{
		"warm-season turf":                        catalog.WarmTurf,
		"{name: conifers, k: 0.7}":                catalog.Evergreen,
		"{k: 0.8, group: cool-season turf}":       catalog.CoolTurf,
		"{k: 0.5, group: Ground Cover}":           catalog.GroundCover,
		"{k: 0.8}":                                catalog.NoGroup,
		"[0,0,.4,.5,.6,.7,.8,.7,.6,.5,.4,0]":      catalog.NoGroup,
		"{name: desert plants, group: evergreen}": catalog.Evergreen,
	} {
		z := zone(t, "area: 100 m2, plant: "+plant+", soil: loam, root_depth: 20 cm, sprinkler: {kind: rotor, rate: 12 mm/h}")
		if z.PlantGroup != want {
			t.Errorf("%s: group %v, want %v", plant, z.PlantGroup, want)
		}
	}
}
