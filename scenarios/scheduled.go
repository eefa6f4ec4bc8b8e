package scenarios

import (
	"fmt"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// manyCycles rejects a strategy whose percentages, changes or refills can take a start
// to more cycles than a replay can lay out.
func (b *builder) manyCycles(st *strategy.Strategy) {
	zones := make([]sim.Zone, len(b.sc.Zones))
	for z := range zones {
		zones[z] = b.sc.Zones[z].Zone
	}
	l := st.Longest(zones)
	n := l.Run.Cycles()
	if n <= mostScaledCycles {
		return
	}
	what := fmt.Sprintf("program %q", l.Program)
	at := b.sc.Place("programs." + l.Program + ".cycle")
	if l.Refill != nil {
		what = "a refill of the whole TAW"
		if at = b.sc.Place("strategies." + st.Name + ".refill.cycle"); at.File == "" {
			at = b.sc.Zones[l.Zone].Pos
		}
	}
	b.fault(diag.CannotFinish, at, "write longer cycles, or lower the percentages", "strategy %q: %s can water zone %q for %s in one start, "+
		"with every percentage at its highest; in cycles of %s, these are %s cycles; the maximum is %s", st.Name, what, b.zones[l.Zone],
		b.minutes(l.Run.Minutes), b.minutes(l.Run.CycleMin), quantity.Whole(n), quantity.Whole(mostScaledCycles))
}

// changedBeyondDay rejects a change after which a program waters a zone for more than
// a day, as with much slower sprinklers and run times that follow the rate.
func (b *builder) changedBeyondDay(st *strategy.Strategy) {
	told := map[int]bool{}
	for k := range st.Stretches {
		then := st.In(k)
		for _, part := range then.Parts {
			programs, ok := part.(strategy.Programs)
			if !ok {
				continue
			}
			for i := range programs.List {
				p := &programs.List[i]
				for z, m := range p.Minutes {
					total := m * float64(len(p.Starts))
					if total <= dayMinutes || told[z] {
						continue
					}
					told[z] = true
					b.fault(diag.CannotFinish, b.lastChangeOf(st.Name, z), "check the rate, or write minutes as a lower percentage",
						"strategy %q: after its changes, program %q waters zone %q for %s a day, in runs of %s; a day has 1,440 min", st.Name,
						p.Name, b.zones[z], b.minutes(total), b.minutes(m))
				}
			}
		}
	}
}

// lastChangeOf returns where the last change of a zone is.
func (b *builder) lastChangeOf(name string, zone int) (at diag.Pos) {
	at = b.sc.Zones[zone].Pos
	for i := range b.sc.Stacks {
		if stack := &b.sc.Stacks[i]; stack.Name == name {
			for k := range stack.Changes {
				if stack.Changes[k].Zones[zone] {
					at = stack.Changes[k].pos
				}
			}
		}
	}
	return at
}

// manualBeyondDay rejects manual runs that water a zone at the same time.
func (b *builder) manualBeyondDay(st *strategy.Strategy) {
	type key struct {
		zone int
		date cal.Date
	}
	runs := map[key][]strategy.Manual{}
	for _, part := range st.Parts {
		m, ok := part.(strategy.Manual)
		if !ok {
			continue
		}
		k := key{m.Zone, m.Date}
		for _, other := range runs[k] {
			if float64(m.AtMin) < float64(other.AtMin)+other.Minutes && float64(other.AtMin) < float64(m.AtMin)+m.Minutes {
				at := b.sc.Place("strategies." + st.Name + ".manual.zone")
				if at.File == "" {
					at = b.sc.Zones[m.Zone].Pos
				}
				b.fault(diag.Conflict, at, "write one run, or a later start time (at)",
					"strategy %q: two manual runs water zone %q at the same time on %v", st.Name, b.zones[m.Zone], m.Date)
				return // one is enough
			}
		}
		runs[k] = append(runs[k], m)
	}
}
