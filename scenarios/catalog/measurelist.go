package catalog

const (
	fieldReview  = "Dukes, two decades of weather- and sensor-based controllers, ASABE review"
	fieldPlots   = "turf plots, Florida, against watering two days a week without a sensor, thesis"
	fieldCA      = "evaluation of California weather-based controller programs, 2009, and Journal AWWA 102(2), 2010"
	fieldOrange  = "long-term study of homes that watered above need, Orange County, Florida"
	fieldRebate  = "rebate program feature, Journal AWWA, January 2021, p. 54"
	fieldReused  = "Cardenas and Dukes, soil moisture sensors and reclaimed water, part II, 64 homes over 32 months, Florida"
	fieldHomes   = "Haley, Dukes and Miller 2007, J. Irrig. Drain. Eng. 133(5), homes over 30 months, Florida"
	fieldHumid   = "Davis and Dukes, landscape irrigation with weather-based controllers in a humid climate, summary of several studies"
	fieldVirtual = "Davis and Dukes, importance of program settings, virtual landscape, Florida"
	fieldTexas   = "Swanson and Fipps 2011, evaluation of controllers of 2010, virtual landscape, Texas"
	fieldSensors = "Cardenas-Lailhacar and Dukes, soil moisture sensors: review of several studies, Florida"
	fieldFront   = "Colorado Front Range inspection program reports, 2005-2007"
	fieldGreen   = "Fu and Dernoeden 2009, Crop Science 49:1063 and its companion, creeping bentgrass, Maryland"
	fieldZoysia  = "zoysiagrass in containers, watered daily or at the onset of wilt, 90 days"

	nozzleRebate = "saved less per unit than controllers did; no figure seen that separates rate from uniformity"
	nozzleClaims = "10% and 20% less"
	dripHomes    = "50% less than homes run as found, 30% by scheduling alone: beds on microirrigation for 62% of the landscape instead of " +
		"sprinklers on 23%, watering only part of each bed"
)

