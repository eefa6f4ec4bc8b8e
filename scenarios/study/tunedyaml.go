package study

import (
	"fmt"
	"strings"

	"loamledger/scenarios"
)

// TunedYAML writes the settings that are proposed as programs and strategies in
// YAML, to paste into a scenario. Comments name every zone with its figures, and
// what is not proposed and why; changes are those of the site for which they were
// found. The error is that of a part that cannot be written.
func (l *Study) TunedYAML(found *Tuning, changes []scenarios.Change) (string, error) {
	var head strings.Builder
	comment := func(format string, args ...any) {
		fmt.Fprintf(&head, "# "+format+"\n", args...)
	}
	if found.Stopped {
		comment("INTERRUPTED: the best found so far.")
	}
	text := scenarios.Writer{Zones: l.ZoneNames(), Units: l.Scenario.Units, Changes: changes}
	for i := range found.Kinds {
		t := &found.Kinds[i]
		if !t.Proposed() {
			comment("NOT PROPOSED, %s: %s.", t.Strategy.Name, texts(t.against))
			continue
		}
		comment("%s:", t.Strategy.Name)
		if len(t.against) > 0 {
			comment("  It comes closest to the goal: %s.", texts(t.against))
		}
		for z := range t.All.Zones {
			comment("  %s: %s", l.Job.Zones[z].Name, l.zoneFigures(&t.All.Zones[z]))
		}
		if err := text.Add(&t.Strategy, t.Kind.String()+", "); err != nil {
			return "", err
		}
	}
	return head.String() + text.String(), nil
}
