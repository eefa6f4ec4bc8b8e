package strategy

import (
	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/weather/cal"
)

// An Overdraw is a day on which zones of several controllers together draw more from a
// meter than it allows.
type Overdraw struct {
	Date cal.Date
	clock.Overdraw
}

// Overdraws lists the overdraws of a strategy over the record, by date, then meter. A soil
// sensor that holds watering is ignored, so that some of the days may not come about.
// shares has the [sim.Shares] of each zone.
func (c *Compiler) Overdraws(site *Site, st *Strategy, shares [][]float64) []Overdraw {
	if !site.Wiring.Shared() {
		return nil
	}
	own := *site
	if own.Limits == nil {
		own.Limits = &Limits{}
	}
	c.Begin(&own, st)
	c.telling = &telling{known: map[[2]*fitted][]clock.Overdraw{}}
	c.fitter.telling = true
	c.plan(shares, make([]sim.Plan, len(site.Zones)))
	c.fitter.telling = false
	out := c.telling.found
	c.telling = nil
	return out
}

// A telling lists overdraws while days are laid out.
type telling struct {
	found  []Overdraw
	before *fitted // of the day before; nil if nothing ran
	known  map[[2]*fitted][]clock.Overdraw
}

// tell lists the overdraws of day i, whose result is day; runs of the day before may
// last into it.
func (c *Compiler) tell(i int, day *fitted) {
	t := c.telling
	if t == nil {
		return
	}
	before := t.before
	t.before = day
	if day == nil {
		return
	}
	key := [2]*fitted{before, day}
	list, ok := t.known[key]
	if !ok {
		all := day.opened[:len(day.opened):len(day.opened)]
		if before != nil {
			for _, o := range before.opened {
				if o.ToMin > clock.Day {
					o.Start, o.FromMin, o.ToMin = clock.Before, max(o.FromMin-clock.Day, 0), o.ToMin-clock.Day
					all = append(all, o)
				}
			}
		}
		site := c.draft.Site
		list = site.Wiring.Overdraws(all, func(z int) float64 { return site.Zones[z].FlowLMin() })
		t.known[key] = list
	}
	if i < c.draft.Site.Spin {
		return
	}
	for _, o := range list {
		t.found = append(t.found, Overdraw{c.draft.Site.date(i), o})
	}
}
