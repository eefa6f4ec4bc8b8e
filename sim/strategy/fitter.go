package strategy

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"

	"loamledger/sim"
	"loamledger/sim/clock"
)

// A fitter checks the runs of a day against the limits. Days with the same requests
// and rules have the same result, which is computed once.
type fitter struct {
	site     *Site
	flagOnly bool // what breaks a rule is applied and listed
	table    clock.Timetable
	starts   []clock.Start
	byHand   []bool // of each start
	rules    []*Rule
	open     []bool      // of each rule: whether watering can start today
	busyMin  []float64   // by controller: when the previous day's valves close [min after midnight]
	lastMin  []float64   // by controller: when the last allowed valve closes
	allowed  [][]float64 // by start, then run: allowed minutes
	sets     [][]clock.Window
	opened   []clock.Opening // by start, then zone, then time
	known    map[string]*fitted
	key      []byte
	runs     []clock.ZoneRun // memory of starts
	asked    []asked
	result   *fitted
	telling  bool // the openings of each day are kept
}

// fitted is the result of the limits for the starts of a day.
type fitted struct {
	breaches []sim.Breach    // without dates
	zones    []fittedZone    // zones that requested water
	busyMin  []float64       // by controller: how long valves are open after midnight [min]
	opened   []clock.Opening // what is left of the day's openings, if the compiler tells overdraws
}

// fittedZone is what remains of the runs of one zone.
type fittedZone struct {
	zone    int
	dose    int32
	minutes float64
	why     sim.Reason
}

// asked is a requested run: its zone, its start and its index there.
type asked struct{ zone, start, run int }

// byZone returns the runs of the day by zone, then by start.
func (f *fitter) byZone() []asked {
	f.asked = f.asked[:0]
	for s := range f.starts {
		for k := range f.starts[s].Runs {
			f.asked = append(f.asked, asked{f.starts[s].Runs[k].Zone, s, k})
		}
	}
	slices.SortStableFunc(f.asked, func(a, b asked) int { return cmp.Compare(a.zone, b.zone) })
	return f.asked
}

// mostKnown limits the number of remembered days.
const mostKnown = 4096

func (f *fitter) reset(site *Site, unbound bool) {
	f.site, f.flagOnly = site, unbound || site.Limits.FlagOnly
	n := site.Wiring.Controllers()
	f.busyMin = slices.Grow(f.busyMin[:0], n)[:n]
	clear(f.busyMin)
	if f.known == nil {
		f.known = map[string]*fitted{}
	}
	clear(f.known)
}

// begin starts day i of a plan.
func (f *fitter) begin(i int) {
	f.starts, f.byHand, f.runs = f.starts[:0], f.byHand[:0], f.runs[:0]
	f.rules = f.site.Limits.inForce(f.rules[:0], f.site.date(i))
	f.open = f.open[:0]
	for _, rule := range f.rules {
		f.open = append(f.open, rule.Days.Runs(f.site.Calendar, f.site.Source(i)))
	}
}

// add adds a start with the runs collected since mark.
func (f *fitter) add(at float64, byHand bool, mark int) {
	f.starts = append(f.starts, clock.Start{AtMin: at, Runs: f.runs[mark:len(f.runs):len(f.runs)]})
	f.byHand = append(f.byHand, byHand)
}

// find returns the earlier result of an equal day, or nil.
func (f *fitter) find() *fitted {
	k := f.key[:0]
	for _, busy := range f.busyMin {
		k = binary.LittleEndian.AppendUint64(k, math.Float64bits(busy))
	}
	k = binary.LittleEndian.AppendUint32(k, uint32(len(f.rules)))
	l := f.site.Limits
	for r, rule := range f.rules {
		index := -1
		for s := range l.Stages {
			if rule == &l.Stages[s] {
				index = s
			}
		}
		k = binary.LittleEndian.AppendUint32(k, uint32(index))
		k = appendBool(k, f.open[r])
	}
	for s := range f.starts {
		k = binary.LittleEndian.AppendUint64(k, math.Float64bits(f.starts[s].AtMin))
		k = appendBool(k, f.byHand[s])
		for _, r := range f.starts[s].Runs {
			k = binary.LittleEndian.AppendUint32(k, uint32(r.Zone))
			k = binary.LittleEndian.AppendUint64(k, math.Float64bits(r.Run.Minutes))
			k = binary.LittleEndian.AppendUint64(k, math.Float64bits(r.Run.CycleMin))
			k = binary.LittleEndian.AppendUint64(k, math.Float64bits(r.Run.SoakMin))
		}
		k = append(k, 0xff)
	}
	f.key = k
	return f.known[string(k)]
}

func appendBool(k []byte, v bool) []byte {
	if v {
		return append(k, 1)
	}
	return append(k, 0)
}

