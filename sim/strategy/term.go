package strategy

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"

	"loamledger/sim"
	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

// A Term is when a part is in force. The zero Term is always.
type Term struct {
	From  cal.Date // first day; 0 for the start
	Until cal.Date // last day; 0 for no end
	Off   []Days   // days on which it is switched off, such as unplugged
	Lasts *Life    // how long it keeps working after it is installed; nil for ever
}

// Days are the days from From to To, both included.
type Days struct{ From, To cal.Date }

// In reports whether the part is in force on a date. before is set for the time before
// every date of a strategy.
func (t *Term) In(date cal.Date, before bool) bool {
	if before {
		return t.From == 0
	}
	return t.From <= date && (t.Until == 0 || date <= t.Until) &&
		!slices.ContainsFunc(t.Off, func(d Days) bool { return d.From <= date && date <= d.To })
}

// Dates returns the dates on which the term changes.
func (t *Term) Dates() (dates []cal.Date) {
	if t.From != 0 {
		dates = append(dates, t.From)
	}
	if t.Until != 0 {
		dates = append(dates, t.Until+1)
	}
	for _, d := range t.Off {
		dates = append(dates, d.From, d.To+1)
	}
	return dates
}

// A Life is how long parts of a kind keep working. It counts years since installation
// and has nothing to do with the years of a record.
type Life struct {
	Years      float64 // mean life; 0 for no failure
	FailsAt    float64 // age at failure, if it is given instead; 0 for none
	Unplugged  float64 // share of those in use that is switched off for good each year, 0 to 1
	Overridden float64 // share that is overridden from the start, 0 to 1
	Seed       uint64  // of drawn ages
	// PerZone is set if each zone of the part has a device of its own, which fails by
	// itself; otherwise one device serves all of them.
	PerZone bool
}

// wear is the shape of the distribution of lives: failures become more frequent with
// age, in proportion to it. Source: a choice of ours.
const wear = 2

// meanOfUnitScale is the mean of lives whose scale is 1, Γ(1 + 1/wear) = Γ(3/2) = √π/2.
const meanOfUnitScale = math.SqrtPi / 2

// scale is the scale of the Weibull distribution of lives whose mean is Years.
func (l *Life) scale() float64 { return l.Years / meanOfUnitScale }

// Intact returns the share that has not failed at an age [years]:
//
//	R = exp(−(age/scale)²),  scale = life/Γ(3/2)
func (l *Life) Intact(age float64) float64 {
	switch {
	case l.FailsAt > 0:
		if age < l.FailsAt {
			return 1
		}
		return 0
	case l.Years == 0:
		return 1
	}
	return portable.Exp(-portable.Pow(age/l.scale(), wear))
}

// Working returns the share that is working in the middle of a year since installation,
// the first being 1: not failed, not unplugged and not overridden.
func (l *Life) Working(year int) float64 {
	age := float64(year) - 0.5
	return (1 - l.Overridden) * portable.Pow(1-l.Unplugged, age) * l.Intact(age)
}

// Drawn returns the ending of one device, drawn with the seed. device is the name of its
// zone, empty for a device that serves all: names, so the order of zones does not matter.
// Over many seeds, the share of devices that work at an age is that of [Life.Working].
func (l *Life) Drawn(device string) sim.Ending {
	name := fnv.New64a()
	name.Write([]byte(device))
	r := rand.New(rand.NewPCG(l.Seed, name.Sum64()))
	failure, overridden, unplugged := float64(r.Float64()), r.Float64(), float64(r.Float64())
	end := sim.Ending{Age: math.Inf(1), Cause: sim.NeverEnds}
	switch {
	case l.FailsAt > 0:
		end = sim.Ending{Age: l.FailsAt, Cause: sim.Failed}
	case l.Years > 0:
		end = sim.Ending{Age: l.scale() * portable.Pow(-portable.Log(1-failure), 1.0/wear), Cause: sim.Failed}
	}
	if l.Unplugged > 0 {
		if age := portable.Log(1-unplugged) / portable.Log(1-l.Unplugged); age < end.Age {
			end = sim.Ending{Age: age, Cause: sim.Unplugged}
		}
	}
	if overridden < l.Overridden {
		end = sim.Ending{Cause: sim.Overridden}
	}
	return end
}

// A zoned is a part that is in some zones only.
type zoned interface {
	// devices returns the zones in which the part can have a device of its own; nil if
	// one device serves them all.
	devices() []bool
}

func (r *Refill) devices() []bool { return r.Zones }

// devices returns nil for a sensor in one zone that controls others.
func (s Sensor) devices() []bool {
	if s.ReadZone > 0 {
		return nil
	}
	return s.Zones
}

// Devices returns the zones of the devices of part i, one device each; nil if one device
// serves all zones.
func (st *Strategy) Devices(i int) (zones []int) {
	if i >= len(st.Terms) || st.Terms[i].Lasts == nil || !st.Terms[i].Lasts.PerZone {
		return nil
	}
	return DevicesOf(st.Parts[i])
}

// DevicesOf returns the zones in which a part can have a device of its own; none if one
// device serves all zones.
func DevicesOf(p Part) (zones []int) {
	part, is := p.(zoned)
	if !is {
		return nil
	}
	for z, in := range part.devices() {
		if in {
			zones = append(zones, z)
		}
	}
	return zones
}

// Lacking returns the strategy without part i.
func (st *Strategy) Lacking(i int) Strategy {
	out := *st
	if len(st.Stretches) == 0 {
		out.Parts = slices.Delete(slices.Clone(st.Parts), i, i+1)
		if len(st.Terms) > 0 {
			out.Terms = slices.Delete(slices.Clone(st.Terms), i, i+1)
		}
		return out
	}
	out.Stretches = slices.Clone(st.Stretches)
	for k := range out.Stretches {
		without := make([]bool, len(st.Parts))
		copy(without, out.Stretches[k].Without)
		without[i] = true
		out.Stretches[k].Without = without
	}
	return out
}
