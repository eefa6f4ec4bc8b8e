// Package settings turns a strategy into the settings a person enters on a
// controller: days, start times, whole minutes, cycles, soaks and monthly
// percentages, within the site's limits where possible. Finish times come from
// package clock.
//
// The rounded sheet is itself a strategy, see [Sheet.Strategy]. Results reported
// for a sheet are always from replaying that strategy, never the original.
package settings

import (
	"slices"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// Options control how a sheet is made.
type Options struct {
	// PercentStep is the step of the monthly percentages as a share, 0 to 0.5; 0
	// means [DefaultPercentStep]. A timer has its own.
	PercentStep float64
	Units       quantity.System // of times in Notes
	// Timer is what the settings must fit; nil for any timer.
	Timer *timer.Profile
	// AsOf is the date on which the settings are entered. Programs that ended
	// before it are omitted, and drought stages in force on it are obeyed. 0 means
	// the last day of the record.
	AsOf cal.Date
	// OneAfter gives programs that would start together start times one after
	// another, since not every controller queues programs.
	OneAfter bool
	// Controller is the name of the controller that the sheet is for, and Only has its
	// zones; nil for all zones of the site.
	Controller string
	Only       []bool
}

// DefaultPercentStep is the usual step of monthly percentages, as a share: common
// practice, from memory.
const DefaultPercentStep = 0.05

// A Sheet is the settings to enter on a controller.
type Sheet struct {
	Name string // name of the strategy it was made from
	// Controller is the name of the controller it is for; empty for the whole site. Only
	// has its zones; nil for all.
	Controller string
	Only       []bool
	// Each are the sheets of the controllers of a site with several, of which this is
	// the sum; nil for one. Percent, Shift and Room of a sum say nothing.
	Each     []*Sheet
	Zones    []sim.Zone
	Programs []strategy.Program // whole minutes; starts in time order
	Percent  [12]float64        // share of the run times in each calendar month; 0 is off
	// Parts are the other parts of the strategy, which the controller handles
	// itself, such as a rain shut-off.
	Parts   []strategy.Part
	Misfits []Misfit // zones that do not fit; report them first
	Room    *Room    // time needed and time available; nil if everything fits
	Notes   []string // changes made for the sheet, and why
	// Queued are the pairs of programs, by name, of which one starts while the other
	// still runs.
	Queued [][2]string
	Held   []Held // watering that rules would still block over the whole record
	// Times has the longest day of each calendar month, laid out with the whole
	// minutes that are printed.
	Times [12]Time
	// Merged lists programs that were merged because the timer has too few.
	Merged []Merge
	// Shift is how much earlier to start if the longest day ends late; nil if none
	// does.
	Shift *Shift
	// Dry lists every zone without water on the sheet, with the reason.
	Dry []DryZone
}

// A Misfit is a zone whose run time did not fit and was cut to what does.
type Misfit struct {
	Zone      int
	Program   string
	AskedMin  float64 // minutes per start at 100%
	FitMin    float64 // minutes on the sheet
	WorstPart float64 // the highest share of the run time, which had to fit
	Rule      string
}

// A Room compares the time needed with the windows of a rule.
type Room struct {
	Rule    string
	Zones   int     // zones subject to the rule that water on the busiest day
	NeedMin float64 // their valve minutes on that day, at the highest percentage
	TakeMin float64 // from first opening to last closing, soaks included, one program after another
	HoldMin float64 // total length of the windows in a day
}

// Held totals the breaches of one rule by one zone.
type Held struct {
	Rule    string
	Zone    int
	Days    int
	Minutes float64
	First   cal.Date
}

// A Time is the start and finish of watering on the longest day of a month.
type Time struct {
	Waters    bool
	StartMin  float64 // first valve opens [min after midnight]
	FinishMin float64 // last valve closes; above 1440 if after midnight
}

// An Entry is the run time of one zone in one program in one month.
type Entry struct {
	Zone    int
	Month   int // 1 to 12
	Program *strategy.Program
	Percent float64 // share
	Minutes float64 // per start, at that percentage; 0 if the month is off
	Cycles  int     // per start
}

// Entries lists the entries by zone, then program, then month, for the months in [Sheet.Months].
func (s *Sheet) Entries() []Entry {
	var out []Entry
	for _, one := range s.Each {
		out = append(out, one.Entries()...)
	}
	if s.Each != nil {
		return out
	}
	for z := range s.Zones {
		for p := range s.Programs {
			prog := &s.Programs[p]
			if prog.Minutes[z] <= 0 {
				continue
			}
			for _, m := range s.Months() {
				share := s.Percent[m]
				e := Entry{Zone: z, Month: m + 1, Program: prog, Percent: share, Minutes: prog.Minutes[z] * share}
				e.Cycles = sim.Run{Minutes: e.Minutes, CycleMin: prog.Cycle}.Cycles()
				out = append(out, e)
			}
		}
	}
	return out
}

// Watered lists the months of [Sheet.Months] whose percentage is above 0.
func (s *Sheet) Watered() (out []int) {
	for _, m := range s.Months() {
		if s.Percent[m] > 0 {
			out = append(out, m)
		}
	}
	return out
}

// Months lists the calendar months, 0 to 11, in which the system may be on: all
// but those that a part with dates, such as a season, leaves off entirely.
func (s *Sheet) Months() []int {
	var out []int
	for m := range s.Percent {
		if !slices.ContainsFunc(s.Parts, func(p strategy.Part) bool { return strategy.MonthOff(p, m+1) }) {
			out = append(out, m)
		}
	}
	return out
}

// Controls describes what the controller or a sensor must do by itself, in the
// order of Parts. The error is a [*strategy.UnsaidError], which a sheet from
// [Make] never gives.
func (s *Sheet) Controls(sys quantity.System) (lines []string, err error) {
	return strategy.AllLines(s.Parts, zoneNames(s.Zones), sys)
}

func zoneNames(zones []sim.Zone) []string {
	names := make([]string, len(zones))
	for z := range zones {
		names[z] = zones[z].Name
	}
	return names
}

// Strategy returns the sheet as a strategy: its rounded programs, its
// percentages, and the parts the controller handles itself.
func (s *Sheet) Strategy() strategy.Strategy {
	st := strategy.Strategy{Name: s.Name}
	st.Parts = append(st.Parts, strategy.Programs{List: s.Programs})
	st.Parts = append(st.Parts, s.percentages()...)
	st.Parts = append(st.Parts, s.Parts...)
	return st
}

// percentages returns the monthly percentages as parts of a strategy.
func (s *Sheet) percentages() (parts []strategy.Part) {
	if len(s.Each) > 0 && !slices.ContainsFunc(s.Each, func(one *Sheet) bool { return one.Percent != s.Each[0].Percent }) {
		return s.Each[0].percentages()
	}
	for _, one := range s.Each {
		for _, p := range one.percentages() {
			m := p.(strategy.Monthly)
			m.Zones = one.Only
			parts = append(parts, m)
		}
	}
	if s.Each == nil && s.Percent != everyMonth {
		parts = append(parts, strategy.Monthly{Share: s.Percent})
	}
	return parts
}

// everyMonth is 100% in every month.
var everyMonth = [12]float64{1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}

// A Change is a day of the year on which the percentage changes.
type Change struct {
	Month, Day int
	Percent    float64 // from then on
}

// Changes lists the changes of the percentage, in order from January, from one
// month in [Sheet.Months] to the next. It is empty if the percentage is the same
// in all of them.
func (s *Sheet) Changes() []Change {
	var out []Change
	months := s.Months()
	for i, m := range months {
		share, last := s.Percent[m], months[(i+len(months)-1)%len(months)]
		if share != s.Percent[last] {
			out = append(out, Change{Month: m + 1, Day: 1, Percent: share})
		}
	}
	return out
}

// Next returns the first change after day d and its date. ok is false if nothing
// ever changes.
func (s *Sheet) Next(d cal.Date) (at cal.Date, c Change, ok bool) {
	for _, c := range s.Changes() {
		y, _, _ := d.YMD()
		on := cal.Of(y, c.Month, c.Day)
		if on <= d {
			on = cal.Of(y+1, c.Month, c.Day)
		}
		if !ok || on < at {
			at, ok = on, true
		}
	}
	if ok {
		_, m, _ := at.YMD()
		c = Change{Month: m, Day: 1, Percent: s.Percent[m-1]}
	}
	return at, c, ok
}
