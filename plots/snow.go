package plots

import "fmt"

// Snow is the part of the rain that probably fell as snow: means of a year, and the
// share of all rain.
type Snow struct {
	DaysPerYear, MMPerYear, Share float64
}

// leastSnowShare is the share of the rain from which the report mentions snow. Our
// choice: below it, snow moves less water than a gauge misses.
const leastSnowShare = 0.05

// matters reports whether the report must mention snow.
func (s *Snow) matters() bool { return s.Share >= leastSnowShare }

// snowNote says how much of the rain was snow and what became of it; empty if it is
// little.
func (s *Study) snowNote(snow *Snow) string {
	if !snow.matters() {
		return ""
	}
	return fmt.Sprintf("%s of the rain probably fell as snow: %s a year on %s days with a mean of at most %s. The replay lets it enter "+
		"the soil on "+
		"the day it falls. Snow that melts later, blows away or runs off frozen ground fills the soil later, or less",
		percent(snow.Share), s.Units.depthWords(snow.MMPerYear), fixed(snow.DaysPerYear, 0), s.Units.pick("34 °F", "1 °C"))
}
