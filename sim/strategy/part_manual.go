package strategy

import (
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

func manualKind() Kind {
	return Kind{
		Key:     "manual",
		Doc:     "an extra run started by hand on one day, whatever the programs say; skips and percentages do not touch it",
		Example: "manual: [{date: 2014-07-03, zone: front lawn, minutes: 15 min}]",
		Many:    true,
		Params: []Param{
			{Key: "date", Type: CalendarDay, Required: true, Doc: "day of the run"},
			{Key: "zone", Type: ZoneName, Required: true, Doc: "zone that runs"},
			{Key: "minutes", Type: Quantity, Dim: quantity.Duration, Required: true, Min: 0.1, Max: 1440, Doc: "length of the run"},
			{Key: "at", Type: ClockTime, Word: "18:00", Default: 18 * 60, Doc: "time of the run", Source: "assumption of this program", Grade: quantity.Guess},
		},
		Make: func(a Args) Part {
			return Manual{a["date"].Date, a["zone"].Zone, a["minutes"].Number, a["at"].Clock}
		},
	}
}

// Manual is an extra run of one zone on one date.
type Manual struct {
	Date    cal.Date
	Zone    int
	Minutes float64
	AtMin   int // clock time [min after midnight]
}

// Stage returns [Water].
func (Manual) Stage() Stage { return Water }

// Apply adds the run as a program of one day.
func (m Manual) Apply(d *Draft) {
	p := Program{Name: "by hand", Days: DayRule{Kind: AnyDay}, Starts: []int{m.AtMin}, Minutes: make([]float64, len(d.Site.Zones)), From: m.Date, To: m.Date, ByHand: true}
	p.Minutes[m.Zone] = m.Minutes
	d.Programs = append(d.Programs, p)
}
