package study

import "loamledger/scenarios"

// TunedYAML writes tuned strategies as programs and strategies in YAML, to
// paste into a scenario, with the changes of the site for which they were found. The
// error is that of a part that cannot be written.
func (l *Study) TunedYAML(found *Tuning, changes []scenarios.Change) (string, error) {
	text := scenarios.Writer{Zones: l.ZoneNames(), Units: l.Scenario.Units, Changes: changes}
	for _, t := range found.Kinds {
		if err := text.Add(&t.Strategy, t.Kind.String()+", "); err != nil {
			return "", err
		}
	}
	return text.String(), nil
}
