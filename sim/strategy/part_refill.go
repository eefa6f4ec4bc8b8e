package strategy

import (
	"fmt"
	"strings"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

func refillKind() Kind {
	return Spec[Refill]{
		Key: "refill",
		Doc: "keeps a soil-water balance of its own and refills the root zone when its depletion reaches the trigger; it " +
			"allows for spray loss and uneven coverage and knows nothing of overspray, broken heads or leaks; a list gives zones " +
			"triggers of their own",
		Example:   "refill: {zones: all, mad: 50 %, days: any}",
		Many:      true,
		Params:    (*Refill).params,
		Sheet:     (*Refill).sheet,
		Copy:      (*Refill).copied,
		Lines:     (*Refill).lines,
		YAML:      FromParams,
		Conflicts: (*Refill).conflicts,
		Warnings:  (*Refill).warnings,
		Record:    NothingOfRecord[Refill],
	}.Kind()
}

func (p *Refill) params() []Param {
	return []Param{
		{Key: "zones", Field: AsZones(&p.Zones), Word: "all",
			Doc: "zones watered this way", Source: "assumption of this program", Grade: quantity.Guess, Off: true, Always: true},
		{Key: "mad", Field: AsQuantity(&p.MAD, quantity.Fraction), Default: 0.5, Min: 0.01, Max: 1,
			Doc:    "depletion that calls for water, as a share of TAW",
			Source: "management allowed depletion of lawns and shrubs, common practice, from memory", Grade: quantity.Memory, Always: true},
		{Key: "days", Field: AsDays(&p.Days), Word: "any",
			Doc: "days on which watering is possible", Source: "assumption of this program", Grade: quantity.Guess, Always: true},
		{Key: "extra", Field: AsQuantity(&p.Extra, quantity.Fraction), Default: -1, Min: 0, Max: 3, Word: "1/(0.4 + 0.6 DU) − 1",
			Doc: "extra time for uneven coverage", Source: "run-time multiplier of sprinkler scheduling, from memory", Grade: quantity.Memory, Always: true},
		{Key: "cycle", Field: AsQuantity(&p.CycleMin, quantity.Duration), Default: 0, Min: 0.5, Max: 600, Word: "one run",
			Doc: "longest cycle", Source: "assumption of this program", Grade: quantity.Guess},
		{Key: "share", Field: AsFactor(&p.Share), Default: 1, Min: 0.05, Max: 1.5,
			Doc:    "share of the need that is replaced; below 100 % is planned deficit",
			Source: "assumption of this program: the whole need", Grade: quantity.Guess, Off: true},
		{Key: "at", Field: AsClock(&p.StartMin), Default: 4 * 60, Word: "04:00",
			Doc: "time at which watering begins", Source: "assumption of this program: before dawn", Grade: quantity.Guess, Always: true},
		{Key: "override_beyond", Field: AsQuantity(&p.OverrideBeyond, quantity.Fraction), Default: 0, Min: 0.01, Max: 1, Word: "never",
			Doc: "depletion, as a share of TAW, beyond which no skip holds watering back", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		{Key: "assumed_storage", Field: AsFactor(&p.Assumed.Storage), Default: 1, Min: 0.1, Max: 10,
			Doc:    "the TAW the strategy believes in, as a share of the true one: a wrong soil or root depth",
			Source: "assumption of this program: the truth", Grade: quantity.Guess, Off: true},
		{Key: "assumed_rate", Field: AsFactor(&p.Assumed.Rate), Default: 1, Min: 0.1, Max: 10,
			Doc: "the precipitation rate it believes in, as a share of the true one", Source: "assumption of this program: the truth", Grade: quantity.Guess, Off: true},
		{Key: "assumed_k", Field: AsFactor(&p.Assumed.K), Default: 1, Min: 0.1, Max: 10,
			Doc: "the plant coefficient it believes in, as a share of the true one", Source: "assumption of this program: the truth", Grade: quantity.Guess, Off: true},
		{Key: "assumed_rain", Field: AsRest(&p.Assumed.RainMissed), Default: 1, Min: 0, Max: 3,
			Doc: "the rain it books, as a share of what entered: a gauge elsewhere", Source: "assumption of this program: the truth", Grade: quantity.Guess, Off: true},
		{Key: "assumed_rain_error", Field: AsQuantity(&p.Assumed.RainError, quantity.Fraction), Default: 0, Min: 0, Max: 2,
			Doc:    "how far the rain it books strays from day to day: standard deviation of the logarithm, right on average, as of a station some way off",
			Source: "assumption of this program: none", Grade: quantity.Guess},
		{Key: "seed", Field: AsNumber(&p.Assumed.Seed), Default: 1, Min: 0, Max: 1 << 53,
			Doc: "seed of that scatter", Source: "assumption of this program", Grade: quantity.Guess},
		{Key: "soak", Field: AsQuantity(&p.SoakMin, quantity.Duration), Default: 0, Min: 0, Max: 1440,
			Doc: "pause between cycles", Source: "assumption of this program", Grade: quantity.Guess},
	}
}

// Refill waters by a balance that the strategy keeps for itself: one bucket a
// zone, evenly watered, in which all water enters. It never sees the true
// depletion. When its own depletion at dawn is at least MAD·TAW it asks for
// minutes that fill it:
//
//	minutes = 60 Dr share (1 + extra) / (PR (1 − loss))
type Refill struct {
	Zones             []bool // by zone
	MAD               float64
	Days              DayRule
	Extra             float64 // extra time for uneven coverage; below 0 for 1/(0.4 + 0.6 DU) − 1
	CycleMin, SoakMin float64
	StartMin          float64 // clock time at which it starts, where the site has limits [min after midnight]
	Share             float64 // share of the need replaced; 0 means 1
	OverrideBeyond    float64 // own depletion, as a share of TAW, beyond which skips are overruled; 0 for never
	Assumed           Assumed
}

// Assumed is what a strategy takes a zone to be, as factors on the truth. The
// zero Assumed is the truth.
type Assumed struct {
	Storage    float64 // factor on TAW; 0 means 1
	Rate       float64 // factor on the precipitation rate; 0 means 1
	K          float64 // factor on the plant coefficient; 0 means 1
	RainMissed float64 // share of the rain that entered and is not booked; below 0, more is booked than entered
	// RainError is the standard deviation of the logarithm of booked over
	// entered rain, whose mean is 1: a station some way off, the same for all
	// zones. Seed is that of its days.
	RainError float64
	Seed      uint64
}

// Kind returns the kind of the part.
func (*Refill) Kind() Kind { return refillKind() }

// Stage returns [Water].
func (*Refill) Stage() Stage { return Water }

// Apply puts the refill into the draft. It takes its zones over from programs,
// but for runs by hand, and from refills before it; a scenario that names a
// zone in both is refused before it comes to that.
func (r *Refill) Apply(d *Draft) {
	for z, is := range r.Zones {
		if is {
			d.Zones[z].Refill = r
		}
	}
}

// sheet says that there are no minutes to enter: they change with the balance.
func (p *Refill) sheet(*Site) SheetEntry { return SheetEntry{Use: NoSheet} }

func (p *Refill) copied() CopyEntry {
	return CopyEntry{Use: ReplacedUse, CycleMin: p.CycleMin, SoakMin: p.SoakMin, Zones: p.Zones}
}

func (p *Refill) lines(zones []string, _ quantity.System) []string {
	return []string{fmt.Sprintf("refill %s: at %.0f %% of the available water used up, %s%s",
		strings.Join(namesOf(zones, p.Zones), ", "), 100*p.MAD, DaysText(p.Days), cyclesText(p.CycleMin, p.SoakMin))}
}

func (p *Refill) conflicts(given Given) Conflicts {
	c := contradiction(given(&p.SoakMin) && p.CycleMin == 0, diag.NoEffect,
		"add cycle, the longest run at a time, or take soak out", "refill: soak without cycle does nothing")
	c.Claim = &Claim{Zones: p.Zones, Twice: &Collision{Text: "two refills water", Fix: "name each zone in one refill only"},
		Against: []Collision{{Key: programsKey, Text: "both a program and a refill water",
			Fix: "under refill, name only zones that no program of the strategy waters, or leave the program out"}}}
	return c
}

func (p *Refill) warnings([]string) Warnings { return Warnings{Checked: true, Waters: p.Zones} }
