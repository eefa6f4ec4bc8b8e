package catalog

import "slices"

// A Group is the kind of plants in a planting. It decides what is plausible and
// which plants are dormant in winter.
type Group uint8

// The groups. NoGroup, the zero Group, is for custom plants without a group.
const (
	NoGroup     Group = iota
	CoolTurf          // grasses that grow best at 15 to 24 °C
	WarmTurf          // grasses that grow best at 27 to 35 °C and are dormant in cold
	Deciduous         // trees and shrubs that lose their leaves, perennials
	Evergreen         // trees and shrubs that keep them
	Desert            // plants of dry places
	Flowers           // annual flowers
	GroundCover       // low plants other than turf
	Mixed             // plants of any kind, by class of water need
	Succulents        // cacti and other plants that store water
	Groups            // number of groups
)

var groupNames = [Groups]string{
	"", "cool-season turf", "warm-season turf", "deciduous", "evergreen", "desert", "flowers", "ground cover", "mixed",
	"succulents",
}

func (g Group) String() string { return groupNames[g] }

// MarshalText writes the name, as JSON has it.
func (g Group) MarshalText() ([]byte, error) { return []byte(g.String()), nil }

// Turf reports whether the group is mown grass.
func (g Group) Turf() bool { return g == CoolTurf || g == WarmTurf }

// GroupNames returns the names of the groups that a user may give.
func GroupNames() []string { return slices.Clone(groupNames[1:]) }

// FindGroup returns the group of the given name.
func FindGroup(name string) (Group, bool) {
	for g := NoGroup + 1; g < Groups; g++ {
		if matches(name, groupNames[g]) {
			return g, true
		}
	}
	return NoGroup, false
}
