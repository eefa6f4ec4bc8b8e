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
		Doc:       "stops watering between two dates, inclusive, in some or all zones",
		Example:   "suspend: [{from: 2014-07-01, to: 2014-07-14, zones: all}]",
		Many:      true,
		Params:    (*Suspend).params,
		Sheet:     (*Suspend).sheet,
		Copy:      replaced[Suspend],
		Lines:     (*Suspend).lines,
		Plain:     (*Suspend).plain,
		YAML:      FromParams,
		Conflicts: (*Suspend).conflicts,
		Warnings:  noWarnings[Suspend],
		Record:    (*Suspend).record,
	}.Kind()
}

func (p *Suspend) params() []Param {
	return []Param{
		{Key: "from", Field: asDate(&p.From), Required: true, Doc: "first day without watering"},
		{Key: "to", Field: asDate(&p.To), Required: true, Doc: "last day without watering"},
		{Key: "zones", Field: AsZones(&p.Zones), Word: "all", Doc: "zones to suspend", Source: "assumption by loamledger",
			Grade: quantity.Guess, Off: true},
	}
}

// Suspend stops watering zones between two dates, inclusive.
type Suspend struct {
	From, To cal.Date
	Zones    []bool // by zone
}

// Kind returns the kind of the part.
func (Suspend) Kind() Kind { return suspendKind() }

// Stage returns [Permit].
func (Suspend) Stage() Stage { return Permit }

// Apply marks the suspended days.
func (s Suspend) Apply(d *Draft) {
	for i := range d.Block {
		if date := d.Site.date(i); date < s.From || date > s.To {
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
		Note: fmt.Sprintf("The suspension from %v to %v is temporary and not on the sheet.", p.From, p.To)}
}

func (p *Suspend) lines(zones []string, _ quantity.System) []string {
	return []string{fmt.Sprintf("Suspended from %v to %v: %s", p.From, p.To, strings.Join(namesOf(zones, p.Zones), ", "))}
}

func (p *Suspend) conflicts(Given) Conflicts {
	return contradiction(p.To < p.From, diag.WrongOrder, "write a day on or after "+p.From.String(), "suspend: to %v is before from %v",
		p.To, p.From)
}

// record reports a suspension outside the record.
func (p *Suspend) record(site *Site) string {
	if site.outside(p.From, p.To) {
		return fmt.Sprintf("the suspension from %v to %v is outside the record", p.From, p.To)
	}
	return ""
}

func (p *Suspend) plain() Plain { return Plain{Text: "off on some dates"} }
