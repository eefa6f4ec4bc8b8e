// Package tune searches for the least water that keeps stress days and runoff
// events within a goal. It tunes one fixed program, a program with monthly
// percentages, run times scaled by reference ET, or refill from a water balance.
//
// Without site limits, zones do not affect each other, so one replay tries one
// setting per zone. Each zone has its own run time under a shared pattern of
// days, cycles and soaks. A longer run time never leaves a zone drier, so the
// shortest sufficient one is found by bisection. The patterns that become
// programs are then chosen for all zones together, and package settings fits the
// result into the watering window.
//
// Equal inputs give equal results; nothing is random.
package tune

import (
	"context"
	"errors"

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

// A Goal is the limits that no zone may exceed.
type Goal struct {
	// StressDays of the whole zone, at least 0, is the maximum in the dry year and in every year ranked
	// as less dry: a wetter year may have a drier month, in which a
	// setting fitted to a single year would fail.
	StressDays   int
	RunoffEvents float64 // maximum mean per year, at least 0
}

// dryness reports whether stress is within the goal.
func (g *Goal) dryness(m measured) bool { return m.stress <= g.StressDays }

// Options control the search. The zero Options search the default space over all
// whole years.
type Options struct {
	Space Space
	// Margin, at least 0, is a share added to plant water needs during the search,
	// as a reserve for years drier than any in the record. The result is measured
	// without it.
	Margin float64
	// Years, if not nil, selects the whole years that count. All years
	// are replayed.
	Years func(y int) bool
	// Progress, if not nil, is called after each round with the number of zone
	// replays so far.
	Progress func(zoneReplays int)
}

// ErrNoYear is returned if no whole year counts.
var ErrNoYear = errors.New("the record has no whole year to tune on")

// A ZoneOutcome is the result of a setting for one zone, over the years that count.
type ZoneOutcome struct {
	StressDays   int     // the most in the dry year or any year that needs less water
	RunoffEvents float64 // a year
	GrossMM      float64 // a year
	LeastMM      float64 // a year, by the least-water reference
	Binds        string  // the limits not met; empty if all are met
}

// An Outcome is the result of a setting for a site.
type Outcome struct {
	Zones          []ZoneOutcome
	M3PerYear      float64
	LeastM3PerYear float64 // lower bound: the least-water reference
	Years          int     // number of years that count
	Dry            int     // the dry year among them
	Ranked         tally.Ranked
	Met            bool // every zone is within the goal
}

// Gap returns the water used above the least-water bound, as a share of the
// bound. It is below 0 if allowed stress saves more than losses cost, and 0 if
// the bound is 0.
func (o *Outcome) Gap() float64 {
	if o.LeastM3PerYear == 0 {
		return 0
	}
	return o.M3PerYear/o.LeastM3PerYear - 1
}

// A Result is the best setting found.
type Result struct {
	Kind     Kind
	Strategy strategy.Strategy
	Sheet    *settings.Sheet // settings to enter; nil for Refill and if no zone needs water
	Outcome  Outcome         // of Strategy, under the site limits
	Tried    int             // zone replays made
}

// Tune runs a search. job gives the zones, weather, limits and start; its
// Strategies and Step are ignored. The error is from ctx, or [ErrNoYear].
func Tune(ctx context.Context, job *replay.Job, kind Kind, goal Goal, o Options) (*Result, error) {
	s, err := newSearch(ctx, job, goal, o)
	if err != nil {
		return nil, err
	}
	if err := s.reserve(o.Margin); err != nil {
		return nil, err
	}
	s.kindLimits(kind)
	r := &Result{Kind: kind}
	if kind == Refill {
		err = s.refill(r)
	} else {
		err = s.programs(r)
	}
	if err != nil {
		return nil, err
	}
	if err := s.final(r); err != nil {
		return nil, err
	}
	r.Tried = s.tried
	return r, nil
}

// Check replays a strategy under the site limits and measures it over the years
// that count.
func Check(ctx context.Context, job *replay.Job, st *strategy.Strategy, goal Goal, years func(y int) bool) (*Outcome, error) {
	s, err := newSearch(ctx, job, goal, Options{Years: years})
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
	out, err := Check(ctx, job, &r.Strategy, goal, Even)
	if err != nil {
		return nil, err
	}
	return &HoldOut{Tuned: r, Checked: out}, nil
}

// outcome measures a strategy under the true limits.
func (s *search) outcome(st *strategy.Strategy) (*Outcome, error) {
	got, err := s.measureUnder(s.limits, s.zones, []strategy.Strategy{*st})
	if err != nil {
		return nil, err
	}
	o := &Outcome{Zones: make([]ZoneOutcome, len(s.job.Zones)), Years: len(s.ranked.Years), Dry: s.ranked.Dry, Ranked: s.ranked, Met: true}
	for z, m := range got[0] {
		zone := &o.Zones[z]
		*zone = ZoneOutcome{StressDays: m.stress, RunoffEvents: m.runoff, GrossMM: m.grossMM, LeastMM: s.leastMM[z]}
		switch {
		case !s.goal.dryness(m) && m.runoff > s.goal.RunoffEvents+1e-9:
			zone.Binds = "stress days and runoff events"
		case !s.goal.dryness(m):
			zone.Binds = "stress days"
		case m.runoff > s.goal.RunoffEvents+1e-9:
			zone.Binds = "runoff events"
		}
		o.Met = o.Met && zone.Binds == ""
		area := s.job.Zones[z].AreaM2 / 1000
		o.M3PerYear += m.grossMM * area
		o.LeastM3PerYear += s.leastMM[z] * area
	}
	return o, nil
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

// sumsOf adds up the months of one outcome in the years that count, and returns
// the highest stress days of any year no drier than the dry year.
func (s *search) sumsOf(months []sim.Sums) (all sim.Sums, most int) {
	year, days := 0, 0
	for i, use := range s.use {
		if !use {
			continue
		}
		m := &months[i]
		all.RunoffEvents += m.RunoffEvents
		all.GrossMM += m.GrossMM
		if s.judged[i] {
			if s.spanYear[i] != year {
				year, days = s.spanYear[i], 0
			}
			days += m.StressZoneDays
			most = max(most, days)
		}
	}
	return all, most
}
