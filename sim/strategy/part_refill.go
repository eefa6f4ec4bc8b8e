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
		Doc: "keeps its own soil-water balance and refills the root zone when its depletion reaches the trigger; it " +
			"allows for spray loss and uneven coverage and ignores overspray, broken heads and leaks; use a list to set " +
			"triggers for individual zones",
		Example:   "refill: {zones: all, mad: 50%, days: any}",
		Many:      true,
		Params:    (*Refill).params,
		Sheet:     (*Refill).sheet,
		Copy:      (*Refill).copied,
		Lines:     (*Refill).lines,
		Plain:     (*Refill).plain,
		YAML:      FromParams,
		Conflicts: (*Refill).conflicts,
		Warnings:  (*Refill).warnings,
		Record:    nothingOfRecord[Refill],
	}.Kind()
}

func (p *Refill) params() []Param {
	return []Param{
		{Key: "zones", Field: AsZones(&p.Zones), Word: "all",
			Doc: "zones to refill", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true, Always: true},
		{Key: "mad", Field: AsQuantity(&p.MAD, quantity.Fraction), Default: 0.5, Min: 0.01, Max: 1,
			Doc:    "depletion that triggers watering, as a share of TAW",
			Source: "management allowed depletion of lawns and shrubs, common practice", Grade: quantity.Memory, Always: true},
		{Key: "days", Field: asDays(&p.Days), Word: "any",
			Doc: "days on which watering is allowed", Source: "assumption by loamledger", Grade: quantity.Guess, Always: true},
		{Key: "extra", Field: AsQuantity(&p.Extra, quantity.Fraction), Default: -1, Min: 0, Max: 3,
			Word: "1/(0.4 + 0.6 DU) − 1; none for a zone of one strip",
			Doc:  "extra run time for uneven coverage", Source: "run-time multiplier of sprinkler scheduling",
			Grade: quantity.Memory, Always: true},
		{Key: "cycle", Field: AsQuantity(&p.CycleMin, quantity.Duration), Default: 0, Min: 0.5, Max: 600, Word: "one run",
			Doc: "maximum cycle", Source: "assumption by loamledger", Grade: quantity.Guess},
		{Key: "share", Field: asFactor(&p.Share), Default: 1, Min: 0.05, Max: 1.5,
			Doc:    "share of the need that is replaced; below 100% is deficit irrigation",
			Source: "assumption by loamledger: the whole need", Grade: quantity.Guess, Off: true},
		{Key: "at", Field: asClock(&p.StartMin), Default: 4 * 60, Word: "04:00",
			Doc: "start time", Source: "assumption by loamledger: before dawn", Grade: quantity.Guess, Always: true},
		{Key: "override_beyond", Field: AsQuantity(&p.OverrideBeyond, quantity.Fraction), Default: 0, Min: 0.01, Max: 1, Word: "never",
			Doc: "depletion, as a share of TAW, beyond which a hold for rain, wind or forecast is ignored", Source: "assumption by loamledger",
			Grade: quantity.Guess, Off: true},
		{Key: "assumed_storage", Field: asFactor(&p.Assumed.Storage), Default: 1, Min: 0.1, Max: 10,
			Doc:    "assumed TAW as a share of the true TAW: a wrong soil or root depth",
			Source: "assumption by loamledger: the true value", Grade: quantity.Guess, Off: true},
		{Key: "assumed_rate", Field: asFactor(&p.Assumed.Rate), Default: 1, Min: 0.1, Max: 10,
			Doc: "assumed precipitation rate as a share of the true rate", Source: "assumption by loamledger: the true value",
			Grade: quantity.Guess, Off: true},
		{Key: "assumed_k", Field: asFactor(&p.Assumed.K), Default: 1, Min: 0.1, Max: 10,
			Doc: "assumed plant coefficient as a share of the one in the catalog", Source: "assumption by loamledger: the true value",
			Grade: quantity.Guess, Off: true},
		{Key: "knows_season", Field: asFlag(&p.KnowsSeason), Default: 0,
			Doc:    "follow temperature with the plant coefficient as the plants do; otherwise use the catalog's yearly or monthly one",
			Source: "assumption by loamledger: a controller knows the calendar", Grade: quantity.Guess, Off: true},
		{Key: "assumed_rain", Field: asRest(&p.Assumed.RainMissed), Default: 1, Min: 0, Max: 3,
			Doc:    "assumed rain as a share of the rain that entered the soil: a gauge elsewhere",
			Source: "assumption by loamledger: the true value", Grade: quantity.Guess, Off: true},
		{Key: "assumed_rain_error", Field: AsQuantity(&p.Assumed.RainError, quantity.Fraction), Default: 0, Min: 0, Max: 2,
			Doc:    "random error of the assumed daily rain, as the standard deviation of its logarithm, without bias: a distant station",
			Source: "assumption by loamledger: none", Grade: quantity.Guess},
		{Key: "seed", Field: asNumber(&p.Assumed.Seed), Default: 1, Min: 0, Max: 1 << 53,
			Doc: "random seed for that error", Source: "assumption by loamledger", Grade: quantity.Guess},
		{Key: "soak", Field: AsQuantity(&p.SoakMin, quantity.Duration), Default: 0, Min: 0, Max: 1440,
			Doc: "soak time between cycles", Source: "assumption by loamledger", Grade: quantity.Guess},
	}
}

