package strategy

import "loamledger/sim"

// A probe is one soil sensor that governs zones by the soil of one of them, or
// of a zone that it does not govern.
type probe struct {
	zone    int
	gate    sim.Gate
	governs []bool // by zone
}

// permits reports whether the probe lets watering happen on day i of a plan,
// the strips of its zone being at the given depletion.
func (p *probe) permits(depletionMM []float64, i int) bool {
	return p.gate.Reading(depletionMM, i) >= p.gate.PermitAtMM
}

// probe takes out of the plans what the probes do not permit. The zones with a
// probe are replayed here, all of them day by day, so that one probe may
// govern the zone of another.
func (c *Compiler) probe(plans []sim.Plan) {
	d := &c.draft
	site := d.Site
	balances := make([]sim.Balance, len(site.Zones))
	read := make([]bool, len(site.Zones))
	for _, p := range d.probes {
		if !read[p.zone] {
			read[p.zone] = true
			balances[p.zone].Reset(&site.Zones[p.zone], site.StartShare*site.Zones[p.zone].TAWMM)
		}
	}
	var unused sim.Sums
	for i := range site.Days() {
		for k := range d.probes {
			p := &d.probes[k]
			c.lookRead(p, balances[p.zone].DepletionMM, i)
			if p.permits(balances[p.zone].DepletionMM, i) {
				continue
			}
			for z, is := range p.governs {
				if is {
					shut(&plans[z], i)
				}
			}
		}
		k := site.Source(i)
		for z := range plans {
			if read[z] {
				balances[z].Replay(site.Forcing[z][k:k+1], &plans[z], i, &unused, nil, 0)
			}
		}
	}
}

// shut takes the watering of day i out of a plan.
func shut(plan *sim.Plan, i int) {
	if plan.Dose[i] != 0 {
		plan.Dose[i], plan.Reason[i] = 0, sim.SensorWet
	}
	if plan.Watcher != nil {
		for _, level := range plan.Watcher.Levels {
			level[i] = 0
		}
	}
}
