package strategy

import "loamledger/sim"

// A Look makes a [Compiler] record what a strategy saw and requested on one day in
// one zone, to explain the decision. A replay does not need it.
type Look struct {
	Zone, Day int // the day counts from the first of the plan, spin-up included
	// Levels is output: the strategy as set, then each level of a person who raises
	// run times.
	Levels []Seen
	// Readings is output: the shared soil sensors that control this zone.
	Readings []Reading
}

// Seen is what a strategy saw on that day.
type Seen struct {
	Factor   float64 // product of all percentages of the day
	RoundMin float64 // run times are rounded to a multiple of this; 0 for no rounding
	Asked    []Asked // program starts on the day
	Refill   *Own    // the strategy's own water balance of the zone; nil for none
}

// Asked is one program start before percentages.
type Asked struct {
	Program  string
	StartMin int     // clock time [min after midnight]
	Run      sim.Run // as set
	Factor   float64 // the program's own factor, which changes over time
	ByHand   bool    // a manual run, without percentages
}

// Own is the own water balance of a refill in the morning.
type Own struct {
	DepletionMM float64
	TriggerMM   float64 // depletion that triggers watering
	Share       float64 // share of the depletion that is replaced
	Multiplier  float64 // run-time multiplier for uneven coverage
	PRMMH       float64 // assumed precipitation rate
	PerMM       float64 // minutes for a depth of 1 mm: 60 Multiplier/(PRMMH (1 − loss))
}

// A Reading is what a soil sensor read before dawn.
type Reading struct {
	Zone       string  // location
	ReadingMM  float64 // depletion, including the error
	ErrorMM    float64
	PermitAtMM float64 // watering is permitted at or above this reading
}

// look records the draft's values for the zone and day of the Look.
func (c *Compiler) look() {
	l, d := c.Look, &c.draft
	if l == nil {
		return
	}
	seen := Seen{Factor: d.factor(l.Zone, l.Day), RoundMin: d.roundMin}
	for p := range d.Programs {
		prog, col := &d.Programs[p], &c.columns[p]
		if prog.Minutes[l.Zone] <= 0 || !col.on[l.Day] || d.refills(l.Zone) && !prog.ByHand {
			continue
		}
		for _, at := range prog.Starts {
			seen.Asked = append(seen.Asked, Asked{Program: prog.Name, StartMin: at, Run: prog.run(l.Zone), Factor: col.at(l.Day),
				ByHand: prog.ByHand})
		}
	}
	l.Levels = append(l.Levels, seen)
}

// lookAt records the own balance of zone z on day i, if the Look asks for it.
func (c *Compiler) lookAt(b *belief, z, i int) {
	if l := c.Look; l != nil && l.Zone == z && l.Day == i {
		rate := c.draft.Site.Zones[z].PRMMH * or(b.r.Assumed.Rate, 1)
		l.Levels[len(l.Levels)-1].Refill = &Own{
			DepletionMM: b.dr, TriggerMM: b.triggerMM, Share: b.share, PRMMH: rate, PerMM: b.perMM,
			Multiplier: b.perMM * rate * (1 - c.draft.Site.Zones[z].LossShare) / 60,
		}
	}
}

// lookRead records what probe p reads on day i, if it controls the zone of the Look.
func (c *Compiler) lookRead(p *probe, depletionMM []float64, i int) {
	l := c.Look
	if l == nil || l.Day != i || !p.governs[l.Zone] {
		return
	}
	l.Readings = append(l.Readings, ReadingOf(c.draft.Site.Zones[p.zone].Name, &p.gate, depletionMM, i))
}

// ReadingOf returns what the sensor g in the named zone reads on day i of a plan,
// given the depletion of the strips.
func ReadingOf(zone string, g *sim.Gate, depletionMM []float64, i int) Reading {
	r := Reading{Zone: zone, ReadingMM: g.Reading(depletionMM, i), PermitAtMM: g.PermitAtMM}
	if len(g.ErrorMM) > 0 {
		r.ErrorMM = g.ErrorMM[i]
	}
	return r
}
