package strategy

import (
	"loamledger/sim"
	"loamledger/sim/clock"
)

// fitDays writes the plans of all zones day by day under the site's limits.
func (c *Compiler) fitDays(shares [][]float64, plans []sim.Plan) {
	d, f := &c.draft, &c.fitter
	site := d.Site
	f.site, f.breaches = site, c.Breaches
	c.beliefs = c.beliefs[:0]
	for z := range site.Zones {
		c.beliefs = append(c.beliefs, belief{})
		if d.refills(z) {
			c.beliefs[z].begin(d, z)
		}
	}
	for i := range site.Days() {
		f.starts = f.starts[:0]
		asked := c.programStarts(i, plans)
		asked = c.refillStart(i, plans) || asked
		if asked {
			f.fit(i)
			c.apply(i, shares, plans)
		}
		for z := range c.beliefs {
			if d.refills(z) {
				c.beliefs[z].advance(site.Source(i))
			}
		}
	}
	c.Breaches = f.breaches
}

// refills reports whether zone z is watered by the strategy's own balance.
func (d *Draft) refills(z int) bool { return d.Refill != nil && d.Refill.Zones[z] }

// programStarts collects the starts of day i that programs ask for.
func (c *Compiler) programStarts(i int, plans []sim.Plan) (asked bool) {
	d := &c.draft
	for p := range d.Programs {
		prog, col := &d.Programs[p], &c.columns[p]
		if !col.on[i] {
			continue
		}
		var runs []clock.ZoneRun
		for z := range d.Site.Zones {
			if prog.Minutes[z] <= 0 || d.refills(z) {
				continue
			}
			r := prog.run(z)
			if prog.ByHand {
				runs = append(runs, clock.ZoneRun{Zone: z, Run: r, FlowLMin: d.Site.Zones[z].FlowLMin()})
				continue
			}
			if why := d.blocked(z, i); why != sim.NotScheduled {
				plans[z].Reason[i] = why
				continue
			}
			if r.Minutes = d.round(r.Minutes * d.factor(z, i) * col.at(i)); r.Minutes <= 0 {
				plans[z].Reason[i] = sim.ScaledToZero
				continue
			}
			runs = append(runs, clock.ZoneRun{Zone: z, Run: r, FlowLMin: d.Site.Zones[z].FlowLMin()})
		}
		if len(runs) == 0 {
			continue
		}
		asked = true
		for k, at := range prog.Starts {
			list := runs
			if k > 0 {
				list = append([]clock.ZoneRun(nil), runs...)
			}
			c.fitter.starts = append(c.fitter.starts, clock.Start{AtMin: float64(at), Runs: list})
		}
	}
	return asked
}

// refillStart collects the zones that the strategy's own balance wants
// watered on day i into one start.
func (c *Compiler) refillStart(i int, plans []sim.Plan) (asked bool) {
	d := &c.draft
	if d.Refill == nil {
		return false
	}
	var runs []clock.ZoneRun
	for z := range d.Site.Zones {
		if !d.refills(z) {
			continue
		}
		minutes, why := c.beliefs[z].ask(d, z, i)
		plans[z].Reason[i] = why
		if minutes > 0 {
			run := sim.Run{Minutes: minutes, CycleMin: d.Refill.CycleMin, SoakMin: d.Refill.SoakMin}
			runs = append(runs, clock.ZoneRun{Zone: z, Run: run, FlowLMin: d.Site.Zones[z].FlowLMin()})
		}
	}
	if len(runs) > 0 {
		c.fitter.starts = append(c.fitter.starts, clock.Start{AtMin: d.Refill.StartMin, Runs: runs})
	}
	return len(runs) > 0
}

// apply gives each zone what the limits left of the day's runs.
func (c *Compiler) apply(i int, shares [][]float64, plans []sim.Plan) {
	d, f := &c.draft, &c.fitter
	for z := range plans {
		c.runs = c.runs[:0]
		wanted, total := false, 0.0
		for s := range f.starts {
			for k := range f.starts[s].Runs {
				r := &f.starts[s].Runs[k]
				if r.Zone != z {
					continue
				}
				wanted = true
				run := r.Run
				if !d.Site.Limits.FlagOnly {
					run.Minutes = f.allowed[s][k]
				}
				if run.Minutes > 0 {
					c.runs = append(c.runs, run)
					total += run.Minutes
				}
			}
		}
		switch {
		case !wanted:
		case total <= 0:
			plans[z].Reason[i] = f.reason(i, z)
		default:
			plans[z].Dose[i] = plans[z].AddDose(&d.Site.Zones[z], shares[z], c.runs)
			plans[z].Reason[i] = sim.Watered
			if d.refills(z) {
				plans[z].Reason[i] = sim.Refilled
				c.beliefs[z].receive(total)
			}
		}
	}
}