// fit lays out the day's starts and finds what the rules allow of each run.
func (f *fitter) fit() *fitted {
	f.result = &fitted{}
	if len(f.known) < mostKnown {
		f.known[string(f.key)] = f.result
	}
	l := f.site.Limits
	f.allowed = f.allowed[:0]
	for s := range f.starts {
		row := make([]float64, len(f.starts[s].Runs))
		for k := range f.starts[s].Runs {
			r := &f.starts[s].Runs[k]
			row[k] = r.Run.Minutes
			if !l.exempt(r.Zone, f.byHand[s]) {
				row[k] = f.permitted(r)
			}
			if !f.flagOnly {
				r.Run.Minutes = row[k]
			}
		}
		f.allowed = append(f.allowed, row)
	}
	f.table.Wiring, f.table.BusyUntilMin = f.site.Wiring, f.busyMin
	f.table.Lay(f.starts)
	f.opened = append(f.opened[:0], f.table.Openings...)
	slices.SortStableFunc(f.opened, byStartAndZone)
	f.lastMin = slices.Grow(f.lastMin[:0], len(f.busyMin))[:len(f.busyMin)]
	clear(f.lastMin)
	for s := range f.starts {
		for k := range f.starts[s].Runs {
			f.window(s, k, f.starts[s].Runs[k].Zone)
		}
	}
	if f.flagOnly {
		for _, o := range f.table.Openings {
			f.closed(o.Zone, o.ToMin)
		}
	}
	// A valve kept closed by a rule does not delay the next day, and nothing is
	// carried over for more than a day.
	for _, last := range f.lastMin {
		f.result.busyMin = append(f.result.busyMin, min(max(last-clock.Day, 0), clock.Day))
	}
	return f.result
}

// permitted returns the minutes of a run that the day and run-time rules allow.
func (f *fitter) permitted(r *clock.ZoneRun) float64 {
	minutes := r.Run.Minutes
	for i, rule := range f.rules {
		switch {
		case !rule.binds(r.Zone):
		case rule.Ban:
			f.breach(r.Zone, rule.Name+": no watering", minutes)
			return 0
		case !f.open[i]:
			f.breach(r.Zone, rule.Name+": not an allowed day", minutes)
			return 0
		}
	}
	for _, rule := range f.rules {
		if rule.binds(r.Zone) && rule.MaxMinutes > 0 && minutes > rule.MaxMinutes+1e-9 {
			f.breach(r.Zone, rule.Name+": above the maximum run time", minutes-rule.MaxMinutes)
			minutes = rule.MaxMinutes
		}
	}
	return minutes
}

func byStartAndZone(a, b clock.Opening) int {
	return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(a.Zone, b.Zone))
}

// openings returns the openings of a zone by start s, by time.
func (f *fitter) openings(s, zone int) []clock.Opening {
	first, _ := slices.BinarySearchFunc(f.opened, clock.Opening{Start: s, Zone: zone}, byStartAndZone)
	end := first
	for end < len(f.opened) && f.opened[end].Start == s && f.opened[end].Zone == zone {
		end++
	}
	return f.opened[first:end]
}

// window shortens a run to what falls inside every window in force.
func (f *fitter) window(s, k, zone int) {
	f.sets = f.sets[:0]
	openings := f.openings(s, zone)
	free := f.site.Limits.exempt(zone, f.byHand[s])
	for _, rule := range f.rules {
		if free || len(rule.Windows) == 0 || !rule.binds(zone) {
			continue
		}
		f.sets = append(f.sets, rule.Windows)
		outside := 0.0
		for _, o := range openings {
			outside += o.ToMin - o.FromMin - clock.Inside(o, rule.Windows)
		}
		if outside > 1e-9 {
			f.breach(zone, rule.Name+": outside the watering window", outside)
		}
	}
	inside, all := 0.0, 0.0
	for _, o := range openings {
		all += o.ToMin - o.FromMin
		minutes, last := clock.InsideAll(o, f.sets)
		inside += minutes
		f.closed(zone, last)
		if f.telling {
			parts := []clock.Opening{o}
			if !f.flagOnly {
				parts = clock.ClipAll(o, f.sets)
			}
			f.result.opened = append(f.result.opened, parts...)
		}
	}
	if all-inside > 1e-9 { // ignore rounding
		f.allowed[s][k] = min(f.allowed[s][k], inside)
	}
}

// closed notes that the valve of a zone closes.
func (f *fitter) closed(zone int, at float64) {
	c := f.site.Wiring.ControllerOf(zone)
	f.lastMin[c] = max(f.lastMin[c], at)
}

func (f *fitter) breach(zone int, rule string, minutes float64) {
	f.result.breaches = append(f.result.breaches, sim.Breach{Zone: zone, Rule: rule, Minutes: minutes})
}

// reason returns why a zone that requested water got none.
func (f *fitter) reason(zone int) sim.Reason {
	for i, rule := range f.rules {
		if rule.binds(zone) && (rule.Ban || !f.open[i]) {
			return sim.NotAllowed
		}
	}
	return sim.NoRoom
}
