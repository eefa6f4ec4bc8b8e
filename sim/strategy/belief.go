package strategy

import (
	"math"
	"math/rand/v2"

	"loamledger/sim"
	"loamledger/weather/portable"
)

// A belief is the own water balance of a refill for one zone: one evenly watered
// bucket that all water enters.
type belief struct {
	r         *Refill
	working   bool    // a plain store, netted like the zone's
	dr        float64 // own depletion [mm]
	taw       float64
	triggerMM float64   // depletion that triggers watering
	beyondMM  float64   // depletion that overrides holds
	perMM     float64   // minutes for a depth of 1 mm in the assumed zone
	share     float64   // share of the need that is replaced
	forcing   []sim.Day // assumed day records, days of the record
	head      []sim.Day // assumed day records of the spin-up pass, where they differ
}

// of returns the zone as assumed by the strategy.
func (assumed Assumed) of(zone sim.Zone) sim.Zone {
	zone.TAWMM *= or(assumed.Storage, 1)
	zone.PRMMH *= or(assumed.Rate, 1)
	if f := or(assumed.K, 1); f != 1 {
		zone.ScaleK(f)
	}
	return zone
}

// sameDays reports whether the assumptions leave the day records unchanged.
func (assumed Assumed) sameDays() bool {
	return or(assumed.Storage, 1) == 1 && or(assumed.K, 1) == 1 && assumed.RainMissed == 0 && assumed.RainError == 0
}

// perMM returns the minutes for a depth of 1 mm in a zone as assumed.
func (r *Refill) perMM(zone *sim.Zone) float64 {
	multiplier := 1 + r.Extra
	if r.Extra < 0 {
		multiplier = zone.RunTimeMultiplier()
	}
	return 60 * multiplier / (zone.PRMMH * (1 - zone.LossShare))
}

// believed returns the day records of zone z as a strategy knows them: by the
// calendar's coefficient or, if it knows the season, the true ones. head is for the
// spin-up pass, where they differ. forcing is nil if the records
// are yet to be computed.
func (s *Site) believed(z int, knowsSeason bool) (forcing, head []sim.Day) {
	switch {
	case !s.follows(&s.Zones[z]):
		return s.Forcing[z], nil
	case knowsSeason && z < len(s.Growth):
		return s.Forcing[z], s.Growth[z].Head
	case !knowsSeason && z < len(s.Known) && len(s.Known[z]) > 0:
		return s.Known[z], nil
	}
	return nil, nil
}

// follows reports whether the coefficient of a zone follows temperature.
func (s *Site) follows(z *sim.Zone) bool {
	return z.Seasonal() && len(s.Weather.TmaxC) > 0 && len(s.Weather.TminC) > 0
}

// forcing computes the day records of a zone as assumed.
func (s *Site) forcing(zone *sim.Zone, knowsSeason bool) (forcing, head []sim.Day) {
	if !knowsSeason || !s.follows(zone) {
		return sim.Forcing(nil, zone, s.Weather, s.Calendar), nil
	}
	var g sim.Growth
	var w sim.Warmth
	w.Fill(s.Weather, s.Spin)
	forcing = g.Forcing(nil, zone, s.Weather, s.Calendar, &w, s.Spin)
	return forcing, g.Head
}

// KeepsBalance reports whether any strategy keeps a water balance of its own.
func KeepsBalance(strategies []Strategy) bool {
	for i := range strategies {
		for _, p := range strategies[i].Parts {
			if _, is := p.(*Refill); is {
				return true
			}
		}
	}
	return false
}

// begin starts the balance of zone z.
func (b *belief) begin(d *Draft, z int) {
	r := d.zones[z].refill
	assumed := r.Assumed
	zone := assumed.of(d.Site.Zones[z])
	*b = belief{
		r: r, working: zone.WorkingStorage,
		dr: d.Site.StartShare * zone.TAWMM, taw: zone.TAWMM, triggerMM: r.MAD * zone.TAWMM,
		beyondMM: or(r.OverrideBeyond, math.Inf(1)) * zone.TAWMM,
		perMM:    r.perMM(&zone), share: or(r.Share, 1),
	}
	b.forcing, b.head = d.Site.believed(z, r.KnowsSeason)
	if !assumed.sameDays() || b.forcing == nil {
		b.forcing, b.head = d.Site.forcing(&zone, r.KnowsSeason)
		r := rand.New(rand.NewPCG(assumed.Seed, 0x67617567))
		for i := range b.forcing {
			factor := 1 - assumed.RainMissed
			if sd := assumed.RainError; sd > 0 {
				factor *= portable.Exp(float64(sd*portable.Normal(r)) - float64(sd*sd/2))
			}
			b.forcing[i].RainInMM *= factor
			if i < len(b.head) {
				b.head[i].RainInMM = b.forcing[i].RainInMM
			}
		}
	}
}

// or returns v, or other if v is 0.
func or(v, other float64) float64 {
	if v == 0 {
		return other
	}
	return v
}

// ask returns the minutes needed on day i of a plan, 0 for none, and the reason.
func (b *belief) ask(d *Draft, z, i int) (float64, sim.Reason) {
	if !b.r.Days.Runs(d.Site.Calendar, d.Site.Source(i)) {
		return 0, sim.NotScheduled
	}
	if why := d.blocked(z, i); why != sim.NotScheduled && (d.firmly(z, i) || !(b.dr > b.beyondMM)) {
		return 0, why
	}
	if b.dr < b.triggerMM || b.dr <= 0 {
		return 0, sim.NotDue
	}
	minutes := d.round(b.dr * b.share * b.perMM * d.factor(z, i))
	if minutes <= 0 {
		return 0, sim.ScaledToZero
	}
	return minutes, sim.Refilled
}

// overruled reports whether a dry zone overrides a hold with this reason. A
// suspension or a frost hold is never overridden.
func overruled(why sim.Reason) bool {
	return why == sim.RainHold || why == sim.WindHold || why == sim.ForecastHold
}

// run returns a run of the given minutes.
func (b *belief) run(minutes float64) sim.Run {
	return sim.Run{Minutes: minutes, CycleMin: b.r.CycleMin, SoakMin: b.r.SoakMin}
}

// receive adds minutes of watering.
func (b *belief) receive(minutes float64) {
	b.dr -= minutes / b.perMM
	if !b.working { // the limits of a plain store apply only at the end of the day
		b.dr = max(b.dr, 0)
	}
}

// advance applies rain and plant use of day i of a plan.
func (b *belief) advance(site *Site, i int) {
	day := &b.forcing[site.Source(i)]
	if i < site.Spin && i < len(b.head) {
		day = &b.head[i]
	}
	if b.working {
		b.dr = min(max(b.dr+day.ETcMM-day.RainInMM, 0), b.taw)
		return
	}
	b.dr = step(b.dr, b.taw, day)
}

// step applies rain and plant use to a single even bucket, as the replay does for
// each strip.
func step(dr, taw float64, day *sim.Day) float64 {
	if dr -= day.RainInMM; dr < 0 {
		dr = 0
	}
	take, left := day.ETcMM, taw-dr
	if dr > day.RAWMM {
		take *= left * day.Slope
	}
	return dr + min(take, left)
}
