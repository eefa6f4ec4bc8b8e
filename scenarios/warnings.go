package scenarios

import (
	"fmt"
	"math"
	"slices"

	"loamledger/sim/strategy"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Warning reports a value that is valid but probably a mistake. It does not
// stop a run and is shown with the results.
type Warning struct {
	Code     WarningCode
	Pos      diag.Pos // empty if there is no single position
	Zone     string   // empty if it is not about a single zone; likewise the next two
	Program  string
	Strategy string
	Column   string  // of the weather, by its key
	Value    float64 // the implausible value; only with Unit
	Unit     string  // base unit of Value; empty if there is no number
	Text     string  // a sentence without initial capital and period
}

func (w Warning) String() string {
	if w.Pos.File == "" {
		return w.Text
	}
	return w.Pos.String() + ": " + w.Text
}

// largeZoneM2 is the area above which the unit is probably wrong: 20 acres, far
// more than one valve waters in a landscape (common practice, no source).
const largeZoneM2 = 20 * quantity.AcreM2

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
		if z.AreaM2 > largeZoneM2 {
			sc.Warn(Warning{Code: LargeZone, Pos: sc.Place("zones." + z.Name + ".area"), Zone: z.Name, Value: z.AreaM2, Unit: "m²"},
				"zone %q has %s, which is large for one valve; check the number and its unit", z.Name, sc.bigArea(z.AreaM2))
		}
		if !watered[i] {
			sc.Warn(Warning{Code: NeverWatered, Pos: z.Pos, Zone: z.Name}, "zone %q is never watered: no program or refill includes it", z.Name)
		}
	}
	for i := range sc.Programs {
		sc.overlappingStarts(&sc.Programs[i])
	}
}

// bigArea writes a large area in acres or hectares.
func (sc *Scenario) bigArea(m2 float64) string {
	if sc.Units == quantity.US {
		return quantity.Number(m2/quantity.AcreM2, 1) + " acres"
	}
	return quantity.Number(m2/1e4, 1) + " ha"
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

// overlappingStarts warns of a start before the previous one has finished.
// Zones run one after another, and one runs while another soaks, so a start
// takes at least the sum of all run times, and at least the run time and soaks
// of any one zone.
func (sc *Scenario) overlappingStarts(p *strategy.Program) {
	sum, longest := 0.0, 0.0
	for _, m := range p.Minutes {
		sum += m
		if p.Cycle > 0 && m > p.Cycle {
			longest = max(longest, m+p.Soak*(math.Ceil(m/p.Cycle-1e-9)-1))
		}
	}
	run := max(sum, longest)
	starts := slices.Sorted(slices.Values(p.Starts))
	for i := 1; i < len(starts); i++ {
		if gap := float64(starts[i] - starts[i-1]); gap < run {
			sc.Warn(Warning{Code: StartsOverlap, Pos: sc.Place("programs." + p.Name + ".starts"), Program: p.Name, Value: run, Unit: "min"},
				"program %q starts at %s before its start at %s has finished, which takes at least %s", p.Name,
				clockTime(starts[i]), clockTime(starts[i-1]), quantity.Format(run, quantity.Duration, sc.Units))
			return // one warning per program is enough
		}
	}
}

func clockTime(minutes int) string { return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60) }
