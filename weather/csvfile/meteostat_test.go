package csvfile

import (
	"testing"

	"loamledger/weather"
)

func TestMeteostat(t *testing.T) {
	for _, name := range []string{"meteostat.csv", "meteostat_bulk.csv"} {
		check(t, name, fixture(t, name), Options{}, 3, []want{
			{"2031-05-01", weather.Tmax, 18.5}, {"2031-05-01", weather.Tmin, 6.1}, {"2031-05-01", weather.Wind, 3}, {"2031-05-01", weather.Sun, 8},
			{"2031-05-02", weather.Wind, 4}, {"2031-05-02", weather.Rain, 2.4}, {"2031-05-03", weather.Rain, na},
		}, map[string]int{"missing-values rain_mm": 1, "missing-values wind_m_s": 1, "missing-values sun_h": 2})
	}
	hot := "date,tavg,tmin,tmax,prcp,snow,wdir,wspd,wpgt,pres,tsun\n2031-07-01,80,68,86,0.1,,,10,,,\n"
	checkFault(t, hot, Options{}, "do not fit the values: the median of 1 days, 86, would be 86.0 °C", "set the units: us")
	check(t, "us", hot, Options{Units: "us"}, 1, []want{{"2031-07-01", weather.Tmax, 30}, {"2031-07-01", weather.Rain, 2.54},
		{"2031-07-01", weather.Wind, 4.4704}},
		map[string]int{"empty-column sun_h": 1})
}

func FuzzReadMeteostat(f *testing.F) {
	fuzzLayout(f, "meteostat", fixture(f, "meteostat.csv"), fixture(f, "meteostat_bulk.csv"))
}
