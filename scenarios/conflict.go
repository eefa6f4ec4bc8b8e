package scenarios

import (
	"loamledger/sim/strategy"
	"loamledger/weather/diag"
)

// claims holds the parts of a strategy that no zone may be in twice: a zone is
// watered by programs or by one refill, and has one soil sensor.
type claims struct {
	group
	refill, sensor, program []bool // by zone
}

// claim refuses a part that takes a zone which another has already.
func (c *claims) claim(part strategy.Part, n *Node) {
	zones := len(c.zones)
	for _, of := range []*[]bool{&c.refill, &c.sensor, &c.program} {
		if *of == nil {
			*of = make([]bool, zones)
		}
	}
	switch p := part.(type) {
	case strategy.Programs:
		for _, prog := range p.List {
			for z, m := range prog.Minutes {
				if m > 0 {
					c.program[z] = true
				}
			}
		}
	case *strategy.Refill:
		c.take(c.refill, p.Zones, n.Pos, "two refills water", "name each zone in one refill only")
		c.against(p.Zones, n.Pos)
	case strategy.Sensor:
		c.take(c.sensor, p.Zones, n.Pos, "two soil sensors govern", "name each zone under one sensor only")
	}
}

func (c *claims) take(taken, zones []bool, pos diag.Pos, what, fix string) {
	for z, is := range zones {
		if is && taken[z] {
			c.fault(pos, fix, "%s: %s zone %s", c.where, what, quoted(c.zones[z]))
			return
		}
		taken[z] = taken[z] || is
	}
}

// against refuses a refill of a zone that a program waters. Parts come in the
// order of the kinds, programs before refills.
func (c *claims) against(zones []bool, pos diag.Pos) {
	for z, is := range zones {
		if is && c.program[z] {
			c.fault(pos, "under refill, name only zones that no program of the strategy waters, or leave the program out", "%s: both a program and a refill water zone %s", c.where, quoted(c.zones[z]))
			return
		}
	}
}
