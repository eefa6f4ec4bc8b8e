package strategy

import (
	"loamledger/sim"
	"loamledger/weather/cal"
)

// A Program is how a controller is set: days, starts and minutes.
type Program struct {
	Name    string
	Days    DayRule
	Starts  []int     // clock times [min after midnight], each a full cycle through all zones
	Minutes []float64 // by index of zone; 0 for a zone that is not in the program [min]
	Cycle   float64   // longest cycle [min]; 0 for one run
	Soak    float64   // pause between the cycles of a zone [min]

	// From and To are the first and last day of a version or an establishment
	// window; 0 leaves that end open.
	From, To cal.Date
	// RampTo, if above 0, changes minutes evenly from 1 times on From to this
	// factor on To, both of which must be given.
	RampTo float64
	// ByHand marks a run that skips and percentages do not touch.
	ByHand bool
}

// run returns the run of zone z before any factor.
func (p *Program) run(z int) sim.Run {
	return sim.Run{Minutes: p.Minutes[z], CycleMin: p.Cycle, SoakMin: p.Soak}
}

// column writes the days of the program.
func (p *Program) column(site *Site, col *column) {
	p.Days.fill(site, col.on)
	if p.From != 0 || p.To != 0 {
		for i := range col.on {
			d := site.Date(i)
			if p.From != 0 && d < p.From || p.To != 0 && d > p.To {
				col.on[i] = false
			}
		}
	}
	if p.RampTo > 0 {
		col.factor = make([]float64, len(col.on))
		for i := range col.factor {
			share := min(max(float64(site.Date(i)-p.From)/max(float64(p.To-p.From), 1), 0), 1)
			col.factor[i] = 1 + share*(p.RampTo-1)
		}
	}
}

// A DayRule says on which days a program runs.
type DayRule struct {
	Kind     DayKind
	Weekdays [7]bool  // for Weekdays; 0 is Sunday
	Every    int      // for Interval: every that many days, at least 1
	From     cal.Date // for Interval: a day on which the program runs
}

// A DayKind is a way of choosing days.
type DayKind uint8

// The kinds of day rule. Odd and even are by the day of the month, so that the
// 31st and the 1st are both odd and follow each other.
const (
	AnyDay DayKind = iota
	Weekdays
	OddDays
	EvenDays
	Interval
)

// Runs reports whether the rule holds on day i of calendar c.
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

// fill writes into on whether the rule holds on each day of a plan.
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
