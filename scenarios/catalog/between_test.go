package catalog

import "testing"

// TestBetweenWaterings: desert trees 7 to 21 days in summer and 14 to 30 in spring
// and fall, other shrubs 5 to 7 and 7 to 10 (Arizona Municipal Water Users
// Association, as in the table of waterings); turf is a choice of ours.
func TestBetweenWaterings(t *testing.T) {
	for name, want := range map[string][2]float64{"desert trees": {7, 30}, "shrubs, dry climate": {5, 10}, "cool-season turf": {1, 7}} {
		p, ok := FindPlant(name)
		if got := p.BetweenWaterings(); !ok || got.Shortest != want[0] || got.Longest != want[1] || got.Source == "" || got.Grade != Guess {
			t.Errorf("%s: %+v, by the table %v", name, got, want)
		}
	}
	for _, p := range plants {
		if b := p.BetweenWaterings(); b.Shortest < 0 || b.Longest < b.Shortest || b.Longest > 0 && b.Shortest < 1 {
			t.Errorf("%s: %+v", p.Name, b)
		}
	}
}
