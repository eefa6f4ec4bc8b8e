// Package settings turns a strategy into what a person enters on a controller:
// days, start times, whole minutes, cycles, pauses and monthly percentages, all
// of it legal where that can be had, with finish times from package clock.
//
// The sheet, rounded as it is, is a strategy again: [Sheet.Strategy]. What is
// reported of a sheet is the replay of that, never of what it was made from.
package settings

import (
	"slices"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// Options say how a sheet is rounded.
type Options struct {
	// PercentStep is the step of the monthly percentages as a share, above 0 to
	// 0.5; 0 means 0.05.
	PercentStep float64
	// AsOf is the day on which the sheet is entered: programs that have ended by
	// then are left out, and drought stages in force on it are kept to. 0 means
	// the last day of the record.
	AsOf cal.Date
	// OneAfter starts programs one behind the other where they would begin at
	// the same time and wait for each other, which not every controller does.
	OneAfter bool
}

// A Sheet is what to enter on a controller.
type Sheet struct {
	Name     string // of the strategy it was made from
	Zones    []sim.Zone
	Programs []strategy.Program // whole minutes; starts in order of time
	Percent  [12]float64        // share of the minutes in each calendar month; 0 is off
	// Parts are what else the strategy is made of and the controller does by
	// itself, such as a rain shut-off.
	Parts   []strategy.Part
	Misfits []Misfit // zones that do not fit, first of all to be told
	Room    *Room    // what was asked for and what the window holds; nil where all fits
	Notes   []string // what was changed in making the sheet, and why
	Held    []Held   // what the rules would still hold back, over the whole record
	Times   [12]Time // the latest finish in each calendar month
}

// A Misfit is a zone whose water does not fit, and was cut to what does.
type Misfit struct {
	Zone      int
	Program   string
	AskedMin  float64 // minutes of a start at 100 %
	FitMin    float64 // what is on the sheet
	WorstPart float64 // the share of the minutes, percentage and all, at which it had to fit
	Rule      string
}

// A Room sets what was asked for beside what the windows of a rule hold.
type Room struct {
	Rule    string
	Zones   int     // that the rule binds and that water on the fullest day
	NeedMin float64 // valve minutes of these on that day, at the highest percentage
	TakeMin float64 // from first opening to last closing, pauses and all, one program after the other
	HoldMin float64 // how long the windows are open in a day
}

// Unwatered lists the zones that were to be watered and of which nothing fits.
func (s *Sheet) Unwatered() (zones []int) {
	for z := range s.Zones {
		asked := slices.ContainsFunc(s.Misfits, func(m Misfit) bool { return m.Zone == z })
		if asked && !slices.ContainsFunc(s.Programs, func(p strategy.Program) bool { return p.Minutes[z] > 0 }) {
			zones = append(zones, z)
		}
	}
	return zones
}

// Held sums up breaches of one rule by one zone.
type Held struct {
	Rule    string
	Zone    int
	Days    int
	Minutes float64
	First   cal.Date
}

// A Time is when the last valve closes on the longest day of a month.
type Time struct {
	Waters    bool
	StartMin  float64 // first valve opens [min after midnight]
	FinishMin float64 // last valve closes; above 1440 after the next midnight
}

// An Entry is what one program does for one zone in one month.
type Entry struct {
	Zone    int
	Month   int // 1 to 12
	Program *strategy.Program
	Percent float64 // share
	Minutes float64 // of each start, at that percentage; 0 when the month is off
	Cycles  int     // of each start
}

// Entries lists the sheet by zone, then program, then month.
func (s *Sheet) Entries() []Entry {
	var out []Entry
	for z := range s.Zones {
		for p := range s.Programs {
			prog := &s.Programs[p]
			if prog.Minutes[z] <= 0 {
				continue
			}
			for m, share := range s.Percent {
				e := Entry{Zone: z, Month: m + 1, Program: prog, Percent: share, Minutes: prog.Minutes[z] * share}
				e.Cycles = sim.Run{Minutes: e.Minutes, CycleMin: prog.Cycle}.Cycles()
				out = append(out, e)
			}
		}
	}
	return out
}

// Controls says in words what the controller or a sensor is to do by itself, in
// order of Parts. The error is a [*strategy.UnsaidError]; sheets of [Make] have none.
func (s *Sheet) Controls(sys quantity.System) (lines []string, err error) {
	for _, p := range s.Parts {
		of, err := strategy.Lines(p, zoneNames(s.Zones), sys)
		if err != nil {
			return nil, err
		}
		lines = append(lines, of...)
	}
	return lines, nil
}

func zoneNames(zones []sim.Zone) []string {
	names := make([]string, len(zones))
	for z := range zones {
		names[z] = zones[z].Name
	}
	return names
}

// Strategy returns the sheet as a strategy: its programs as rounded, its
// percentages, and the parts the controller does by itself.
func (s *Sheet) Strategy() strategy.Strategy {
	st := strategy.Strategy{Name: s.Name}
	st.Parts = append(st.Parts, strategy.Programs{List: s.Programs})
	if s.Percent != everyMonth {
		st.Parts = append(st.Parts, strategy.Monthly{Share: s.Percent})
	}
	st.Parts = append(st.Parts, s.Parts...)
	return st
}

// everyMonth is no percentage at all.
var everyMonth = [12]float64{1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}

// A Change is a day of the year on which entries change.
type Change struct {
	Month, Day int
	Percent    float64 // from then on
}

// Changes lists the days of the year on which the percentage changes, in order
// from January, each with what to enter. It is empty where one setting holds
// all year.
func (s *Sheet) Changes() []Change {
	var out []Change
	for m, share := range s.Percent {
		if share != s.Percent[(m+11)%12] {
			out = append(out, Change{Month: m + 1, Day: 1, Percent: share})
		}
	}
	return out
}

// Next returns the date of the first change after day d, ok false where
// nothing ever changes.
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
