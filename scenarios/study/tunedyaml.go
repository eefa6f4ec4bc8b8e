package study

import "loamledger/scenarios"

// TunedYAML writes tuned strategies as the programs and strategies of a
// scenario, to paste and replay. An error is that of a part of a strategy that
// cannot be written.
func (l *Study) TunedYAML(found *Tuning) (string, error) {
	text := scenarios.Writer{Zones: l.ZoneNames()}
	for _, t := range found.Kinds {
		if err := text.Add(&t.Strategy, t.Kind.String()+", "); err != nil {
			return "", err
		}
	}
	return text.String(), nil
}
