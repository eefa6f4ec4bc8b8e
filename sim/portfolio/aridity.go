package portfolio

import "slices"

// An aridity is a class of climates by rain ÷ reference ET, below an upper bound.
type aridity struct {
	name  string
	below float64
}

// aridities are the classes of the World Atlas of Desertification (UNEP 1992; second edition 1997), by the mean yearly rain
// divided by the mean
// yearly potential ET: hyper-arid below 0.05, arid below 0.20, semi-arid below 0.50, dry subhumid below 0.65, humid from
// there. As quoted in the legend of the global humidity zones of the University of Arizona; the atlas itself was not
// consulted. The atlas has potential ET by the method of Thornthwaite (from memory), here it is the reference ET of the record.
var aridities = [...]aridity{{"hyper-arid", 0.05}, {"arid", 0.20}, {"semi-arid", 0.50}, {"dry subhumid", 0.65}}

// humid is the class above all bounds.
const humid = "humid"

// Aridity returns the class of a climate: its mean yearly rain and reference ET [mm]. It is
// empty if either is not known, or ET is not above 0.
func Aridity(rainMM, etoMM *float64) string {
	if rainMM == nil || etoMM == nil || !(*etoMM > 0) {
		return ""
	}
	for _, c := range aridities {
		if *rainMM / *etoMM < c.below {
			return c.name
		}
	}
	return humid
}

// AridityBounds returns the shares of ETo between which the rain of a class is; ok is false for another name. The last class has no upper
// bound: it is 0.
func AridityBounds(name string) (low, high float64, ok bool) {
	for _, c := range aridities {
		if c.name == name {
			return low, c.below, true
		}
		low = c.below
	}
	return low, 0, name == humid
}

// Drier orders classes from the driest to the wettest, unknown ones last.
func Drier(a, b string) int {
	place := func(name string) int {
		at := slices.IndexFunc(aridities[:], func(c aridity) bool { return c.name == name })
		switch {
		case at >= 0:
			return at
		case name == humid:
			return len(aridities)
		}
		return len(aridities) + 1
	}
	return place(a) - place(b)
}
