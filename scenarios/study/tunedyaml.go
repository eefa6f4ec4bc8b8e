package study

import "loamledger/scenarios"

// TunedYAML writes tuned strategies as programs and strategies in YAML, to
// paste into a scenario. The error is that of a part that cannot be written.
func (l *Study) TunedYAML(found *Tuning) (string, error) {
	text := scenarios.Writer{Zones: l.ZoneNames(), Units: l.Scenario.Units}
	for _, t := range found.Kinds {
		if err := text.Add(&t.Strategy, t.Kind.String()+", "); err != nil {
			return "", err
		}
	}
	return text.String(), nil
}
