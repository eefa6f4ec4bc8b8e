package strategy

import (
	"slices"

	"loamledger/sim"
	"loamledger/sim/clock"
)

// fitDays writes the plans of all zones day by day under the site's limits.
func (c *Compiler) fitDays(shares [][]float64, plans []sim.Plan) {
	d, f := &c.draft, &c.fitter
	site := d.Site
	f.reset(site, d.unbound)
	c.beliefs, c.refills = c.beliefs[:0], c.refills[:0]
	for z := range site.Zones {
		c.beliefs = append(c.beliefs, belief{})
		if r := d.zones[z].refill; r != nil {
			c.beliefs[z].begin(d, z)
			if !slices.Contains(c.refills, r) {
				c.refills = append(c.refills, r)
			}
		}
	}
	for i := range site.Days() {
		f.begin(i)
		c.Carry.clock(f.busyMin, i)
		for z := range c.beliefs {
			if d.refills(z) {
				c.Carry.belief(&c.beliefs[z], z, d.level, i)
			}
		}
		c.programStarts(i, plans)
		c.refillStarts(i, plans)
		if len(f.starts) == 0 {
			for c := range f.busyMin {
				f.busyMin[c] = max(f.busyMin[c]-clock.Day, 0)
			}
			c.tell(i, nil)
		} else {
			day := f.find()
			if day == nil {
				day = f.fit()
				c.doses(day, shares, plans)
			}
			c.apply(i, day, plans)
			copy(f.busyMin, day.busyMin)
			c.tell(i, day)
		}
		for z := range c.beliefs {
			if d.refills(z) {
				c.beliefs[z].advance(site, i)
			}
		}
	}
}

// refills reports whether the strategy's own balance waters zone z.
func (d *Draft) refills(z int) bool { return d.zones[z].refill != nil }

// programStarts collects the program starts of day i.
func (c *Compiler) programStarts(i int, plans []sim.Plan) {
	d, f := &c.draft, &c.fitter
	for p := range d.Programs {
		prog, col := &d.Programs[p], &c.columns[p]
		if !col.on[i] {
			continue
		}
		mark := len(f.runs)
		for z := range d.Site.Zones {
			if prog.Minutes[z] <= 0 || d.refills(z) && !prog.ByHand {
				continue
			}
			r := prog.run(z)
			if !prog.ByHand {
				if why := d.blocked(z, i); why != sim.NotScheduled {
					plans[z].Reason[i] = why
					continue
				}
				if r.Minutes = d.round(r.Minutes * d.factor(z, i) * col.at(i)); r.Minutes <= 0 {
					plans[z].Reason[i] = sim.ScaledToZero
					continue
				}
			}
			f.runs = append(f.runs, clock.ZoneRun{Zone: z, Run: r, FlowLMin: d.Site.Zones[z].FlowLMin()})
		}
		first, end := mark, len(f.runs)
		if first == end {
			continue
		}
		for k, at := range prog.Starts {
			if k > 0 { // each start has its own runs, which limits can shorten
				mark = len(f.runs)
				f.runs = append(f.runs, f.runs[first:end]...)
			}
			f.add(float64(at), prog.ByHand, mark)
		}
	}
}

// refillStarts collects the zones due for a refill on day i, one start per refill.
func (c *Compiler) refillStarts(i int, plans []sim.Plan) {
	d, f := &c.draft, &c.fitter
	for _, r := range c.refills {
		mark := len(f.runs)
		for z := range d.Site.Zones {
			if d.zones[z].refill != r {
				continue
			}
			c.lookAt(&c.beliefs[z], z, i)
			minutes, why := c.beliefs[z].ask(d, z, i)
			plans[z].Reason[i] = why
			if minutes > 0 {
				f.runs = append(f.runs, clock.ZoneRun{Zone: z, Run: c.beliefs[z].run(minutes), FlowLMin: d.Site.Zones[z].FlowLMin()})
			}
		}
		if len(f.runs) > mark {
			f.add(r.StartMin, false, mark)
		}
	}
}

// doses computes the doses of a day's runs after the limits.
func (c *Compiler) doses(day *fitted, shares [][]float64, plans []sim.Plan) {
	d, f := &c.draft, &c.fitter
	all := f.byZone()
	for len(all) > 0 {
		z, byHand := all[0].zone, true
		c.runs = c.runs[:0]
		of := fittedZone{zone: z}
		for ; len(all) > 0 && all[0].zone == z; all = all[1:] {
			s, k := all[0].start, all[0].run
			run := f.starts[s].Runs[k].Run
			if !f.flagOnly {
				run.Minutes = f.allowed[s][k]
			}
			if run.Minutes > 0 {
				c.runs = append(c.runs, run)
				of.minutes += run.Minutes
				byHand = byHand && f.byHand[s]
			}
		}
		switch {
		case of.minutes <= 0:
			of.why = f.reason(z)
		default:
			of.dose = plans[z].AddDose(&d.Site.Zones[z], shares[z], c.runs)
			of.why = sim.Watered
			if d.refills(z) && !byHand {
				of.why = sim.Refilled
			}
		}
		day.zones = append(day.zones, of)
	}
}

// apply writes day i of the plans and lists its breaches.
func (c *Compiler) apply(i int, day *fitted, plans []sim.Plan) {
	d := &c.draft
	for _, of := range day.zones {
		plans[of.zone].Dose[i], plans[of.zone].Reason[i] = of.dose, of.why
		if of.minutes > 0 && d.refills(of.zone) {
			c.beliefs[of.zone].receive(of.minutes)
		}
	}
	if i < d.Site.Spin {
		return
	}
	for _, b := range day.breaches {
		b.Date = d.Site.date(i)
		c.Breaches = append(c.Breaches, b)
	}
}
