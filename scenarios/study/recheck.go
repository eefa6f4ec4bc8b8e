package study

import (
	"context"
	"slices"

	"loamledger/plots"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// Checks are what further replays of the same strategies say about a result: how
// far the verdict rests on the design ETo and on the marks of the plants, which
// cycles would halve runoff, and how much water is applied in the cold.
type Checks struct {
	Design *plots.Design     // nil if no strategy but the first has a design ETo
	Marks  *plots.PlantMarks // nil if there is one strategy
	Cycles []plots.CycleTrial
	Cold   []plots.Alarm
}

// designFactors are the factors on the design ETo, lowest first. The middle one
// is the replay itself.
var designFactors = [...]float64{0.75, 1, 1.25}

// cycleTrials are the cycles and soaks that are tried where water runs off, the
// least trouble first [min].
var cycleTrials = [...][2]float64{{10, 30}, {5, 30}, {5, 60}, {3, 60}}

// enoughWater is the share of the water that entered the soil, or was lost in the
// air, that shorter cycles must still apply.
const enoughWater = 0.97

// Recheck makes the further replays. t is the result to check. An error is from
// ctx.
func (l *Study) Recheck(ctx context.Context, t *tally.Table) (*Checks, error) {
	var c Checks
	var err error
	var again replay.Runner // one replay after another, in the same memory
	if c.Design, err = l.tryDesign(ctx, &again, t); err != nil {
		return nil, err
	}
	if c.Marks, err = l.tryMarks(ctx, &again, t); err != nil {
		return nil, err
	}
	if c.Cycles, err = l.tryCycles(ctx, &again, t); err != nil {
		return nil, err
	}
	c.Cold, err = l.coldAlarms(ctx, &again)
	return &c, err
}

// rerun replays other strategies under the same weather and limits. The table is
// valid until the next replay in again.
func (l *Study) rerun(
	ctx context.Context, again *replay.Runner, list []strategy.Strategy, sink func(*replay.Sheet) error,
) (*tally.Table, error) {
	job := l.Job
	job.Strategies, job.Step, job.Lean = list, nil, true
	return again.Run(ctx, &job, sink)
}

// tryDesign replays the strategies that scale run times by a design ETo with more
// and less of it. The first strategy is what ran and stays as it is.
func (l *Study) tryDesign(ctx context.Context, again *replay.Runner, t *tally.Table) (*plots.Design, error) {
	d := &plots.Design{}
	site := replay.OutlineOf(&l.Job)
	for s := 1; s < len(l.Job.Strategies); s++ {
		if mm, auto, ok := l.Job.Strategies[s].DesignETo(site); ok {
			d.Strategies, d.MM, d.Auto = append(d.Strategies, s), append(d.MM, mm), append(d.Auto, auto)
		}
	}
	if len(d.Strategies) == 0 {
		return nil, nil
	}
	for _, factor := range designFactors {
		c := plots.DesignCase{Factor: factor, Table: t}
		if factor != 1 {
			var list []strategy.Strategy
			for _, s := range d.Strategies {
				scaled, _ := l.Job.Strategies[s].WithDesign(factor)
				list = append(list, scaled)
			}
			other, err := l.rerun(ctx, again, list, nil)
			if err != nil {
				return nil, err
			}
			c.Table = replaced(t, other, d.Strategies)
		}
		d.Cases = append(d.Cases, c)
	}
	return d, nil
}

// kept returns a lean table that the next replay does not overwrite.
func kept(t *tally.Table) *tally.Table {
	out := *t
	out.Strategies, out.DrynessMM = slices.Clone(t.Strategies), slices.Clone(t.DrynessMM)
	out.Outcomes, out.Breaches = slices.Clone(t.Outcomes), slices.Clone(t.Breaches)
	for s := range out.Outcomes {
		out.Outcomes[s], out.Breaches[s] = slices.Clone(t.Outcomes[s]), slices.Clone(t.Breaches[s])
	}
	return &out
}

// replaced returns t with its strategies in list replaced by those of other, in
// the same order.
func replaced(t, other *tally.Table, list []int) *tally.Table {
	out := *t
	out.Outcomes = append([][]tally.Outcome(nil), t.Outcomes...)
	out.Breaches = append(out.Breaches[:0:0], t.Breaches...)
	for i, s := range list {
		out.Outcomes[s] = slices.Clone(other.Outcomes[i])
		out.Breaches[s] = slices.Clone(other.Breaches[i])
	}
	return &out
}

// tryCycles replays each strategy under which water runs off in shorter cycles.
// It keeps, for each zone, the cycles with the least runoff, if they at least
// halve it and about the same water enters the soil; of equal ones the least trouble.
func (l *Study) tryCycles(ctx context.Context, again *replay.Runner, t *tally.Table) ([]plots.CycleTrial, error) {
	var out []plots.CycleTrial
	basis := t.Basis()
	for s := range l.Job.Strategies {
		zones := plots.Runoff(t, l.measures(), s)
		if _, ok := l.Job.Strategies[s].WithCycles(1, 1); !ok || len(zones) == 0 {
			continue
		}
		var list []strategy.Strategy
		for _, trial := range cycleTrials {
			other, _ := l.Job.Strategies[s].WithCycles(trial[0], trial[1])
			list = append(list, other)
		}
		tried, err := l.rerun(ctx, again, list, nil) // one strategy at a time: a large site's tables are large
		if err != nil {
			return nil, err
		}
		for _, r := range zones {
			before := t.Sum(&basis, s, r.Zone)
			best := plots.CycleTrial{Strategy: s, Zone: r.Zone}
			least := 0.5 * before.IrrRunoffMM
			for k, trial := range cycleTrials {
				after := tried.Sum(&basis, k, r.Zone)
				if after.GrossMM-after.IrrRunoffMM < enoughWater*(before.GrossMM-before.IrrRunoffMM) { // limits leave no room for the soaks
					continue
				}
				// A little less runoff is not worth more starts.
				if after.IrrRunoffMM <= least && (best.CycleMin == 0 || after.IrrRunoffMM < least-0.05*before.IrrRunoffMM) {
					best.CycleMin, best.SoakMin, least = trial[0], trial[1], after.IrrRunoffMM
				}
			}
			if best.CycleMin > 0 {
				m3 := t.Zones[r.Zone].AreaM2 / 1000 / basis.Divisor()
				best.BeforeM3, best.AfterM3 = before.IrrRunoffMM*m3, least*m3
				out = append(out, best)
			}
		}
	}
	return out, nil
}
