package replay

import (
	"context"
	"reflect"
	"slices"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// Repeat replays a job as [Runner.Run] does, and takes over from the last Repeat what
// cannot have changed, so that a job that differs in one zone or in one strategy takes a
// small part of the time. The numbers are those of Run, to the last bit. Nothing is taken
// over unless weather, rules, wiring and start are the same. Then
//
//   - a strategy that is the same is taken over, if no zone has changed;
//   - if some have, so is what it did to the others, but only where nothing in one zone
//     bears on another: there are no limits, no sensor controls another zone, and zones do
//     not change during the record;
//   - under limits, a strategy that decides by calendar and weather alone (see
//     [strategy.Strategy.SetAhead]) decides the same, as long as no flow is limited: zones
//     that have changed are replayed with the doses that those runs are there;
//   - the references of zones that are the same are taken over.
//
// Columns of weather are the same if they are in the same memory, which must not change; nor
// may the zones and strategies of a job after its run. Workers and MarkShifts are ignored.
// The table must not be changed. It is valid until the next Repeat but one, and no longer
// than until any other run. The error is from ctx.
func (r *Runner) Repeat(ctx context.Context, job *Job) (*tally.Table, error) {
	own := *job
	own.Workers, own.MarkShifts, own.DosesOnly = 1, nil, true
	l := &r.last
	l.compare(&own)
	l.job = nil // until this run has succeeded
	r.stage.same = l.site
	r.stage.prepare(&own, 1)
	r.stage.same = false
	r.table, l.table = l.table, r.table
	r.results, l.results = l.results, r.results
	r.prepareTable(&own)
	r.layOutDaily(&own)
	r.decisions, l.decisions = grow(l.decisions, len(own.Strategies)), r.decisions
	clear(r.decisions)
	r.workers = grow(r.workers, max(1, len(r.workers)))
	r.workers[0].prepare(&r.stage)
	for s := range r.table.Strategies {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		r.repeat(s)
		if own.Step != nil {
			own.Step()
		}
	}
	l.job = &own
	return &r.table, nil
}

// Daily returns the water that strategy s gave zone z on each day of the last
// [Runner.Repeat], with leaks [m³]; nil unless the job asked for it.
func (r *Runner) Daily(s, z int) []float64 {
	if s >= len(r.daily) {
		return nil
	}
	return r.daily[s][z]
}

// A last is the run before, of a [Runner] that repeats.
type last struct {
	job     *Job // nil if nothing can be taken over
	table   tally.Table
	results results
	daily   [][][]float64 // as those of the runner
	// decisions are the plans, with their runs, of strategies under limits that decide by
	// calendar and weather alone, by strategy and zone; nil for others.
	decisions [][]sim.Plan
	site      bool   // all but zones and strategies is the same in the job under way
	zones     []bool // by zone: it is the same
	all       bool   // all zones are
	flows     bool   // flows decide the same
	rows      []int  // by strategy of the job under way: its row, if it is the same; -1 for none
}

// compare finds what of a job is as in the run before.
func (l *last) compare(job *Job) {
	l.zones, l.rows = grow(l.zones, len(job.Zones)), grow(l.rows, len(job.Strategies))
	clear(l.zones)
	for s := range l.rows {
		l.rows[s] = -1
	}
	l.site = l.job != nil && l.job.sameSite(job)
	if l.all = l.site; !l.site {
		return
	}
	l.flows = l.job.sameFlows(job)
	for z := range l.zones {
		l.zones[z] = l.job.Zones[z].Same(&job.Zones[z])
		l.all = l.all && l.zones[z]
	}
	for s := range l.rows {
		l.rows[s] = slices.IndexFunc(l.job.Strategies, func(st strategy.Strategy) bool {
			return st.Name == job.Strategies[s].Name && reflect.DeepEqual(st, job.Strategies[s])
		})
	}
}

// sameSite reports whether all is the same in two jobs but zones and strategies.
func (j *Job) sameSite(o *Job) bool {
	v, w := &j.Weather, &o.Weather
	return v.Start == w.Start && sameColumn(v.RainMM, w.RainMM) && sameColumn(v.EToMM, w.EToMM) && sameColumn(v.TmaxC, w.TmaxC) &&
		sameColumn(v.TminC, w.TminC) && sameColumn(v.WindMS, w.WindMS) &&
		slices.EqualFunc(j.Forecast.RainMM, o.Forecast.RainMM, sameColumn) &&
		slices.EqualFunc(j.Forecast.Probability, o.Forecast.Probability, sameColumn) &&
		reflect.DeepEqual(j.Limits, o.Limits) && reflect.DeepEqual(j.Wiring, o.Wiring) &&
		j.NoSpinUp == o.NoSpinUp && j.StartShare == o.StartShare && j.South == o.South && slices.Equal(j.ExcludeYears, o.ExcludeYears) &&
		j.Brief == o.Brief && j.Daily == o.Daily && len(j.Zones) == len(o.Zones) &&
		strategy.KeepsBalance(j.Strategies) == strategy.KeepsBalance(o.Strategies)
}

func sameColumn(a, b []float64) bool { return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0]) }

// rowOf returns the row, in the run before, of strategy s or reference s of the job under
// way; -1 for none.
func (l *last) rowOf(s int) int {
	switch n := len(l.rows); {
	case !l.site:
		return -1
	case s >= n:
		return s - n + l.table.NoWaterIndex()
	}
	return l.rows[s]
}

