package catalog

import "slices"

// A Measure is something that saves water, as a definition: settings that a strategy or
// a change can be given. A name alone decides nothing: the same word stands for
// settings that differ threefold in what they save.
type Measure struct {
	Name string
	What string // in one sentence
	// YAML is what a strategy has besides its name: lines under it. <lawns>, <beds> and
	// <zone> are to be replaced by names of zones.
	YAML []string
	// Alone is set if the strategy waters by itself, and is not like what ran.
	Alone    bool
	Settings []Setting
	Found    string // what field studies found
	FoundBy  string // their source
}

// A Setting is one value of a measure, and why it is that.
type Setting struct {
	Key, Value string
	Grade      Grade
	Source     string
}

const (
	fieldReview = "Dukes, two decades of weather- and sensor-based controllers (ASABE review)"
	fieldPlots  = "turf plots, Florida, against watering two days a week without a sensor (thesis abstract)"
	fieldCA     = "evaluation of California weather-based controller programs, 2009, and Journal AWWA 102(2), 2010"
	fieldOrange = "long-term study of homes that watered above need, Orange County, Florida"
	fieldRebate = "rebate program feature, Journal AWWA, January 2021"
	noField     = "no field study was consulted"
)

var measures = [...]Measure{
	{
		Name: "rain sensor", What: "A sensor holds watering after rain, as sensors in homes do.",
		YAML: []string{"hold: {rain: {at_least: 0.17 in, dry_out: 2 days, miss_rate: 25%, lasts: {life: 8, overridden: 46%}}}"},
		Settings: []Setting{
			{"at_least", "0.17 in", Measured, "0.7 of a set point of 6 mm: seven kinds of expanding disk over nearly five years (Meeks et " +
				"al. 2012)"},
			{"miss_rate", "25%", Measured, "accuracy 27% to 97% in that trial; our choice within it"},
			{"dry_out", "2 days", Guess, "a few hours to 4 days by climate (advice of a university and a city); our choice"},
			{"overridden", "46%", Measured, "54% of the sensors in a survey of 157 homes were connected and working (Haley and Dukes)"},
			{"life", "8 years", Guess, "no figure found; our choice"},
		},
		Found: "7% to 33% less", FoundBy: fieldPlots,
	},
	{
		Name: "monthly percentages", What: "Run times follow twelve percentages from past climate: the cheapest alternative to any controller.",
		YAML:     []string{"monthly: auto"},
		Settings: []Setting{{"monthly", "auto", Guess, "mean ETo of each month of the record: hindsight; our choice"}},
		Found:    "none consulted", FoundBy: noField,
	},
	{
		Name: "weather-following run times, as installed",
		What: "Run times follow reference ET from what is on the controller; rain is not known to it.",
		YAML: []string{"et_percent: {design_eto: auto, days: 7 days, max: 150%}"},
		Settings: []Setting{
			{"subtract_rain", "false", Guess, "no gauge is connected; our choice"},
			{"run times", "as found", Guess, "what was on the controller is taken as right for the peak month; our choice"},
		},
		Found: "2.1% to 41.6% less by program; 41.8% of 2,294 sites used more", FoundBy: fieldCA,
	},
	{
		Name: "weather-following run times, set by a professional",
		What: "Run times follow reference ET and rain, with a hold after rain and frost.",
		YAML: []string{"et_percent: {design_eto: auto, days: 7 days, subtract_rain: true, max: 130%}",
			"hold: {rain: {at_least: 0.25 in, dry_out: 2 days}, frost: {below: 37 F}}"},
		Settings: []Setting{
			{"subtract_rain", "true", Guess, "a gauge on site; our choice"},
			{"max", "130%", Guess, "our choice"},
		},
		Found: "17% to 21% less, 26% to 31% with programming on site", FoundBy: fieldOrange,
	},
	{
		Name: "own water balance, soil and rate assumed wrong", Alone: true,
		What: "A controller keeps a water balance with default soil and rate: storage half as large again, rate a quarter lower than true.",
		YAML: []string{"refill: {zones: all, mad: 50%, assumed_storage: 150%, assumed_rate: 75%}"},
		Settings: []Setting{
			{"assumed_storage", "150%", Guess, "a default of loam and 10 in of roots against 6 in; our choice"},
			{"assumed_rate", "75%", Guess, "a table value against a rate raised by pressure; our choice"},
			{"mad", "50%", Memory, "common default"},
		},
		Found: "five of 17 studies found more water used; 36% to 59% less on plots, where it was set well", FoundBy: fieldReview + "; " +
			fieldPlots,
	},
	{
		Name: "own water balance, set by a professional", Alone: true,
		What:     "A controller keeps a water balance with soil, roots and rate as measured.",
		YAML:     []string{"refill: {zones: all, mad: 35%, cycle: 8 min, soak: 40 min}"},
		Settings: []Setting{{"mad", "35%", Guess, "turf on uneven spray; our choice"}, {"cycle", "8 min", Guess, "our choice"}},
		Found:    "30% less on average in positive studies of homes (28% to 32%)", FoundBy: fieldReview,
	},
	{
		Name: "soil sensor in each zone", What: "A sensor in each zone permits watering when its soil is dry enough.",
		YAML: []string{"sensor: {permit_at: 40%, placement: average, error: 5%}"},
		Settings: []Setting{
			{"permit_at", "40%", Guess, "of available water used; our choice"}, {"error", "5%", Guess, "our choice"},
		},
		Found:   "18% to 42% less, 35% to 41% with programming on site; 44% less in 64 homes over 32 months",
		FoundBy: fieldOrange + "; Cardenas and Dukes, soil moisture sensors and reclaimed water, part II",
	},
	{
		Name: "soil sensor, one for the site", What: "One sensor in one zone permits watering in all of them.",
		YAML:     []string{"sensor: {permit_at: 40%, read_zone: <zone>, error: 5%}"},
		Settings: []Setting{{"permit_at", "40%", Guess, "as for each zone; our choice"}},
		Found:    "0% to 63% less on plots", FoundBy: fieldPlots,
	},
	{
		Name: "high-uniformity nozzles", What: "Multi-stream nozzles replace spray nozzles; run times give the same depth.",
		YAML: []string{"changes: [{zones: <lawns>, sprinkler: {kind: multi-stream, rate: 0.45 in/h, uniformity: 65%}, minutes: same depth}]"},
		Settings: []Setting{
			{"rate", "0.45 in/h", Memory, "0.4 to 0.6 in/h for this kind"},
			{"uniformity", "65%", Guess, "0.70 is called a realistic benchmark for this kind (trade article); homes measure less; our choice"},
			{"minutes", "same depth", Guess, "so that the depth is the same; with the same minutes water falls with the rate, not because of " +
				"uniformity"},
		},
		Found: "none consulted that separates rate from uniformity", FoundBy: noField,
	},
	{
		Name: "pressure regulation", What: "Heads run at 30 instead of 50 psi: they apply less in the same minutes, with less mist.",
		YAML: []string{"changes: [{zones: <lawns>, sprinkler: {spray_loss: 1.5%}, minutes: 77%}]"},
		Settings: []Setting{
			{"minutes", "77%", Guess, "in place of the flow, which follows the root of pressure: √(30/50) = 0.775; both pressures are our choice"},
			{"spray_loss", "1.5%", Guess, "less mist; our choice"},
		},
		Found: "none consulted", FoundBy: noField,
	},
	{
		Name: "leaks and broken heads repaired", What: "Nothing leaks, breaks or lands outside; run times stay.",
		YAML: []string{"changes: [{zones: all, leak: 0 gpm, sprinkler: {broken_heads: 0%, overspray: 0%}, minutes: same minutes}]"},
		Settings: []Setting{{"losses", "0", Guess, "of a repair that is complete; our choice. It saves what the scenario says is lost, " +
			"and nothing without"}},
		Found:   "under 10% of inspected zones had a DU of 70% and the right pressure; what repair alone saves was not measured",
		FoundBy: "Colorado inspection programs, 2005-2007",
	},
	{
		Name: "drip conversion of beds", What: "Drip replaces spray in beds; run times give the same depth.",
		YAML:     []string{"changes: [{zones: <beds>, sprinkler: {kind: drip, rate: 0.5 in/h}, minutes: same depth}]"},
		Settings: []Setting{{"rate", "0.5 in/h", Memory, "0.2 to 1 in/h"}, {"uniformity", "as the catalog has drip", Memory, "see drip"}},
		Found:    "none consulted", FoundBy: noField,
	},
	{
		Name: "turf replaced by low-water plants", What: "Desert plants on drip replace turf, established before the figures begin; the " +
			"old run times are cut.",
		YAML: []string{"changes: [{zones: <lawns>, plant: desert plants, sprinkler: {kind: drip, rate: 0.4 in/h}, minutes: 30%}]"},
		Settings: []Setting{
			{"minutes", "30%", Guess, "K 0.3 against 0.8, with less lost; our choice"}, {"rate", "0.4 in/h", Memory, "0.2 to 1 in/h"},
		},
		Found: "31 gal/ft² a year in years 2 to 5, 24 to 61 elsewhere", FoundBy: fieldRebate,
	},
	{
		Name: "deeper roots by watering habits", What: "Fewer, longer waterings deepen roots from 6 to 10 in; the water is the same.",
		YAML: []string{"changes: [{zones: <lawns>, root_depth: 10 in, minutes: same minutes}]"},
		Settings: []Setting{{"root_depth", "10 in", Guess,
			"about a third of inspected lawns had shallow roots (Colorado); how deep they then grow is our choice"}},
		Found: "none consulted", FoundBy: noField,
	},
}

// Measures returns the measures. The slice is the caller's; what it holds is shared.
func Measures() []Measure { return slices.Clone(measures[:]) }
