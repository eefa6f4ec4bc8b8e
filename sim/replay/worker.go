package replay

import (
	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// A worker replays zones one after another.
type worker struct {
	*stage
	*planned
	balance sim.Balance
	trace   sim.Trace
}

// A planned is room for the plans of one strategy, and who works them out.
type planned struct {
	compiler strategy.Compiler
	plans    []sim.Plan
}

// prepare sets the worker up for a stage, with its own plans if it has none.
func (w *worker) prepare(s *stage) {
	w.stage = s
	if w.planned == nil {
		w.planned = new(planned)
	}
	w.plans = grow(w.plans, len(s.job.Zones))
}

// compile works out the plans of strategy s for every zone, those of the
// least-water reference apart, and notes its breaches.
func (w *worker) compile(s int, t *tally.Table) {
	site := &w.site
	switch s - len(w.job.Strategies) {
	case 0: // no watering
		w.compiler.Compile(site, &strategy.Strategy{}, w.shares, w.plans)
	case 1: // least water: zone by zone
	default:
		w.compiler.Compile(site, &w.job.Strategies[s], w.shares, w.plans)
		t.Breaches[s] = append(t.Breaches[s], w.compiler.Breaches...)
	}
}

// compileZone works out the plan of the least-water reference for zone z; the
// plans of other strategies are made together.
func (w *worker) compileZone(s, z int) {
	if s != len(w.job.Strategies)+1 {
		return
	}
	site, ref := &w.site, &w.reference[z]
	strategy.LeastWater(ref, site.Forcing[z], site.Spin, site.StartShare*ref.TAWMM, &w.plans[z])
}

// zoneOf returns zone z as used by strategy s.
func (st *stage) zoneOf(s, z int) *sim.Zone {
	switch s - len(st.job.Strategies) {
	case 0:
		return &st.dry[z]
	case 1:
		return &st.reference[z]
	}
	return &st.job.Zones[z]
}

// sheet returns the days of strategy s on zone z.
func (st *stage) sheet(t *tally.Table, s, z int, plan *sim.Plan, tr *sim.Trace) Sheet {
	site := &st.site
	return Sheet{
		Strategy: t.Strategies[s], Zone: st.zoneOf(s, z), Calendar: site.Calendar, Weather: site.Weather,
		Forcing: site.Forcing[z], Plan: plan, Trace: tr,
	}
}

// strategy replays strategy s on every zone and adds the results to the table.
// sink, if not nil, receives the daily rows.
func (w *worker) strategy(s int, t *tally.Table, sink func(*Sheet) error) error {
	w.compile(s, t)
	var tr *sim.Trace
	if sink != nil {
		w.trace.Grow(w.site.Weather.Days())
		tr = &w.trace
	}
	for z := range w.job.Zones {
		w.zone(s, z, t, tr)
		if sink == nil {
			continue
		}
		sheet := w.sheet(t, s, z, &w.plans[z], tr)
		if err := sink(&sheet); err != nil {
			return err
		}
	}
	return nil
}

// zone replays strategy s on zone z and adds to the table.
func (w *worker) zone(s, z int, t *tally.Table, tr *sim.Trace) {
	w.compileZone(s, z)
	w.replay(w.zoneOf(s, z), z, t.Outcomes[s][z].Months, tr)
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
