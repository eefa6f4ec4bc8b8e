package strategy

import (
	"slices"

	"loamledger/sim"
)

// A Compiler turns strategies into plans. It reuses its memory between strategies.
// The zero Compiler is ready to use. It is not safe for concurrent use.
type Compiler struct {
	// Breaches lists what the last compiled strategy requested and the site's limits
	// forbid, on days of the record, by date.
	Breaches []sim.Breach
	// Look, if not nil, records what the strategy saw on one day.
	Look *Look
	// Carry, if not nil, takes the state of the strategy from one stretch to the next.
	Carry *Carry

	draft   Draft
	columns []column // by program
	slots   []slot
	runs    []sim.Run
	beliefs []belief
	refills []*Refill // of zones under limits
	fitter  fitter
	level   sim.Plan // of a watcher, in the making
	telling *telling // nil unless overdraws are asked for
}

// A column is the days and factors of one program.
type column struct {
	on     []bool
	factor []float64 // nil for 1 throughout
}

// A slot is one start of one program on one zone.
type slot struct {
	*column
	run    sim.Run // before any factor
	byHand bool    // a manual run, without holds and percentages
}

// Compile makes the plan of st for each zone of the site. plans has one element per
// zone, whose memory is reused; shares has the [sim.Shares] of each.
func (c *Compiler) Compile(site *Site, st *Strategy, shares [][]float64, plans []sim.Plan) {
	if !c.Begin(site, st) {
		c.All(shares, plans)
		return
	}
	for z := range plans {
		c.zone(z, shares[z], &plans[z])
	}
}

// Begin works out what the plans of st for the zones of the site have in
// common. It reports whether nothing in one zone bears on another, so that a
// [Filler] can work the plans out one by one; otherwise All must be called.
func (c *Compiler) Begin(site *Site, st *Strategy) (apart bool) {
	d := &c.draft
	c.Breaches = c.Breaches[:0]
	d.reset(site)
	d.unbound = st.Unbound
	for stage := Permit; stage <= Sense; stage++ {
		for _, p := range st.Parts {
			if p.Stage() == stage {
				p.Apply(d)
			}
		}
	}
	c.programDays()
	for _, f := range d.forecasts {
		f.hold(d, c.wanted)
	}
	d.level = 1
	return site.Limits == nil && len(d.probes) == 0 && c.Look == nil && !c.Carry.reads()
}

// All works out the plans of all zones together, after Begin.
func (c *Compiler) All(shares [][]float64, plans []sim.Plan) {
	c.plan(shares, plans)
	if c.draft.watch != nil {
		c.watch(shares, plans)
	}
	if len(c.draft.probes) > 0 || c.Carry.reads() {
		c.probe(plans)
	}
}

// A Filler works out the plans of single zones from what a compiler has begun.
// It keeps its memory from one zone to the next; the zero Filler is ready.
// Several goroutines may share the compiler, each with a filler of its own.
type Filler struct {
	c Compiler // its draft and columns are those of another
}

// Zone works out the plan of zone z, with [sim.Shares] in shares, of the
// strategy that c has begun. The memory of plan is used again.
func (f *Filler) Zone(c *Compiler, z int, shares []float64, plan *sim.Plan) {
	f.c.draft, f.c.columns = c.draft, c.columns
	f.c.zone(z, shares, plan)
}

// zone works out the plan of zone z by itself.
func (c *Compiler) zone(z int, shares []float64, plan *sim.Plan) {
	d := &c.draft
	c.planZone(z, shares, plan)
	if d.watch == nil {
		return
	}
	w := d.watch.watcher
	plan.Watcher, c.level.KeepRuns = &w, plan.KeepRuns
	for step := 1; step <= d.watch.steps; step++ {
		d.level = d.watch.level(step)
		c.planZone(z, shares, &c.level)
		plan.AddLevel(&c.level, len(shares))
	}
	d.level = 1
}

// planZone writes the plan of zone z with minutes at the draft's level, where
// nothing in other zones bears on it.
func (c *Compiler) planZone(z int, shares []float64, plan *sim.Plan) {
	c.reset(z, shares, plan)
	if c.draft.refills(z) {
		c.refill(z, shares, plan)
		return
	}
	c.slotsOf(z)
	c.fill(z, shares, plan)
}

// reset empties the plan of zone z.
func (c *Compiler) reset(z int, shares []float64, plan *sim.Plan) {
	site := c.draft.Site
	plan.Reset(site.Spin, site.Weather.Days(), len(shares))
	plan.Gate = c.draft.zones[z].permit
}

// plan writes the plans with minutes at the draft's level.
func (c *Compiler) plan(shares [][]float64, plans []sim.Plan) {
	c.look()
	if c.draft.Site.Limits == nil {
		for z := range plans {
			c.planZone(z, shares[z], &plans[z])
		}
		return
	}
	for z := range plans {
		c.reset(z, shares[z], &plans[z])
	}
	c.fitDays(shares, plans)
}

// watch adds the doses of each higher level of the watcher to the plans. Breaches
// are those of the plan as set.
func (c *Compiler) watch(shares [][]float64, plans []sim.Plan) {
	d := &c.draft
	breaches := slices.Clone(c.Breaches)
	levels := make([]sim.Plan, len(plans))
	for z := range plans {
		w := d.watch.watcher
		plans[z].Watcher, levels[z].KeepRuns = &w, plans[z].KeepRuns
	}
	for step := 1; step <= d.watch.steps; step++ {
		d.level = d.watch.level(step)
		c.plan(shares, levels)
		for z := range plans {
			plans[z].AddLevel(&levels[z], len(shares[z]))
		}
	}
	c.Breaches = breaches
}

