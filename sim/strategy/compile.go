package strategy

import (
	"loamledger/sim"
)

// A Compiler turns strategies into plans. It keeps its memory from one
// strategy to the next; the zero Compiler is ready. It is not for use by
// several goroutines at once.
type Compiler struct {
	draft Draft
	on    [][]bool // by program: the days on which it runs
	slots []slot
	runs  []sim.Run
}

// A slot is one start of one program on one zone.
type slot struct {
	on  []bool
	run sim.Run // minutes before any factor
}

// Compile works out the plan of st for each zone of the site. plans has one
// element a zone, whose memory is used again; shares has [sim.Shares] of each.
func (c *Compiler) Compile(site *Site, st *Strategy, shares [][]float64, plans []sim.Plan) {
	d := &c.draft
	d.reset(site)
	for stage := Permit; stage <= Sense; stage++ {
		for _, p := range st.Parts {
			if p.Stage() == stage {
				p.Apply(d)
			}
		}
	}
	c.programDays()
	for z := range site.Zones {
		plan := &plans[z]
		plan.Reset(site.Spin, site.Weather.Days(), len(shares[z]))
		plan.Gate = d.Gates[z]
		if d.Refill != nil && d.Refill.Zones[z] {
			d.Refill.plan(d, z, shares[z], plan)
			continue
		}
		c.slotsOf(z)
		c.fill(&site.Zones[z], shares[z], plan)
	}
}

// programDays works out the days on which each program runs.
func (c *Compiler) programDays() {
	d := &c.draft
	n := d.Site.Days()
	for len(c.on) < len(d.Programs) {
		c.on = append(c.on, nil)
	}
	for p := range d.Programs {
		if cap(c.on[p]) < n {
			c.on[p] = make([]bool, n)
		}
		c.on[p] = c.on[p][:n]
		d.Programs[p].Days.column(d.Site, c.on[p])
	}
}

// slotsOf collects the starts that water zone z.
func (c *Compiler) slotsOf(z int) {
	c.slots = c.slots[:0]
	for p := range c.draft.Programs {
		prog := &c.draft.Programs[p]
		if prog.Minutes[z] <= 0 {
			continue
		}
		for range prog.Starts {
			c.slots = append(c.slots, slot{c.on[p], sim.Run{Minutes: prog.Minutes[z], CycleMin: prog.Cycle, SoakMin: prog.Soak}})
		}
	}
}

// fill writes the days of a zone that programs water. Equal doses in a row,
// as under a fixed or a monthly setting, are worked out once.
func (c *Compiler) fill(z *sim.Zone, shares []float64, plan *sim.Plan) {
	if len(c.slots) == 0 {
		return
	}
	d := &c.draft
	type key struct {
		which uint64 // the slots that run, as bits
		scale float64
	}
	last, lastDose := key{}, int32(0)
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
		if d.Block[i] != sim.NotScheduled {
			plan.Reason[i] = d.Block[i]
			continue
		}
		if d.Scale != nil {
			k.scale = d.Scale[i]
		}
		if k != last || len(c.slots) > 64 {
			last, lastDose = k, c.dose(z, shares, plan, i, k.scale)
		}
		plan.Dose[i], plan.Reason[i] = lastDose, sim.Watered
		if lastDose == 0 {
			plan.Reason[i] = sim.ScaledToZero
		}
	}
}

// dose adds the dose of the slots that run on day i to the plan.
func (c *Compiler) dose(z *sim.Zone, shares []float64, plan *sim.Plan, i int, scale float64) int32 {
	c.runs = c.runs[:0]
	for s := range c.slots {
		if !c.slots[s].on[i] {
			continue
		}
		r := c.slots[s].run
		r.Minutes = c.draft.round(r.Minutes * scale)
		if r.Minutes > 0 {
			c.runs = append(c.runs, r)
		}
	}
	if len(c.runs) == 0 {
		return 0
	}
	return plan.AddDose(z, shares, c.runs)
}

// column writes into on whether the rule holds on each day of a plan.
func (r *DayRule) column(site *Site, on []bool) {
	spin, cal := on[:site.Spin], site.Calendar
	record := on[site.Spin:]
	switch r.Kind {
	case AnyDay:
		for i := range record {
			record[i] = true
		}
	case Weekdays:
		days := r.Weekdays
		for i, w := range cal.Weekday[:len(record)] {
			record[i] = days[w]
		}
	default:
		for i := range record {
			record[i] = r.Runs(cal, i)
		}
	}
	copy(spin, record)
}
