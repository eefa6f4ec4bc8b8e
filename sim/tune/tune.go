// Package tune searches for the least water that keeps stress, browning and
// runoff within a goal. It tunes one fixed program, a program with monthly
// percentages, run times scaled by reference ET, or refill from a water balance.
//
// Without site limits, zones do not affect each other, so one replay tries one
// setting per zone. Each zone has its own run time under a shared pattern of
// days, cycles and soaks, and the shortest sufficient one is found by bisection.
// The patterns that become programs are then chosen for all zones together, and
// package settings fits the result into the watering window.
//
// The result is the best of what was tried and is not proven to be the least of
// all settings: [Method] says what is tried. Bisection assumes that a longer
// run never leaves a zone drier. That fails on rare days, because a dry zone draws
// less. Every figure reported is from a replay of the finished setting, so such a
// day can cost water but not truth.
//
// Equal inputs give equal results; nothing is random.
package tune

import (
	"context"
	"errors"
	"slices"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// A Kind is a kind of strategy to tune.
type Kind uint8

// The kinds.
const (
	Fixed    Kind = iota // one program, the same all year
	Monthly              // a program and twelve percentages
	ETScaled             // a program whose run times follow reference ET
	Refill               // watering when its own water balance calls for it
	Kinds                // number of kinds
)

// String returns the key of the kind.
func (k Kind) String() string { return [Kinds]string{"fixed", "monthly", "et", "refill"}[k] }

// Words describes the kind.
func (k Kind) Words() string {
	return [Kinds]string{"one fixed program", "program with monthly percentages", "program scaled by reference ET",
		"refill by water balance"}[k]
}

// Options control the search. The zero Options search the default space over all
// whole years.
type Options struct {
	Space Space
	// Clocks are the controllers, as in the wiring of the job, of a site with several;
	// Space.Timer then limits them all.
	Clocks []Clock
	// Margin, at least 0, is a share added to plant water needs during the search,
	// as a reserve for years drier than any in the record. The result is measured
	// without it.
	Margin float64
	// Season is parts that every setting tried has, such as a [strategy.Season]: see
	// [Goal].
	Season []strategy.Part
	// Intervals are the shortest and longest intervals between waterings, by zone;
	// nil for none.
	Intervals []Interval
	// Own are further patterns of days to try, such as those of today's programs.
	Own []strategy.DayRule
	// Design, if not nil, rounds a design ETo to a number of the unit in which it will
	// be entered [mm/d]; otherwise it is a whole number of tenths of a millimeter.
	Design func(mm float64) float64
	// Years, if not nil, selects the whole years that count. All years
	// are replayed.
	Years func(y int) bool
	// Progress, if not nil, is called after each round with the number of zone
	// replays so far.
	Progress func(zoneReplays int)
}

// ErrNoYear is returned if no whole year counts.
var ErrNoYear = errors.New("the record has no whole year to tune on")

// Method says what a search tries, and how.
const Method = "a fixed list of day patterns, cycles and shapes of percentages; for each, the shortest run time of each zone by " +
	"bisection to the " +
	"minute; then the programs with the least water over all zones, one change at a time."

// A ZoneOutcome is the result of a setting for one zone, over the years that count.
type ZoneOutcome struct {
	// The most in the dry year or any year that needs less water [d]: ReserveDays
	// of the whole zone below the raised mark, which the goal limits; StressDays of the whole
	// zone below the mark itself; BrowningDays of the driest quarter.
	ReserveDays, StressDays, BrowningDays int
	// OffSeasonDays are stress days and OffSeasonBrown browning days of months that
	// do not count: see [Goal].
	OffSeasonDays, OffSeasonBrown int
	RunoffEvents                  float64 // a year
	GrossMM                       float64 // a year
	LeastMM                       float64 // a year, by the least-water reference
	Binds                         string  // the limits not met; empty if all are met
	Run                           RunTime
	// Every is the shortest interval between waterings of its programs [d]; 0 if
	// it has none. Outside says that it is outside the interval of the plants.
	Every   float64
	Outside bool
}

// Watered reports whether the zone gets any water.
func (o *ZoneOutcome) Watered() bool { return o.GrossMM > 0 }

// An Outcome is the result of a setting for a site.
type Outcome struct {
	Zones          []ZoneOutcome
	M3PerYear      float64
	LeastM3PerYear float64 // lower bound: the least-water reference
	// unevenM3PerYear is the bound with uneven coverage and losses, by
	// [sim.Zone.AppliedToNeeded].
	unevenM3PerYear float64
	Years           int // number of years that count
	Dry             int // the dry year among them
	Ranked          tally.Ranked
	Met             bool // every zone is within the goal
	// Breaches is the number of runs in the record that the permanent rule of the
	// site forbids.
	Breaches int
}

// Ratio returns water used as a multiple of the least-water bound, and Uneven that
// which uneven coverage and losses alone require, the yardstick of
// [tally.Table.UnevenRatio]. Ratio is below 1 if allowed stress saves more than
// losses cost. Both are 0 if the bound is 0.
func (o *Outcome) Ratio() float64 { return o.timesLeast(o.M3PerYear) }

// Uneven is described at [Outcome.Ratio].
func (o *Outcome) Uneven() float64 { return o.timesLeast(o.unevenM3PerYear) }

func (o *Outcome) timesLeast(m3 float64) float64 {
	if o.LeastM3PerYear == 0 {
		return 0
	}
	return m3 / o.LeastM3PerYear
}

// A Result is the best setting found.
type Result struct {
	Kind     Kind
	Strategy strategy.Strategy
	Sheet    *settings.Sheet // settings to enter; nil for Refill and if no zone needs water
	Outcome  Outcome         // of Strategy, under the site limits
	Tried    int             // zone replays made
	Stopped  bool            // the search was interrupted: the best found so far
}

// Tune runs a search. job gives the zones, weather, limits and start; its
// Strategies and Step are ignored. If ctx ends during the search, the result is
// the best found so far and Stopped is set. The error is [ErrNoYear], or from ctx if
// nothing was found before it ended.
func Tune(ctx context.Context, job *replay.Job, kind Kind, goal Goal, o Options) (*Result, error) {
	s, err := newSearch(ctx, job, goal, o)
	if err != nil {
		return nil, err
	}
	if err := s.reserve(o.Margin); err != nil {
		return nil, err
	}
	s.kindLimits(kind)
	s.begun = true
	r := &Result{Kind: kind}
	if kind == Refill {
		err = s.refill(r)
	} else {
		err = s.programs(r)
	}
	if err != nil {
		return nil, err
	}
	r.Stopped = s.stopped
	s.ctx = context.WithoutCancel(ctx) // what was found is still to be measured
	if err := s.final(r); err != nil {
		return nil, err
	}
	r.Tried = s.tried
	return r, nil
}

// Check replays a strategy under the site limits and measures it over the years
// that count.
func Check(ctx context.Context, job *replay.Job, st *strategy.Strategy, goal Goal, o Options) (*Outcome, error) {
	s, err := newSearch(ctx, job, goal, o)
	if err != nil {
		return nil, err
	}
	return s.outcome(st)
}

// A HoldOut is a held-out check: tuned on odd years, checked on even years.
type HoldOut struct {
	Tuned   *Result
	Checked *Outcome
}

// Odd and Even select years.
func Odd(y int) bool  { return y%2 != 0 }
func Even(y int) bool { return y%2 == 0 }

// Hold tunes on odd years and checks on even years.
func Hold(ctx context.Context, job *replay.Job, kind Kind, goal Goal, o Options) (*HoldOut, error) {
	o.Years = Odd
	r, err := Tune(ctx, job, kind, goal, o)
	if err != nil {
		return nil, err
	}
	o.Years = Even
	out, err := Check(ctx, job, &r.Strategy, goal, o)
	if err != nil {
		return nil, err
	}
	return &HoldOut{Tuned: r, Checked: out}, nil
}

// outcome measures a strategy under the true limits.
func (s *search) outcome(st *strategy.Strategy) (*Outcome, error) {
	list := []strategy.Strategy{*st}
	raised, err := s.measureUnder(s.limits, s.raised(s.zones), list)
	if err != nil {
		return nil, err
	}
	o := &Outcome{Zones: make([]ZoneOutcome, len(s.zones)), Years: len(s.ranked.Years), Dry: s.ranked.Dry, Ranked: s.ranked, Met: true}
	err = s.replay(s.limits, s.zones, list, func(_ int, t *tally.Table, k int) {
		for z := range s.zones {
			m := s.measured(t.Outcomes[k][z].Months)
			o.Zones[z] = ZoneOutcome{ReserveDays: raised[0][z].stress, StressDays: m.stress, BrowningDays: m.brown,
				OffSeasonDays: m.off.stress, OffSeasonBrown: m.off.brown, RunoffEvents: m.runoff, GrossMM: m.grossMM, LeastMM: s.leastMM[z],
				Run: s.runTime(z, t.Outcomes[k][z].Months)}
		}
	})
	if err != nil {
		return nil, err
	}
	if o.Breaches, err = s.breaches(list); err != nil {
		return nil, err
	}
	for z := range o.Zones {
		zone, m := &o.Zones[z], raised[0][z]
		zone.Binds = s.binds(m)
		zone.Every, zone.Outside = s.everyOf(st, z)
		o.Met = o.Met && zone.Binds == ""
		area := s.zones[z].AreaM2 / 1000
		o.M3PerYear += float64(m.grossMM * area)
		o.LeastM3PerYear += float64(s.leastMM[z] * area)
		o.unevenM3PerYear += float64(s.leastMM[z] * s.zones[z].AppliedToNeeded() * area)
	}
	return o, nil
}

// breaches counts the runs of a strategy that the permanent rule forbids. What a
// temporary stage forbids is left to the sheet of that stage.
func (s *search) breaches(list []strategy.Strategy) (n int, err error) {
	if s.limits == nil {
		return 0, nil
	}
	always := *s.limits
	always.Stages = slices.DeleteFunc(slices.Clone(always.Stages), func(r strategy.Rule) bool { return r.From != 0 || r.To != 0 })
	err = s.replay(&always, s.zones, list, func(_ int, t *tally.Table, k int) { n = len(t.Breaches[k]) })
	return n, err
}

// final fits the result to the limits and measures it as it will run.
func (s *search) final(r *Result) error {
	if r.Kind != Refill {
		sheet, err := s.fit(&r.Strategy)
		switch {
		case errors.Is(err, settings.ErrNothing): // no zone needs water
			r.Strategy.Parts = nil
		case err != nil:
			return err
		default:
			r.Sheet, r.Strategy = sheet, sheet.Strategy()
		}
	}
	o, err := s.outcome(&r.Strategy)
	if err != nil {
		return err
	}
	r.Outcome = *o
	if r.Sheet != nil {
		s.atMost(r)
		for _, m := range r.Sheet.Misfits {
			if zone := &r.Outcome.Zones[m.Zone]; zone.Binds != "" {
				zone.Binds += " (" + m.Rule + ")"
			}
		}
	}
	return nil
}

// atMost notes zones that miss the goal at their maximum run time.
func (s *search) atMost(r *Result) {
	for i := range r.Sheet.Programs {
		p := &r.Sheet.Programs[i]
		for z, m := range p.Minutes {
			if zone := &r.Outcome.Zones[z]; m > 0 && zone.Binds != "" && int(m) >= s.mostMinutes(z, Cycle{p.Cycle, p.Soak}) {
				zone.Binds += " (at the maximum run time of a start)"
			}
		}
	}
}

// A dry is days of stress of the whole zone and of browning of its driest quarter.
type dry struct{ stress, brown int }

// sumsOf adds up the months of one outcome in the years that count, and returns
// the most days of any year no drier than the dry year: those of months that count,
// and those of months outside the season.
func (s *search) sumsOf(months []sim.Sums) (all sim.Sums, in, out dry) {
	year := 0
	var now [2]dry
	for i, use := range s.use {
		if !use {
			continue
		}
		m := &months[i]
		all.RunoffEvents += m.RunoffEvents
		all.GrossMM += m.GrossMM
		if !s.judged[i] {
			continue
		}
		if s.spanYear[i] != year {
			year, now = s.spanYear[i], [2]dry{}
		}
		d := &now[1]
		if s.inSeason[s.spanMonth[i]-1] {
			d = &now[0]
		}
		d.stress += m.StressZoneDays
		d.brown += m.BrownDays
		in.stress, in.brown = max(in.stress, now[0].stress), max(in.brown, now[0].brown)
		out.stress, out.brown = max(out.stress, now[1].stress), max(out.brown, now[1].brown)
	}
	return all, in, out
}
