package study

import (
	"slices"
	"strings"

	"loamledger/plots"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// about describes each strategy of the table in plain words, with the equipment
// that it needs and the baseline does not; nil if a part has no plain words.
func (l *Study) about(t *tally.Table) []plots.About {
	if len(l.Job.Strategies) != t.NoWaterIndex() {
		return nil
	}
	_, has, err := l.Job.Strategies[t.Baseline].Plain()
	out := make([]plots.About, len(l.Job.Strategies))
	for i := range out {
		text, needs, e := l.Job.Strategies[i].Plain()
		if err != nil || e != nil {
			return nil
		}
		var names []string
		for _, n := range needs {
			if !slices.Contains(has, n) {
				names = append(names, n.String())
			}
		}
		out[i] = plots.About{Text: text, Needs: strings.Join(names, ", "), Sheet: !slices.Contains(needs, strategy.BalanceController)}
	}
	return out
}
