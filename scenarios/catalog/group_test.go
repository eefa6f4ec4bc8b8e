package catalog

import "testing"

// TestGroups: every plant in the catalog has a group that can be given by name,
// and turf is turf whatever its name.
func TestGroups(t *testing.T) {
	for _, p := range Plants() {
		if g, ok := FindGroup(p.Group.String()); !ok || g != p.Group {
			t.Errorf("%s: group %q is found as %v, %v", p.Name, p.Group, g, ok)
		}
	}
	if _, ok := FindGroup(""); ok {
		t.Error("a group without a name is found")
	}
	if len(GroupNames()) != int(Groups)-1 {
		t.Errorf("%d names of %d groups", len(GroupNames()), Groups-1)
	}
	for g, want := range map[Group]bool{NoGroup: false, CoolTurf: true, WarmTurf: true, GroundCover: false, Mixed: false} {
		if g.Turf() != want {
			t.Errorf("%v: turf %v", g, g.Turf())
		}
	}
}