// programDays finds the days on which each program runs.
func (c *Compiler) programDays() {
	d := &c.draft
	n := d.Site.Days()
	for len(c.columns) < len(d.Programs) {
		c.columns = append(c.columns, column{})
	}
	for p := range d.Programs {
		col := &c.columns[p]
		if cap(col.on) < n {
			col.on = make([]bool, n)
		}
		col.on, col.factor = col.on[:n], nil
		d.Programs[p].column(d.Site, col)
	}
}

// wanted reports whether a program or a refill can water a zone on day i that is not
// suspended.
func (c *Compiler) wanted(i int) bool {
	d := &c.draft
	free := func(z int) bool {
		block := d.zones[z].block
		return block == nil || block[i] == sim.NotScheduled
	}
	for p := range d.Programs {
		if d.Programs[p].ByHand || !c.columns[p].on[i] {
			continue
		}
		for z, m := range d.Programs[p].Minutes {
			if m > 0 && free(z) {
				return true
			}
		}
	}
	for z := range d.zones {
		if r := d.zones[z].refill; r != nil && free(z) && r.Days.Runs(d.Site.Calendar, d.Site.Source(i)) {
			return true
		}
	}
	return false
}

// slotsOf collects the program starts of zone z.
func (c *Compiler) slotsOf(z int) {
	c.slots = c.slots[:0]
	for p := range c.draft.Programs {
		prog := &c.draft.Programs[p]
		if prog.Minutes[z] <= 0 {
			continue
		}
		for range prog.Starts {
			c.slots = append(c.slots, slot{&c.columns[p], prog.run(z), prog.ByHand})
		}
	}
}

// fill writes the days of a zone watered by programs. Consecutive equal doses, as
// with fixed or monthly settings, are computed once.
func (c *Compiler) fill(z int, shares []float64, plan *sim.Plan) {
	if len(c.slots) == 0 {
		return
	}
	d := &c.draft
	type key struct {
		which uint64 // slots that run, as bits
		scale float64
	}
	last, lastDose := key{}, int32(0)
	again := len(c.slots) <= 64 // days with the same key share a dose
	byHand := false
	for s := range c.slots {
		again = again && c.slots[s].factor == nil
		byHand = byHand || c.slots[s].byHand
	}
	plain := d.Scale == nil && d.zones[z].scale == nil && d.level == 1
	first := c.slots[0].on
	for i := range plan.Dose {
		k := key{scale: 1}
		if len(c.slots) == 1 {
			if !first[i] {
				continue
			}
			k.which = 1
		} else {
			for s := range c.slots {
				if c.slots[s].on[i] {
					k.which |= 1 << (s & 63)
				}
			}
			if k.which == 0 {
				continue
			}
		}
		if why := d.blocked(z, i); why != sim.NotScheduled {
			plan.Reason[i] = why
			if !byHand {
				continue
			}
			if k.which = c.byHand(i); k.which == 0 {
				continue
			}
			k.scale = -1 // on hold, except for manual runs
		} else if !plain {
			k.scale = d.factor(z, i)
		}
		if k != last || !again {
			last, lastDose = k, c.dose(z, shares, plan, i, k.scale)
		}
		plan.Dose[i], plan.Reason[i] = lastDose, sim.Watered
		if lastDose == 0 {
			plan.Reason[i] = sim.ScaledToZero
		}
	}
}

// dose adds the dose of the slots that run on day i to the plan.
func (c *Compiler) dose(z int, shares []float64, plan *sim.Plan, i int, scale float64) int32 {
	c.runs = c.runs[:0]
	for s := range c.slots {
		if !c.slots[s].on[i] {
			continue
		}
		r := c.slots[s].run
		switch {
		case c.slots[s].byHand:
		case scale < 0:
			continue
		default:
			r.Minutes = c.draft.round(r.Minutes * scale * c.slots[s].at(i))
		}
		if r.Minutes > 0 {
			c.runs = append(c.runs, r)
		}
	}
	if len(c.runs) == 0 {
		return 0
	}
	return plan.AddDose(&c.draft.Site.Zones[z], shares, c.runs)
}

// byHand returns the manual slots of day i, as bits.
func (c *Compiler) byHand(i int) (which uint64) {
	for s := range c.slots {
		if c.slots[s].byHand && c.slots[s].on[i] {
			which |= 1 << (s & 63)
		}
	}
	return which
}

// at returns the program's own factor on day i.
func (c *column) at(i int) float64 {
	if c.factor == nil {
		return 1
	}
	return c.factor[i]
}

// refill runs the strategy's own balance of zone z. Manual runs are added, and the
// balance includes them, since the same controller runs them.
func (c *Compiler) refill(z int, shares []float64, plan *sim.Plan) {
	d := &c.draft
	var b belief
	b.begin(d, z)
	c.slotsOf(z)
	c.slots = slices.DeleteFunc(c.slots, func(s slot) bool { return !s.byHand })
	for i := range plan.Dose {
		c.Carry.belief(&b, z, d.level, i)
		c.lookAt(&b, z, i)
		minutes, why := b.ask(d, z, i)
		plan.Reason[i] = why
		c.runs = c.runs[:0]
		if minutes > 0 {
			c.runs = append(c.runs, b.run(minutes))
		}
		for s := range c.slots {
			if c.slots[s].on[i] {
				c.runs = append(c.runs, c.slots[s].run)
				minutes += c.slots[s].run.Minutes
				if why != sim.Refilled {
					plan.Reason[i] = sim.Watered
				}
			}
		}
		if len(c.runs) > 0 {
			plan.Dose[i] = plan.AddDose(&d.Site.Zones[z], shares, c.runs)
			b.receive(minutes)
		}
		b.advance(d.Site, i)
	}
}