var measures = [...]Measure{
	{
		Name: "rain sensor", What: "A sensor holds watering after rain, as sensors in homes do.",
		YAML: []string{"hold: {rain: {at_least: 0.15 in, dry_out: 2 days, miss_rate: 25%, lasts: {life: 8, overridden: 46%}}}"},
		Settings: []Setting{
			{"at_least", "0.15 in", Measured, "four kinds with a set point of 6 mm tripped at 1.6, 3.8, 4.3 and 5.8 mm, 3.9 mm on average, over " +
				"nearly five years (Meeks et al. 2012, abstract)"},
			{"miss_rate", "25%", Guess, "accuracy 27% to 97% in that trial; our choice within it"},
			{"dry_out", "2 days", Guess, "a few hours to 4 days by climate (advice of a university and a city); our choice"},
			{"overridden", "46%", Measured, "54% of the sensors in a survey of 157 homes were connected and working (Haley and Dukes)"},
			{"life", "8 years", Guess, "no figure found; our choice"},
		},
		Found: []Finding{
			{"7% to 33% less, with a sensor that works", fieldPlots, secondary},
			{"homes with a sensor did not water significantly less than homes without", fieldReused, abstract},
		},
	},
	{
		Name: "monthly percentages", What: "Run times follow twelve percentages from past climate: the cheapest alternative to any controller.",
		YAML:     []string{"monthly: auto"},
		Settings: []Setting{{"monthly", "auto", Guess, "mean ETo of each month of the record: hindsight; our choice"}},
		Found:    []Finding{{"30% less, controllers set by researchers from historical ET", fieldHomes, abstract}},
	},
	{
		Name: "weather-following run times, as installed",
		What: "Run times follow reference ET from what is on the controller; rain is not known to it.",
		YAML: []string{"et_percent: {design_eto: auto, days: 7 days, max: 150%}"},
		Settings: []Setting{
			{"subtract_rain", "false", Guess, "no gauge is connected; our choice"},
			{"run times", "as found", Guess, "what was on the controller is taken as right for the peak month; our choice"},
		},
		Found: []Finding{
			{"2.1% to 41.6% less by program; 41.8% of 2,294 sites used more", fieldCA, secondary},
			{"one of eight controllers was within 20% of the recommended total", fieldTexas, secondary},
			{"only homes that had watered more than 450 mm a year saved", fieldHumid, abstract},
		},
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
		Found: []Finding{{"17% to 21% less as installed, 26% to 31% with programming on site", fieldOrange, secondary}},
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
		Found: []Finding{
			{"five of 17 studies found more water used, mostly at sites with little to save or with programming that was not adjusted", fieldReview,
				abstract},
			{"even with adjusted settings, at least 51% more than the gross requirement, as rain was not fully counted", fieldVirtual, abstract},
		},
	},
	{
		Name: "own water balance, set by a professional", Alone: true,
		What:     "A controller keeps a water balance with soil, roots and rate as measured.",
		YAML:     []string{"refill: {zones: all, mad: 35%, cycle: 8 min, soak: 40 min}"},
		Settings: []Setting{{"mad", "35%", Guess, "turf on uneven spray; our choice"}, {"cycle", "8 min", Guess, "our choice"}},
		Found: []Finding{
			{"30% less on average in positive studies of homes (28% to 32%), 51% on plots (40% to 61%)", fieldReview, abstract},
			{"36% to 59% less", fieldPlots, secondary},
		},
	},
	{
		Name: "soil sensor in each zone", What: "A sensor in each zone permits watering when its soil is dry enough.",
		YAML: []string{"sensor: {permit_at: 40%, placement: average, error: 5%}"},
		Settings: []Setting{
			{"permit_at", "40%", Guess, "of available water used; our choice"}, {"error", "5%", Guess, "our choice"},
		},
		Found: []Finding{
			{"18% to 42% less as installed, 35% to 41% with programming on site", fieldOrange, secondary},
			{"42% to 72% less in rainy periods, −1% to 64% in dry ones, on plots; 65% less in homes", fieldSensors, abstract},
		},
	},
	{
		Name: "soil sensor, one for the site", What: "One sensor in one zone permits watering in all of them.",
		YAML:     []string{"sensor: {permit_at: 40%, read_zone: <zone>, error: 5%}"},
		Settings: []Setting{{"permit_at", "40%", Guess, "as for each zone; our choice"}},
		Found: []Finding{
			{"44% less than homes without a sensor; how many zones one sensor served is not in the abstract", fieldReused, abstract},
			{"0% to 63% less", fieldPlots, secondary},
		},
	},
	{
		Name: "high-uniformity nozzles", What: "Multi-stream nozzles replace spray nozzles; run times give the same depth.",
		YAML: []string{"changes: [{zones: <spray lawns>, sprinkler: {kind: multi-stream, rate: 0.45 in/h, uniformity: 65%}, " +
			"minutes: same depth}]"},
		Settings: []Setting{
			{"rate", "0.45 in/h", Memory, "0.4 to 0.6 in/h for this kind"},
			{"uniformity", "65%", Guess, "0.70 is called a realistic benchmark for this kind (trade article); spray zones of homes measured " +
				"0.41 on average (Baum, Dukes and Miller 2005); our choice"},
			{"minutes", "same depth", Guess, "so that the depth is the same; with the same minutes water falls with the rate, not because of " +
				"uniformity"},
		},
		Found: []Finding{{nozzleRebate, fieldRebate, page}, {nozzleClaims, "pages of two water suppliers, without a study", claim}},
	},
	{
		Name: "high-uniformity nozzles, run times cut to match", What: "The same nozzles; run times then fall by what evener water allows.",
		YAML: []string{"changes: [{zones: <spray lawns>, sprinkler: {kind: multi-stream, rate: 0.45 in/h, uniformity: 65%}, " +
			"minutes: same depth}, {zones: <spray lawns>, minutes: 92%}]"},
		Settings: []Setting{
			{"minutes", "92%", Guess, "run-time multipliers 1/(0.4 + 0.6 DU) of 1.266 for DU 65% over 1.370 for 55%; the rule " +
				"from memory, our choice"},
			{"uniformity", "65%", Guess, "as above; our choice"},
		},
		Found: []Finding{{nozzleRebate, fieldRebate, page}, {nozzleClaims, "pages of two water suppliers, without a study", claim}},
	},
	{
		Name: "pressure regulation", What: "Heads run at 30 instead of 50 psi: they apply less in the same minutes, with less mist.",
		YAML: []string{"changes: [{zones: <spray lawns>, sprinkler: {spray_loss: 1.5%}, minutes: 77%}]"},
		Settings: []Setting{
			{"minutes", "77%", Guess, "in place of the flow, which follows the root of pressure: √(30/50) = 0.775; most spray heads are made " +
				"for 30 to 45 psi, and some systems run at 60 or more (EPA); our choice"},
			{"spray_loss", "1.5%", Guess, "less mist; our choice"},
		},
		Found: []Finding{{"11% less: 5,600 of 50,500 gal a year at 60 psi", "EPA estimate for spray sprinkler bodies, 2017, as reported", claim}},
	},
	{
		Name: "leaks and broken heads repaired", What: "Nothing leaks, breaks or lands outside; run times stay.",
		YAML:   []string{"changes: [{zones: all, leak: 0 gpm, sprinkler: {broken_heads: 0%, overspray: 0%}, minutes: same minutes}]"},
		Before: "changes: [{zones: <lawns>, leak: 0.02 gpm, sprinkler: {broken_heads: 3%, overspray: 8%}, minutes: same minutes}]",
		Against: "as found with losses of our choice in the lawns: 8% overspray, 3% through broken heads, and a leak of 0.02 gpm in " +
			"each",
		Settings: []Setting{{"losses", "0", Guess, "of a repair that is complete; our choice. It saves what the scenario says is lost, " +
			"and nothing without"}},
		Found: []Finding{
			{"of homes that watered above need, 75% and 79% used less after an inspection; homes below need used more", fieldFront, page},
			{"what homes of one year used above need fell by 39%, from 5.8 million gallons", fieldFront, page},
			{"0 to 19 thousand gallons a year of mean saving in the same 500 homes, by method of analysis", "sprinkler inspections of 2014, " +
				"Colorado, symposium abstract", abstract},
		},
	},
	{
		Name: "drip conversion of beds", What: "Drip replaces spray in beds; run times give the same depth.",
		YAML:     []string{"changes: [{zones: <beds>, sprinkler: {kind: drip, rate: 0.5 in/h}, minutes: same depth}]"},
		Settings: []Setting{{"rate", "0.5 in/h", Memory, "0.2 to 1 in/h"}, {"uniformity", "as the catalog has drip", Memory, "see drip"}},
		Found:    []Finding{{dripHomes, fieldHomes, abstract}},
	},
	{
		Name: "drip conversion of beds, run times cut to match", What: "The same drip; run times then fall by what evener water allows.",
		YAML: []string{"changes: [{zones: <beds>, sprinkler: {kind: drip, rate: 0.5 in/h}, minutes: same depth}, {zones: <beds>, minutes: 76%}]"},
		Settings: []Setting{{"minutes", "76%", Guess, "run-time multipliers 1/(0.4 + 0.6 DU) of 1.176 for DU 75% over 1.548 for 41%, with " +
			"no gain from spray loss; the rule from memory, our choice"}},
		Found: []Finding{{dripHomes, fieldHomes, abstract}},
	},
	{
		Name: "turf replaced by low-water plants", What: "Desert plants on drip replace turf, established before the figures begin; the " +
			"old run times are cut.",
		YAML: []string{"changes: [{zones: <lawns>, plant: desert plants, sprinkler: {kind: drip, rate: 0.4 in/h}, minutes: 30%}]"},
		Settings: []Setting{
			{"minutes", "30%", Guess, "K 0.3 against 0.8, with less lost; our choice"}, {"rate", "0.4 in/h", Memory, "0.2 to 1 in/h"},
		},
		Found: []Finding{
			{"31 gal/ft² a year in years 2 to 5, 48 in year 5, not significant in the first; 23.5 to 60.9 elsewhere", fieldRebate, page},
			{"outdoor use fell from 166 to 100 thousand gallons a home, where turf homes rose by 2", "DeOreo, Mayer and Rosales, southern " +
				"Nevada, 50 homes of each kind", abstract},
			{"33% less in all a home uses, 39% in summer, over five years", "Sovocool and Rosales 2001, southern Nevada", secondary},
			{"18% to over 50% less", "metered landscapes, Colorado Front Range, 1997-2002, 357 homes", secondary},
		},
	},
	{
		Name: "deeper roots by watering habits",
		What: "Roots deepen from 6 to 10 in, as fewer and longer waterings may bring about; days and run times stay as they are.",
		YAML: []string{"changes: [{zones: <lawns>, root_depth: 10 in, minutes: same minutes}]"},
		Settings: []Setting{{"root_depth", "10 in", Guess,
			"about a third of inspected lawns had shallow roots (Colorado); how deep they then grow is our choice"}},
		Found: []Finding{
			{"watered at wilt instead of daily, turf had more and longer roots over 24 cm, with half the water, but poor quality in " +
				"one of two summers",
				fieldGreen, abstract},
			{"more roots at 55 and 75 cm, and better quality in drought", fieldZoysia, abstract},
			{"tall fescue rooted no deeper at 60% of its need than at 100%", "tall fescue under a rain shelter, silt loam, 2001-2002", abstract},
		},
	},
}
