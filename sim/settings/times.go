package settings

import (
	"fmt"
	"slices"
	"sort"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/strategy"
)

// starts returns the starts of program p at a share of its run times.
func (b *maker) starts(p int, share float64) []clock.Start {
	prog := &b.sheet.Programs[p]
	var out []clock.Start
	for _, at := range prog.Starts {
		var runs []clock.ZoneRun
		for z := range prog.Minutes {
			if m := b.minutes(prog.Minutes[z] * share); m > 0 {
				runs = append(runs, clock.ZoneRun{Zone: z, Run: sim.Run{Minutes: m, CycleMin: prog.Cycle, SoakMin: prog.Soak},
					FlowLMin: b.site.Zones[z].FlowLMin()})
			}
		}
		out = append(out, clock.Start{AtMin: float64(at), Runs: runs})
	}
	return out
}

// minutes returns the run time of an entry as it is laid out: in whole minutes, as
// printed, for finish times; at least the exact one for the limits, which the
// replay checks with the exact one.
func (b *maker) minutes(exact float64) float64 {
	if b.whole {
		return WholeMinutes(exact)
	}
	return max(exact, WholeMinutes(exact))
}

// A day is the timetable of one kind of day in the record.
type day struct {
	month int     // 0 to 11
	share float64 // of the run times
	owner []int   // program of each start
	table clock.Timetable
}

// walk lays out the days of the record in order, since runs past midnight delay
// the next day, and visits each kind of day once.
func (b *maker) walk(visit func(*day)) {
	c := b.site.Calendar
	type key struct {
		month  int
		on     string // programs that run, as bits
		busyAt string // how long valves of each controller stay open
	}
	until := map[key][]float64{} // how long valves stay open past midnight, by controller
	busy := make([]float64, b.site.Wiring.Controllers())
	bits := make([]byte, (len(b.sheet.Programs)+7)/8)
	for i := range c.Days() {
		clear(bits)
		any := false
		for p := range b.sheet.Programs {
			if b.sheet.Programs[p].Days.Runs(c, i) {
				bits[p/8] |= 1 << (p % 8)
				any = true
			}
		}
		if b.alone {
			busy = make([]float64, len(busy))
		}
		month := int(c.Month[i]) - 1
		share := b.sheet.Percent[month] * b.most
		if !any || share <= 0 {
			busy = slices.Clone(busy)
			for c := range busy {
				busy[c] = max(busy[c]-clock.Day, 0)
			}
			continue
		}
		k := key{month, string(bits), fmt.Sprint(busy)}
		if next, ok := until[k]; ok {
			busy = next
			continue
		}
		d := &day{month: month, share: share}
		d.table.Wiring = b.site.Wiring
		if b.site.Limits != nil {
			d.table.BusyUntilMin = busy
		}
		var starts []clock.Start
		for p := range b.sheet.Programs {
			if bits[p/8]>>(p%8)&1 == 1 {
				for _, s := range b.starts(p, share) {
					starts, d.owner = append(starts, s), append(d.owner, p)
				}
			}
		}
		d.table.Lay(starts)
		if len(d.table.Openings) > 0 {
			visit(d)
		}
		next := make([]float64, len(busy))
		for c := range next {
			next[c] = min(max(d.table.FinishOf(c)-clock.Day, busy[c]-clock.Day, 0), clock.Day)
		}
		busy = next
		until[k] = busy
	}
}

// times finds the last finish time of each month.
func (b *maker) times() {
	b.whole = true
	defer func() { b.whole = false }()
	b.walk(func(d *day) {
		at := &b.sheet.Times[d.month]
		if end := d.table.Finish(); !at.Waters || end > at.FinishMin {
			*at = Time{Waters: true, StartMin: d.table.Openings[0].FromMin, FinishMin: end}
		}
	})
	b.sheet.Shift = b.shift()
}

// held checks the sheet's programs against the rules over the whole record and
// totals the watering they would block.
func (b *maker) held() {
	if b.site.Limits == nil {
		return
	}
	limits := *b.site.Limits
	limits.FlagOnly = true
	if len(limits.Exempt) < len(b.site.Zones) {
		limits.Exempt = append(slices.Clone(limits.Exempt), make([]bool, len(b.site.Zones)-len(limits.Exempt))...)
	}
	site := *b.site
	site.Limits, site.Spin = &limits, 0
	shares := make([][]float64, len(site.Zones))
	for z := range shares {
		shares[z] = sim.Shares(site.Zones[z].Strips, site.Zones[z].DULQ)
	}
	st := strategy.Strategy{Parts: []strategy.Part{strategy.Programs{List: b.sheet.Programs}, strategy.Monthly{Share: b.sheet.Percent}}}
	var c strategy.Compiler
	c.Compile(&site, &st, shares, make([]sim.Plan, len(site.Zones)))
	for _, breach := range c.Breaches {
		k := slices.IndexFunc(b.sheet.Held, func(h Held) bool { return h.Rule == breach.Rule && h.Zone == breach.Zone })
		if k < 0 {
			b.sheet.Held = append(b.sheet.Held, Held{Rule: breach.Rule, Zone: breach.Zone, First: breach.Date})
			k = len(b.sheet.Held) - 1
		}
		b.sheet.Held[k].Days++
		b.sheet.Held[k].Minutes += breach.Minutes
	}
	sortHeld(b.sheet.Held)
}

// sortHeld orders a list by zone, then by rule.
func sortHeld(list []Held) {
	sort.SliceStable(list, func(i, j int) bool {
		x, y := &list[i], &list[j]
		return x.Zone < y.Zone || x.Zone == y.Zone && x.Rule < y.Rule
	})
}
