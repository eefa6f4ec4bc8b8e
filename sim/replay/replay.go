// Package replay runs every strategy of a site on every zone, the two reference
// strategies last, and returns a [tally.Table]. It keeps no ledger in memory: it
// passes daily rows to a function, one zone under one strategy at a time.
package replay

import (
	"context"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// SpinUpDays is the length of the spin-up pass. A shorter record has none: its root
// zones start full unless stated.
const SpinUpDays = 365

// A Job is one replay of a site.
type Job struct {
	Zones      []sim.Zone
	Weather    sim.Weather
	Strategies []strategy.Strategy // the first is the baseline if none has that role
	Limits     *strategy.Limits    // nil for none; the two references ignore limits
	Wiring     *clock.Wiring       // controllers and meters; nil for one controller, one zone at a time
	Forecast   strategy.Forecast   // forecast rain; the zero Forecast means none
	// StartShare is the depletion at the start as a share of TAW, used if NoSpinUp
	// is set. Otherwise the first SpinUpDays run once with the same strategy, from
	// a full root zone, before the record begins; a shorter record starts from a full
	// root zone.
	NoSpinUp   bool
	StartShare float64
	// South is set in the southern hemisphere, where a year runs from July to June.
	South bool
	// ExcludeYears are calendar years replayed but excluded from rankings and sums.
	ExcludeYears []int
	// Brief asks for outcomes in little room: see [tally.Brief].
	Brief bool
	// DosesOnly says that the sink reads nothing of a sheet but [Sheet.Volume], which takes
	// less time.
	DosesOnly bool
	// Daily asks [Runner.Repeat] for the water of each day: see [Runner.Daily].
	Daily bool
	// MarkShifts are by how much the marks of every plant are moved to count stress
	// days by those marks in the same pass: see [tally.Table.WithMarks].
	MarkShifts []float64

	Workers int // goroutines; 0 and 1 mean one. Results do not depend on it.
	// Step, if not nil, is called after each strategy, from any goroutine.
	Step func()
}

// SpinUp returns the length of the spin-up pass [d]; 0 for none.
func (j *Job) SpinUp() int {
	if j.NoSpinUp || j.Weather.Days() < SpinUpDays {
		return 0
	}
	return SpinUpDays
}

// BasisOf returns what the yearly figures of a replay cover, without a replay.
func BasisOf(j *Job) tally.Basis {
	t := tally.Table{Spans: sim.NewCalendar(j.Weather.Start, j.Weather.Days()).Spans, South: j.South, Excluded: j.ExcludeYears}
	return t.Basis()
}

// Covers reports whether those figures cover the given date of the record.
func Covers(j *Job, b *tally.Basis, d cal.Date) bool {
	t := tally.Table{Excluded: j.ExcludeYears}
	return t.Covers(b, d)
}

// Run replays the job with a new [Runner].
func Run(ctx context.Context, job *Job, sink func(*Sheet) error) (*tally.Table, error) {
	r := new(Runner)
	if _, err := r.Run(ctx, job, sink); err != nil {
		return nil, err
	}
	return r.Keep(), nil
}

// A Runner replays one job after another in the same memory: the second job of the
// same size allocates nothing. The zero Runner is ready to use. It is not safe for
// concurrent use, but starts its own goroutines.
type Runner struct {
	stage    stage
	workers  []worker
	schedule schedule
	table    tally.Table
	yearly   bool // a varied table keeps its months
	results
	daily     [][][]float64 // by strategy, zone and day; see [Runner.Daily]
	decisions [][]sim.Plan  // see [last]
	last      last
}

// results are the memory that the table's outcomes share.
type results struct {
	months     []sim.Sums
	briefs     briefs
	moved      []tally.MovedStress
	movedYears []sim.Stress
}

// Run replays the job. The table is valid until the next Run or Vary. sink, if not
// nil, receives the daily rows, one sheet at a time, ordered by strategy and zone,
// in the goroutine that called Run. An error from sink ends the run. Any other error
// is from ctx.
func (r *Runner) Run(ctx context.Context, job *Job, sink func(*Sheet) error) (*tally.Table, error) {
	r.last.job = nil
	r.stage.prepare(job, max(job.Workers, 1))
	r.prepareTable(job)
	return r.run(ctx, job, sink)
}

// Vary replays other strategies on the zones, the weather and all else of the last
// job that was run, whose day records it shares. only says which zones to replay;
// nil for all. The table is valid until the next Run or Vary; its outcomes stay. It
// is lean (see [tally.Table.MakeLean]) and lacks the reference strategies, and zones
// not replayed have sums of 0. The error is from ctx.
func (r *Runner) Vary(ctx context.Context, strategies []strategy.Strategy, only []bool) (*tally.Table, error) {
	r.last.job = nil
	job := *r.stage.job
	job.Strategies, job.MarkShifts, job.Step = strategies, nil, nil
	r.stage.vary(&job, only)
	r.prepareTable(&job)
	return r.run(ctx, &job, nil)
}

// Trial replays some strategies on the zones, the weather and all else of a job, before
// the job itself is run. Its table lacks the reference strategies and is valid until the
// next run. job has strategies of the same kinds, which decide what is prepared. The error
// is from ctx.
func (r *Runner) Trial(ctx context.Context, job *Job, strategies []strategy.Strategy) (*tally.Table, error) {
	own := *job
	r.stage.prepare(&own, max(job.Workers, 1))
	return r.trial(ctx, strategies)
}

// Again is a further [Runner.Trial] of the same job, whose day records it shares.
func (r *Runner) Again(ctx context.Context, strategies []strategy.Strategy) (*tally.Table, error) {
	return r.trial(ctx, strategies)
}

func (r *Runner) trial(ctx context.Context, strategies []strategy.Strategy) (*tally.Table, error) {
	r.last.job = nil
	own := *r.stage.job
	own.Strategies, own.MarkShifts, own.Step, own.Brief = strategies, nil, nil, false
	r.stage.vary(&own, nil)
	r.yearly = true
	r.prepareTable(&own)
	r.yearly = false
	return r.run(ctx, &own, nil)
}

// After runs a job as [Runner.Run] does, on the day records of the last Trial, whose job
// had the same zones, weather and kinds of strategies.
func (r *Runner) After(ctx context.Context, job *Job, sink func(*Sheet) error) (*tally.Table, error) {
	r.last.job = nil
	r.stage.resume(job)
	r.prepareTable(job)
	return r.run(ctx, job, sink)
}

// Keep returns the table of the last run for good: the runner forgets it, and its
// next run lays out another.
func (r *Runner) Keep() *tally.Table {
	t := r.table
	r.table, r.results, r.last.job = tally.Table{}, results{}, nil
	return &t
}

// run replays the job on the stage into the table.
func (r *Runner) run(ctx context.Context, job *Job, sink func(*Sheet) error) (*tally.Table, error) {
	n := max(job.Workers, 1)
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
	t.ForgetYears()
	t.Zones, t.Spans, t.Excluded = job.Zones, r.stage.site.Calendar.Spans, job.ExcludeYears
	t.South, t.DrynessMM = job.South, tally.AppendDryness(t.DrynessMM[:0], t.Spans, &job.Weather)
	t.Strategies, t.Baseline, t.Cut = t.Strategies[:0], 0, 0
	for i := range job.Strategies {
		switch job.Strategies[i].Role {
		case strategy.Baseline:
			t.Baseline = i
		case strategy.Cut:
			t.Cut = i
		}
		t.Strategies = append(t.Strategies, job.Strategies[i].Name)
	}
	if !r.stage.varied {
		t.Strategies = append(t.Strategies, tally.NoWater, tally.LeastWater)
	}
	spans, zones := len(t.Spans), len(job.Zones)
	rows := r.leastRows(len(t.Strategies))
	t.Outcomes = grow(t.Outcomes, rows)
	t.Breaches = grow(t.Breaches, len(t.Strategies))
	for s := range t.Outcomes {
		t.Outcomes[s] = grow(t.Outcomes[s], zones)
	}
	for s := range t.Breaches {
		t.Breaches[s] = t.Breaches[s][:0]
	}
	defer r.layOutMoved(job.MarkShifts)
	switch {
	case r.stage.varied && !r.yearly:
		t.MakeLean()
		return
	case job.Brief:
		r.briefs.layOut(t, &job.Weather)
		return
	}
	r.months = grow(r.months, spans*zones*rows)
	free := r.months
	for s := range t.Outcomes {
		for z := range t.Outcomes[s] {
			t.Outcomes[s][z] = tally.Outcome{Months: free[:spans:spans]}
			free = free[spans:]
		}
	}
}

// leastRows numbers the rows of what each strategy that changes zones requires, which
// follow the rows of the n strategies, and returns the number of all rows. A varied
// table has none.
func (r *Runner) leastRows(n int) int {
	t := &r.table
	t.LeastRows = t.LeastRows[:0]
	if r.stage.varied {
		return n
	}
	for s := range r.stage.changed {
		row := 0
		if len(r.stage.changed[s]) > 0 {
			row, n = n, n+1
		}
		t.LeastRows = append(t.LeastRows, row)
	}
	return n
}

// grow returns s with length n. It keeps memory and elements if possible.
func grow[T any](s []T, n int) []T {
	if cap(s) >= n {
		return s[:n]
	}
	return append(s[:cap(s)], make([]T, n-cap(s))...)
}
