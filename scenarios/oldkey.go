package scenarios

import (
	"fmt"
	"slices"
	"strings"
)

// An OldKey is a key of earlier scenarios that has another name now. It is an
// error that names the new key, never a second way to write it.
type OldKey struct {
	Place    string // keys above it, without names of zones, strategies and stages, such as "strategies.hold.rain"; "" is the top
	Old, New string
}

// OldKeys returns every key that was renamed, by place. Places are in today's
// keys. The readers of YAML, of the CSV zone table and of run.json all answer
// from this list.
func OldKeys() []OldKey {
	return []OldKey{
		{"strategies", "skip", "hold"},
		{"strategies.hold", "freeze", "frost"},
		{"strategies.hold.rain", "above", "at_least"},
		{"strategies.hold.rain", "fails", "miss_rate"},
		{"strategies.hold.forecast", "above", "at_least"},
		{"strategies.hold.forecast", "probability", "min_probability"},
		{"strategies.hold.forecast", "most", "max_held"},
		{"strategies.et_percent", "design", "design_eto"},
		{"strategies.et_percent", "over", "days"},
		{"strategies.et_percent", "count_rain", "subtract_rain"},
		{"strategies.et_percent", "least", "min"},
		{"strategies.et_percent", "most", "max"},
		{"strategies.habit", "towards", "target"},
		{"strategies.habit", "late_least", "min_delay"},
		{"strategies.habit", "late_most", "max_delay"},
		{"strategies.habit", "up", "raise_by"},
		{"strategies.habit", "seen", "visible_below"},
		{"strategies.habit", "after", "raise_after"},
		{"strategies.habit", "calm", "lower_after"},
		{"strategies.season", "clear_days", "frost_free_days"},
		{"strategies.sensor", "reads", "read_zone"},
		{"strategies.refill", "whatever_beyond", "override_beyond"},
		{"strategies.refill", "believes_storage", "assumed_storage"},
		{"strategies.refill", "believes_rate", "assumed_rate"},
		{"strategies.refill", "believes_k", "assumed_k"},
		{"strategies.refill", "believes_rain", "assumed_rain"},
		{"strategies.refill", "believes_rain_scatter", "assumed_rain_error"},
		{"zones.sprinkler", "cans", "catch_cans"},
		{"zones.sprinkler", "loss", "spray_loss"},
		{"zones.sprinkler", "broken", "broken_heads"},
		{"limits", "exempt_by_hand", "exempt_manual"},
		{"limits", "what_does_not_fit", "on_conflict"},
		{"limits", "most_minutes", "max_minutes"},
		{"limits.stages", "most_minutes", "max_minutes"},
		{"weather", "declared", "layout_file"},
		{"weather", "dew_point_below", "dew_point_offset"},
		{"weather", "coast", "coastal"},
		{"weather", "usual_wind", "default_wind"},
	}
}

// OldColumns returns the columns of the CSV zone table that were renamed.
// Place is the group of a zone in which the key stands.
func OldColumns() []OldKey {
	var out []OldKey
	for _, k := range OldKeys() {
		outer, group, _ := strings.Cut(k.Place, ".")
		for _, p := range ZoneParams() {
			if outer == "zones" && p.Column == k.New && p.Key == group+"."+k.New {
				out = append(out, k)
			}
		}
	}
	return out
}

// renamed returns the old key that an entry of g is, if it is one. Names may
// contain dots, so that a place is compared with both ends of a path; an old
// key counts only where its new one is known.
func renamed(path, key string, known []string) (OldKey, bool) {
	for _, k := range OldKeys() {
		outer, inner, nested := strings.Cut(k.Place, ".")
		at := path == k.Place
		if named := strings.HasPrefix(path, outer+"."); named {
			at = at || !nested || strings.HasSuffix(path, "."+inner) || strings.HasPrefix(path, k.Place+".")
		}
		if at && k.Old == key && slices.Contains(known, k.New) && !slices.Contains(known, key) {
			return k, true
		}
	}
	return OldKey{}, false
}

// underOldName reports whether a key of the group is given by its old name.
func (g group) underOldName(key string) bool {
	return slices.ContainsFunc(g.node.Entries, func(e Entry) bool {
		old, is := renamed(g.key, e.Key, []string{key})
		return is && old.New == key
	})
}

// fix says what to write for the old key with value n.
func (k OldKey) fix(n *Node) string {
	now, before := k.forms(n)
	return fmt.Sprintf("write %s instead of %s", now, before)
}

// forms returns the key as it is written now and as it was, with the keys under
// it as far down as any of them was renamed.
func (k OldKey) forms(n *Node) (now, before string) {
	if n == nil || n.Kind != Map || len(n.Entries) == 0 {
		return k.New, k.Old
	}
	a, b := under(k.Place+"."+k.New, n)
	return k.New + ": " + a, k.Old + ": " + b
}

// mostShown is how many keys of a group a fix shows.
const mostShown = 8

// under writes the keys of a group at a place in today's keys and as they stand.
func under(place string, n *Node) (now, before string) {
	var a, b []string
	for i, e := range n.Entries {
		if i == mostShown || strings.Trim(e.Key, "abcdefghijklmnopqrstuvwxyz_") != "" {
			a, b = append(a, "…"), append(b, "…")
			break
		}
		k := OldKey{Place: place, Old: e.Key, New: e.Key}
		if i := slices.IndexFunc(OldKeys(), func(o OldKey) bool { return o.Place == place && o.Old == e.Key }); i >= 0 {
			k = OldKeys()[i]
		}
		x, y := "…", "…"
		if inner := place + "." + k.New; e.Value != nil && e.Value.Kind == Map && holdsOld(inner, e.Value) {
			x, y = under(inner, e.Value)
		}
		a, b = append(a, k.New+": "+x), append(b, k.Old+": "+y)
	}
	return "{" + strings.Join(a, ", ") + "}", "{" + strings.Join(b, ", ") + "}"
}

// holdsOld reports whether a group at a place has a renamed key in it.
func holdsOld(place string, n *Node) bool {
	return slices.ContainsFunc(n.Entries, func(e Entry) bool {
		return slices.ContainsFunc(OldKeys(), func(o OldKey) bool { return o.Place == place && o.Old == e.Key })
	})
}
