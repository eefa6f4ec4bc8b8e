package strategy

import (
	"fmt"
	"strings"

	"loamledger/sim"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

func suspendKind() Kind {
	return Spec[Suspend]{
		Key:       "suspend",
		Doc:       "stops watering between two dates, both included, in some zones or all",
		Example:   "suspend: [{from: 2014-07-01, to: 2014-07-14, zones: all}]",
		Many:      true,
		Params:    (*Suspend).params,
		Sheet:     (*Suspend).sheet,
		Copy:      Replaced[Suspend],
		Lines:     (*Suspend).lines,
		YAML:      FromParams,
		Conflicts: (*Suspend).conflicts,
		Warnings:  NoWarnings[Suspend],
		Record:    (*Suspend).record,
	}.Kind()
}

func (p *Suspend) params() []Param {
	return []Param{
		{Key: "from", Field: AsDate(&p.From), Required: true, Doc: "first day without watering"},
		{Key: "to", Field: AsDate(&p.To), Required: true, Doc: "last day without watering"},
		{Key: "zones", Field: AsZones(&p.Zones), Word: "all", Doc: "zones suspended", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
	}
}

// Suspend stops the watering of zones from one date to another, both included.
type Suspend struct {
	From, To cal.Date
	Zones    []bool // by zone
}

// Kind returns the kind of the part.
func (Suspend) Kind() Kind { return suspendKind() }

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

func (p *Suspend) sheet(*Site) SheetEntry {
	return SheetEntry{Use: NotEntered,
		Note: fmt.Sprintf("A suspension from %v to %v belongs to its dates and is not on the sheet.", p.From, p.To)}
}

func (p *Suspend) lines(zones []string, _ quantity.System) []string {
	return []string{fmt.Sprintf("suspended from %v to %v: %s", p.From, p.To, strings.Join(namesOf(zones, p.Zones), ", "))}
}

func (p *Suspend) conflicts(Given) Conflicts {
	return contradiction(p.To < p.From, diag.WrongOrder, "write a day on or after "+p.From.String(), "suspend: to %v is before from %v", p.To, p.From)
}

// record tells that the suspension is on no day of the record.
func (p *Suspend) record(site *Site) string {
	if site.outside(p.From, p.To) {
		return fmt.Sprintf("the suspension from %v to %v is on no day of the record", p.From, p.To)
	}
	return ""
}
