package study

import (
	"context"
	"fmt"

	"loamledger/sim/tune"
	"loamledger/weather/quantity"
)

// TuneOptions are options for a search.
type TuneOptions struct {
	Kinds       []tune.Kind
	Goal        tune.Goal
	PercentStep float64 // of monthly percentages, a share above 0
	MarginPct   float64 // reserve: percent added to the water need of plants, 0 or more
	HoldOut     bool    // check each kind on held-out years, if the record allows it
	// Watch, if not nil, is called before each kind is searched. It returns one
	// function called while settings are tried, from any goroutine, and one
	// called at the end.
	Watch func(tune.Kind) (step, done func())
}

// A Tuned is a kind's best setting and its check, nil if there is none.
type Tuned struct {
	*tune.Result
	Hold *tune.HoldOut
}

// A Tuning is the result of a search.
type Tuning struct {
	Goal      tune.Goal
	MarginPct float64
	Now       *tune.Outcome // of the scenario's baseline; nil if it has none
	Kinds     []Tuned
}

// Tune searches each kind, and checks it on held-out years. If the record has
// no whole year, the error is a [*diag.Error].
func (l *Study) Tune(ctx context.Context, o *TuneOptions) (*Tuning, error) {
	job := l.Job
	job.Step = nil
	odd, even := l.oddEven()
	out := &Tuning{Goal: o.Goal, MarginPct: o.MarginPct}
	if len(job.Strategies) > 0 {
		var err error
		if out.Now, err = tune.Check(ctx, &job, &job.Strategies[l.Scenario.Baseline], o.Goal, nil); err != nil {
			return nil, l.tuneFault(err)
		}
	}
	for _, k := range o.Kinds {
		step, done := func() {}, func() {}
		if o.Watch != nil {
			step, done = o.Watch(k)
		}
		opts := tune.Options{Space: tune.Space{PercentStep: o.PercentStep}, Margin: o.MarginPct / 100, Progress: func(int) { step() }}
		var t Tuned
		var err error
		t.Result, err = tune.Tune(ctx, &job, k, o.Goal, opts)
		if err == nil && o.HoldOut && odd && even {
			t.Hold, err = tune.Hold(ctx, &job, k, o.Goal, opts)
		}
		done()
		if err != nil {
			return nil, l.tuneFault(err)
		}
		out.Kinds = append(out.Kinds, t)
	}
	return out, nil
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

// above says how far water use is above or below the bound.
func above(gap float64) string {
	if gap < 0 {
		return fmt.Sprintf("%.0f%% below", -100*gap)
	}
	return fmt.Sprintf("%.0f%% above", 100*gap)
}

// worst returns the maximum stress days and runoff events of any zone.
func worst(o *tune.Outcome) (stress int, runoff float64) {
	for _, z := range o.Zones {
		stress, runoff = max(stress, z.StressDays), max(runoff, z.RunoffEvents)
	}
	return stress, runoff
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "NO"
}
