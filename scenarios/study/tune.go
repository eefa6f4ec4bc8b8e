package study

import (
	"context"
	"fmt"
	"slices"

	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
	"loamledger/weather/quantity"
)

// TuneOptions are options for a search.
type TuneOptions struct {
	Kinds       []tune.Kind
	Goal        tune.Goal
	PercentStep float64 // of monthly percentages, a share, if the scenario states no timer
	MarginPct   float64 // reserve: percent added to the water need of plants, 0 or more
	Unwatered   bool    // accept zones without water
	HoldOut     bool    // tune on odd years and score on even ones, if the record allows it
	// Watch, if not nil, is called before each kind is searched. It returns one
	// function called while settings are tried, with the zone replays so far, from any
	// goroutine, and one called at the end.
	Watch func(tune.Kind) (step func(zoneReplays int), done func())
}

// A Tuned is a kind's best setting, its scores, and why it is not proposed.
type Tuned struct {
	*tune.Result               // its Outcome covers the years on which it was tuned
	All          *tune.Outcome // over all whole years, without the reserve of the marks
	season       tuneSeason
	scores       []tuneScore // empty if the search was stopped
	against      []TuneReason
	// noSaving says that the difference to the baseline is implausible and is not
	// stated.
	noSaving bool
}

// Proposed reports whether the setting may be entered: nothing speaks against it
// except, perhaps, that it comes no closer to the goal.
func (t *Tuned) Proposed() bool {
	return !slices.ContainsFunc(t.against, func(r TuneReason) bool { return r.Code != tuneMisses })
}

// AnyProposed reports whether any setting is proposed.
func (t *Tuning) AnyProposed() bool {
	return slices.ContainsFunc(t.Kinds, func(k Tuned) bool { return k.Proposed() })
}

// A Tuning is the result of a search.
type Tuning struct {
	goal      tune.Goal
	marginPct float64
	heldOut   bool          // tuned on odd years, even ones kept for the score
	now       *tune.Outcome // of the scenario's baseline; nil if it has none
	Kinds     []Tuned
	Stopped   bool // the search was interrupted: the best found so far
}

// Tune searches each kind and scores what it finds. If the record has no whole
// year, the error is a [*diag.Error]. If ctx ends during the search, the result is
// the best found so far and Stopped is set; it is an error from ctx if there is
// nothing yet.
func (l *Study) Tune(ctx context.Context, o *TuneOptions) (*Tuning, error) {
	odd, even := l.oddEven()
	out := &Tuning{goal: o.Goal, marginPct: o.MarginPct, heldOut: o.HoldOut && odd && even}
	if len(l.Job.Strategies) > 0 {
		var err error
		base := l.baselineAlone()
		if out.now, err = tune.Check(ctx, l.tuneJob(), &base, out.plain(), tune.Options{}); err != nil {
			return nil, l.tuneFault(err)
		}
	}
	for _, k := range o.Kinds {
		t, err := l.tuneKind(ctx, o, out, k)
		switch {
		case err != nil && ctx.Err() != nil && len(out.Kinds) > 0:
			out.Stopped = true
		case err != nil:
			return nil, l.tuneFault(err)
		default:
			out.Kinds, out.Stopped = append(out.Kinds, *t), t.Stopped
		}
		if out.Stopped {
			break
		}
	}
	return out, nil
}

