package strategy

import "loamledger/sim"

// A probe is one soil sensor that controls several zones. It can be in one of them
// or in another zone.
type probe struct {
	zone    int
	gate    sim.Gate
	governs []bool // by zone
}

// permits reports whether the probe permits watering on day i of a plan, given the
// depletion of the strips of its zone.
func (p *probe) permits(depletionMM []float64, i int) bool {
	return p.gate.Reading(depletionMM, i) >= p.gate.PermitAtMM
}

// probe removes from the plans what the probes do not permit. It replays the zones
// with a probe, all of them day by day, so that one probe can control the zone of
// another.
func (c *Compiler) probe(plans []sim.Plan) {
	d := &c.draft
	site := d.Site
	balances := make([]sim.Balance, len(site.Zones))
	read := make([]bool, len(site.Zones))
	for _, p := range d.probes {
		read[p.zone] = true
	}
	for z := range read {
		if read[z] = read[z] || c.Carry.reads() && c.Carry.track[z]; read[z] {
			balances[z].Reset(&site.Zones[z], site.StartShare*site.Zones[z].TAWMM)
		}
	}
	var unused sim.Sums
	for i := range site.Days() {
		for z := range read {
			if read[z] {
				c.Carry.ground(&balances[z], &site.Zones[z], z, i)
			}
		}
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
		for z := range plans {
			if read[z] {
				balances[z].Replay(site.dayOf(z, i), nil, &plans[z], i, &unused, nil, 0)
			}
		}
	}
}

// shut removes the watering of day i from a plan.
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
