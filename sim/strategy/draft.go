package strategy

import (
	"math"

	"loamledger/sim"
)

// A Draft is a strategy's plan for all zones in the making. Columns run over
// the days of a plan, spin-up first.
type Draft struct {
	Site     *Site
	Block    []sim.Reason // why watering is held back on a day; NotScheduled, the zero Reason, where it is not
	Scale    []float64    // factor on minutes; nil for 1 throughout
	RoundMin float64      // minutes are rounded to a multiple of this; 0 for not at all
	Programs []Program
	Refill   *Refill     // nil for none
	Gates    []*sim.Gate // by zone; nil for none

	scaleMemory []float64
	gateMemory  []sim.Gate
}

// reset empties the draft for another strategy on the same or another site,
// keeping its memory.
func (d *Draft) reset(site *Site) {
	n := site.Days()
	if cap(d.Block) < n {
		d.Block = make([]sim.Reason, n)
	}
	d.Block = d.Block[:n]
	clear(d.Block)
	if cap(d.Gates) < len(site.Zones) {
		d.Gates = make([]*sim.Gate, len(site.Zones))
	}
	d.Gates = d.Gates[:len(site.Zones)]
	if len(d.gateMemory) < len(site.Zones) {
		d.gateMemory = make([]sim.Gate, len(site.Zones))
	}
	clear(d.Gates)
	d.Site, d.Scale, d.RoundMin, d.Refill, d.Programs = site, nil, 0, nil, d.Programs[:0]
}

// hold holds watering back on day i, unless something else already does.
func (d *Draft) hold(i int, why sim.Reason) {
	if d.Block[i] == sim.NotScheduled {
		d.Block[i] = why
	}
}

// scale returns the factor column, made of ones when there was none.
func (d *Draft) scale() []float64 {
	if d.Scale == nil {
		if cap(d.scaleMemory) < d.Site.Days() {
			d.scaleMemory = make([]float64, d.Site.Days())
		}
		d.Scale = d.scaleMemory[:d.Site.Days()]
		for i := range d.Scale {
			d.Scale[i] = 1
		}
	}
	return d.Scale
}

// gate gives zone z a gate, open at any depletion, whose readings are exact and
// whose weights are all 0.
func (d *Draft) gate(z int) *sim.Gate {
	g := &d.gateMemory[z]
	g.PermitAtMM, g.ErrorMM = 0, g.ErrorMM[:0]
	g.Weights = g.Weights[:0]
	for range d.Site.Zones[z].Strips {
		g.Weights = append(g.Weights, 0)
	}
	d.Gates[z] = g
	return g
}

// round applies the draft's rounding to minutes.
func (d *Draft) round(minutes float64) float64 {
	if d.RoundMin > 0 {
		return math.Round(minutes/d.RoundMin) * d.RoundMin
	}
	return minutes
}
