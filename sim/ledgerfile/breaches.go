package ledgerfile

import (
	"io"
	"strconv"

	"loamledger/sim/tally"
)

// breachColumns returns the columns of the compliance list, in order.
func breachColumns() []Column {
	return []Column{
		{"strategy", "", "name of the strategy"},
		{"date", "", "day on which the program started"},
		{"zone", "", "name of the zone"},
		{"rule", "", "the rule that was broken, in words"},
		{"minutes", "min", "minutes the rule forbids"},
		{"applied", "", "yes if they were applied, no if they were omitted"},
	}
}

// WriteBreaches writes the watering that strategies requested and site limits
// forbid as CSV, ordered by strategy and date. applied tells, by strategy, whether it
// was applied nevertheless.
func WriteBreaches(w io.Writer, t *tally.Table, applied func(s int) bool) error {
	b := appendHeader(nil, breachColumns())
	for s, name := range t.Strategies {
		if t.IsCut(s) {
			continue // its breaches are those of the baseline
		}
		name = quoted(name)
		done := ",no\n"
		if len(t.Breaches[s]) > 0 && applied(s) {
			done = ",yes\n"
		}
		for i := range t.Breaches[s] {
			breach := &t.Breaches[s][i]
			b = append(append(b, name...), ',')
			b = append(append(b, breach.Date.String()...), ',')
			b = append(append(b, quoted(t.Zones[breach.Zone].Name)...), ',')
			b = append(append(b, quoted(breach.Rule)...), ',')
			b = append(strconv.AppendFloat(b, breach.Minutes, 'f', -1, 64), done...)
		}
	}
	_, err := w.Write(b)
	return err
}
