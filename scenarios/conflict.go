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

// claim refuses a part that takes a zone which another has already, and one
// whose parameters contradict each other or do nothing.
func (c *claims) claim(part strategy.Part, args strategy.Args, n *Node) {
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
		if args["soak"].Given && p.CycleMin == 0 {
			c.fault(diag.NoEffect, n.Pos, "add cycle, the longest run at a time, or take soak out", "%s: refill: soak without cycle does nothing", c.where)
		}
	case strategy.Sensor:
		c.take(c.sensor, p.Zones, n.Pos, "two soil sensors govern", "name each zone under one sensor only")
	case strategy.Suspend:
		if p.To < p.From {
			c.fault(diag.WrongOrder, n.Pos, "write a day on or after "+p.From.String(), "%s: suspend: to %v is before from %v", c.where, p.To, p.From)
		}
	case strategy.RainSkip:
		if args["dry_out"].Given && p.DryOutEToMM > 0 {
			c.fault(diag.Conflict, n.Pos, "keep dry_out, days, or dry_out_eto, a depth", "%s: skip: rain: the sensor cannot dry both by days and by ETo", c.where)
		}
	case strategy.Season:
		frost := args["frost"].Given
		switch {
		case p.Start == 0 && p.End == 0 && !frost:
			c.fault(diag.NoEffect, n.Pos, "add start and end, as in {start: 04-15, end: 10-15}, or frost", "%s: season: without start, end and frost it does nothing", c.where)
		case args["clear_days"].Given && !frost:
			c.fault(diag.NoEffect, n.Pos, "add frost, the temperature of a night that shuts the system down, or take clear_days out", "%s: season: clear_days without frost does nothing", c.where)
		}
	case strategy.Habit:
		if p.LateMost < p.LateLeast {
			c.fault(diag.WrongOrder, n.Pos, "write late_most of at least late_least", "%s: habit: the greatest delay of %d days is less than the least of %d", c.where, p.LateMost, p.LateLeast)
		}
	case strategy.ETPercent:
		if p.Most < p.Least {
			c.fault(diag.WrongOrder, n.Pos, "write most of at least least", "%s: et_percent: most is below least", c.where)
		}
	}
}

func (c *claims) take(taken, zones []bool, pos diag.Pos, what, fix string) {
	for z, is := range zones {
		if is && taken[z] {
			c.fault(diag.Conflict, pos, fix, "%s: %s zone %s", c.where, what, quoted(c.zones[z]))
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
			c.fault(diag.Conflict, pos, "under refill, name only zones that no program of the strategy waters, or leave the program out", "%s: both a program and a refill water zone %s", c.where, quoted(c.zones[z]))
			return
		}
	}
}
