package scenarios

import (
	"strings"

	"loamledger/weather/diag"
)

// An ExactKey is a key of a scenario that takes a number and no range, with the reason.
type ExactKey struct {
	// under is the first key above it, such as "weather"; empty for every place.
	under, key string
	why        string // said after "cannot be a range: "
	fix        string
}

// establishKey is the key of how new plants grow in.
const establishKey = "establish"

const (
	writeOne  = "write one number"
	siteFix   = "write one number; ranges: {eto: 90% to 110%} says how far reference ET may be off"
	meterFix  = "write one number; what meters have seen is scored with its own error"
	stateRule = "write the number that the rule states"
)

// exactKeys lists every key that takes a number and that no draw can vary. What takes a
// number and is not listed may be a range.
func exactKeys() []ExactKey {
	return []ExactKey{
		{"", "seed", "it chooses random numbers and measures nothing", writeOne},
		{"", "strips", "it is how finely non-uniformity is computed", writeOne},
		{"", "catch_cans", "the cans are measurements", "write what the catch cans hold, or uniformity: 50% to 60%"},
		{"", monthlyK, "the twelve months of a plant would be off together", "write one k: 0.6 to 0.8 for the year, or twelve numbers"},
		{"site", "latitude", "it is known from any map", writeOne},
		{"site", "longitude", "it is known from any map", writeOne},
		{"site", "elevation", "it is known from any map, and moves little", siteFix},
		{"weather", "wind_height", "it acts on reference ET, which is computed once, before the draws", siteFix},
		{"weather", "dew_point_offset", "it acts on reference ET, which is computed once, before the draws", siteFix},
		{"weather", "default_wind", "it acts on reference ET, which is computed once, before the draws", siteFix},
		{"weather", "exclude_years", "it names years", writeOne},
		{"weather", "max_fill_days", "it is a rule for gaps, which are filled once, before the draws", writeOne},
		{"weather", "max_fill_run", "it is a rule for gaps, which are filled once, before the draws", writeOne},
		{"start", "depletion", "the soil forgets its start within weeks", "write one number, or remove start: the first year finds it"},
		{"controllers", "stations", "it can be counted", "count the valves that it can serve, and write one number"},
		{"controllers", "at_once", "it can be seen on the controller", "look at the controller, and write one number"},
		{"meters", "flow", "it is a capacity that decides who waits, and moves little water", "write the lowest flow that you trust"},
		{"meters", "people", "base use is compared with meter reads and not drawn", meterFix},
		{"meters", "base_use", "base use is compared with meter reads and not drawn", meterFix},
		{"meters", "volume", "an event is removed from meter reads and not drawn", meterFix},
		{"limits", "flow", "it is a capacity that decides who waits, and moves little water", "write the lowest flow that you trust"},
		{"limits", "every", "a rule of the place states one number", stateRule},
		{"limits", "max_minutes", "a rule of the place states one number", stateRule},
		{"timer", "", "its manual states one number", "write what the manual says"},
		{"controllers", "", "its manual states one number", "write what the manual says"},
		{"forecast", "", "forecasts are made once, before the draws, so that strategies meet the same ones", writeOne},
		{"verdict", "", "it is a bound that you choose", writeOne},
		{"allowance", "", "a rule of the place states one number", stateRule},
		{"ranges", "draws", "it is a number of draws", writeOne},
		{"strategies", "life", "the yearly figures have devices that work; age is shown apart from them", "write the mean life"},
		{"strategies", "fails_at", "the yearly figures have devices that work; age is shown apart from them", writeOne},
		{"strategies", "unplugged", "the yearly figures have devices that work; age is shown apart from them", writeOne},
		{"strategies", "overridden", "the yearly figures have devices that work; age is shown apart from them", writeOne},
		{"strategies", "removal", "it sets dates of the plan, which draws do not move", writeOne},
		{"strategies", establishKey, "it sets dates of the plan, which draws do not move", writeOne},
		{"strategies", changedMinutes, "it goes with other hardware, which controllers know as stated",
			"write one percentage, and a range under zone_percent of the strategy"},
		{"strategies", "cost", "no draw counts this cost", "write one number; the cost of a project under money may be a range, and is drawn"},
	}
}

// exactKey returns the entry for the number w under an input path; nil if it may be a
// range.
func exactKey(path, key string) *ExactKey {
	above := strings.Split(path, ".")
	list := exactKeys()
	for i := range list {
		k := &list[i]
		switch {
		case k.under != "" && k.under != above[0]:
		case k.key == "" || k.key == key || k.key == establishKey && strings.Contains(path, "."+establishKey+"."):
			return k
		}
	}
	return nil
}

// changedMinutes is what the run times after a change are called in [exactKeys].
const changedMinutes = "minutes after a change"

// monthlyK is what the list of a plant's twelve coefficients is called in [exactKeys].
const monthlyK = "k of a month"

// inputOf returns the path of the input that w describes.
func (g group) inputOf(w want) string { return orElse(w.input, g.path(w.key)) }

func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

// refuse reports a range where none can be.
func (g group) refuse(n *Node, w want) {
	why, fix := "only one number has a meaning here", writeOne
	if k := exactKey(g.inputOf(w), orElse(w.exactAs, w.key)); k != nil {
		why, fix = k.why, k.fix
	}
	g.fault(diag.WrongShape, n.Pos, fix, "%s: %s cannot be a range: %s", g.where, w.key, why)
}
