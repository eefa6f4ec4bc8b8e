package replay

import (
	"context"
	"slices"
	"sync"
	"sync/atomic"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// A World is the site of a job as it may be: other zones, and weather that differs from
// the record by a factor.
type World struct {
	Zones []sim.Zone
	// Strategies are those of the job with the zones of their stretches, and the numbers of
	// their parts, as they may be. nil for those of the job.
	Strategies []strategy.Strategy
	// Own says which of them have parts that differ from those of the job; nil for none.
	Own       []bool
	ETo, Rain float64 // factors on every day's ETo and rain, at least 0
	// GrossMM is the water that each strategy gives each zone in each span of the calendar,
	// with leaks [mm over the zone of the world]. It is filled in by a replay of [Worlds]
	// with Monthly set.
	GrossMM [][][]float64
}

// Worlds replays one job in many worlds. A controller keeps the settings that were worked
// out from the zones and the weather of the job: what it does on each day is the same in
// every world. Only soil sensors, which read the soil of the world, and people who look
// at the plants decide otherwise. A sensor that controls other zones than its own decides
// as in the job. Numbers of a strategy's own, such as run times that were entered
// otherwise, are those of the world.
type Worlds struct {
	// Anew has every strategy decide from the zones and the weather of the world, as if
	// all of them had been measured before the controller was set.
	Anew bool
	// Monthly has the worlds keep their water by span.
	Monthly bool

	job     Job
	stage   *stage        // of the job
	central *tally.Table  // of the job
	plans   [][]sim.Plan  // by strategy, then zone; none for a strategy that changes zones
	pieces  [][][]Piece   // by strategy and zone, of strategies that change zones
	taw     []float64     // by zone [mm]
	workers []worldWorker // kept from run to run
}

// A worldWorker replays one world after another.
type worldWorker struct {
	worker
	stage stage
	job   Job
	world World
	kept  *worker // works out what strategies with numbers of their own decide in the job
	jobs  Job     // of kept
	eto   []float64
	rain  []float64
	table tally.Table
}

// NewWorlds works out the decisions of a job. central is the table of a run of the job,
// which lends its reference strategies and breaches to the tables of the worlds.
func NewWorlds(job *Job, central *tally.Table) *Worlds {
	w := &Worlds{job: *job, central: central}
	w.job.Step, w.job.MarkShifts, w.job.Brief, w.job.Workers = nil, nil, false, 1
	s := new(stage)
	s.prepare(&w.job, max(job.Workers, 1))
	own := &worker{}
	own.prepare(s)
	breaches := *central
	breaches.Breaches = make([][]sim.Breach, len(central.Strategies)) // listed already
	for z := range w.job.Zones {
		w.taw = append(w.taw, w.job.Zones[z].TAWMM)
	}
	w.plans, w.pieces = make([][]sim.Plan, len(job.Strategies)), make([][][]Piece, len(job.Strategies))
	w.stage = s
	for k := range job.Strategies {
		w.plans[k], w.pieces[k] = own.decide(k, &breaches)
	}
	return w
}

// decide works out the plans of strategy k in a way that they can be kept, or its pieces
// if it changes zones.
func (own *worker) decide(k int, t *tally.Table) ([]sim.Plan, [][]Piece) {
	own.planned = &planned{keep: true}
	own.compile(k, t)
	if own.pieces != nil {
		return nil, own.pieces
	}
	plans := make([]sim.Plan, len(own.job.Zones))
	if !own.apart {
		copy(plans, own.plans)
	}
	for z := range plans {
		if own.apart {
			plans[z].KeepRuns = true
			own.plan(k, z, &plans[z])
		}
		plans[z].Gate = plans[z].Gate.Clone()
	}
	return plans, nil
}

// redecide works out what strategy k decides in the job with the numbers that it has in
// the world.
func (o *worldWorker) redecide(w *Worlds, k int) ([]sim.Plan, [][]Piece) {
	if o.kept == nil {
		own := *w.stage
		own.courses, own.changed = slices.Clone(own.courses), slices.Clone(own.changed)
		o.jobs = w.job
		o.jobs.Strategies = slices.Clone(w.job.Strategies)
		own.job = &o.jobs
		o.kept = &worker{stage: &own}
	}
	st := &o.jobs.Strategies[k]
	*st = w.job.Strategies[k]
	st.Parts = o.world.Strategies[k].Parts
	o.kept.courses = o.kept.courses[:len(w.stage.courses)]
	o.kept.changed[k] = o.kept.stretches(st)
	t := *w.central
	t.Breaches = make([][]sim.Breach, len(w.central.Strategies)) // listed already
	return o.kept.decide(k, &t)
}

// note keeps the water of one zone by span.
func (o *worldWorker) note(s, z int, months []sim.Sums) {
	for len(o.world.GrossMM) <= s {
		o.world.GrossMM = append(o.world.GrossMM, nil)
	}
	of := &o.world.GrossMM[s]
	for len(*of) <= z {
		*of = append(*of, nil)
	}
	(*of)[z] = grow((*of)[z], len(months))
	for m := range months {
		(*of)[z][m] = months[m].GrossMM
	}
}

// Run replays n worlds on the given number of goroutines, 1 or more. world fills the
// world of a number, 0 to n − 1, whose memory is used again; took receives its table,
// which is valid until took returns, as is the world. Both are called from any goroutine, once for each
// number, and results depend on neither order nor number of goroutines if they do not.
//
// A table is lean (see [tally.Table.MakeLean]). Its reference strategies, the rows of
// what strategies require, breaches and ranks of years are those of the job. An error is
// from world or ctx.
func (w *Worlds) Run(ctx context.Context, n, goroutines int, world func(i int, w *World) error,
	took func(i int, w *World, t *tally.Table)) error {
	for len(w.workers) < goroutines {
		w.workers = append(w.workers, worldWorker{})
	}
	var next atomic.Int64
	var wg sync.WaitGroup
	var once sync.Once
	var first error
	var failed atomic.Bool
	for k := range max(goroutines, 1) {
		own := &w.workers[k]
		own.begin(w)
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < n && !failed.Load(); i = int(next.Add(1)) - 1 {
				err := ctx.Err()
				if err == nil {
					err = world(i, &own.world)
				}
				if err != nil {
					once.Do(func() { first = err })
					failed.Store(true)
					return
				}
				own.replay(w)
				took(i, &own.world, &own.table)
			}
		})
	}
	wg.Wait()
	return first
}

