package strategy

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim"
	"loamledger/sim/clock"
)

// A Feasible reports whether one full program start at 100% fits the window of one
// rule on the worst day of the record. Programs that start earlier on that day run
// first.
type Feasible struct {
	Program   string  // name of the program; "refill" for a refill of all its zones at once
	startMin  float64 // as set [min after midnight]
	zones     int     // number of zones
	RunMin    float64 // total run time of all zones
	FinishMin float64 // last finish time [min after midnight]; above 1440 on the next day
	rule      string  // name of the rule; empty if no rule has a window or a maximum run time
	windows   []clock.Window
	OpenMin   float64 // total length of the windows per day; 1440 without windows
	mostMin   float64 // maximum run time of a zone per start; 0 for none
	Outside   []Unfit // what does not fit, by zone; empty if all fits
}

// An Unfit is the part of a zone's run time that does not fit.
type Unfit struct {
	Zone    string
	Minutes float64
}

// Fits reports whether all of it fits.
func (f *Feasible) Fits() bool { return len(f.Outside) == 0 }

// OutsideMin returns the total minutes that do not fit.
func (f *Feasible) OutsideMin() float64 {
	sum := 0.0
	for _, u := range f.Outside {
		sum += u.Minutes
	}
	return sum
}

// String describes it in one sentence.
func (f *Feasible) String() string {
	var b strings.Builder
	zones := fmt.Sprintf("%d zones run", f.zones)
	if f.zones == 1 {
		zones = "1 zone runs"
	}
	fmt.Fprintf(&b, "%s at %s: %s %s min in total, until %s", f.Program, clockOf(f.startMin), zones, minutesOf(f.RunMin), clockOf(f.FinishMin))
	switch {
	case f.rule == "":
	case f.Fits():
		fmt.Fprintf(&b, "; fits %s (%s)", f.rule, f.allows())
	default:
		fmt.Fprintf(&b, "; %s min do not fit %s (%s): ", minutesOf(f.OutsideMin()), f.rule, f.allows())
		const most = 4
		for i, u := range f.Outside {
			if i == most {
				fmt.Fprintf(&b, " and %d more", len(f.Outside)-most)
				break
			}
			if i > 0 {
				b.WriteString(", ")
			}
			fmt.Fprintf(&b, "%s %s", u.Zone, minutesOf(u.Minutes))
		}
	}
	return b.String()
}

// allows describes what the rule allows.
func (f *Feasible) allows() string {
	var parts []string
	for _, w := range f.windows {
		to := clockOf(w.ToMin)
		if w.ToMin == clock.Day {
			to = "24:00"
		}
		parts = append(parts, clockOf(w.FromMin)+"-"+to)
	}
	if len(parts) > 0 {
		parts = append(parts, "open for "+minutesOf(f.OpenMin)+" min")
	}
	if f.mostMin > 0 {
		parts = append(parts, "maximum "+minutesOf(f.mostMin)+" min per zone and start")
	}
	return strings.Join(parts, ", ")
}

func clockOf(minutes float64) string {
	m := int(math.Round(minutes))
	text := fmt.Sprintf("%02d:%02d", m/60%24, m%60)
	switch days := m / clock.Day; {
	case days == 1:
		return text + " the next day"
	case days > 1:
		return fmt.Sprintf("%s %d days later", text, days)
	}
	return text
}

func minutesOf(m float64) string { return fmt.Sprint(math.Round(m*10) / 10) }

// Feasibility reports whether each start of the strategy's programs and refills fits
// the site's permanent rules and each stage. It ignores percentages and holds. It
// uses Zones, Calendar, Weather and Limits of the site.
func Feasibility(site *Site, st *Strategy) []Feasible {
	var c Compiler
	d := &c.draft
	d.reset(site)
	for _, p := range st.Parts {
		if p.Stage() == Water {
			p.Apply(d)
		}
	}
	c.programDays()
	l := site.Limits
	if l == nil {
		l = &Limits{}
	}
	rules := []*Rule{}
	for _, r := range append([]*Rule{&l.Always}, pointers(l.Stages)...) {
		if len(r.Windows) > 0 || r.MaxMinutes > 0 {
			rules = append(rules, r)
		}
	}
	if len(rules) == 0 {
		rules = append(rules, &Rule{})
	}
	q := &queue{site: site, limits: l, rules: rules, refills: c.refillRuns()}
	q.table.Wiring = site.Wiring
	seen := map[string]bool{}
	key := make([]byte, len(d.Programs))
	for i := range site.Days() {
		any := false
		for p := range d.Programs {
			key[p] = 0
			if c.columns[p].on[i] && !d.Programs[p].ByHand {
				key[p], any = 1, true
			}
		}
		if !any && len(q.refills) == 0 || seen[string(key)] {
			continue
		}
		seen[string(key)] = true
		q.day(d.Programs, key)
	}
	return q.found
}

