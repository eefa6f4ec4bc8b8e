package strategy

import (
	"fmt"

	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

func manualKind() Kind {
	return Spec[Manual]{
		Key:       "manual",
		Doc:       "an extra run started by hand on one day, whatever the programs say; skips and percentages do not touch it",
		Example:   "manual: [{date: 2014-07-03, zone: front lawn, minutes: 15 min}]",
		Many:      true,
		Params:    (*Manual).params,
		Sheet:     (*Manual).sheet,
		Copy:      Replaced[Manual],
		Lines:     (*Manual).lines,
		YAML:      FromParams,
		Conflicts: NoConflicts[Manual],
		Warnings:  (*Manual).warnings,
		Record:    (*Manual).record,
	}.Kind()
}

func (p *Manual) params() []Param {
	return []Param{
		{Key: "date", Field: AsDate(&p.Date), Required: true, Doc: "day of the run"},
		{Key: "zone", Field: AsZone(&p.Zone), Required: true, Doc: "zone that runs"},
		{Key: "minutes", Field: AsQuantity(&p.Minutes, quantity.Duration), Required: true, Min: 0.1, Max: 1440, Doc: "length of the run"},
		{Key: "at", Field: AsClock(&p.AtMin), Word: "18:00", Default: 18 * 60, Doc: "time of the run", Source: "assumption of this program", Grade: quantity.Guess},
	}
}

// Manual is an extra run of one zone on one date.
type Manual struct {
	Date    cal.Date
	Zone    int
	Minutes float64
	AtMin   int // clock time [min after midnight]
}

// Kind returns the kind of the part.
func (Manual) Kind() Kind { return manualKind() }

// Stage returns [Water].
func (Manual) Stage() Stage { return Water }

// Apply adds the run as a program of one day.
func (m Manual) Apply(d *Draft) {
	p := Program{Name: "by hand", Days: DayRule{Kind: AnyDay}, Starts: []int{m.AtMin}, Minutes: make([]float64, len(d.Site.Zones)), From: m.Date, To: m.Date, ByHand: true}
	p.Minutes[m.Zone] = m.Minutes
	d.Programs = append(d.Programs, p)
}

func (p *Manual) sheet(site *Site) SheetEntry {
	return SheetEntry{Use: NotEntered,
		Note: fmt.Sprintf("A run by hand of %s on %v is past and not on the sheet.", site.Zones[p.Zone].Name, p.Date)}
}

func (p *Manual) lines(zones []string, _ quantity.System) []string {
	return []string{fmt.Sprintf("by hand on %v at %s: %s %g min", p.Date, ClockText(float64(p.AtMin)), zones[p.Zone], p.Minutes)}
}

func (p *Manual) warnings(zones []string) Warnings {
	waters := make([]bool, len(zones))
	waters[p.Zone] = true
	return Warnings{Checked: true, Waters: waters}
}

// record tells that the run is on no day of the record.
func (p *Manual) record(site *Site) string {
	if site.outside(p.Date, p.Date) {
		return fmt.Sprintf("the run by hand on %v is on no day of the record", p.Date)
	}
	return ""
}
