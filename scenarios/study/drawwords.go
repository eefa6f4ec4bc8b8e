package study

import "loamledger/scenarios"

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

// causeText names a cause for a reader.
func causeText(d *scenarios.Doubt) string {
	text := causeWords[d.Key]
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
	switch d.Key {
	case "sprinkler.rate", "sprinkler.flow", "sprinkler.emitter_flow":
		return "the flow of " + d.Whose + ": run it for five minutes and read the water meter before and after."
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
