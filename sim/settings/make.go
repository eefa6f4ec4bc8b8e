package settings

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// ErrOwnBalance is returned for a strategy with its own water balance, which has
// no run times to enter. Package tune makes a sheet from what such a strategy
// applied.
var ErrOwnBalance = errors.New("the strategy uses its own water balance, which a controller with fixed times cannot follow")

// ErrNothing is returned for a strategy with no program in force.
var ErrNothing = errors.New("the strategy has no program in force")

// NewSite returns the parts of a site that [Make] needs.
func NewSite(zones []sim.Zone, w sim.Weather, limits *strategy.Limits, wiring *clock.Wiring) *strategy.Site {
	return &strategy.Site{Zones: zones, Weather: w, Limits: limits, Wiring: wiring, Calendar: sim.NewCalendar(w.Start, w.Days())}
}

// A maker builds one sheet.
type maker struct {
	site  *strategy.Site
	sheet *Sheet
	asOf  cal.Date
	share []float64 // of the run times of each zone, from zone percentages
	most  float64   // the highest weather-based percentage
	alone bool      // each day is laid out as if the day before ended by midnight
	whole bool      // days are laid out with the whole minutes that are printed
	timer *timer.Profile
	units quantity.System
	gap   map[string]float64 // by program: minutes between starts that replace cycles
	why   map[int]DryReason  // by zone: why a program of it is not on the sheet
	zero  map[int]bool       // by zone: its percentage is 0
	only  []bool             // zones of the sheet; nil for all
}

// Make makes the settings sheet of a strategy. It uses the Zones, Weather,
// Calendar and Limits of the site. The error is [ErrOwnBalance], [ErrNothing] or
// a [*strategy.UnsaidError] for a part that does not declare its entry on a sheet.
//
// Run times are rounded to the nearest whole minute, at least 1. Cycles are
// rounded down and soaks up to whole minutes, which never adds runoff.
// Percentages are rounded to the step. Under limits, days, run times and starts
// that are not allowed are changed, and what still does not fit is cut; every
// change is in Misfits or Notes. With a timer, the sheet is the nearest one that
// fits it: programs are merged, cycles replaced by start times, and percentages
// rounded to its step; [Sheet.Refusals] of a sheet without it lists what did not fit.
func Make(site *strategy.Site, st *strategy.Strategy, o Options) (*Sheet, error) {
	b := &maker{site: site, asOf: o.AsOf, most: 1, units: o.Units, timer: o.Timer, gap: map[string]float64{}, why: map[int]DryReason{},
		zero:  map[int]bool{},
		only:  o.Only,
		sheet: &Sheet{Name: st.Name, Zones: site.Zones, Percent: everyMonth, Controller: o.Controller, Only: o.Only}}
	if b.asOf == 0 {
		b.asOf = site.Weather.Start + cal.Date(site.Weather.Days()-1)
	}
	b.share = make([]float64, len(site.Zones))
	for z := range b.share {
		b.share[z] = 1
	}
	for _, p := range st.Parts {
		if err := b.part(p); err != nil {
			return nil, err
		}
	}
	step := o.PercentStep
	if step == 0 {
		step = DefaultPercentStep
	}
	if b.timer != nil {
		step = b.timer.PercentStep
		b.fit()
	}
	b.round(step)
	if len(b.sheet.Programs) == 0 {
		return nil, ErrNothing
	}
	if site.Limits != nil {
		b.legal()
	}
	if o.OneAfter && b.sheet.Room == nil {
		b.oneAfter()
	}
	b.queue()
	b.times()
	b.held()
	b.unwatered()
	if b.timer != nil {
		b.shortRuns()
	}
	return b.sheet, nil
}