// tuneKind searches one kind.
func (l *Study) tuneKind(ctx context.Context, o *TuneOptions, of *Tuning, k tune.Kind) (*Tuned, error) {
	step, done := func(int) {}, func() {}
	if o.Watch != nil {
		step, done = o.Watch(k)
	}
	defer done()
	t := &Tuned{}
	var alarms []TuneReason
	tried := 0
	for try, most := range coldMost {
		season := l.tuneSeason(k, most)
		if try > 0 && season.same(&t.season) {
			continue
		}
		t.season = season
		opts := tune.Options{Space: tune.Space{Timer: l.tuneTimer(o)}, Margin: o.MarginPct / 100, Season: t.season.parts(),
			Intervals: l.intervals(), Clocks: l.tuneClocks(),
			Own: l.ownDays(), Design: l.roundDesign, Progress: func(n int) { step(tried + n) }}
		if of.heldOut {
			opts.Years = tune.Odd
		}
		r, err := tune.Tune(ctx, l.tuneJob(), k, o.Goal, opts)
		if err != nil {
			return nil, err
		}
		tried += r.Tried
		t.Result = r
		r.Tried = tried
		var cold bool
		if alarms, t.noSaving, cold, err = l.implausible(context.WithoutCancel(ctx), &r.Strategy); err != nil {
			return nil, err
		}
		if !cold || r.Stopped {
			break
		}
	}
	after := ctx
	if t.Stopped {
		after = context.WithoutCancel(ctx)
	}
	var err error
	t.All, err = tune.Check(after, l.tuneJob(), &t.Strategy, of.plain(), tune.Options{Season: t.season.parts(), Intervals: l.intervals()})
	if err == nil && !t.Stopped {
		t.scores, err = l.scores(ctx, of, t)
	}
	if err != nil {
		return nil, err
	}
	t.against = append(alarms, l.against(o, of, t)...)
	return t, nil
}

// plain returns the goal without the reserve of the marks.
func (t *Tuning) plain() tune.Goal {
	g := t.goal
	g.MarkReserve = 0
	return g
}

// tuneJob is the job of the study for searches.
func (l *Study) tuneJob() *replay.Job {
	job := l.Job
	job.Step = nil
	return &job
}

// baselineAlone returns the baseline of the scenario.
func (l *Study) baselineAlone() strategy.Strategy { return l.Job.Strategies[l.Scenario.Baseline] }

// roundDesign rounds a design ETo to 0.01 in or 0.1 mm, and to the value that is read
// back from that number.
func (l *Study) roundDesign(mm float64) float64 {
	const hundredth, tenth = 0.01 * quantity.InchMM, 0.1
	text := fmt.Sprintf("%.1f mm", max(mm, tenth))
	if l.Scenario.Units == quantity.US {
		text = fmt.Sprintf("%.2f in", max(mm, hundredth)/quantity.InchMM)
	}
	if v, err := quantity.Parse(text, quantity.Depth); err == nil {
		return v
	}
	return mm
}

// ownDays lists the patterns of days of the baseline's programs.
func (l *Study) ownDays() (days []strategy.DayRule) {
	if len(l.Job.Strategies) == 0 {
		return nil
	}
	for _, p := range l.baselineAlone().Parts {
		if programs, ok := p.(strategy.Programs); ok {
			for i := range programs.List {
				days = append(days, programs.List[i].Days)
			}
		}
	}
	return days
}

// oddEven reports whether the record has whole odd and even years.
func (l *Study) oddEven() (odd, even bool) {
	for _, y := range l.basis().Years {
		odd, even = odd || tune.Odd(y), even || tune.Even(y)
	}
	return odd, even
}

func (l *Study) volume(m3 float64) string {
	return volumeText(m3, l.Scenario.Units)
}

func (l *Study) depth(mm float64) string {
	return fmt.Sprintf("%.1f", quantity.Convert(mm, quantity.Depth, l.Scenario.Units))
}

// A worstOf is the most of each figure in any zone.
type worstOf struct {
	reserve, stress, brown int
	runoff                 float64
}

// worst returns the worst figures of any zone.
func worst(o *tune.Outcome) (w worstOf) {
	for _, z := range o.Zones {
		w.reserve, w.stress, w.brown = max(w.reserve, z.ReserveDays), max(w.stress, z.StressDays), max(w.brown, z.BrowningDays)
		w.runoff = max(w.runoff, z.RunoffEvents)
	}
	return w
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
