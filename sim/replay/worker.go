package replay

import (
	"context"
	"sync/atomic"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// A worker replays strategies one after another, in memory of its own.
type worker struct {
	*stage
	sink     func(*Sheet) error
	compiler strategy.Compiler
	plans    []sim.Plan
	balance  sim.Balance
	trace    sim.Trace
	sheet    Sheet
	err      error
}

func (w *worker) prepare(s *stage, sink func(*Sheet) error) {
	w.stage, w.sink, w.err = s, sink, nil
	w.plans = grow(w.plans, len(s.job.Zones))
}

// run takes strategies until none is left or one fails.
func (w *worker) run(ctx context.Context, next *atomic.Int64, t *tally.Table) {
	for {
		i := int(next.Add(1)) - 1
		if i >= len(t.Strategies) {
			return
		}
		if w.err = ctx.Err(); w.err == nil {
			w.err = w.strategy(i, t)
		}
		if w.err != nil {
			return
		}
		if w.job.Step != nil {
			w.job.Step()
		}
	}
}

// compile works out the plans of strategy s for every zone.
func (w *worker) compile(s int) {
	site := &w.site
	switch s - len(w.job.Strategies) {
	case 0: // no watering
		w.compiler.Compile(site, &strategy.Strategy{}, w.shares, w.plans)
	case 1: // least water
		for z := range w.reference {
			ref := &w.reference[z]
			strategy.LeastWater(ref, site.Forcing[z], site.Spin, site.StartShare*ref.TAWMM, &w.plans[z])
		}
	default:
		w.compiler.Compile(site, &w.job.Strategies[s], w.shares, w.plans)
	}
}

// zoneOf returns zone z as strategy s has it.
func (w *worker) zoneOf(s, z int) *sim.Zone {
	switch s - len(w.job.Strategies) {
	case 0:
		return &w.dry[z]
	case 1:
		return &w.reference[z]
	}
	return &w.job.Zones[z]
}

// strategy replays strategy s on every zone and adds to the table.
func (w *worker) strategy(s int, t *tally.Table) error {
	site, out := &w.site, t.Outcomes[s]
	w.compile(s)
	if s < len(w.job.Strategies) {
		t.Breaches[s] = append(t.Breaches[s], w.compiler.Breaches...)
	}
	var tr *sim.Trace
	if w.sink != nil {
		w.trace.Grow(site.Weather.Days())
		tr = &w.trace
	}
	for z := range w.job.Zones {
		zone := w.zoneOf(s, z)
		w.replay(zone, z, out[z].Months, tr)
		if w.sink == nil {
			continue
		}
		w.sheet = Sheet{Strategy: t.Strategies[s], Zone: zone, Calendar: site.Calendar, Weather: site.Weather, Forcing: site.Forcing[z], Plan: &w.plans[z], Trace: tr}
		if err := w.sink(&w.sheet); err != nil {
			return err
		}
	}
	return nil
}

// replay takes one zone through its plan.
func (w *worker) replay(zone *sim.Zone, z int, months []sim.Sums, tr *sim.Trace) {
	forcing, plan := w.site.Forcing[z], &w.plans[z]
	w.balance.Reset(zone, w.site.StartShare*zone.TAWMM)
	if plan.Spin > 0 {
		var unused sim.Sums
		w.balance.Replay(forcing[:plan.Spin], plan, 0, &unused, nil, 0)
		w.balance.ForgetStreak()
	}
	for m, span := range w.site.Calendar.Spans {
		w.balance.Replay(forcing[span.From:span.To], plan, plan.Spin+span.From, &months[m], tr, span.From)
		leak := zone.LeakMMDay * float64(span.To-span.From)
		months[m].GrossMM += leak
		months[m].LeakMM += leak
	}
}
