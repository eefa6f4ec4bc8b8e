package scenarios

import (
	"math"
	"slices"
	"strings"

	"loamledger/sim"
	simclock "loamledger/sim/clock"
	"loamledger/sim/strategy"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// mostCycles is the maximum number of cycles of a zone in one start. No controller
// opens a valve more often, and it bounds the work of a replay.
const mostCycles = 200

// mostScaledCycles is the maximum after percentages, changes and refills of the whole
// TAW, on the longest day that they allow.
const mostScaledCycles = 2000

// A layout is one start of a program by itself: which zones it waters when, in
// minutes after the start, and how long it takes.
type layout struct {
	openings []simclock.Opening
	takesMin float64
}

// schedules rejects programs and refills that no controller can run as written: those
// that are not done when more is due, or within a day, and those that water a zone at
// the same time. Strategies are checked at full run times, so that percentages below
// 100 pass.
func (b *builder) schedules() {
	if b.faults.Len() > 0 || b.pick != nil {
		return // numbers may be missing; and those drawn need not fit into a day
	}
	lists := make([]layout, len(b.sc.Programs))
	for i := range b.sc.Programs {
		p := &b.sc.Programs[i]
		if b.beyondDay(p) {
			continue
		}
		lists[i] = b.layOut(p)
		b.unfinished(p, lists[i].takesMin)
	}
	if b.faults.Len() > 0 {
		return
	}
	told := map[[2]int]bool{}
	for s := range b.sc.Strategies {
		st := &b.sc.Strategies[s]
		b.manyCycles(st)
		b.changedBeyondDay(st)
		b.manualBeyondDay(st)
		var used []int
		for _, part := range st.Parts {
			switch part := part.(type) {
			case strategy.Programs:
				for i := range part.List {
					used = append(used, slices.IndexFunc(b.sc.Programs, func(p strategy.Program) bool { return p.Name == part.List[i].Name }))
				}
			case *strategy.Refill:
				b.longRefill(st.Name, part)
			}
		}
		for i, first := range used {
			for _, second := range used[i+1:] {
				pair := [2]int{min(first, second), max(first, second)}
				if !told[pair] {
					told[pair] = true
					b.together(&b.sc.Programs[first], &b.sc.Programs[second], lists[first].openings, lists[second].openings)
				}
			}
		}
		b.shutOut(st, used, lists)
	}
	b.longestDrawn()
}

// longestDrawn rejects ranges within which a program waters a zone for more than a day, or
// in more cycles than any controller has.
func (b *builder) longestDrawn() {
	if len(b.causes) == 0 || b.faults.Len() > 0 {
		return
	}
	longest, err := b.sc.again(func(d *Doubt) float64 {
		switch {
		case d.Zone != "":
			return d.Range.Mode
		case strings.HasSuffix(d.Key, "cycle"):
			return d.Range.Low
		}
		return d.Range.High
	})
	if err != nil {
		return // the draws meet it, if it can be met, and report it
	}
	own := *b
	own.sc, own.faults = longest, diag.List{}
	for i := range longest.Programs {
		own.beyondDay(&longest.Programs[i])
	}
	for s := range longest.Strategies {
		own.manyCycles(&longest.Strategies[s])
	}
	if err, is := own.faults.Err().(*diag.Errors); is {
		b.faults.Append(err.List...)
	}
}

// placeOfProgram returns where a program was given: its starts, or its run times.
func (b *builder) placeOfProgram(p *strategy.Program) (at diag.Pos) {
	if at = b.sc.Place("programs." + p.Name + ".starts"); at.File != "" {
		return at
	}
	for z, m := range p.Minutes {
		if at = b.sc.Place("programs." + p.Name + ".minutes." + b.zones[z]); m > 0 && at.File != "" {
			return at
		}
	}
	return diag.Pos{File: b.sc.File}
}

// beyondDay rejects a zone that a program waters for more than a day, or in more
// cycles than a controller has.
func (b *builder) beyondDay(p *strategy.Program) (found bool) {
	for z, m := range p.Minutes {
		at := func() diag.Pos { return b.sc.Place("programs." + p.Name + ".minutes." + b.zones[z]) }
		if total := m * float64(len(p.Starts)); total > dayMinutes {
			found = true
			b.fault(diag.CannotFinish, at(), "write fewer minutes or fewer starts", "program %q: %d starts of %s water zone %q for %s a day; "+
				"a day has 1,440 min", p.Name, len(p.Starts), b.minutes(m), b.zones[z], b.minutes(total))
		}
		run := sim.Run{Minutes: m, CycleMin: p.Cycle, SoakMin: p.Soak}
		if n := run.Cycles(); n > mostCycles {
			found = true
			b.fault(diag.CannotFinish, at(), "write longer cycles or fewer minutes", "program %q: %s in cycles of %s are %s cycles for zone %q; "+
				"the maximum is %d", p.Name, b.minutes(m), b.minutes(p.Cycle), quantity.Whole(n), b.zones[z], mostCycles)
		}
	}
	return found
}

func (b *builder) minutes(m float64) string { return quantity.Format(m, quantity.Duration, b.sc.Units) }

// layOut lays out one start of a program.
func (b *builder) layOut(p *strategy.Program) layout {
	table := simclock.Timetable{Wiring: b.sc.Wiring()}
	var s simclock.Start
	for z, m := range p.Minutes {
		if m > 0 {
			s.Runs = append(s.Runs, simclock.ZoneRun{Zone: z, Run: sim.Run{Minutes: m, CycleMin: p.Cycle, SoakMin: p.Soak},
				FlowLMin: b.sc.Zones[z].Zone.FlowLMin()})
		}
	}
	table.Lay([]simclock.Start{s})
	return layout{table.Openings, table.Finish()}
}

// unfinished rejects a start that is due before the one before it has finished, on
// the same day or on the next day of the program.
func (b *builder) unfinished(p *strategy.Program, takesMin float64) {
	const slack = 1e-6
	starts := slices.Sorted(slices.Values(p.Starts))
	if len(starts) == 0 {
		return
	}
	takes := b.minutes(takesMin)
	if p.Cycle > 0 {
		takes += " with its soaks"
	}
	fix := "start later, allow shorter soaks, or give zones programs of their own on other days"
	for i := 1; i < len(starts); i++ {
		if takesMin > float64(starts[i]-starts[i-1])+slack {
			b.fault(diag.CannotFinish, b.placeOfProgram(p), fix,
				"program %q starts at %s before its start at %s has finished, which takes %s", p.Name, clockTime(starts[i]),
				clockTime(starts[i-1]), takes)
			return // one per program is enough
		}
	}
	last := starts[len(starts)-1]
	if takesMin > float64(starts[0]+p.Days.Gap()*dayMinutes-last)+slack {
		b.fault(diag.CannotFinish, b.placeOfProgram(p), fix,
			"program %q has not finished its start at %s, which takes %s, when its next day begins at %s", p.Name,
			clockTime(last), takes, clockTime(starts[0]))
	}
}

// together rejects two programs of a strategy that water a zone at the same time.
func (b *builder) together(p, q *strategy.Program, ofP, ofQ []simclock.Opening) {
	if !p.Meets(q) {
		return
	}
	byZone := map[int][]simclock.Opening{}
	for _, o := range ofQ {
		byZone[o.Zone] = append(byZone[o.Zone], o)
	}
	for _, o := range ofP {
		for _, other := range byZone[o.Zone] {
			for _, at := range p.Starts {
				for _, at2 := range q.Starts {
					from := max(float64(at)+o.FromMin, float64(at2)+other.FromMin)
					to := min(float64(at)+o.ToMin, float64(at2)+other.ToMin)
					if to-from > 1e-6 {
						b.fault(diag.Conflict, b.placeOfProgram(q), "move a start, choose other days, or take the zone out of one program",
							"programs %q and %q both water zone %q at %s on the same day", p.Name, q.Name, b.zones[o.Zone],
							clockTime(int(math.Floor(from))%dayMinutes))
						return
					}
				}
			}
		}
	}
}

// longRefill rejects a refill that takes more than a day, or too many cycles.
func (b *builder) longRefill(name string, r *strategy.Refill) {
	for z, is := range r.Zones {
		if !is {
			continue
		}
		at := b.sc.Place("strategies." + name + ".refill.mad")
		if at.File == "" {
			at = b.sc.Zones[z].Pos
		}
		minutes := r.FullMinutes(&b.sc.Zones[z].Zone)
		run := sim.Run{Minutes: minutes, CycleMin: r.CycleMin, SoakMin: r.SoakMin}
		rate := quantity.Format(b.sc.Zones[z].PRMMH, quantity.Rate, b.sc.Units)
		switch n := run.Cycles(); {
		case minutes > dayMinutes:
			b.fault(diag.CannotFinish, at, "check the rate; or refill at a lower mad, or check awc and root_depth",
				"strategy %q: a refill of zone %q takes %s at %s; a day has 1,440 min", name, b.zones[z], b.minutes(minutes), rate)
		case n > mostCycles:
			b.fault(diag.CannotFinish, at, "write longer cycles",
				"strategy %q: a refill of zone %q takes %s, in cycles of %s, which are %s cycles; "+
					"the maximum is %d", name, b.zones[z], b.minutes(minutes), b.minutes(r.CycleMin), quantity.Whole(n), mostCycles)
		}
	}
}

// shutOut rejects a program of a strategy that the limits bind, if no minute of a zone
// falls inside the watering windows. If it is only the days that are not allowed, it
// warns: that is what a new rule does to a program, and worth a replay.
func (b *builder) shutOut(st *strategy.Strategy, used []int, lists []layout) {
	l := b.sc.Limits
	if l == nil || st.Unbound || l.FlagOnly {
		return
	}
	for _, k := range used {
		p := &b.sc.Programs[k]
		inside := make([]float64, len(p.Minutes))
		for _, o := range lists[k].openings {
			for _, at := range p.Starts {
				moved := simclock.Opening{Zone: o.Zone, FromMin: o.FromMin + float64(at), ToMin: o.ToMin + float64(at)}
				minutes, _ := simclock.InsideAll(moved, [][]simclock.Window{l.Always.Windows, b.sc.Controllers[b.sc.Zones[o.Zone].Controller].Windows})
				inside[o.Zone] += minutes
			}
		}
		days := p.Days.Meets(&l.Always.Days)
		for z, m := range p.Minutes {
			if m <= 0 || l.ExemptFromRules(z) || days && inside[z] > 0 || b.shut[k] {
				continue
			}
			b.shut[k] = true // of zones and strategies with equal problems, the first
			if days {
				b.fault(diag.DoesNotFit, b.placeOfProgram(p), "choose other start times, or write limits: none in the strategy",
					"program %q of strategy %q: no minute of zone %q falls inside the watering window", p.Name, st.Name, b.zones[z])
				break
			}
			b.sc.Warn(Warning{Code: NeverWatered, Pos: b.placeOfProgram(p), Zone: b.zones[z], Program: p.Name, Strategy: st.Name},
				"program %q of strategy %q runs on none of the days that the limits allow, so that zone %q gets no water from it", p.Name, st.Name,
				b.zones[z])
			break
		}
	}
}