// repeat replays strategy s, or takes it over.
func (r *Runner) repeat(s int) {
	if r.takeRow(s) || r.redose(s) {
		return
	}
	w := &r.workers[0]
	reference := s >= len(r.last.rows)
	w.keep = !reference && w.job.Limits != nil && w.job.Strategies[s].SetAhead() && len(w.changed[s]) == 0
	w.compile(s, &r.table)
	if w.keep {
		r.decisions[s] = decisions(w.plans)
		w.keep = false
	}
	row := r.last.rowOf(s)
	apart := reference || w.apart && w.pieces == nil
	for z := range w.job.Zones {
		if apart && row >= 0 && r.last.zones[z] {
			r.takeZone(s, z, row)
			continue
		}
		r.repeatZone(s, z)
	}
}

// repeatZone replays zone z under strategy s, whose plans are there.
func (r *Runner) repeatZone(s, z int) {
	w := &r.workers[0]
	if s >= len(r.daily) {
		w.zone(s, z, &r.table, &w.own.plan, nil)
		return
	}
	plan := w.zone(s, z, &r.table, &w.own.plan, &w.own.trace)
	sheet := w.sheet(&r.table, s, z, plan, w.pieces, w.given)
	r.daily[s][z] = sheet.AppendMetered(nil)
}

// decisions returns what can be kept of plans that have kept their runs.
func decisions(plans []sim.Plan) []sim.Plan {
	out := make([]sim.Plan, len(plans))
	for z := range plans {
		p := &plans[z]
		out[z] = sim.Plan{Spin: p.Spin, Dose: slices.Clone(p.Dose), Reason: slices.Clone(p.Reason), Runs: slices.Clone(p.Runs),
			Watcher: p.Watcher}
		p.KeepRuns = false
	}
	return out
}

// redose replays strategy s with the decisions of the run before on the zones that have
// changed, takes over the others, and reports whether it could.
func (r *Runner) redose(s int) bool {
	l, w := &r.last, &r.workers[0]
	row := l.rowOf(s)
	if row < 0 || row >= len(l.decisions) || l.decisions[row] == nil || !l.flows {
		return false
	}
	kept := l.decisions[row]
	r.decisions[s] = kept
	w.apart, w.pieces, w.plans = false, nil, grow(w.plans, len(kept))
	for z := range w.job.Zones {
		if l.zones[z] {
			r.takeZone(s, z, row)
			continue
		}
		plan := &w.plans[z]
		plan.Redose(&kept[z], &w.job.Zones[z], w.shares[z], 1)
		r.repeatZone(s, z)
		plan.Dose, plan.Reason, plan.Watcher = nil, nil, nil // those of kept
	}
	r.table.Breaches[s] = append(r.table.Breaches[s], l.table.Breaches[row]...)
	return true
}

// sameFlows reports whether no zone draws another flow in another job with the same wiring,
// or none of the flows is limited.
func (j *Job) sameFlows(o *Job) bool {
	if o.Wiring == nil || !slices.ContainsFunc(o.Wiring.MeterLMin, func(flow float64) bool { return flow > 0 }) {
		return true
	}
	for z := range o.Zones {
		if j.Zones[z].FlowLMin() != o.Zones[z].FlowLMin() {
			return false
		}
	}
	return true
}

// takeRow takes strategy s over, and reports whether it could.
func (r *Runner) takeRow(s int) bool {
	row := r.last.rowOf(s)
	if row < 0 || !r.last.all {
		return false
	}
	t, was := &r.table, &r.last.table
	for z := range t.Zones {
		r.takeZone(s, z, row)
	}
	if row < len(r.last.decisions) && s < len(r.decisions) {
		r.decisions[s] = r.last.decisions[row]
	}
	t.Breaches[s] = append(t.Breaches[s], was.Breaches[row]...)
	if at := t.LeastRow(s); at >= len(t.Strategies) {
		for z := range t.Zones {
			t.Outcomes[at][z].Copy(&was.Outcomes[was.LeastRow(row)][z])
		}
	}
	return true
}

// takeZone takes over what the strategy in a row of the run before did to zone z, for
// strategy s.
func (r *Runner) takeZone(s, z, row int) {
	r.table.Outcomes[s][z].Copy(&r.last.table.Outcomes[row][z])
	if s < len(r.daily) {
		r.daily[s][z] = r.last.daily[row][z]
	}
}

// layOutDaily makes room for the water of each day, if the job asks for it.
func (r *Runner) layOutDaily(job *Job) {
	r.daily, r.last.daily = r.last.daily, r.daily
	n := 0
	if job.Daily {
		n = len(job.Strategies)
	}
	r.daily = grow(r.daily, n)
	for s := range r.daily {
		r.daily[s] = grow(r.daily[s], len(job.Zones))
		clear(r.daily[s])
	}
}

// AppendMetered appends, for each day of the sheet, the water given and what leaks, as a
// meter reads it [m³].
func (s *Sheet) AppendMetered(dst []float64) []float64 {
	days := s.Days()
	dst = slices.Grow(dst, days)
	pieces := s.Pieces
	if pieces == nil {
		pieces = []Piece{{to: days, Zone: s.Zone, plan: s.Plan}}
	}
	i := 0
	for k := range pieces {
		zone, doses, to := pieces[k].Zone, pieces[k].plan.Doses, min(pieces[k].to, days)
		leak := float64(zone.LeakMMDay / 1000 * zone.AreaM2)
		for ; i < to; i++ {
			v := 0.0
			if given := s.Trace.Dose[i]; given != 0 {
				v = float64(doses[given].GrossMM / 1000 * zone.AreaM2)
			}
			dst = append(dst, v+leak)
		}
	}
	return dst
}
