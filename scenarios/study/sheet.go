package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"loamledger/plots"
	"loamledger/sim/replay"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/sim/timer"
	"loamledger/sim/tune"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Sheet has the controller settings for one strategy, and a replay of them as
// shown, rounded, together with the strategy itself.
type Sheet struct {
	*settings.Sheet
	asOf   cal.Date // date of entry; 0 for none
	Lead   []string // introductory paragraphs; empty for none
	Advice []string // what to do beside the controller; empty for nothing
	// timer is what the timer can be set to; nil if not stated.
	timer *timer.Profile
	// Refused lists what of the strategy's settings does not fit the timer, each
	// with what the sheet has instead.
	Refused []timer.Refusal
	// RefusedOf has the lines of Refused by controller, parallel to Each; nil for one.
	RefusedOf [][]timer.Refusal
	// Following is what to enter on a timer that can follow the weather; nil for a
	// strategy that does not.
	Following *settings.Following
	effect    effect
	// beaten is set if the baseline uses less water with less stress.
	beaten *Beaten
	// table has the strategy, then the settings, then, if the timer refuses
	// something, the settings as they would be without it.
	table *tally.Table
}

// SheetOptions are options for a sheet.
type SheetOptions struct {
	PercentStep float64   // of monthly percentages, a share above 0; a timer has its own
	AsOf        cal.Date  // date of entry; 0 for none
	Progress    func(int) // called while run times are tried, from any goroutine; nil for none
}

// ErrNoWater is returned for a strategy that applied no water over the record,
// so that there are no settings.
var ErrNoWater = errors.New("the strategy applied no water over the record")

// Sheet derives the settings of a strategy. Errors are [ErrNoWater],
// [settings.ErrNothing] for a strategy without an active program, and a
// [*diag.Error] for settings that leave a zone without water.
func (l *Study) Sheet(ctx context.Context, st *strategy.Strategy, o *SheetOptions) (*Sheet, error) {
	if line := l.AfterLine(st); line != "" {
		after, settled := l.After(st)
		out, err := after.Sheet(ctx, settled, o)
		if err == nil {
			out.Lead = append([]string{line}, out.Lead...)
		}
		return out, err
	}
	// A sheet is entered from now on, so the limits bind it whatever the strategy.
	bound := *st
	bound.Unbound = false
	st = &bound
	out := &Sheet{asOf: o.AsOf, timer: l.Scenario.Timer}
	whole, own := st, false // with run times: the strategy, or what copies it
	var err error
	if out.Sheet, err = l.made(st, o, false); errors.Is(err, settings.ErrOwnBalance) {
		own = true
		out.Sheet, out.Lead, err = l.copied(ctx, st, o, nil)
		if err == nil && len(l.Scenario.Controllers) > 1 {
			copied := out.Sheet.Strategy()
			whole = &copied
			out.Sheet, err = l.made(whole, o, false)
		}
	}
	if err != nil {
		return nil, err
	}
	job := l.Job
	job.Strategies, job.Step = []strategy.Strategy{*st, {}}, nil
	if refused := l.refusals(out.Sheet); len(slices.Concat(refused...)) > 0 {
		without := out.Sheet.Strategy()
		without.Name += withoutTimer
		job.Strategies = append(job.Strategies, without)
		if own && whole == st {
			out.Sheet, out.Lead, err = l.copied(ctx, st, o, out.timer)
		} else {
			out.Sheet, err = l.made(whole, o, true)
		}
		if err != nil {
			return nil, err
		}
		if own && whole != st {
			out.Lead = append(out.Lead, "These settings were then fitted to the timer of each controller; "+
				"the figures below are those of the result.")
		}
		out.setRefused(refused)
	}
	if own {
		if err := l.noNeed(st, out.Sheet); err != nil {
			return nil, err
		}
	}
	if err := l.noRoom(out.Sheet); err != nil {
		return nil, err
	}
	job.Strategies[1] = out.Sheet.Strategy()
	if out.table, err = replay.Run(ctx, &job, nil); err != nil {
		return nil, err
	}
	if text := plots.WinterWater(out.table, l.chartUnits(), 1); text != "" {
		out.Advice = []string{text}
	}
	if out.Lead == nil {
		out.Lead = drierLead(out.table)
	}
	if out.beaten, err = l.beaten(ctx, st.Name, &job.Strategies[1]); err != nil {
		return nil, err
	}
	if out.beaten != nil {
		out.Lead = append([]string{l.beatenLead(out.beaten)}, out.Lead...)
	}
	out.effect = effectOf(out.table)
	out.Following, err = l.following(st, out.Sheet)
	return out, err
}

// withoutTimer marks the settings as they would be without the limits of the
// timer, in the table of a sheet.
const withoutTimer = " (without the timer)"

// RecordLine names the weather of a study.
func (l *Study) RecordLine() string {
	return fmt.Sprintf("%v to %v, weather of %s", l.Weather.Start, l.Weather.End(), l.bare(l.Weather.File))
}

// A Figure is one result as text, for a strategy as requested, for its settings,
// and for its settings without the limits of the timer; Without is empty if the
// timer refuses nothing.
type Figure struct{ What, Asked, Sheet, Without string }

// SheetFigures compares a strategy with its settings.
func (l *Study) SheetFigures(s *Sheet) []Figure {
	sys := l.Scenario.Units
	rows, basis, ranked := s.table.Compare(), s.table.Basis(), s.table.RankYears()
	volume := quantity.Label(quantity.Volume, sys)
	line := func(what string, of func(*tally.Row) string) Figure {
		f := Figure{What: what, Asked: of(&rows[0]), Sheet: of(&rows[1])}
		if len(s.Refused) > 0 {
			f.Without = of(&rows[2])
		}
		return f
	}
	stress := []Figure{line("stress days "+basis.Words(), func(r *tally.Row) string { return days(r.StressPerYear) })}
	if basis.Yearly() {
		stress = []Figure{
			line("stress days, median year", func(r *tally.Row) string { return days(r.StressMedian) }),
			line("stress days, "+ranked.DryName(), func(r *tally.Row) string { return days(r.StressDry) }),
		}
	}
	var times []Figure
	if uneven := s.table.UnevenRatio(); !math.IsNaN(uneven) {
		times = append(times, line(fmt.Sprintf("times the least water (uneven coverage and losses: %.2f)", uneven),
			func(r *tally.Row) string { return fmt.Sprintf("%.2f", r.ApplicationRatio) }))
	}
	return slices.Concat([]Figure{
		line("water "+basis.Words()+" ["+volume+"]", func(r *tally.Row) string {
			return volumeText(r.M3PerYear, sys)
		}),
	}, times, stress, []Figure{
		line("runoff events "+basis.Words()+", all zones", func(r *tally.Row) string { return fmt.Sprintf("%.1f", r.RunoffEvents) }),
		line("share lost [%]", func(r *tally.Row) string { return fmt.Sprintf("%.0f", 100*r.ShareLost) }),
	})
}

// season names the first and the last day of a year.
func (l *Study) season() string {
	if l.Job.South {
		return "July 1 to June 30"
	}
	return "January 1 to December 31"
}

// tuneFault makes a record without a whole year an input error.
func (l *Study) tuneFault(err error) error {
	if errors.Is(err, tune.ErrNoYear) {
		return &diag.Error{Code: diag.NoWholeYear, Pos: diag.Pos{File: l.Weather.File},
			Msg: "the record has no whole year of the kind needed to find a dry year",
			Fix: "give weather from " + l.season() + " for at least two years, one odd and one even"}
	}
	return err
}
