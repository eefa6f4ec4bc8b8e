package strategy

import (
	"loamledger/sim"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

func suspendKind() Kind {
	return Kind{
		Key:     "suspend",
		Doc:     "stops watering between two dates, both included, in some zones or all",
		Example: "suspend: [{from: 2014-07-01, to: 2014-07-14, zones: all}]",
		Many:    true,
		Params: []Param{
			{Key: "from", Type: CalendarDay, Required: true, Doc: "first day without watering"},
			{Key: "to", Type: CalendarDay, Required: true, Doc: "last day without watering"},
			{Key: "zones", Type: ZoneNames, Word: "all", Doc: "zones suspended", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		},
		Make: func(a Args) Part { return Suspend{a["from"].Date, a["to"].Date, a["zones"].Zones} },
	}
}

// Suspend stops the watering of zones from one date to another, both included.
type Suspend struct {
	From, To cal.Date
	Zones    []bool // by zone
}

// Stage returns [Permit].
func (Suspend) Stage() Stage { return Permit }

// Apply writes the days held back.
func (s Suspend) Apply(d *Draft) {
	for i := range d.Block {
		if date := d.Site.Date(i); date < s.From || date > s.To {
			continue
		}
		for z, is := range s.Zones {
			if is {
				d.holdZone(z, i, sim.Suspended)
			}
		}
	}
}