// part adds one part of the strategy to the sheet, as the part declares.
func (b *maker) part(p strategy.Part) error {
	s := b.sheet
	entry, err := strategy.OnSheet(p, b.site)
	if err != nil {
		return err
	}
	b.most *= max(entry.Most, 1)
	switch entry.Use {
	case strategy.NoSheet:
		return ErrOwnBalance
	case strategy.NotEntered:
		s.Notes = append(s.Notes, entry.Note)
	case strategy.ByItself:
		if entry.Part != nil {
			p = entry.Part
		}
		if _, err := strategy.Lines(p, zoneNames(s.Zones), quantity.SI); err != nil {
			return err // it would be in the replay but not on the sheet
		}
		s.Parts = append(s.Parts, p)
	case strategy.Entered:
		for i := range entry.Programs {
			b.program(&entry.Programs[i])
		}
		if entry.Months != nil {
			for m, share := range entry.Months {
				s.Percent[m] *= share
			}
		}
		for z, share := range entry.Zones {
			if !math.IsNaN(share) {
				b.share[z] *= share
				b.zero[z] = b.zero[z] || share == 0
			}
		}
	default:
		return fmt.Errorf("settings: part %q has an unknown use on a sheet: %d", p.Kind().Key, entry.Use)
	}
	return nil
}

// program adds a program to the sheet if it is in force.
func (b *maker) program(p *strategy.Program) {
	if p = b.own(p); !waters(p) && b.only != nil {
		return // all of it is on another controller
	}
	switch {
	case p.ByHand:
		b.note("Program %q is run by hand and is not on the sheet.", p.Name)
		b.lost(p, ByHand)
		return
	case p.To != 0 && p.To < b.asOf, p.From > b.asOf && p.From != 0:
		b.note("Program %q is not in force on %v and is not on the sheet.", p.Name, b.asOf)
		b.lost(p, NotInForce)
		return
	}
	q := *p
	q.Minutes, q.Starts = slices.Clone(p.Minutes), slices.Clone(p.Starts)
	slices.Sort(q.Starts)
	if q.From != 0 || q.To != 0 {
		q.From, q.To = 0, 0
		b.note("Program %q runs for limited dates only; the sheet shows it as of %v.", p.Name, b.asOf)
		if p.RampTo > 0 {
			share := min(max(float64(b.asOf-p.From)/max(float64(p.To-p.From), 1), 0), 1)
			for z := range q.Minutes {
				q.Minutes[z] *= 1 + float64(share*(p.RampTo-1))
			}
			q.RampTo = 0
		}
	}
	b.sheet.Programs = append(b.sheet.Programs, q)
}

// round rounds every entry to what a controller accepts.
func (b *maker) round(step float64) {
	s := b.sheet
	for m := range s.Percent {
		s.Percent[m] = roundTo(s.Percent[m], step)
	}
	kept := s.Programs[:0]
	for i := range s.Programs {
		p := &s.Programs[i]
		waters := false
		for z := range p.Minutes {
			asked := p.Minutes[z] * b.share[z]
			p.Minutes[z] = 0
			if asked > 0 {
				p.Minutes[z] = b.entered(asked)
				waters = true
			}
		}
		if p.Cycle > 0 {
			if c := max(math.Floor(p.Cycle+1e-9), 1); c != p.Cycle {
				b.note("Program %q: cycles of %s min are rounded down to %s min.", p.Name, number(p.Cycle), number(c))
				p.Cycle = c
			}
			p.Soak = math.Ceil(p.Soak - 1e-9)
		} else {
			p.Soak = 0
		}
		if waters && len(p.Starts) > 0 {
			kept = append(kept, *p)
		}
	}
	s.Programs = kept
}

// roundTo rounds to a multiple of step. It returns an exact multiple unchanged,
// to the last digit.
func roundTo(v, step float64) float64 {
	if step <= 0 {
		return v
	}
	// Steps divide 1 evenly, so 0.35 comes out exactly as 35/100.
	n := math.Round(1 / step)
	return sim.RoundHalfUp(v*n, 1) / n
}

func number(v float64) string { return fmt.Sprintf("%.4g", v) }

func (b *maker) note(format string, args ...any) {
	b.sheet.Notes = append(b.sheet.Notes, fmt.Sprintf(format, args...))
}
