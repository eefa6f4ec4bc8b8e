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
	filler  strategy.Filler
	own     place      // of the zone under way, where no other place is given
	months  []sim.Sums // of one zone, where the table keeps a brief of them
	given   *sim.Trace // of the last zone, if one was asked for
	doses   sim.Trace  // what was given where nothing decides it during the replay
	// noted, if not nil, is shown the sums of every zone under a strategy of the job.
	noted func(s, z int, months []sim.Sums)
}

// A planned is the plans of one strategy, and who works them out.
type planned struct {
	compiler strategy.Compiler
	keep     bool       // the plans keep their runs
	apart    bool       // the plans are worked out zone by zone, each when its turn comes
	plans    []sim.Plan // of all zones, unless apart
	pieces   [][]Piece  // by zone, of a strategy that changes zones; else nil
}

// A place is room for the plan and the daily values of one zone.
type place struct {
	plan  sim.Plan
	trace sim.Trace
}

// prepare sets the worker up for a stage, with its own plans if it has none.
func (w *worker) prepare(s *stage) {
	w.stage = s
	if w.planned == nil {
		w.planned = new(planned)
	}
}

// compile works out what the plans of strategy s have in common or, where zones
// bear on each other, the plans of every zone, and notes its breaches. The
// least-water reference has nothing in common.
func (w *worker) compile(s int, t *tally.Table) {
	w.pieces = nil
	none := strategy.Strategy{}
	st := &none
	switch s - len(w.job.Strategies) {
	case 0: // no watering
	case 1: // least water
		w.apart = true
		return
	default:
		if st = &w.job.Strategies[s]; len(w.changed[s]) > 0 {
			w.compileChanged(s, t)
			return
		}
	}
	if w.apart = w.compiler.Begin(&w.site, st); w.apart {
		return
	}
	w.plans = grow(w.plans, len(w.job.Zones))
	if w.keep {
		for z := range w.plans {
			w.plans[z].KeepRuns = true
		}
	}
	w.compiler.All(w.shares, w.plans)
	if st != &none {
		t.Breaches[s] = append(t.Breaches[s], w.compiler.Breaches...)
	}
}

