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
	// Moved is what to write instead, at the top of the scenario, if the key went
	// there; its verb is for the value.
	Moved string
}

// OldKeys returns every key that was renamed, by place. Places are in today's
// keys. The readers of YAML, of the CSV zone table and of run.json all answer
// from this list.
func OldKeys() []OldKey {
	return []OldKey{
		{Place: "strategies", Old: "skip", New: "hold"},
		{Place: "strategies.hold", Old: "freeze", New: "frost"},
		{Place: "strategies.hold.rain", Old: "above", New: "at_least"},
		{Place: "strategies.hold.rain", Old: "fails", New: "miss_rate"},
		{Place: "strategies.hold.forecast", Old: "above", New: "at_least"},
		{Place: "strategies.hold.forecast", Old: "probability", New: "min_probability"},
		{Place: "strategies.hold.forecast", Old: "most", New: "max_held"},
		{Place: "strategies.et_percent", Old: "design", New: "design_eto"},
		{Place: "strategies.et_percent", Old: "over", New: "days"},
		{Place: "strategies.et_percent", Old: "count_rain", New: "subtract_rain"},
		{Place: "strategies.et_percent", Old: "least", New: "min"},
		{Place: "strategies.et_percent", Old: "most", New: "max"},
		{Place: "strategies.habit", Old: "towards", New: "target"},
		{Place: "strategies.habit", Old: "late_least", New: "min_delay"},
		{Place: "strategies.habit", Old: "late_most", New: "max_delay"},
		{Place: "strategies.habit", Old: "up", New: "raise_by"},
		{Place: "strategies.habit", Old: "seen", New: "visible_below"},
		{Place: "strategies.habit", Old: "after", New: "raise_after"},
		{Place: "strategies.habit", Old: "calm", New: "lower_after"},
		{Place: "strategies.season", Old: "clear_days", New: "frost_free_days"},
		{Place: "strategies.sensor", Old: "reads", New: "read_zone"},
		{Place: "strategies.refill", Old: "whatever_beyond", New: "override_beyond"},
		{Place: "strategies.refill", Old: "believes_storage", New: "assumed_storage"},
		{Place: "strategies.refill", Old: "believes_rate", New: "assumed_rate"},
		{Place: "strategies.refill", Old: "believes_k", New: "assumed_k"},
		{Place: "strategies.refill", Old: "believes_rain", New: "assumed_rain"},
		{Place: "strategies.refill", Old: "believes_rain_scatter", New: "assumed_rain_error"},
		{Place: "zones.sprinkler", Old: "cans", New: "catch_cans"},
		{Place: "zones.sprinkler", Old: "loss", New: "spray_loss"},
		{Place: "zones.sprinkler", Old: "broken", New: "broken_heads"},
		{Place: "limits", Old: "exempt_by_hand", New: "exempt_manual"},
		{Place: "limits", Old: "what_does_not_fit", New: "on_conflict"},
		{Place: "limits", Old: "most_minutes", New: "max_minutes"},
		{Place: "limits.stages", Old: "most_minutes", New: "max_minutes"},
		{Place: "weather", Old: "declared", New: "layout_file"},
		{Place: "weather", Old: "dew_point_below", New: "dew_point_offset"},
		{Place: "weather", Old: "coast", New: "coastal"},
		{Place: "weather", Old: "usual_wind", New: "default_wind"},
		{Place: "money", Old: "meter_reads", New: "meters.reads", Moved: "meters: [{name: main, reads: %s}]"},
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
	if slices.Contains(known, key) {
		return OldKey{}, false
	}
	for _, k := range OldKeys() {
		if k.Old != key {
			continue
		}
		outer, inner, nested := strings.Cut(k.Place, ".")
		at := path == k.Place
		if named := strings.HasPrefix(path, outer+"."); named {
			at = at || !nested || strings.HasSuffix(path, "."+inner) || strings.HasPrefix(path, k.Place+".")
		}
		if at && (k.Moved != "" || slices.Contains(known, k.New)) {
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
	if k.Moved != "" {
		value := "…"
		if n != nil && n.Kind == Scalar {
			value = strings.TrimSpace(n.Text)
		}
		return fmt.Sprintf("write "+k.Moved+" at the top of the scenario instead of %s", value, k.Old)
	}
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
