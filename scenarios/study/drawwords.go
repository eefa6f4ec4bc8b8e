package study

import (
	"strings"

	"loamledger/scenarios"
)

// causeWords name what is in doubt, by the key of the parameter.
var causeWords = map[string]string{
	"eto": "reference ET", "rain": "rain", "area": "area", "root_depth": "root depth", "density": "density", "microclimate": "microclimate",
	"slope": "slope", "leak": "leak", "storage": "working storage",
	"plant.k": "water need (K)", "plant.k_growing": "water need (K)", "plant.k_resting": "water need at rest (K)",
	"plant.rests_below": "temperatures of growth", "plant.grows_above": "temperatures of growth",
	"plant.tolerance": "stress marks", "plant.browning": "stress marks", "plant.p": "stress fraction p",
	"soil.awc": "available water capacity", "soil.intake": "intake rate", "soil.surface_storage": "surface storage",
	"soil.curve_number": "curve number", "rain.effective": "effective share of rain",
	"sprinkler.rate": "sprinkler rate", "sprinkler.flow": "flow", "sprinkler.emitters": "number of emitters",
	"sprinkler.emitter_flow": "flow of an emitter", "sprinkler.uniformity": "uniformity", "sprinkler.spray_loss": "spray loss",
	"sprinkler.overspray": "overspray", "sprinkler.broken_heads": "broken heads", "sprinkler.fill_drain": "filling and draining",
}

// ownWords name what a program or a strategy has entered, by the last part of the key, and
// say whether it can be read off the controller or the device.
var ownWords = map[string]struct {
	text string
	read bool
}{
	"minutes": {"run time", true}, "cycle": {"longest cycle", true}, "soak": {"soak time", true}, "ramp_to": {"last run time", true},
	"every": {"days between waterings", true}, "monthly": {"monthly percentages", true}, "zone_percent": {"zone percentage", true},
	"round": {"rounding step", true}, "design_eto": {"design ETo", true}, "days": {"days averaged", true}, "min": {"lowest percentage", true},
	"max": {"highest percentage", true}, "at_least": {"trip level", true}, "dry_out": {"days on hold", true}, "dry_out_eto": {"drying", true},
	"below": {"hold below", true}, "above": {"hold above", true}, "mad": {"MAD", true}, "extra": {"extra run time", true},
	"share": {"share of need", true}, "permit_at": {"permitted from", true}, "frost_free_days": {"frost-free days", true},
	"override_beyond": {"override", true}, "miss_rate": {"rain days missed", false}, "error": {"reading error", false},
	"assumed_storage": {"assumed TAW", true}, "assumed_rate": {"assumed rate", true}, "assumed_k": {"assumed K", true},
	"assumed_rain": {"assumed rain", false}, "assumed_rain_error": {"error of assumed rain", false},
	"target": {"percentages aimed for", false},
	"edits":  {"changes a year", false}, "min_delay": {"shortest delay", false}, "max_delay": {"longest delay", false},
	"raise_by": {"increase when dry", false}, "steps": {"increases at most", false}, "visible_below": {"stress that is seen", false},
	"raise_after": {"days before an increase", false}, "lower_after": {"days before a decrease", false},
	"price": {"price", false}, "amount": {"amount", false}, "percent": {"percentage", false},
	"cost": {"cost", false}, "upkeep": {"upkeep", false}, "life": {"life", false}, "discount": {"discount rate", false},
	"money.discount": {"discount rate", false},
}

// ownKey returns the part of a key that says what is entered: a zone may follow it.
func ownKey(key string) string {
	parts := strings.Split(key, ".")
	for _, part := range parts {
		if part == "minutes" || part == "zone_percent" {
			return part
		}
	}
	return parts[len(parts)-1]
}

// causeText names a cause for a reader.
func causeText(d *scenarios.Doubt) string {
	text := causeWords[d.Key]
	if d.Zone == "" && text == "" {
		own := ownKey(d.Key)
		if text = ownWords[own].text; text == "" {
			text = strings.ReplaceAll(own, "_", " ")
		}
		if _, zone, of := strings.Cut(d.Key, own+"."); of {
			text += " of " + zone
		}
	}
	if text == "" {
		text = d.Key
	}
	if d.Whose == scenarios.WholeSite {
		return text
	}
	return text + ", " + d.Whose
}

// howToMeasure says how a cause can be measured with simple means; empty if it cannot.
func howToMeasure(d *scenarios.Doubt) string {
	if d.Zone == "" && ownWords[ownKey(d.Key)].read && d.Whose != scenarios.WholeSite {
		return "the " + causeText(d) + ": read it off the controller or the device."
	}
	switch d.Key {
	case "sprinkler.rate", "sprinkler.flow", "sprinkler.emitter_flow":
		return "the flow of " + d.Whose + ": with all other water off, run it for five minutes and read the water meter before and after."
	case "sprinkler.uniformity":
		return "the uniformity of " + d.Whose + ", with straight-sided catch cans."
	case "area":
		return "the area of " + d.Whose + ", with a tape or on an aerial picture."
	case "root_depth":
		return "the root depth of " + d.Whose + ": dig at a few places."
	case "rain":
		return "rain at the site, with a gauge."
	case "soil.awc":
		return "the texture of the soil at a few places, by a laboratory: it narrows what the soil can hold."
	case "soil.intake":
		return "how fast the soil takes water: fill a ring and time it."
	case "leak":
		return "the leak: read the meter at night, with all valves closed."
	case "sprinkler.overspray", "sprinkler.broken_heads":
		return "what misses " + d.Whose + ": run it and look."
	}
	return ""
}
