package scenarios

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// readTimer reads what the timer can be set to: the name of a ready profile, or
// its values. Values that are not given are those of the plain profile.
func (b *builder) readTimer(top group) {
	n := top.has("timer")
	if n == nil {
		if top.node.Get("timer") == nil {
			b.sc.Inputs = append(b.sc.Inputs, Input{Key: "timer", Text: "not stated: settings sheets refuse nothing", Defaulted: true, Off: true,
				Source: "assumption by loamledger", Grade: catalog.Guess})
		}
		return
	}
	b.sc.Timer = top.profile(n)
}

// fitMonthly lets the percentages that are derived from the record move in the steps of
// the timer, so that they can be entered.
func (sc *Scenario) fitMonthly() {
	if sc.Timer == nil {
		return
	}
	for i := range sc.Strategies {
		for j, part := range sc.Strategies[i].Parts {
			if m, ok := part.(strategy.Monthly); ok && m.Auto {
				m.Step = sc.Timer.PercentStep
				sc.Strategies[i].Parts[j] = m
			}
		}
	}
}

// profile reads what a timer can be set to; nil if it has an error.
func (g group) profile(n *Node) *timer.Profile {
	b, path, what, in := g.builder, g.path("timer"), "timer", ""
	if g.key != "" { // not that of the site
		what, in = g.where+": timer", g.where+": "
	}
	if n.Kind == Scalar {
		p, ok := timer.Named(n.Text)
		if !ok {
			var names []string
			for _, p := range timer.Ready() {
				names = append(names, p.Name)
			}
			b.fault(diag.UnknownName, n.Pos, g.didYouMean(n.Text, names)+
				"; or write its values, as in timer: {programs: 3, starts: 4, percent_step: 10%, min_minutes: 1, cycle: no}",
				"%sunknown timer %s", in, quoted(n.Text))
			return nil
		}
		b.givenWord(path, n)
		return &p
	}
	g = b.open(n, what, path, "programs", "starts", "percent_step", "min_minutes", "cycle")
	if g.node == nil {
		return nil
	}
	p, _ := timer.Named(timer.Plain)
	p.Name = ""
	from := func(v float64) catalog.Figure {
		return catalog.Figure{Value: v, Grade: catalog.Memory, Source: "profile " + timer.Plain + ": " + timer.Source}
	}
	count := func(key string, n int, most float64) int {
		v, ok := g.number(want{key: key, shape: shape{bare: true}, min: 1, max: most, whole: true, dflt: from(float64(n))})
		if !ok {
			return n
		}
		return int(v)
	}
	p.Programs = count("programs", p.Programs, timer.MaxPrograms)
	p.Starts = count("starts", p.Starts, timer.MaxStarts)
	p.PercentStep = g.percentStep(p.PercentStep, from)
	p.MinMinutes = g.leastMinutes(p.MinMinutes, from)
	if c := g.has("cycle"); c != nil {
		p.Cycle, _ = g.flag(c, "cycle")
		g.givenWord(g.path("cycle"), c)
	} else {
		g.defaultedWord(g.path("cycle"), "no", catalog.Memory, from(0).Source)
	}
	return &p
}

// percentStep reads the step of the percentage, which must divide 100%.
func (g group) percentStep(plain float64, from func(float64) catalog.Figure) float64 {
	v, ok := g.number(want{key: "percent_step", shape: shape{dim: quantity.Fraction}, min: 0.01, max: 0.5, dflt: from(plain)})
	if !ok {
		return plain
	}
	step := int(math.Round(100 * v))
	if math.Abs(float64(100*v)-float64(step)) > 1e-9 || !slices.Contains(timer.Steps(), step) {
		var steps []string
		for _, s := range timer.Steps() {
			steps = append(steps, fmt.Sprintf("%d%%", s))
		}
		n := g.node.Get("percent_step")
		g.fault(diag.OutOfRange, n.Pos, "write "+strings.Join(steps, ", "), "%s: percent_step %s does not divide 100%% evenly", g.where, n.Text)
		return plain
	}
	return float64(step) / 100
}

// leastMinutes reads the shortest run time. The key names the unit, so a bare
// number is enough; a unit is accepted, too.
func (g group) leastMinutes(plain float64, from func(float64) catalog.Figure) float64 {
	w := want{key: "min_minutes", shape: shape{dim: quantity.Duration}, min: 1, max: timer.MaxMinMinutes, whole: true, dflt: from(plain),
		fix: fmt.Sprintf("write whole minutes from 1 to %d", timer.MaxMinMinutes)}
	if n := g.has("min_minutes"); n != nil && n.Kind == Scalar {
		if _, unit := quantity.Cut(n.Text); unit == "" {
			w.shape = shape{bare: true}
		}
	}
	v, ok := g.number(w)
	if !ok {
		return plain
	}
	return v
}
