package strategy

import (
	"loamledger/sim"
	"loamledger/weather/quantity"
)

func seasonKind() Kind {
	return Kind{
		Key:     "season",
		Doc:     "shuts the system down outside a season, by dates, by frost, or by both",
		Example: "season: {start: 04-15, end: 10-15}",
		Params: []Param{
			{Key: "start", Type: YearDay, Word: "none", Doc: "first day of the season in every year", Source: "assumption of this program: no season", Grade: quantity.Guess, Off: true},
			{Key: "end", Type: YearDay, Word: "none", Doc: "last day of the season in every year", Source: "assumption of this program: no season", Grade: quantity.Guess, Off: true},
			{Key: "frost", Type: Quantity, Dim: quantity.Temperature, Default: -100, Min: -30, Max: 10, Word: "none", Doc: "a night below this shuts the system down", Source: "assumption of this program: no frost rule", Grade: quantity.Guess, Off: true},
			{Key: "clear_days", Type: Quantity, Dim: quantity.Days, Default: 21, Min: 1, Max: 120, Doc: "days in a row without such a night that open it again", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		},
		Make: func(a Args) Part {
			return Season{Start: a["start"].YearDay, End: a["end"].YearDay, FrostC: a["frost"].Number, ClearDays: int(a["clear_days"].Number)}
		},
	}
}

// Season shuts the system down outside the days Start to End of every year,
// both included, and after a night below FrostC until ClearDays nights in a
// row were not. Start and End are 100·month + day, and 0 for none; a season
// may run over the new year.
type Season struct {
	Start, End int
	FrostC     float64
	ClearDays  int
}

// Stage returns [Permit].
func (Season) Stage() Stage { return Permit }

// Apply writes the days held back.
func (s Season) Apply(d *Draft) {
	c, tmin := d.Site.Calendar, d.Site.Weather.TminC
	clear := s.ClearDays // nights in a row above the threshold; a record opens with the system on
	for i := range d.Block {
		k := d.Site.Source(i)
		if !s.within(100*int(c.Month[k])+int(c.Dom[k])) || clear < s.ClearDays {
			d.hold(i, sim.Suspended)
		}
		if tmin != nil && tmin[k] < s.FrostC {
			clear = 0 // known tomorrow
		} else {
			clear++
		}
	}
}

func (s Season) within(day int) bool {
	afterStart, beforeEnd := s.Start == 0 || day >= s.Start, s.End == 0 || day <= s.End
	if s.Start != 0 && s.End != 0 && s.Start > s.End {
		return afterStart || beforeEnd
	}
	return afterStart && beforeEnd
}
