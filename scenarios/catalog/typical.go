package catalog

// ofNoPlant is the source of the marks of a planting of which nothing is known.
const ofNoPlant = "those of unnamed cool-season turf and of shrubs; our choice"

// Typical returns the first planting of a group, whose season and marks stand for
// a custom planting of that group; without a group or such a planting, one that
// has only marks.
func Typical(g Group) Plant {
	for _, p := range plants {
		if g != NoGroup && p.Group == g && p.Tolerance.Known() {
			return p
		}
	}
	return Plant{Group: g,
		Tolerance: Figure{Value: 0.80, Low: 0.60, High: 0.95, Source: ofNoPlant, Grade: Guess},
		Browning:  Figure{Value: 0.50, Low: 0.35, High: 0.65, Source: ofNoPlant, Grade: Guess}}
}

// FollowsSeason reports whether plants of the group rest in the cold. Evergreens
// and plants of dry places never do.
func (g Group) FollowsSeason() bool { return g != Evergreen && g != Desert && g != Succulents }
