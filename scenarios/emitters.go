package scenarios

import (
	"math"

	"loamledger/scenarios/catalog"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// drip is the kind of sprinkler that has emitters.
const drip = "drip"

// flowOfEmitters returns the flow [L/min] of n drip emitters with a flow of
// lMin [L/min] each: the emitters run at the same time, so their flows add up.
// With [RateFromFlow] this is the trade's formula for drip,
// PR [in/h] = 231 in³/gal · n · gph / area [in²], since 1 gal is 231 in³ by
// definition.
func flowOfEmitters(n, lMin float64) float64 { return n * lMin }

// emitterFlow reads emitters and emitter_flow as the flow of the zone [L/min]. given
// is set if the zone has any of the two; ok is unset after an error.
func (r *zoneReader) emitterFlow(kind catalog.Sprinkler) (flow float64, given, ok bool) {
	g := r.groups["sprinkler"]
	n, q := g.node.Get("emitters"), g.node.Get("emitter_flow")
	if n == nil && q == nil {
		return 0, false, true
	}
	if kind.Name != drip {
		g.fault(diag.Conflict, g.node.Get("kind").Pos, "write drip, or give rate or flow instead of emitters",
			"%s: emitters belong to drip, not to %s", g.where, kind.Name).Suggest(diag.Value, drip)
		return 0, true, false
	}
	count, okN := r.number("sprinkler.emitters")
	each, okQ := r.number("sprinkler.emitter_flow")
	switch {
	case n == nil:
		g.missing("emitters", "add emitters, their number, as in emitters: 40", "emitters: 40")
	case q == nil:
		g.missing("emitter_flow", "add emitter_flow, the flow of one emitter, as in emitter_flow: 1 gph", "emitter_flow: 1 gph")
	case okN && okQ:
		return flowOfEmitters(count, each), true, true
	}
	return 0, true, false
}

// known returns 0 for a number that was not given.
func known(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}

// ifKnown records a number unless it is 0, which means not given.
func ifKnown(s shape, of func(z *Zone) float64) func(*Zone) *Node {
	return func(z *Zone) *Node {
		if of(z) == 0 {
			return nil
		}
		return scalar(exact(of(z), s))
	}
}

// sameFlow rejects a flow that contradicts the emitters.
func (g group) sameFlow(flow, emitters float64) bool {
	if math.Abs(flow-emitters) <= disagree*flow {
		return true
	}
	g.fault(diag.Conflict, g.node.Get("flow").Pos, "correct one of them, or remove the one you trust least",
		"%s: flow %s and the emitters disagree: %s of %s make %s", g.where, g.node.Get("flow").Text, g.node.Get("emitters").Text,
		g.node.Get("emitter_flow").Text, quantity.Format(emitters, quantity.Flow, g.sc.Units))
	return false
}
