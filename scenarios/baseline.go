package scenarios

import (
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/sim/strategy"
	"loamledger/weather/diag"
)

// readBaseline finds the strategy that ran, with which the others are compared. It
// alone is exempt from the site's limits, unless it says otherwise: what a meter
// has seen did not wait for rules.
func (b *builder) readBaseline(top group) {
	list := b.sc.Strategies
	if len(list) == 0 {
		return
	}
	if n, ok := top.word("baseline"); ok {
		name := strings.TrimSpace(n.Text)
		var names []string
		for i := range list {
			names = append(names, list[i].Name)
		}
		if b.sc.Baseline = b.known(n, names); b.sc.Baseline < 0 {
			b.sc.Baseline = 0
			b.fault(diag.UnknownName, n.Pos, top.didYouMean(name, names), "baseline: no strategy is called %s", quoted(name))
		}
		b.sc.BaselineGiven = true
		top.givenWord("baseline", n)
	} else if top.node.Get("baseline") == nil && len(list) > 1 {
		b.defaultedWord("baseline", list[0].Name, catalog.Guess, "the first strategy; our choice")
	}
	base := &list[b.sc.Baseline]
	base.Role = strategy.Baseline
	key := "strategies." + base.Name + ".limits"
	if own := slices.ContainsFunc(b.sc.Inputs, func(in Input) bool { return in.Key == key }); b.sc.Limits != nil && !own {
		base.Unbound = true
		b.defaultedWord(key, "none", catalog.Guess, "the baseline counts as it ran, with what the limits forbid; our choice")
	}
}
