package strategy

import (
	"loamledger/sim"
	"loamledger/weather/quantity"
)

func refillKind() Kind {
	return Kind{
		Key:     "refill",
		Doc:     "keeps a soil-water balance of its own and refills the root zone when its depletion reaches the trigger",
		Example: "refill: {zones: all, mad: 50 %, days: any}",
		Params: []Param{
			{Key: "zones", Type: ZoneNames, Word: "all", Doc: "zones watered this way", Source: "assumption of this program"},
			{Key: "mad", Type: Quantity, Dim: quantity.Fraction, Default: 0.5, Min: 0.01, Max: 1, Doc: "depletion that calls for water, as a share of TAW", Source: "management allowed depletion of lawns and shrubs, common practice, from memory"},
			{Key: "days", Type: DaysOfWatering, Word: "any", Doc: "days on which watering is possible", Source: "assumption of this program"},
			{Key: "extra", Type: Quantity, Dim: quantity.Fraction, Default: -1, Min: 0, Max: 3, Word: "1/(0.4 + 0.6 DU) − 1", Doc: "extra time for uneven coverage", Source: "run-time multiplier of sprinkler scheduling, from memory"},
			{Key: "cycle", Type: Quantity, Dim: quantity.Duration, Default: 0, Min: 0.5, Max: 600, Word: "one run", Doc: "longest cycle", Source: "assumption of this program"},
			{Key: "soak", Type: Quantity, Dim: quantity.Duration, Default: 0, Min: 0, Max: 1440, Doc: "pause between cycles", Source: "assumption of this program"},
		},
		Make: func(a Args) Part {
			r := Refill{Zones: a["zones"].Zones, MAD: a["mad"].Number, Days: a["days"].Days, Extra: a["extra"].Number, CycleMin: a["cycle"].Number, SoakMin: a["soak"].Number}
			return &r
		},
	}
}

// Refill waters by a balance that the strategy keeps for itself: one bucket a
// zone, evenly watered, in which all water enters. It never sees the true
// depletion. When its own depletion at dawn is at least MAD·TAW it asks for
// minutes that fill it:
//
//	minutes = 60 Dr (1 + extra) / (PR (1 − loss))
type Refill struct {
	Zones             []bool // by zone
	MAD               float64
	Days              DayRule
	Extra             float64 // extra time for uneven coverage; below 0 for 1/(0.4 + 0.6 DU) − 1
	CycleMin, SoakMin float64
}

// Stage returns [Water].
func (*Refill) Stage() Stage { return Water }

// Apply puts the refill into the draft.
func (r *Refill) Apply(d *Draft) { d.Refill = r }

// RunTimeMultiplier returns the factor on run time that allows for uneven
// coverage, 1/(0.4 + 0.6 DU_LQ). Source: common practice in sprinkler
// scheduling, from memory.
func RunTimeMultiplier(duLQ float64) float64 { return 1 / (0.4 + 0.6*duLQ) }

// plan runs the strategy's own balance over the days of zone z.
func (r *Refill) plan(d *Draft, z int, shares []float64, plan *sim.Plan) {
	zone, forcing := &d.Site.Zones[z], d.Site.Forcing[z]
	multiplier := 1 + r.Extra
	if r.Extra < 0 {
		multiplier = RunTimeMultiplier(zone.DULQ)
	}
	perMM := 60 * multiplier / (zone.PRMMH * (1 - zone.LossShare)) // minutes for a depth of 1 mm
	trigger := r.MAD * zone.TAWMM
	believed := d.Site.StartShare * zone.TAWMM
	for i := range plan.Dose {
		k := d.Site.Source(i)
		switch {
		case !r.Days.Runs(d.Site.Calendar, k):
			plan.Reason[i] = sim.NotScheduled
		case d.Block[i] != sim.NotScheduled:
			plan.Reason[i] = d.Block[i]
		case believed < trigger || believed <= 0:
			plan.Reason[i] = sim.NotDue
		default:
			minutes := believed * perMM
			if d.Scale != nil {
				minutes *= d.Scale[i]
			}
			if minutes = d.round(minutes); minutes <= 0 {
				plan.Reason[i] = sim.ScaledToZero
				break
			}
			run := [1]sim.Run{{Minutes: minutes, CycleMin: r.CycleMin, SoakMin: r.SoakMin}}
			plan.Dose[i], plan.Reason[i] = plan.AddDose(zone, shares, run[:]), sim.Refilled
			believed = max(believed-minutes/perMM, 0)
		}
		believed = step(believed, zone.TAWMM, &forcing[k])
	}
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
