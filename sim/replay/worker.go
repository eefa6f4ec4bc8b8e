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
			w.err = w.strategy(i, t.Strategies[i], t.Outcomes[i])
		}
		if w.err != nil {
			return
		}
		if w.job.Step != nil {
			w.job.Step()
		}
	}
}

// strategy replays strategy i on every zone and adds to out.
func (w *worker) strategy(i int, name string, out []tally.Outcome) error {
	site := &w.site
	least := i == len(w.job.Strategies)+1
	switch {
	case least:
		for z := range w.reference {
			ref := &w.reference[z]
			strategy.LeastWater(ref, site.Forcing[z], site.Spin, site.StartShare*ref.TAWMM, &w.plans[z])
		}
	case i == len(w.job.Strategies):
		w.compiler.Compile(site, &strategy.Strategy{}, w.shares, w.plans)
	default:
		w.compiler.Compile(site, &w.job.Strategies[i], w.shares, w.plans)
	}
	for z := range w.job.Zones {
		zone := &w.job.Zones[z]
		if least {
			zone = &w.reference[z]
		}
		w.zone(zone, z, out[z].Months)
		if w.sink == nil {
			continue
		}
		w.sheet = Sheet{Strategy: name, Zone: zone, Calendar: site.Calendar, Weather: site.Weather, Forcing: site.Forcing[z], Plan: &w.plans[z], Trace: &w.trace}
		if err := w.sink(&w.sheet); err != nil {
			return err
		}
	}
	return nil
}

// zone replays one zone under its plan.
func (w *worker) zone(zone *sim.Zone, z int, months []sim.Sums) {
	forcing, plan := w.site.Forcing[z], &w.plans[z]
	w.balance.Reset(zone, w.site.StartShare*zone.TAWMM)
	var tr *sim.Trace
	if w.sink != nil {
		w.trace.Grow(len(forcing))
		tr = &w.trace
	}
	if plan.Spin > 0 {
		var unused sim.Sums
		w.balance.Replay(forcing[:plan.Spin], plan, 0, &unused, nil, 0)
		w.balance.ForgetStreak()
	}
	for m, span := range w.site.Calendar.Spans {
		w.balance.Replay(forcing[span.From:span.To], plan, plan.Spin+span.From, &months[m], tr, span.From)
	}
}
