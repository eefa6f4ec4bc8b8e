package strategy

import (
	"math"
	"math/rand/v2"

	"loamledger/sim"
)

// A belief is the balance that a refilling strategy keeps for one zone: one
// bucket, evenly watered, in which all water enters.
type belief struct {
	r         *Refill
	working   bool    // a plain store, netted as the zone's is
	dr        float64 // believed depletion [mm]
	taw       float64
	triggerMM float64   // depletion that calls for water
	beyondMM  float64   // depletion beyond which skips do not count
	perMM     float64   // minutes for a depth of 1 mm in the believed zone
	share     float64   // share of the need that is asked for
	forcing   []sim.Day // believed day records, days of the record
}

// of returns the zone as the strategy takes it to be.
func (told Assumed) of(zone sim.Zone) sim.Zone {
	zone.TAWMM *= or(told.Storage, 1)
	zone.PRMMH *= or(told.Rate, 1)
	for m := range zone.K {
		zone.K[m] *= or(told.K, 1)
	}
	return zone
}

// sameDays reports whether what is believed leaves the day records as they are.
func (told Assumed) sameDays() bool {
	return or(told.Storage, 1) == 1 && or(told.K, 1) == 1 && told.RainMissed == 0 && told.RainError == 0
}

// perMM returns the minutes for a depth of 1 mm in a zone as believed.
func (r *Refill) perMM(zone *sim.Zone) float64 {
	multiplier := 1 + r.Extra
	if r.Extra < 0 {
		multiplier = sim.RunTimeMultiplier(zone.DULQ)
	}
	return 60 * multiplier / (zone.PRMMH * (1 - zone.LossShare))
}

// begin starts the balance of zone z.
func (b *belief) begin(d *Draft, z int) {
	r := d.Zones[z].Refill
	told := r.Assumed
	zone := told.of(d.Site.Zones[z])
	*b = belief{
		r: r, working: zone.WorkingStorage,
		dr: d.Site.StartShare * zone.TAWMM, taw: zone.TAWMM, triggerMM: r.MAD * zone.TAWMM, beyondMM: or(r.OverrideBeyond, math.Inf(1)) * zone.TAWMM,
		perMM: r.perMM(&zone), share: or(r.Share, 1), forcing: d.Site.Forcing[z],
	}
	if !told.sameDays() {
		b.forcing = sim.Forcing(nil, &zone, d.Site.Weather, d.Site.Calendar)
		r := rand.New(rand.NewPCG(told.Seed, 0x67617567))
		for i := range b.forcing {
			booked := 1 - told.RainMissed
			if sd := told.RainError; sd > 0 {
				booked *= math.Exp(sd*r.NormFloat64() - sd*sd/2)
			}
			b.forcing[i].RainInMM *= booked
		}
	}
}

// or returns v, or other where v is 0.
func or(v, other float64) float64 {
	if v == 0 {
		return other
	}
	return v
}

// ask returns the minutes wanted on day i of a plan, 0 for none, and why.
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

// overruled reports whether a strategy that finds its zone too dry may water
// in spite of why it is held back. A suspension or a freeze is never overruled.
func overruled(why sim.Reason) bool {
	return why == sim.RainHold || why == sim.WindHold || why == sim.ForecastHold
}

// run returns the run of the given minutes.
func (b *belief) run(minutes float64) sim.Run {
	return sim.Run{Minutes: minutes, CycleMin: b.r.CycleMin, SoakMin: b.r.SoakMin}
}

// receive books minutes of watering.
func (b *belief) receive(minutes float64) {
	b.dr -= minutes / b.perMM
	if !b.working { // a plain store is held to its limits only at the day's end
		b.dr = max(b.dr, 0)
	}
}

// advance takes the balance through the rain and the draw of day k of the record.
func (b *belief) advance(k int) {
	day := &b.forcing[k]
	if b.working {
		b.dr = min(max(b.dr+day.ETcMM-day.RainInMM, 0), b.taw)
		return
	}
	b.dr = step(b.dr, b.taw, day)
}

// step takes a single even bucket through rain and draw, as the replay does
// with each strip.
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
