package settings

import (
	"cmp"
	"slices"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/strategy"
)

// starts returns the starts of program p at a share of its minutes.
func (b *maker) starts(p int, share float64) []clock.Start {
	prog := &b.sheet.Programs[p]
	var out []clock.Start
	for _, at := range prog.Starts {
		var runs []clock.ZoneRun
		for z := range prog.Minutes {
			if m := prog.Minutes[z] * share; m > 0 {
				runs = append(runs, clock.ZoneRun{Zone: z, Run: sim.Run{Minutes: m, CycleMin: prog.Cycle, SoakMin: prog.Soak}, FlowLMin: b.site.Zones[z].FlowLMin()})
			}
		}
		out = append(out, clock.Start{AtMin: float64(at), Runs: runs})
	}
	return out
}

// day returns the starts of the programs that run on a kind of day, and which
// program each belongs to.
func (b *maker) day(programs []int, share float64) (starts []clock.Start, owner []int) {
	for _, p := range programs {
		for _, s := range b.starts(p, share) {
			starts, owner = append(starts, s), append(owner, p)
		}
	}
	return starts, owner
}

// kindsOfDay lists each set of programs that ever runs on one day.
func (b *maker) kindsOfDay() [][]int {
	kinds := b.kindsByMonth()
	var out [][]int
	for _, month := range kinds {
		for _, k := range month {
			if !slices.ContainsFunc(out, func(o []int) bool { return slices.Equal(o, k) }) {
				out = append(out, k)
			}
		}
	}
	return out
}

func (b *maker) kindsByMonth() (kinds [12][][]int) {
	c := b.site.Calendar
	var on []int
	for i := range c.Days() {
		on = on[:0]
		for p := range b.sheet.Programs {
			if b.sheet.Programs[p].Days.Runs(c, i) {
				on = append(on, p)
			}
		}
		if len(on) == 0 {
			continue
		}
		month := &kinds[c.Month[i]-1]
		if !slices.ContainsFunc(*month, func(o []int) bool { return slices.Equal(o, on) }) {
			*month = append(*month, slices.Clone(on))
		}
	}
	return kinds
}

// times works out the latest finish of each month.
func (b *maker) times() {
	var t clock.Timetable
	if b.site.Limits != nil {
		t.CapacityLMin = b.site.Limits.CapacityLMin
	}
	for m, month := range b.kindsByMonth() {
		share := b.sheet.Percent[m] * b.most
		if share <= 0 {
			continue
		}
		for _, kind := range month {
			starts, _ := b.day(kind, share)
			t.Lay(starts)
			if len(t.Openings) == 0 {
				continue
			}
			at := &b.sheet.Times[m]
			if end := t.Finish(); !at.Waters || end > at.FinishMin {
				*at = Time{Waters: true, StartMin: t.Openings[0].FromMin, FinishMin: end}
			}
		}
	}
}

// held replays the sheet's programs against the rules of the whole record and
// sums up what they would hold back.
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
	slices.SortStableFunc(b.sheet.Held, func(x, y Held) int { return cmp.Or(cmp.Compare(x.Zone, y.Zone), cmp.Compare(x.Rule, y.Rule)) })
}
