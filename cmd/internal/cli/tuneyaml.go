package cli

import (
	"io"

	"loamledger/scenarios"
)

// writeTunedYAML writes tuned strategies as the programs and strategies of a
// scenario, to paste and replay.
func (l *loaded) writeTunedYAML(w io.Writer, all []tuned) error {
	text := scenarios.Writer{Zones: l.zoneNames()}
	for _, t := range all {
		if err := text.Add(&t.result.Strategy, t.result.Kind.String()+", "); err != nil {
			return err
		}
	}
	_, err := io.WriteString(w, text.String())
	return err
}
