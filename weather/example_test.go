package weather_test

import (
	"fmt"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// Three days, of which the station measured two. A value knows where it came from.
func ExampleSeries() {
	s := weather.NewSeries(weather.UnknownStation(), cal.Of(2031, 7, 1), 3, weather.Tmax)
	s.Set(weather.Tmax, 0, 31.5, weather.Observed)
	s.Set(weather.Tmax, 2, 33.5, weather.Observed)
	fmt.Println(s.CountMissing(weather.Tmax), s.At(weather.Tmax, 1), s.Has(weather.Rain))
	s.Set(weather.Tmax, 1, 32.5, weather.Interpolated)
	fmt.Println(s.Date(1), weather.Tmax.Key(), s.At(weather.Tmax, 1), s.Mark[weather.Tmax][1].Filled())
	// Output:
	// 1 NaN false
	// 2031-07-02 tmax_c 32.5 true
}

// One degree along a meridian is 2π·6371.0088 km / 360 = 111.195 km.
func ExampleDistanceKM() {
	a, b := weather.UnknownStation(), weather.UnknownStation()
	a.LatDeg, a.LonDeg = 38, -104
	b.LatDeg, b.LonDeg = 39, -104
	fmt.Printf("%.1f km\n", weather.DistanceKM(a, b))
	// Output: 111.2 km
}