// begin lays out the table of a worker.
func (o *worldWorker) begin(w *Worlds) {
	if o.table.Outcomes != nil {
		return
	}
	o.job = w.job
	t := *w.central
	t.MarkShifts = nil
	t.Outcomes = make([][]tally.Outcome, len(w.central.Outcomes))
	for s := range t.Outcomes {
		t.Outcomes[s] = make([]tally.Outcome, len(t.Zones))
	}
	t.MakeLean()
	for s := len(w.job.Strategies); s < len(t.Outcomes); s++ {
		t.Outcomes[s] = w.central.Outcomes[s]
	}
	o.table = t
}

// scaled fills dst with a column multiplied by a factor.
func scaled(dst, column []float64, factor float64) []float64 {
	dst = grow(dst, len(column))
	for i, v := range column {
		dst[i] = factor * v
	}
	return dst
}

// replay replays the worker's world into its table.
func (o *worldWorker) replay(w *Worlds) {
	o.eto, o.rain = scaled(o.eto, w.job.Weather.EToMM, o.world.ETo), scaled(o.rain, w.job.Weather.RainMM, o.world.Rain)
	o.job.Zones, o.job.Weather.EToMM, o.job.Weather.RainMM = o.world.Zones, o.eto, o.rain
	if o.job.Strategies = w.job.Strategies; o.world.Strategies != nil {
		o.job.Strategies = o.world.Strategies
	}
	o.stage.decided = !w.Anew
	o.stage.prepare(&o.job, 1)
	o.worker.stage = &o.stage
	if o.noted = nil; w.Monthly {
		o.noted = o.note
	}
	t := &o.table
	t.Zones = o.job.Zones
	if w.Anew {
		o.anew()
		return
	}
	for s := range w.plans {
		plans, pieces := w.plans[s], w.pieces[s]
		if o.world.Own != nil && o.world.Own[s] {
			plans, pieces = o.redecide(w, s)
		}
		for z := range o.job.Zones {
			out := &t.Outcomes[s][z]
			months := o.monthsOf(t, out)
			if pieces != nil {
				o.replayPieces(o.piecesOf(pieces[z], s, z), t, months, nil, nil)
			} else {
				zone := &o.job.Zones[z]
				o.own.plan.Redose(&plans[z], zone, o.stage.shares[z], zone.TAWMM/w.taw[z])
				o.worker.replay(zone, z, &o.own.plan, t, months, nil, nil)
			}
			if o.noted != nil {
				o.noted(s, z, months)
			}
			keep(t, out, months)
		}
	}
}

// anew has every strategy decide in the worker's world.
func (o *worldWorker) anew() {
	t := &o.table
	t.LeastRows = nil // what strategies require is that of the job
	if o.planned == nil {
		o.planned = new(planned)
		t.Breaches = make([][]sim.Breach, len(t.Breaches))
	}
	for s := range o.job.Strategies {
		t.Breaches[s] = t.Breaches[s][:0]
		_ = o.worker.strategy(s, t, nil) // without a sink there is no error
	}
}

// piecesOf returns the pieces of zone z under strategy s, as they are in the worker's
// world.
func (o *worldWorker) piecesOf(central []Piece, s, z int) []Piece {
	list := make([]Piece, 0, len(central))
	for k := range central {
		was := &central[k]
		in := &o.stage.changed[s][was.stretch]
		zone := &in.Zones[z]
		plan := new(sim.Plan)
		plan.Redose(was.plan, zone, in.shares[z], zone.TAWMM/was.Zone.TAWMM)
		p := Piece{from: was.from, to: was.to, Zone: zone, Forcing: in.site.Forcing[z], growth: &in.site.Growth[z], plan: plan,
			since: was.since, reference: &in.reference[z], course: in.courseOf[z], share: zone.AreaM2 / o.job.Zones[z].AreaM2,
			roots: 1, anew: was.anew}
		if k > 0 && in.Roots != nil {
			p.roots = in.Roots[z]
		}
		list = append(list, p)
		firstWeek(list)
	}
	return list
}
