package strategy

import (
	"loamledger/sim"
	"loamledger/weather/cal"
)

// A Program is a controller program: days, start times and run times.
type Program struct {
	Name    string
	Days    DayRule
	Starts  []int     // start times [min after midnight]; each runs all zones
	Minutes []float64 // run times by index of zone; 0 for a zone that is not in the program [min]
	Cycle   float64   // maximum cycle [min]; 0 for a single run
	Soak    float64   // soak time between cycles of a zone [min]

	// From and To are the first and last day of the program; 0 means open-ended.
	From, To cal.Date
	// RampTo, if above 0, scales run times linearly from 1 on From to this factor
	// on To; both dates are required.
	RampTo float64
	// ByHand marks a manual run, which holds and percentages do not affect.
	ByHand bool
}

// run returns the run of zone z before any factor.
func (p *Program) run(z int) sim.Run {
	return sim.Run{Minutes: p.Minutes[z], CycleMin: p.Cycle, SoakMin: p.Soak}
}

// column fills in the days of the program.
func (p *Program) column(site *Site, col *column) {
	p.Days.fill(site, col.on)
	if p.From != 0 || p.To != 0 {
		for i := range col.on {
			d := site.date(i)
			if p.From != 0 && d < p.From || p.To != 0 && d > p.To {
				col.on[i] = false
			}
		}
	}
	if p.RampTo > 0 {
		col.factor = make([]float64, len(col.on))
		for i := range col.factor {
			share := min(max(float64(site.date(i)-p.From)/max(float64(p.To-p.From), 1), 0), 1)
			col.factor[i] = 1 + float64(share*(p.RampTo-1))
		}
	}
}

// A DayRule chooses the days on which a program runs.
type DayRule struct {
	Kind     DayKind
	Weekdays [7]bool  // for Weekdays; 0 is Sunday
	Every    int      // for Interval: interval [d], at least 1
	From     cal.Date // for Interval: a day on which the program runs
}

// A DayKind is a kind of day rule.
type DayKind uint8

// The kinds of day rule. Odd and even refer to the day of the month, so the 31st and
// the 1st are consecutive odd days.
const (
	AnyDay DayKind = iota
	Weekdays
	OddDays
	EvenDays
	Interval
)

// Runs reports whether day i of calendar c satisfies the rule.
func (r *DayRule) Runs(c *sim.Calendar, i int) bool {
	switch r.Kind {
	case Weekdays:
		return r.Weekdays[c.Weekday[i]]
	case OddDays:
		return c.Dom[i]%2 == 1
	case EvenDays:
		return c.Dom[i]%2 == 0
	case Interval:
		return (int(c.Start)+i-int(r.From))%r.Every == 0
	}
	return true
}

// fill sets each day of a plan that satisfies the rule.
func (r *DayRule) fill(site *Site, on []bool) {
	record := on[site.Spin:]
	switch r.Kind {
	case AnyDay:
		for i := range record {
			record[i] = true
		}
	case Weekdays:
		for i, w := range site.Calendar.Weekday[:len(record)] {
			record[i] = r.Weekdays[w]
		}
	default:
		for i := range record {
			record[i] = r.Runs(site.Calendar, i)
		}
	}
	copy(on[:site.Spin], record)
}