func pointers(rules []Rule) []*Rule {
	var out []*Rule
	for i := range rules {
		out = append(out, &rules[i])
	}
	return out
}

// refillRuns returns one start per refill with all its zones due at once.
func (c *Compiler) refillRuns() []clock.Start {
	d := &c.draft
	var out []clock.Start
	var made []*Refill
	for z := range d.Site.Zones {
		r := d.zones[z].refill
		if r == nil {
			continue
		}
		k := 0
		for k < len(made) && made[k] != r {
			k++
		}
		if k == len(made) {
			made = append(made, r)
			out = append(out, clock.Start{AtMin: r.StartMin})
		}
		zone := r.Assumed.of(d.Site.Zones[z])
		run := sim.Run{Minutes: r.FullMinutes(&d.Site.Zones[z]), CycleMin: r.CycleMin, SoakMin: r.SoakMin}
		out[k].Runs = append(out[k].Runs, clock.ZoneRun{Zone: z, Run: run, FlowLMin: zone.FlowLMin()})
	}
	return out
}

// A queue lays out days and keeps the worst result of each start under each rule.
type queue struct {
	site    *Site
	limits  *Limits
	rules   []*Rule
	refills []clock.Start
	table   clock.Timetable
	found   []Feasible
}

// day lays out the programs whose key is 1 and all refills.
func (q *queue) day(programs []Program, key []byte) {
	starts := append([]clock.Start(nil), q.refills...)
	var names []string
	for i := range starts {
		name := "refill"
		if len(starts) > 1 && len(starts[i].Runs) > 0 { // distinguished by their first zone
			name += " of " + q.site.Zones[starts[i].Runs[0].Zone].Name
			if len(starts[i].Runs) > 1 {
				name += " and others"
			}
		}
		names = append(names, name)
	}
	for p := range programs {
		if key[p] == 0 {
			continue
		}
		for _, at := range programs[p].Starts {
			s := clock.Start{AtMin: float64(at)}
			for z := range q.site.Zones {
				if programs[p].Minutes[z] > 0 {
					s.Runs = append(s.Runs, clock.ZoneRun{Zone: z, Run: programs[p].run(z), FlowLMin: q.site.Zones[z].FlowLMin()})
				}
			}
			starts, names = append(starts, s), append(names, programs[p].Name)
		}
	}
	q.table.Lay(starts)
	for s := range starts {
		if len(starts[s].Runs) == 0 {
			continue
		}
		for _, rule := range q.rules {
			q.keep(q.judge(s, names[s], &starts[s], rule))
		}
	}
}

// judge checks one start of a laid-out day against a rule.
func (q *queue) judge(index int, name string, s *clock.Start, rule *Rule) Feasible {
	f := Feasible{Program: name, startMin: s.AtMin, zones: len(s.Runs), rule: rule.Name, windows: rule.Windows, OpenMin: clock.Day,
		mostMin: rule.MaxMinutes}
	if len(rule.Windows) > 0 {
		f.OpenMin = 0
		for _, w := range rule.Windows {
			open := w.ToMin - w.FromMin
			if open <= 0 {
				open += clock.Day
			}
			f.OpenMin += open
		}
	}
	for _, r := range s.Runs {
		f.RunMin += r.Run.Minutes
		outside := 0.0
		for _, o := range q.table.Openings {
			if o.Start == index && o.Zone == r.Zone {
				f.FinishMin = max(f.FinishMin, o.ToMin)
				outside += o.ToMin - o.FromMin - clock.Inside(o, rule.Windows)
			}
		}
		if rule.MaxMinutes > 0 {
			outside = max(outside, r.Run.Minutes-rule.MaxMinutes)
		}
		if outside > 1e-9 && !q.limits.exempt(r.Zone, false) && rule.binds(r.Zone) {
			f.Outside = append(f.Outside, Unfit{q.site.Zones[r.Zone].Name, outside})
		}
	}
	return f
}

// keep keeps f if it is worse than the earlier result.
func (q *queue) keep(f Feasible) {
	for k := range q.found {
		old := &q.found[k]
		if old.Program != f.Program || old.startMin != f.startMin || old.rule != f.rule {
			continue
		}
		if f.OutsideMin() > old.OutsideMin() || f.OutsideMin() == old.OutsideMin() && f.FinishMin > old.FinishMin {
			*old = f
		}
		return
	}
	q.found = append(q.found, f)
}
