package strategy

// A Forecast is the forecasts for a site. RainMM and Probability are by lead, then
// by day of the record: element [l][i] was issued by the evening before day i and
// is for day i+l, so l = 0 is today. Spin-up days use the forecasts of the days
// they repeat. NaN means that none was issued. The zero Forecast is empty.
type Forecast struct {
	RainMM      [][]float64 // amount [mm]
	Probability [][]float64 // probability of rain, 0 to 1
}

// MaxLead is the number of days, including today, that a forecast covers.
const MaxLead = 7

// The sources of a forecast hold.
const (
	siteForecast    = "site"    // the site's forecast
	PerfectForecast = "perfect" // the weather itself, a bound
	noForecast      = "none"    // no forecast, the other bound
)
