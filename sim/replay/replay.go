// Package replay runs every strategy of a site on every zone, the two
// reference strategies last, and hands back a [tally.Table]. It needs no
// ledger in memory: daily rows go, one zone under one strategy at a time, to a
// function.
package replay

import (
	"context"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// SpinUpDays is the length of the spin-up pass, or the whole record where that
// is shorter.
const SpinUpDays = 365

// A Job is one replay of a site.
type Job struct {
	Zones      []sim.Zone
	Weather    sim.Weather
	Strategies []strategy.Strategy
	Limits     *strategy.Limits  // nil for none; the two references know no limits
	Forecast   strategy.Forecast // what was forecast; the zero Forecast for nothing
	// StartShare is the depletion at the start as a share of TAW, used when
	// NoSpinUp is set. Otherwise the first SpinUpDays run once with the same
	// strategy, from a full root zone, before the record begins.
	NoSpinUp   bool
	StartShare float64
	// ExcludeYears are replayed and left out of rankings and sums.
	ExcludeYears []int
	// Brief asks for outcomes in little room: see [tally.Brief].
	Brief   bool
	Workers int // goroutines; 0 and 1 mean one. Results do not depend on it.
	// Step, if not nil, is called after each strategy, from any goroutine.
	Step func()
}

// Run replays the job with a new [Runner].
func Run(ctx context.Context, job *Job, sink func(*Sheet) error) (*tally.Table, error) {
	t, err := new(Runner).Run(ctx, job, sink)
	if err != nil {
		return nil, err
	}
	alone := *t // without the runner's memory, most of which the table does not need
	return &alone, nil
}

// A Runner replays one job after another in the same memory: the second job of
// a size allocates nothing. The zero Runner is ready. It is not for use by
// several goroutines at once; it starts its own.
type Runner struct {
	stage    stage
	workers  []worker
	schedule schedule
	table    tally.Table
	months   []sim.Sums // what the table's outcomes share
	briefs   briefs
}

// Run replays the job. The table is valid until the next Run. sink, if not
// nil, is handed the daily rows in the order strategy, zone, one sheet at a
// time and from the goroutine that called Run, and its error ends the run. The
// error is otherwise only that of ctx.
func (r *Runner) Run(ctx context.Context, job *Job, sink func(*Sheet) error) (*tally.Table, error) {
	n := max(job.Workers, 1)
	r.stage.prepare(job, n)
	r.prepareTable(job)
	r.workers = grow(r.workers, max(n, len(r.workers)))
	workers := r.workers[:n]
	for i := range workers {
		workers[i].prepare(&r.stage)
	}
	if n > 1 {
		if err := r.shared(ctx, workers, sink); err != nil {
			return nil, err
		}
		return &r.table, nil
	}
	for s := range r.table.Strategies {
		err := ctx.Err()
		if err == nil {
			err = workers[0].strategy(s, &r.table, sink)
		}
		if err != nil {
			return nil, err
		}
		if job.Step != nil {
			job.Step()
		}
	}
	return &r.table, nil
}

// prepareTable lays out the table, its sums not yet those of this run.
func (r *Runner) prepareTable(job *Job) {
	t := &r.table
	t.Zones, t.Spans, t.Excluded = job.Zones, r.stage.site.Calendar.Spans, job.ExcludeYears
	t.Strategies = t.Strategies[:0]
	for i := range job.Strategies {
		t.Strategies = append(t.Strategies, job.Strategies[i].Name)
	}
	t.Strategies = append(t.Strategies, tally.NoWater, tally.LeastWater)
	spans, zones, strategies := len(t.Spans), len(job.Zones), len(t.Strategies)
	t.Outcomes = grow(t.Outcomes, strategies)
	t.Breaches = grow(t.Breaches, strategies)
	for s := range t.Outcomes {
		t.Breaches[s] = t.Breaches[s][:0]
		t.Outcomes[s] = grow(t.Outcomes[s], zones)
	}
	if job.Brief {
		r.briefs.layOut(t)
		return
	}
	r.months = grow(r.months, spans*zones*strategies)
	free := r.months
	for s := range t.Outcomes {
		for z := range t.Outcomes[s] {
			t.Outcomes[s][z] = tally.Outcome{Months: free[:spans:spans]}
			free = free[spans:]
		}
	}
}

// grow returns s with length n, keeping its memory and elements where it can.
func grow[T any](s []T, n int) []T {
	if cap(s) >= n {
		return s[:n]
	}
	return append(s[:cap(s)], make([]T, n-cap(s))...)
}
