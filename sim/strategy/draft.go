package strategy

import "loamledger/sim"

// A Draft is a strategy's unfinished plan for all zones. Columns cover the days of
// a plan, starting with spin-up.
type Draft struct {
	Site     *Site
	Block    []sim.Reason // why watering is on hold on a day; NotScheduled, the zero Reason, if it is not
	Scale    []float64    // factor on run times; nil for 1 throughout
	roundMin float64      // run times are rounded to a multiple of this; 0 for no rounding
	Programs []Program
	zones    []zoneDraft
	watch    *watch // nil for none

	level       float64 // factor of a watcher's level, except on manual runs
	unbound     bool    // the site's rules do not bind the strategy
	firm        []bool  // days with a hold that dry soil cannot override; nil for none
	forecasts   []ForecastHold
	probes      []probe // soil sensors that control other zones
	scaleMemory []float64
	firmMemory  []bool
}

// A zoneDraft is the part of a draft for a single zone.
type zoneDraft struct {
	block  []sim.Reason // as Draft.Block; nil for no hold
	scale  []float64    // as Draft.Scale, in addition to it; nil for 1 throughout
	permit *sim.Gate    // nil for none
	refill *Refill      // nil for a zone watered by programs

	gate sim.Gate // memory of permit
}

// A watch is a person who raises run times by a share, in a limited number of steps.
type watch struct {
	up      float64
	steps   int
	watcher sim.Watcher
}

// level returns the factor on minutes after so many steps up.
func (w *watch) level(step int) float64 { return 1 + float64(float64(step)*w.up) }

// reset empties the draft for another strategy on the same or another site,
// keeping its memory.
func (d *Draft) reset(site *Site) {
	n := site.Days()
	if cap(d.Block) < n {
		d.Block = make([]sim.Reason, n)
	}
	d.Block = d.Block[:n]
	clear(d.Block)
	if len(d.zones) < len(site.Zones) {
		d.zones = make([]zoneDraft, len(site.Zones))
	}
	d.zones = d.zones[:len(site.Zones)]
	for z := range d.zones {
		d.zones[z].block, d.zones[z].scale, d.zones[z].permit, d.zones[z].refill = nil, nil, nil, nil
	}
	d.Site, d.Scale, d.roundMin, d.watch, d.Programs = site, nil, 0, nil, d.Programs[:0]
	d.firm, d.probes, d.forecasts = nil, d.probes[:0], d.forecasts[:0]
	d.unbound = false
}

// hold puts all zones on hold on day i. The first reason counts.
func (d *Draft) hold(i int, why sim.Reason) {
	if d.Block[i] == sim.NotScheduled {
		d.Block[i] = why
	}
	if !overruled(why) {
		if d.firm == nil {
			if n := d.Site.Days(); cap(d.firmMemory) < n {
				d.firmMemory = make([]bool, n)
			} else {
				d.firmMemory = d.firmMemory[:n]
				clear(d.firmMemory)
			}
			d.firm = d.firmMemory
		}
		d.firm[i] = true
	}
}

// firmly reports whether zone z has a hold on day i that dry soil cannot override,
// even if another reason is reported.
func (d *Draft) firmly(z, i int) bool {
	if d.firm != nil && d.firm[i] {
		return true
	}
	block := d.zones[z].block
	return block != nil && block[i] != sim.NotScheduled && !overruled(block[i])
}

// holdZone puts one zone on hold on day i.
func (d *Draft) holdZone(z, i int, why sim.Reason) {
	zone := &d.zones[z]
	if zone.block == nil {
		zone.block = make([]sim.Reason, d.Site.Days())
	}
	if zone.block[i] == sim.NotScheduled {
		zone.block[i] = why
	}
}

// blocked returns why zone z is on hold on day i, NotScheduled if it is not.
func (d *Draft) blocked(z, i int) sim.Reason {
	if why := d.Block[i]; why != sim.NotScheduled {
		return why
	}
	if block := d.zones[z].block; block != nil {
		return block[i]
	}
	return sim.NotScheduled
}

// scale returns the factor column, initially all ones.
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

// zoneScale returns the factor column of one zone, initially all ones.
func (d *Draft) zoneScale(z int) []float64 {
	zone := &d.zones[z]
	if zone.scale == nil {
		zone.scale = make([]float64, d.Site.Days())
		for i := range zone.scale {
			zone.scale[i] = 1
		}
	}
	return zone.scale
}

// factor returns the run-time factor of zone z on day i.
func (d *Draft) factor(z, i int) float64 {
	f := d.level
	if d.Scale != nil {
		f *= d.Scale[i]
	}
	if scale := d.zones[z].scale; scale != nil {
		f *= scale[i]
	}
	return f
}

// gate gives zone z a gate that is always open, with exact readings and weights of 0.
func (d *Draft) gate(z int) *sim.Gate {
	zone := &d.zones[z]
	g := &zone.gate
	g.PermitAtMM, g.ErrorMM = 0, g.ErrorMM[:0]
	g.Weights = g.Weights[:0]
	for range d.Site.Zones[z].Strips {
		g.Weights = append(g.Weights, 0)
	}
	zone.permit = g
	return g
}

// round rounds minutes as the draft requires, ties upward.
func (d *Draft) round(minutes float64) float64 {
	if d.roundMin > 0 {
		return sim.RoundHalfUp(minutes, d.roundMin)
	}
	return minutes
}
