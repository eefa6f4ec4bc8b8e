// Package replay runs every strategy of a site on every zone, the two
// reference strategies last, and hands back a [tally.Table]. It needs no
// ledger in memory: daily rows go, one zone under one strategy at a time, to a
// function.
package replay

import (
	"context"
	"sync"

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
	// StartShare is the depletion at the start as a share of TAW, used when
	// NoSpinUp is set. Otherwise the first SpinUpDays run once with the same
	// strategy, from a full root zone, before the record begins.
	NoSpinUp   bool
	StartShare float64
	Workers    int // goroutines; 0 and 1 mean one. Results do not depend on it.
	// Step, if not nil, is called after each strategy, from any goroutine.
	Step func()
}

// Names returns the names of the strategies replayed, references last.
func (j *Job) Names() []string {
	names := make([]string, 0, len(j.Strategies)+2)
	for i := range j.Strategies {
		names = append(names, j.Strategies[i].Name)
	}
	return append(names, tally.NoWater, tally.LeastWater)
}

// Run replays the job. sink, if not nil, is handed the daily rows in the order
// strategy, zone, and its error ends the run; a run with a sink uses one
// goroutine. The error is otherwise only that of ctx.
func Run(ctx context.Context, job *Job, sink func(*Sheet) error) (*tally.Table, error) {
	s := prepare(job)
	table := &tally.Table{Strategies: job.Names(), Zones: job.Zones, Spans: s.site.Calendar.Spans}
	for range table.Strategies {
		row := make([]tally.Outcome, len(job.Zones))
		for z := range row {
			row[z].Months = append([]sim.Sums(nil), s.weather[z]...)
		}
		table.Outcomes = append(table.Outcomes, row)
	}
	workers := max(job.Workers, 1)
	if sink != nil {
		workers = 1
	}
	next := make(chan int, len(table.Strategies))
	for i := range table.Strategies {
		next <- i
	}
	close(next)
	errs := make([]error, workers)
	var wg sync.WaitGroup
	for k := range workers {
		wg.Go(func() {
			w := worker{stage: s, sink: sink, plans: make([]sim.Plan, len(job.Zones))}
			for i := range next {
				if errs[k] = ctx.Err(); errs[k] == nil {
					errs[k] = w.strategy(i, table.Strategies[i], table.Outcomes[i])
				}
				if errs[k] != nil {
					return
				}
				if job.Step != nil {
					job.Step()
				}
			}
		})
	}
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return table, nil
}

// A stage is what the strategies of a job share, worked out once.
type stage struct {
	job       *Job
	site      strategy.Site
	shares    [][]float64  // of each zone
	weather   [][]sim.Sums // by zone, then span: what weather alone decides
	reference []sim.Zone   // the zones of the least-water reference
}

func prepare(job *Job) *stage {
	n := job.Weather.Days()
	s := &stage{job: job, site: strategy.Site{Zones: job.Zones, Calendar: sim.NewCalendar(job.Weather.Start, n), Weather: job.Weather}}
	if !job.NoSpinUp {
		s.site.Spin = min(SpinUpDays, n)
	} else {
		s.site.StartShare = job.StartShare
	}
	for z := range job.Zones {
		zone := &job.Zones[z]
		forcing := sim.Forcing(nil, zone, job.Weather, s.site.Calendar)
		sums := make([]sim.Sums, len(s.site.Calendar.Spans))
		for i, span := range s.site.Calendar.Spans {
			sim.WeatherSums(&sums[i], zone, job.Weather, forcing, span)
		}
		s.site.Forcing = append(s.site.Forcing, forcing)
		s.weather = append(s.weather, sums)
		s.shares = append(s.shares, sim.Shares(zone.Strips, zone.DULQ))
		s.reference = append(s.reference, strategy.ReferenceZone(*zone))
	}
	return s
}

// A worker replays strategies one after another, in memory of its own.
type worker struct {
	*stage
	sink     func(*Sheet) error
	compiler strategy.Compiler
	plans    []sim.Plan
	balance  sim.Balance
	trace    sim.Trace
}

// strategy replays strategy i on every zone and adds to out.
func (w *worker) strategy(i int, name string, out []tally.Outcome) error {
	least := i == len(w.job.Strategies)+1
	switch {
	case least:
		for z := range w.reference {
			ref := &w.reference[z]
			strategy.LeastWater(ref, w.site.Forcing[z], w.site.Spin, w.site.StartShare*ref.TAWMM, &w.plans[z])
		}
	case i == len(w.job.Strategies):
		w.compiler.Compile(&w.site, &strategy.Strategy{}, w.shares, w.plans)
	default:
		w.compiler.Compile(&w.site, &w.job.Strategies[i], w.shares, w.plans)
	}
	for z := range w.job.Zones {
		zone := &w.job.Zones[z]
		if least {
			zone = &w.reference[z]
		}
		w.zone(zone, z, out[z].Months)
		if w.sink != nil {
			err := w.sink(&Sheet{Strategy: name, Zone: zone, Calendar: w.site.Calendar, Weather: w.site.Weather, Forcing: w.site.Forcing[z], Plan: &w.plans[z], Trace: &w.trace})
			if err != nil {
				return err
			}
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
		var lost sim.Sums
		w.balance.Replay(forcing[:plan.Spin], plan, 0, &lost, nil, 0)
		w.balance.ForgetStreak()
	}
	for m, span := range w.site.Calendar.Spans {
		w.balance.Replay(forcing[span.From:span.To], plan, plan.Spin+span.From, &months[m], tr, span.From)
	}
}
