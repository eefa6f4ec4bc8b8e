// Package tune searches for the least water that keeps days of stress and
// runoff within limits, for one fixed program, a fixed program with monthly
// percentages, minutes scaled by reference ET, and refill by a balance.
//
// Without limits of the site zones do not touch each other, so that one replay
// tries as many settings as there are zones: each zone has its own minutes
// under a shared pattern of days, cycles and pauses, and more minutes never
// leave a zone drier, so that the fewest that will do are found by halving.
// Which patterns become programs is decided over all zones afterwards, and
// what results is fitted into the watering window by package settings.
//
// Equal inputs give equal results; nothing is drawn at random.
package tune

import (
	"context"
	"errors"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
)

// A Kind is what is tuned.
type Kind uint8

// The kinds.
const (
	Fixed    Kind = iota // one program, the same all year
	Monthly              // a program and twelve percentages
	ETScaled             // a program whose minutes follow reference ET
	Refill               // watering when a balance of its own asks for it
	Kinds                // how many kinds there are
)

// String returns the word for the kind.
func (k Kind) String() string { return [Kinds]string{"fixed", "monthly", "et", "refill"}[k] }

// Words returns the kind in words.
func (k Kind) Words() string {
	return [Kinds]string{"one fixed program", "program with monthly percentages", "program scaled by reference ET", "refill by a balance"}[k]
}

// A Goal is what no zone may exceed.
type Goal struct {
	// StressDays, at least 0, is for the 1-in-10 dry year and for every year that
	// needs less water than that: a wetter year may have a drier month, and a
	// setting that is cut to one year's months would fail in it.
	StressDays   int
	RunoffEvents float64 // a year on average, at least 0
}

// dryness reports whether stress is within the goal.
func (g *Goal) dryness(m measured) bool { return m.stress <= g.StressDays }

// Options say how to search. The zero Options search the default space over
// all whole years.
type Options struct {
	Space Space
	// Margin, at least 0, lets the search take plants to need that share more
	// than they do, so that a drier year than those of the record finds
	// something in reserve. What is found is measured without it.
	Margin float64
	// Years, if not nil, chooses the whole calendar years that count; the soil
	// is followed through all of them.
	Years func(y int) bool
	// Progress, if not nil, is told after each round how many zone-replays have
	// been made.
	Progress func(zoneReplays int)
}

// ErrNoYear is the error where no whole calendar year counts.
var ErrNoYear = errors.New("the record has no whole calendar year to tune on")

// A ZoneOutcome is what a setting does to one zone, over the years that count.
type ZoneOutcome struct {
	StressDays   int     // in the worst of the dry year and the years that need less
	RunoffEvents float64 // a year
	GrossMM      float64 // a year
	LeastMM      float64 // a year, by the least-water reference
	Binds        string  // the limit that is not met, empty where all are
}

// An Outcome is what a setting does to a site.
type Outcome struct {
	Zones          []ZoneOutcome
	M3PerYear      float64
	LeastM3PerYear float64 // the bound: the least-water reference
	Years          int     // how many count
	Dry            int     // the 1-in-10 dry year among them
	Met            bool    // every zone is within the goal
}

// Gap returns by how much the water exceeds the least-water bound, as a share;
// below 0 where stress that is allowed saves more than losses cost. It is 0
// where the bound is.
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
	Sheet    *settings.Sheet // what to enter; nil for Refill and where no zone needs water
	Outcome  Outcome         // of Strategy, under the limits of the site
	Tried    int             // zone-replays made
}

// Tune searches. job gives zones, weather, limits and start; its strategies
// and steps are not used. The error is that of ctx, or [ErrNoYear].
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

// Check replays a strategy under the limits of the site and measures it over
// the years that count.
func Check(ctx context.Context, job *replay.Job, st *strategy.Strategy, goal Goal, years func(y int) bool) (*Outcome, error) {
	s, err := newSearch(ctx, job, goal, Options{Years: years})
	if err != nil {
		return nil, err
	}
	return s.outcome(st)
}

// A HoldOut is a check on years that the tuning has not seen: tuned on the odd
// years, checked on the even.
type HoldOut struct {
	Tuned   *Result
	Checked *Outcome
}

// Odd and Even choose years.
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
	o := &Outcome{Zones: make([]ZoneOutcome, len(s.job.Zones)), Years: len(s.years), Dry: s.dry, Met: true}
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

// final fits the result under the limits and measures it as it will run.
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

// atMost tells where a zone that is too dry has the most minutes it may have.
func (s *search) atMost(r *Result) {
	for i := range r.Sheet.Programs {
		p := &r.Sheet.Programs[i]
		for z, m := range p.Minutes {
			if zone := &r.Outcome.Zones[z]; m > 0 && zone.Binds != "" && int(m) >= s.mostMinutes(z, Cycle{p.Cycle, p.Soak}) {
				zone.Binds += " (at the most minutes that a start may have)"
			}
		}
	}
}

// sumsOf adds up the months of one outcome that belong to the years that count,
// and returns the most stress days of any year no drier than the dry year.
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
			days += m.StressDays
			most = max(most, days)
		}
	}
	return all, most
}
