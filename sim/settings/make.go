package settings

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// ErrOwnBalance is the error of a strategy that decides by a balance of its
// own: there are no minutes to enter. Package tune draws a sheet from what such
// a strategy applied.
var ErrOwnBalance = errors.New("the strategy waters by a balance of its own, which a controller with days and minutes cannot be told")

// ErrNothing is the error of a strategy without a program in force.
var ErrNothing = errors.New("the strategy has no program in force")

// NewSite returns the part of a site that a sheet is made for.
func NewSite(zones []sim.Zone, w sim.Weather, limits *strategy.Limits) *strategy.Site {
	return &strategy.Site{Zones: zones, Weather: w, Limits: limits, Calendar: sim.NewCalendar(w.Start, w.Days())}
}

// A maker builds one sheet.
type maker struct {
	site  *strategy.Site
	sheet *Sheet
	asOf  cal.Date
	share []float64 // of the minutes of each zone, from percentages of single zones
	most  float64   // the highest percentage that the weather may ask for
	alone bool      // days are laid out as if none ran past midnight into the next
}

// Make works out the sheet of a strategy. Zones, Weather, Calendar and Limits
// of the site are used. The error is [ErrOwnBalance], [ErrNothing], a
// [*strategy.UnsaidError] of a part that does not say what it is on a sheet, or nil.
//
// Rounding: minutes to the nearest whole minute and at least 1; cycles down and
// pauses up to whole minutes, which never adds runoff; percentages to the step.
// Under limits, days, lengths and starts that are not allowed are changed to
// what is, and what still does not fit is cut: each is in Misfits or Notes.
func Make(site *strategy.Site, st *strategy.Strategy, o Options) (*Sheet, error) {
	b := &maker{site: site, asOf: o.AsOf, most: 1, sheet: &Sheet{Name: st.Name, Zones: site.Zones, Percent: everyMonth}}
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
		step = 0.05
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
	b.times()
	b.held()
	return b.sheet, nil
}

// part takes one part of the strategy onto the sheet, as the part says.
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
		if _, err := strategy.Lines(p, zoneNames(s.Zones), quantity.SI); err != nil {
			return err // it would be in the replay and not on the sheet
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
			}
		}
	default:
		return fmt.Errorf("settings: part %q has an unknown use on a sheet: %d", p.Kind().Key, entry.Use)
	}
	return nil
}

// program takes a program onto the sheet unless it is not in force.
func (b *maker) program(p *strategy.Program) {
	switch {
	case p.ByHand:
		b.note("Program %q is a run by hand and not on the sheet.", p.Name)
		return
	case p.To != 0 && p.To < b.asOf, p.From > b.asOf && p.From != 0:
		b.note("Program %q is not in force on %v and not on the sheet.", p.Name, b.asOf)
		return
	}
	q := *p
	q.Minutes, q.Starts = slices.Clone(p.Minutes), slices.Clone(p.Starts)
	slices.Sort(q.Starts)
	if q.From != 0 || q.To != 0 {
		q.From, q.To = 0, 0
		b.note("Program %q holds for a time only; the sheet shows it as on %v.", p.Name, b.asOf)
		if p.RampTo > 0 {
			share := min(max(float64(b.asOf-p.From)/max(float64(p.To-p.From), 1), 0), 1)
			for z := range q.Minutes {
				q.Minutes[z] *= 1 + share*(p.RampTo-1)
			}
			q.RampTo = 0
		}
	}
	b.sheet.Programs = append(b.sheet.Programs, q)
}

// round rounds every entry to what a controller takes.
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
				p.Minutes[z] = max(math.Round(asked), 1)
				waters = true
			}
		}
		if p.Cycle > 0 {
			if c := max(math.Floor(p.Cycle+1e-9), 1); c != p.Cycle {
				b.note("Program %q: cycles of %s min are entered as %s min.", p.Name, number(p.Cycle), number(c))
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

// roundTo rounds to a multiple of step and leaves alone what is one already, to
// the last digit.
func roundTo(v, step float64) float64 {
	if step <= 0 {
		return v
	}
	// Steps are whole shares of 1, so that 0.35 comes out as 35/100 would.
	n := math.Round(1 / step)
	return math.Round(v*n) / n
}

func number(v float64) string { return fmt.Sprintf("%.4g", v) }

func (b *maker) note(format string, args ...any) {
	b.sheet.Notes = append(b.sheet.Notes, fmt.Sprintf(format, args...))
}