// plan returns the plan of strategy s for zone z, made in free if it is not
// there yet.
func (w *worker) plan(s, z int, free *sim.Plan) *sim.Plan {
	switch {
	case !w.apart:
		return &w.plans[z]
	case s == len(w.job.Strategies)+1:
		ref := &w.reference[z]
		strategy.LeastWater(ref, w.site.Forcing[z], w.site.Growth[z].Head, w.site.Spin, w.site.StartShare*ref.TAWMM, free)
	default:
		w.filler.Zone(&w.compiler, z, w.shares[z], free)
	}
	return free
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

// sheet returns the days of strategy s on zone z. pieces are those of its zones, nil
// if it changes nothing.
func (st *stage) sheet(t *tally.Table, s, z int, plan *sim.Plan, pieces [][]Piece, tr *sim.Trace) Sheet {
	site := &st.site
	if pieces != nil {
		last := &pieces[z][len(pieces[z])-1]
		return Sheet{
			Strategy: t.Strategies[s], Zone: last.Zone, Calendar: site.Calendar, Weather: site.Weather,
			Forcing: last.Forcing, Growth: last.growth, Plan: last.plan, Trace: tr, Pieces: pieces[z],
		}
	}
	return Sheet{
		Strategy: t.Strategies[s], Zone: st.zoneOf(s, z), Calendar: site.Calendar, Weather: site.Weather,
		Forcing: site.Forcing[z], Growth: &site.Growth[z], Plan: plan, Trace: tr,
	}
}

// strategy replays strategy s on every zone and adds the results to the table.
// sink, if not nil, receives the daily rows.
func (w *worker) strategy(s int, t *tally.Table, sink func(*Sheet) error) error {
	w.compile(s, t)
	var tr *sim.Trace
	if sink != nil {
		tr = &w.own.trace
	}
	for z := range w.job.Zones {
		if !w.replays(z) {
			continue
		}
		plan := w.zone(s, z, t, &w.own.plan, tr)
		if sink == nil {
			continue
		}
		sheet := w.sheet(t, s, z, plan, w.pieces, w.given)
		if err := sink(&sheet); err != nil {
			return err
		}
	}
	return nil
}

// zone replays strategy s on zone z, adds to the table and returns the plan,
// which may be free.
func (w *worker) zone(s, z int, t *tally.Table, free *sim.Plan, tr *sim.Trace) *sim.Plan {
	if tr != nil {
		tr.Grow(w.site.Weather.Days())
	}
	w.given = tr
	o := &t.Outcomes[s][z]
	if w.pieces != nil {
		months := w.monthsOf(t, o)
		w.replayPieces(w.pieces[z], t, months, o.Moved, tr)
		if w.noted != nil {
			w.noted(s, z, months)
		}
		keep(t, o, months)
		if row := t.LeastRow(s); row >= len(t.Strategies) {
			o := &t.Outcomes[row][z]
			months := w.monthsOf(t, o)
			w.need(w.pieces[z], t, months)
			keep(t, o, months)
		}
		return w.pieces[z][0].plan
	}
	plan := w.plan(s, z, free)
	if tr != nil && w.job.DosesOnly && w.job.Workers < 2 && plan.Gate == nil && plan.Watcher == nil {
		w.doses.Dose = plan.Dose[plan.Spin:]
		w.given, tr = &w.doses, nil
	}
	months := w.monthsOf(t, o)
	w.replay(w.zoneOf(s, z), z, plan, t, months, o.Moved, tr)
	if w.noted != nil {
		w.noted(s, z, months)
	}
	keep(t, o, months)
	return plan
}

// keep stores the sums of an outcome that has a brief.
func keep(t *tally.Table, o *tally.Outcome, months []sim.Sums) {
	if o.Brief != nil {
		o.Brief.Fill(t, months)
	}
}

// monthsOf returns where the sums of an outcome go.
func (w *worker) monthsOf(t *tally.Table, o *tally.Outcome) []sim.Sums {
	if o.Brief == nil {
		return o.Months
	}
	w.months = grow(w.months, len(t.Spans))
	return w.months
}

// replay takes one zone through its plan. months become what the weather alone
// decides and what soil and strategy did, and moved the stress by moved marks.
func (w *worker) replay(zone *sim.Zone, z int, plan *sim.Plan, t *tally.Table, months []sim.Sums, moved []tally.MovedStress,
	tr *sim.Trace) {
	forcing, growth := w.site.Forcing[z], &w.site.Growth[z]
	copy(months, w.courses[w.courseOf[z]].weather)
	w.begin(zone, growth, forcing, plan)
	for m, span := range w.site.Calendar.Spans {
		w.balance.Replay(forcing[span.From:span.To], growth, plan, plan.Spin+span.From, &months[m], tr, span.From)
		if months[m].WateringDays > 0 {
			months[m].SeasonDays = span.To - span.From
		}
		leak := float64(zone.LeakMMDay * float64(span.To-span.From))
		months[m].GrossMM += leak
		months[m].LeakMM += leak
		for k := range moved {
			moved[k].Add(t, m, w.balance.Moved(k))
		}
	}
}

// begin takes one zone through its spin-up pass to the morning of the record's
// first day.
func (w *worker) begin(zone *sim.Zone, growth *sim.Growth, forcing []sim.Day, plan *sim.Plan) {
	w.balance.Reset(zone, w.site.StartShare*zone.TAWMM)
	if plan.Spin == 0 {
		return
	}
	var unused sim.Sums
	days := growth.Head
	if len(days) == 0 {
		days = forcing[:plan.Spin]
	}
	w.balance.Replay(days, nil, plan, 0, &unused, nil, 0)
}
