package strategy

import "loamledger/sim"

// A Look asks a [Compiler] for what a strategy saw and asked for on one day of
// one zone, so that a person can follow the decision. A replay needs none.
type Look struct {
	Zone, Day int // the day counts from the first of the plan, spin-up included
	// Levels is filled in: the strategy as set, then each level of a person who
	// turns minutes up.
	Levels []Seen
	// Readings is filled in: the soil sensors of other zones, or of this one,
	// that govern this zone together with others.
	Readings []Reading
}

// Seen is what stood before a strategy on the day looked at.
type Seen struct {
	Factor   float64 // product of all percentages on the minutes of the day
	RoundMin float64 // minutes are rounded to a multiple of this; 0 for not at all
	Asked    []Asked // programs that run on the day
	Refill   *Own    // the strategy's own balance of the zone; nil for none
}

// Asked is one start of a program before any percentage.
type Asked struct {
	Program  string
	StartMin int     // clock time [min after midnight]
	Run      sim.Run // as set
	Factor   float64 // the program's own, which changes minutes over time
	ByHand   bool    // no percentage touches it
}

// Own is the balance that a refilling strategy keeps, in the morning.
type Own struct {
	DepletionMM float64
	TriggerMM   float64 // depletion that calls for water
	Share       float64 // share of the depletion that is replaced
	Multiplier  float64 // on run time, for uneven coverage
	PRMMH       float64 // precipitation rate believed in
	PerMM       float64 // minutes for a depth of 1 mm: 60 Multiplier/(PRMMH (1 − loss))
}

// Reading is what a soil sensor read before dawn.
type Reading struct {
	Zone       string  // that it sits in
	ReadingMM  float64 // depletion, with the error
	ErrorMM    float64
	PermitAtMM float64 // watering is permitted at this reading or above
}

// look notes what the draft holds for the zone and day looked at.
func (c *Compiler) look() {
	l, d := c.Look, &c.draft
	if l == nil {
		return
	}
	seen := Seen{Factor: d.factor(l.Zone, l.Day), RoundMin: d.RoundMin}
	for p := range d.Programs {
		prog, col := &d.Programs[p], &c.columns[p]
		if prog.Minutes[l.Zone] <= 0 || !col.on[l.Day] || d.refills(l.Zone) && !prog.ByHand {
			continue
		}
		for _, at := range prog.Starts {
			seen.Asked = append(seen.Asked, Asked{Program: prog.Name, StartMin: at, Run: prog.run(l.Zone), Factor: col.at(l.Day), ByHand: prog.ByHand})
		}
	}
	l.Levels = append(l.Levels, seen)
}

// lookAt notes the strategy's own balance of zone z on day i, if it is looked at.
func (c *Compiler) lookAt(b *belief, z, i int) {
	if l := c.Look; l != nil && l.Zone == z && l.Day == i {
		rate := c.draft.Site.Zones[z].PRMMH * or(b.r.Assumed.Rate, 1)
		l.Levels[len(l.Levels)-1].Refill = &Own{
			DepletionMM: b.dr, TriggerMM: b.triggerMM, Share: b.share, PRMMH: rate, PerMM: b.perMM,
			Multiplier: b.perMM * rate * (1 - c.draft.Site.Zones[z].LossShare) / 60,
		}
	}
}

// lookRead notes what probe p reads on day i, if it governs the zone looked at.
func (c *Compiler) lookRead(p *probe, depletionMM []float64, i int) {
	l := c.Look
	if l == nil || l.Day != i || !p.governs[l.Zone] {
		return
	}
	l.Readings = append(l.Readings, ReadingOf(c.draft.Site.Zones[p.zone].Name, &p.gate, depletionMM, i))
}

// ReadingOf returns what the sensor g in the zone of the given name reads on
// day i of a plan, the strips being at the given depletion.
func ReadingOf(zone string, g *sim.Gate, depletionMM []float64, i int) Reading {
	r := Reading{Zone: zone, ReadingMM: g.Reading(depletionMM, i), PermitAtMM: g.PermitAtMM}
	if len(g.ErrorMM) > 0 {
		r.ErrorMM = g.ErrorMM[i]
	}
	return r
}