// Refill waters by the strategy's own water balance: one evenly watered bucket per
// zone that all water enters. Its plants use K of the calendar times ETo, unless it
// knows the season. It never sees the true depletion. If its own
// depletion at dawn is at least MAD·TAW, it refills the bucket:
//
//	minutes = 60 Dr share (1 + extra) / (PR (1 − loss))
type Refill struct {
	Zones             []bool // by zone
	MAD               float64
	Days              DayRule
	Extra             float64 // extra run time for uneven coverage; below 0 for [sim.Zone.RunTimeMultiplier] − 1
	CycleMin, SoakMin float64
	StartMin          float64 // start time, used if the site has limits [min after midnight]
	Share             float64 // share of the need that is replaced; 0 means 1
	OverrideBeyond    float64 // own depletion, as a share of TAW, beyond which holds are overridden; 0 for never
	// KnowsSeason gives the balance the plants' true coefficient; otherwise it knows
	// the calendar's.
	KnowsSeason bool
	Assumed     Assumed
}

// Assumed is what a strategy assumes about a zone, as factors on the true values.
// The zero Assumed is correct.
type Assumed struct {
	Storage    float64 // factor on TAW; 0 means 1
	Rate       float64 // factor on the precipitation rate; 0 means 1
	K          float64 // factor on the plant coefficient; 0 means 1
	RainMissed float64 // share of the entered rain that is missed; below 0, more is assumed than entered
	// RainError is the standard deviation of the logarithm of assumed over
	// entered rain, whose mean is 1: a distant station, the same for all zones.
	// Seed is the random seed.
	RainError float64
	Seed      uint64
}

// Kind returns the kind of the part.
func (*Refill) Kind() Kind { return refillKind() }

// Stage returns [Water].
func (*Refill) Stage() Stage { return Water }

// Apply puts the refill into the draft. It replaces programs, except manual runs,
// and earlier refills in its zones. A scenario with a zone in both is an error.
func (r *Refill) Apply(d *Draft) {
	for z, is := range r.Zones {
		if is {
			d.zones[z].refill = r
		}
	}
}

// sheet says that no sheet is possible: run times change with the balance.
func (p *Refill) sheet(*Site) SheetEntry { return SheetEntry{Use: NoSheet} }

func (p *Refill) copied() CopyEntry {
	return CopyEntry{Use: ReplacedUse, CycleMin: p.CycleMin, SoakMin: p.SoakMin, Zones: p.Zones, MAD: p.MAD, Extra: p.Extra}
}

func (p *Refill) lines(zones []string, _ quantity.System) []string {
	return []string{fmt.Sprintf("Refill %s: at %.0f%% depletion of the available water, %s%s",
		strings.Join(namesOf(zones, p.Zones), ", "), 100*p.MAD, DaysText(p.Days), cyclesText(p.CycleMin, p.SoakMin))}
}

func (p *Refill) conflicts(given Given) Conflicts {
	c := contradiction(given(&p.SoakMin) && p.CycleMin == 0, diag.NoEffect,
		"add cycle, the longest run at a time, or remove soak", "refill: soak has no effect without cycle")
	c.Claim = &Claim{Zones: p.Zones, Twice: &Collision{Text: "two refills water", Fix: "name each zone in only one refill"},
		Against: []Collision{{Key: programsKey, Text: "both a program and a refill water",
			Fix: "under refill, name only zones without a program in this strategy, or remove the program"}}}
	return c
}

func (p *Refill) warnings([]string) Warnings { return Warnings{Checked: true, Waters: p.Zones} }

func (p *Refill) plain() Plain {
	text := "waters a zone when its soil is drying out, as estimated from the weather"
	if p.Days.Kind != AnyDay {
		text += ", only on " + plainDays(p.Days)
	}
	switch {
	case p.Extra == 0:
		text += "; no extra time for uneven sprinklers"
	case p.Extra > 0:
		text += fmt.Sprintf("; %.0f%% extra time for uneven sprinklers", 100*p.Extra)
	}
	return Plain{Text: text, needs: BalanceController}
}
