package study

import (
	"context"
	"slices"

	"loamledger/plots"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// checks are what else is to be known about a result: how far the verdict rests on
// the marks of the plants and how much water is applied in the cold, counted as the
// job is replayed; and, from further replays of some strategies, how far it rests on
// the design ETo and which cycles would halve runoff.
type checks struct {
	design *plots.Design     // nil if no strategy but the first has a design ETo
	marks  *plots.PlantMarks // nil if there is one strategy
	cycles []plots.CycleTrial
	cold   []plots.Alarm
	next   *plots.NextTry // nil if an option is ready, or none found that would be
	// changes are the strategies that change zones, with each change by itself.
	changes []plots.ChangeTrial
	// lives are the parts with a stated life, by year since installation.
	lives []plots.LifeTrial
}

// designFactors are the factors on the design ETo, lowest first. The middle one
// is the replay itself.
var designFactors = [...]float64{0.75, 1, 1.25}

// cycleTrials are the cycles and soaks that are tried where water runs off, the
// least trouble first [min].
var cycleTrials = [...][2]float64{{10, 30}, {5, 30}, {5, 60}, {3, 60}}

// mostTrialCycles is the maximum number of cycles of a trial in one start: nobody
// would set more, and it bounds the work.
const mostTrialCycles = 500

// enoughWater is the share of the water that entered the soil, or was lost in the
// air, that shorter cycles must still apply.
const enoughWater = 0.97

// Replay replays the study's job and checks the result: it sets l.Checks. sink is
// that of [replay.Runner.Run]. An error is from sink or ctx.
func (l *Study) Replay(ctx context.Context, sink func(*replay.Sheet) error) (*tally.Table, error) {
	job := l.Job
	if len(job.Strategies) > 1 { // else there is no verdict that other marks could change
		job.MarkShifts = []float64{markShifts[0], markShifts[2]}
	}
	cold := newColdWater(l)
	use := newMeterUse(l)
	var r replay.Runner
	grown := newEstablishment(&l.Job)
	if _, err := r.Run(ctx, &job, grown.beside(use.beside(cold.beside(sink)))); err != nil {
		return nil, err
	}
	t := r.Keep()
	if use != nil {
		l.money.work(use, l.Weather.Start, t)
	}
	c := checks{marks: l.overMarks(t), cold: l.coldAlarms(cold)}
	var err error
	if c.design, err = l.tryDesign(ctx, &r, t); err != nil {
		return nil, err
	}
	if c.cycles, err = l.tryCycles(ctx, &r, t); err != nil {
		return nil, err
	}
	if c.next, err = l.tryNext(ctx, &r, t); err != nil {
		return nil, err
	}
	if c.changes, err = l.tryChanges(ctx, &r, grown); err != nil {
		return nil, err
	}
	if c.lives, err = l.tryLives(ctx); err != nil {
		return nil, err
	}
	l.checks = &c
	return t, nil
}

// tryDesign replays the strategies that scale run times by a design ETo with more
// and less of it. The first strategy is what ran and stays as it is.
func (l *Study) tryDesign(ctx context.Context, r *replay.Runner, t *tally.Table) (*plots.Design, error) {
	d := &plots.Design{}
	site := replay.SiteOf(&l.Job)
	for s := 1; s < len(l.Job.Strategies); s++ {
		if mm, auto, ok := l.Job.Strategies[s].DesignETo(site); ok {
			d.Strategies, d.MM, d.Auto = append(d.Strategies, s), append(d.MM, mm), append(d.Auto, auto)
		}
	}
	if len(d.Strategies) == 0 {
		return nil, nil
	}
	for _, factor := range designFactors {
		of := t
		if factor != 1 {
			var list []strategy.Strategy
			for _, s := range d.Strategies {
				scaled, _ := l.Job.Strategies[s].WithDesign(factor)
				list = append(list, scaled)
			}
			other, err := r.Vary(ctx, list, nil)
			if err != nil {
				return nil, err
			}
			of = replaced(t, other, d.Strategies)
		}
		d.Cases = append(d.Cases, plots.DesignCase{Factor: factor, Table: of})
	}
	return d, nil
}

// replaced returns t with its strategies in list replaced by those of other, in
// the same order.
func replaced(t, other *tally.Table, list []int) *tally.Table {
	out := *t
	out.Outcomes, out.Breaches = slices.Clone(t.Outcomes), slices.Clone(t.Breaches)
	for i, s := range list {
		out.Outcomes[s], out.Breaches[s] = slices.Clone(other.Outcomes[i]), slices.Clone(other.Breaches[i])
	}
	return &out
}

// tryCycles replays each strategy in shorter cycles, where water runs off.
// It keeps, for each zone, the cycles with the least runoff, if they at least
// halve it and about the same water enters the soil; of equal ones the least trouble.
func (l *Study) tryCycles(ctx context.Context, r *replay.Runner, t *tally.Table) ([]plots.CycleTrial, error) {
	var out []plots.CycleTrial
	basis := t.Basis()
	for s := range l.Job.Strategies {
		zones := plots.Runoff(t, l.measures(), s)
		if _, ok := l.Job.Strategies[s].WithCycles(1, 1); !ok || len(zones) == 0 {
			continue
		}
		var list []strategy.Strategy
		var trials [][2]float64
		for _, trial := range cycleTrials {
			other, _ := l.Job.Strategies[s].WithCycles(trial[0], trial[1])
			if longest := other.Longest(l.Job.Zones); longest.Run.Cycles() > mostTrialCycles {
				continue
			}
			list, trials = append(list, other), append(trials, trial)
		}
		if len(list) == 0 {
			continue
		}
		only := make([]bool, len(t.Zones))
		for i := range zones {
			only[zones[i].Zone] = true
		}
		tried, err := r.Vary(ctx, list, only)
		if err != nil {
			return nil, err
		}
		for _, of := range zones {
			before := t.Sum(&basis, s, of.Zone)
			profile := l.timerOf(l.Scenario.Zones[of.Zone].Controller)
			best := plots.CycleTrial{Strategy: s, Zone: of.Zone, Starts: profile != nil && !profile.Cycle}
			least := 0.5 * before.IrrRunoffMM
			for k, trial := range trials {
				after := tried.Sum(&basis, k, of.Zone)
				if after.GrossMM-after.IrrRunoffMM < enoughWater*(before.GrossMM-before.IrrRunoffMM) { // limits leave no room for the soaks
					continue
				}
				// A little less runoff is not worth more starts.
				if after.IrrRunoffMM <= least && (best.CycleMin == 0 || after.IrrRunoffMM < least-float64(0.05*before.IrrRunoffMM)) {
					best.CycleMin, best.SoakMin, least = trial[0], trial[1], after.IrrRunoffMM
				}
			}
			if best.CycleMin > 0 {
				m3 := t.Zones[of.Zone].AreaM2 / 1000 / basis.Divisor()
				best.BeforeM3, best.AfterM3 = before.IrrRunoffMM*m3, least*m3
				out = append(out, best)
			}
		}
	}
	return out, nil
}
