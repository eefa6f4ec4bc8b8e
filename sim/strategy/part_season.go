package strategy

import (
	"fmt"
	"strings"

	"loamledger/sim"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

func seasonKind() Kind {
	return Spec[Season]{
		Key:       "season",
		Doc:       "turns the system off outside a season set by dates, by frost or by both",
		Example:   "season: {start: 04-15, end: 10-15}",
		Params:    (*Season).params,
		Sheet:     onController[Season],
		Copy:      Kept[Season],
		Lines:     (*Season).lines,
		Plain:     noMention[Season],
		YAML:      FromParams,
		Conflicts: (*Season).conflicts,
		Warnings:  (*Season).warnings,
		Record:    nothingOfRecord[Season],
	}.Kind()
}

func (p *Season) params() []Param {
	return []Param{
		{Key: "start", Field: asYearDay(&p.Start), Word: "none",
			Doc: "first day of the season, every year", Source: "assumption by loamledger: no season", Grade: quantity.Guess, Off: true},
		{Key: "end", Field: asYearDay(&p.End), Word: "none",
			Doc: "last day of the season, every year", Source: "assumption by loamledger: no season", Grade: quantity.Guess, Off: true},
		{Key: "frost", Field: AsQuantity(&p.FrostC, quantity.Temperature), Default: -100, Min: -30, Max: 10, Word: "none",
			Doc: "a night below this turns the system off", Source: "assumption by loamledger: no frost rule", Grade: quantity.Guess, Off: true},
		{Key: "frost_free_days", Field: AsQuantity(&p.FrostFreeDays, quantity.Days), Default: 21, Min: 1, Max: 120,
			Doc: "consecutive frost-free days before it turns back on", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
	}
}

// Season turns the system off outside the days Start to End of every year,
// inclusive, and after a night below FrostC until FrostFreeDays nights in a row
// were warmer. Start and End are 100·month + day, or 0 for none; a season can span
// the new year.
type Season struct {
	Start, End    int
	FrostC        float64
	FrostFreeDays int
}

// Kind returns the kind of the part.
func (Season) Kind() Kind { return seasonKind() }

// Stage returns [Permit].
func (Season) Stage() Stage { return Permit }

// Apply marks the days off.
func (s Season) Apply(d *Draft) {
	c, tmin := d.Site.Calendar, d.Site.Weather.TminC
	clear := s.FrostFreeDays // nights in a row without frost; a record starts with the system on
	for i := range d.Block {
		k := d.Site.Source(i)
		if !s.Within(100*int(c.Month[k])+int(c.Dom[k])) || clear < s.FrostFreeDays {
			d.hold(i, sim.Suspended)
		}
		if tmin != nil && tmin[k] < s.FrostC {
			clear = 0 // known only tomorrow
		} else {
			clear++
		}
	}
}

// monthOff reports whether the dates leave the system off in all of month m, 1 to 12.
func (s Season) monthOff(m int) bool {
	for day := 1; day <= 31; day++ {
		if s.Within(100*m + day) {
			return false
		}
	}
	return true
}

// Within reports whether a day of the year, 100·month + day, is within the dates.
func (s Season) Within(day int) bool {
	afterStart, beforeEnd := s.Start == 0 || day >= s.Start, s.End == 0 || day <= s.End
	if s.Start != 0 && s.End != 0 && s.Start > s.End {
		return afterStart || beforeEnd
	}
	return afterStart && beforeEnd
}

func (p *Season) lines(_ []string, sys quantity.System) []string {
	text := "Season:"
	if p.Start != 0 {
		text += fmt.Sprintf(" turn on %s %d,", MonthNames[p.Start/100-1], p.Start%100)
	}
	if p.End != 0 {
		text += fmt.Sprintf(" turn off after %s %d,", MonthNames[p.End/100-1], p.End%100)
	}
	if p.FrostC > -90 {
		text += fmt.Sprintf(" turn off after a night below %s until %s in a row without such a night,",
			quantity.Format(p.FrostC, quantity.Temperature, sys), dayCount(p.FrostFreeDays))
	}
	return []string{strings.TrimSuffix(text, ",")}
}

func (p *Season) warnings([]string) Warnings {
	w := Warnings{Checked: true}
	if p.FrostC > -90 {
		w.Tmin = "frost from season"
	}
	return w
}

func (p *Season) conflicts(given Given) Conflicts {
	frost := given(&p.FrostC)
	if p.Start == 0 && p.End == 0 && !frost {
		return contradiction(true, diag.NoEffect,
			"add start and end, as in {start: 04-15, end: 10-15}, or frost", "season: no effect without start, end or frost")
	}
	return contradiction(given(&p.FrostFreeDays) && !frost, diag.NoEffect,
		"add frost, the night temperature that turns the system off, or remove frost_free_days",
		"season: frost_free_days has no effect without frost")
}
