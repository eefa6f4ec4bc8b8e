package strategy

// A Forecast is what was forecast to a site. RainMM and Probability are by
// lead, then by day of the record: element [l][i] was issued by the evening
// before day i and is for day i+l, so that l = 0 is today. Spin-up days know
// what their days of the record do. NaN means that nothing was issued. The zero Forecast holds none.
type Forecast struct {
	RainMM      [][]float64 // amount [mm]
	Probability [][]float64 // probability of rain, 0 to 1
}

// MaxLead is how many days ahead, today being the first, a forecast reaches.
const MaxLead = 7

// What a forecast skip looks at, by the word of its source.
const (
	SiteForecast    = "site"    // the site's forecast
	PerfectForecast = "perfect" // the weather itself, a bound
	NoForecast      = "none"    // nothing, the other bound
)
