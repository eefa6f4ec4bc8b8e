package ask

import "math"

// A climate is a kind of climate with typical monthly figures. They are synthetic:
// round numbers of no place, chosen so that each kind is clearly itself.
type climate struct {
	id, text              string
	dry, warm             bool // shrubs of dry climates; lawns that rest in winter
	summerHigh, summerLow float64
	winterHigh, winterLow float64     // mean daily high and low of the hottest and the coldest month [°F]
	rain                  float64     // of a year [in]
	shares                [12]float64 // of the year's rain by month, January first, north of the equator; their sum is 1
	perWetDay             float64     // rain on a mean wet day [mm]
}

var climates = []climate{
	{"desert", "desert: hot, hardly any rain", true, true, 105, 78, 67, 43, 8,
		[12]float64{.11, .11, .11, .04, .02, .02, .12, .13, .09, .07, .07, .11}, 5},
	{"dry summer", "dry summers, rain in mild winters", true, false, 88, 58, 58, 40, 17,
		[12]float64{.19, .18, .15, .07, .03, .01, 0, .005, .015, .05, .12, .18}, 9},
	{"dry plains", "dry plains, high valleys: cold winters", true, false, 89, 59, 45, 19, 16,
		[12]float64{.03, .03, .07, .11, .16, .14, .14, .12, .08, .06, .04, .02}, 6},
	{"humid cold", "rain all year, cold winters", false, false, 85, 64, 35, 19, 38,
		[12]float64{.06, .055, .075, .09, .10, .105, .105, .10, .09, .08, .075, .065}, 8},
	{"humid warm", "rain all year, mild winters", false, true, 91, 72, 58, 38, 50,
		[12]float64{.085, .085, .095, .08, .08, .095, .10, .09, .08, .06, .07, .08}, 11},
	{"cool coast", "cool and cloudy, wet winters", false, false, 77, 55, 47, 36, 38,
		[12]float64{.145, .105, .10, .075, .055, .04, .02, .025, .04, .095, .155, .145}, 6},
	{"wet summer", "warm all year, wet summers", false, true, 90, 76, 78, 60, 55,
		[12]float64{.03, .03, .04, .05, .09, .16, .15, .16, .14, .08, .04, .03}, 11},
}

func climateChoices() (out []Option) {
	for i := range climates {
		out = append(out, Option{ID: climates[i].id, Text: climates[i].text})
	}
	return out
}

// A figure is one of the figures that describe a climate's weather.
type figure int

const (
	summerHigh figure = iota
	summerLow
	winterHigh
	winterLow
	yearRain
)

// of returns the climate's own value [°F or in].
func (c *climate) of(f figure) float64 {
	return [...]float64{c.summerHigh, c.summerLow, c.winterHigh, c.winterLow, c.rain}[f]
}

// climate returns the climate that was chosen; if none was, the one that latitude
// alone suggests.
func (a *Answers) climate() (c *climate, known bool) {
	id := "humid cold"
	switch lat := math.Abs(a.latitude()); {
	case lat < 23.5:
		id = "wet summer"
	case lat < 35:
		id = "humid warm"
	}
	known = chosen(climateChoices(), a.Climate) >= 0
	if known {
		id = climateChoices()[chosen(climateChoices(), a.Climate)].ID
	}
	for i := range climates {
		if climates[i].id == id {
			c = &climates[i]
		}
	}
	return c, known
}
