package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim/strategy"
	"loamledger/weather/diag"
)

// A Warning reports a value that is valid but probably a mistake. It does not
// stop a run and is shown with the results.
type Warning struct {
	Code     WarningCode
	Pos      diag.Pos // empty if there is no single position
	Zone     string   // empty if it is not about a single zone; likewise the next two
	Program  string
	Strategy string
	Key      string  // of the parameter, as in a zone, such as "sprinkler.rate"; empty if it is not about one
	Column   string  // of the weather, by its key
	Value    float64 // the implausible value; only with Unit
	Unit     string  // base unit of Value; empty if there is no number
	Text     string  // a sentence without initial capital and period
	// Joint is what Text says of its strategy, for one sentence on several strategies;
	// empty if they cannot be joined.
	Joint string
}

func (w Warning) String() string {
	if w.Pos.File == "" {
		return w.Text
	}
	return w.Pos.String() + ": " + w.Text
}

// Place returns the position of the input with the given key; the zero Pos if
// it was not given.
func (sc *Scenario) Place(key string) diag.Pos {
	for _, in := range sc.Inputs {
		if in.Key == key && !in.Defaulted {
			return in.Pos
		}
	}
	return diag.Pos{}
}

// Warn adds w, with its text made from format and args.
func (sc *Scenario) Warn(w Warning, format string, args ...any) {
	w.Text = fmt.Sprintf(format, args...)
	sc.Warnings = append(sc.Warnings, w)
}

// lookOver warns of values that are valid but implausible.
func (sc *Scenario) lookOver() {
	sc.templatePlace()
	watered := sc.watered()
	for i := range sc.Zones {
		z := &sc.Zones[i]
		if !watered[i] {
			sc.Warn(Warning{Code: NeverWatered, Pos: z.Pos, Zone: z.Name}, "zone %q is never watered: no program or refill includes it", z.Name)
		}
	}
	sc.leftDry(watered)
}

// warnOf adds the warnings of a part.
func (g group) warnOf(part strategy.Part, name string, n *Node) {
	w, err := strategy.WarningsOf(part, g.zones)
	if err != nil {
		g.unsaid(err, n.Pos)
		return
	}
	for _, text := range w.Texts {
		g.sc.Warn(Warning{Code: PartDoubtful, Pos: n.Pos, Strategy: name}, "%s: %s", g.where, text)
	}
}

// warningsOf returns what the parts of a strategy report for warnings. Reading
// has rejected parts that report nothing.
func (sc *Scenario) warningsOf(st *strategy.Strategy) (out []strategy.Warnings) {
	names := sc.zoneNames()
	for _, part := range st.Parts {
		if w, err := strategy.WarningsOf(part, names); err == nil {
			out = append(out, w)
		}
	}
	return out
}

// watered reports for each zone whether any strategy waters it.
func (sc *Scenario) watered() []bool {
	out := make([]bool, len(sc.Zones))
	for i := range sc.Strategies {
		for _, w := range sc.warningsOf(&sc.Strategies[i]) {
			for z, is := range w.Waters {
				out[z] = out[z] || is
			}
		}
	}
	return out
}

// leftDry warns of strategies that never water a zone that others do, strategies
// with the same zones together.
func (sc *Scenario) leftDry(watered []bool) {
	type group struct {
		strategies []int
		zones      []int
	}
	var groups []group
	for i := range sc.Strategies {
		own := make([]bool, len(sc.Zones))
		for _, w := range sc.warningsOf(&sc.Strategies[i]) {
			for z, is := range w.Waters {
				own[z] = own[z] || is
			}
		}
		var dry []int
		for z := range own {
			if watered[z] && !own[z] {
				dry = append(dry, z)
			}
		}
		if len(dry) == 0 {
			continue
		}
		at := slices.IndexFunc(groups, func(g group) bool { return slices.Equal(g.zones, dry) })
		if at < 0 {
			groups = append(groups, group{zones: dry})
			at = len(groups) - 1
		}
		groups[at].strategies = append(groups[at].strategies, i)
	}
	for _, g := range groups {
		w := Warning{Code: NeverWatered, Pos: sc.Zones[g.zones[0]].Pos, Strategy: sc.Strategies[g.strategies[0]].Name}
		if len(g.zones) == 1 {
			w.Zone = sc.Zones[g.zones[0]].Name
		}
		var who, what []string
		for _, s := range g.strategies {
			who = append(who, fmt.Sprintf("%q", sc.Strategies[s].Name))
		}
		for _, z := range g.zones {
			what = append(what, fmt.Sprintf("%q", sc.Zones[z].Name))
		}
		strategies, zones, verb := "strategies", "zones", "water"
		if len(who) == 1 {
			strategies, verb = "strategy", "waters"
		}
		if len(what) == 1 {
			zones = "zone"
		}
		sc.Warn(w, "%s %s never %s %s %s, which another strategy waters: add the zone to a program or refill, if it is to be watered",
			strategies, few(who), verb, zones, few(what))
	}
}

// few lists up to three names and counts the rest.
func few(names []string) string {
	const most = 3
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most-1], ", "), len(names)-most+1)
}

func clockTime(minutes int) string { return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60) }
