package strategy

import (
	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/weather/cal"
)

// Limits are the rules and the plumbing a site lives under. They bind every
// strategy but the two references. The day of a run is the day on which its
// program starts, even where the run goes on after midnight.
type Limits struct {
	Always       Rule    // rules that always hold
	Stages       []Rule  // rules for a stretch of dates, such as drought stages; all that hold on a day apply
	Exempt       []bool  // by zone: drip, hand watering or a permit frees it from every rule
	CapacityLMin float64 // flow within which zones may run together [L/min]; 0: one zone at a time
	FlagOnly     bool    // apply what breaks a rule, and list it; else it is left out, and listed
}

// A Rule is one set of limits. Zero fields limit nothing.
type Rule struct {
	Name        string
	From, To    cal.Date // first and last day, for a stage
	Days        DayRule  // days on which watering may start
	Windows     []clock.Window
	MostMinutes float64 // for a zone in one start
	Ban         bool    // no watering at all
}

// holds reports whether the rule is in force on date d.
func (r *Rule) holds(d cal.Date) bool {
	return r.From == 0 && r.To == 0 || d >= r.From && d <= r.To
}

// A fitter holds the runs of a day against the limits.
type fitter struct {
	site     *Site
	table    clock.Timetable
	starts   []clock.Start
	rules    []*Rule
	allowed  [][]float64 // by start, then run: minutes that may be applied
	breaches []sim.Breach
}

// fit lays out the day's starts and works out what of each run the rules let
// through. Breaches are recorded for days of the record only.
func (f *fitter) fit(i int) {
	l, date := f.site.Limits, f.site.Date(i)
	f.rules = append(f.rules[:0], &l.Always)
	for s := range l.Stages {
		if l.Stages[s].holds(date) {
			f.rules = append(f.rules, &l.Stages[s])
		}
	}
	f.allowed = f.allowed[:0]
	for s := range f.starts {
		row := make([]float64, len(f.starts[s].Runs))
		for k := range f.starts[s].Runs {
			r := &f.starts[s].Runs[k]
			row[k] = r.Run.Minutes
			if !l.Exempt[r.Zone] {
				row[k] = f.permitted(i, r)
			}
			if !l.FlagOnly {
				r.Run.Minutes = row[k]
			}
		}
		f.allowed = append(f.allowed, row)
	}
	f.table.CapacityLMin = l.CapacityLMin
	f.table.Lay(f.starts)
	for s := range f.starts {
		for k := range f.starts[s].Runs {
			if r := &f.starts[s].Runs[k]; !l.Exempt[r.Zone] {
				f.window(i, s, k, r.Zone)
			}
		}
	}
}

// permitted returns how many of a run's minutes day and length rules allow.
func (f *fitter) permitted(i int, r *clock.ZoneRun) float64 {
	minutes, source := r.Run.Minutes, f.site.Source(i)
	for _, rule := range f.rules {
		switch {
		case rule.Ban:
			f.breach(i, r.Zone, rule.Name+": no watering", minutes)
			return 0
		case !rule.Days.Runs(f.site.Calendar, source):
			f.breach(i, r.Zone, rule.Name+": not an allowed day", minutes)
			return 0
		}
	}
	for _, rule := range f.rules {
		if rule.MostMinutes > 0 && minutes > rule.MostMinutes+1e-9 {
			f.breach(i, r.Zone, rule.Name+": longer than a zone may run", minutes-rule.MostMinutes)
			minutes = rule.MostMinutes
		}
	}
	return minutes
}

// window cuts a run to what of its openings falls into every window in force.
func (f *fitter) window(i, s, k, zone int) {
	for _, rule := range f.rules {
		if len(rule.Windows) == 0 {
			continue
		}
		inside, all := 0.0, 0.0
		for _, o := range f.table.Openings {
			if o.Start == s && o.Zone == zone {
				inside += clock.Inside(o, rule.Windows)
				all += o.ToMin - o.FromMin
			}
		}
		if all-inside > 1e-9 {
			f.breach(i, zone, rule.Name+": outside the watering window", all-inside)
			f.allowed[s][k] = min(f.allowed[s][k], inside)
		}
	}
}

func (f *fitter) breach(i, zone int, rule string, minutes float64) {
	if i >= f.site.Spin {
		f.breaches = append(f.breaches, sim.Breach{Date: f.site.Date(i), Zone: zone, Rule: rule, Minutes: minutes})
	}
}

// reason returns why a zone that asked for water got none.
func (f *fitter) reason(i, zone int) sim.Reason {
	for _, rule := range f.rules {
		if rule.Ban || !rule.Days.Runs(f.site.Calendar, f.site.Source(i)) {
			return sim.NotAllowed
		}
	}
	return sim.NoRoom
}
