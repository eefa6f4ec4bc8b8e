package et0_test

import (
	"fmt"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/et0"
)

// One day with everything but the wind. The number is a recording.
func ExampleDaily() {
	st := weather.Station{LatDeg: 38.9, ElevM: 1600, WindHeightM: 2}
	s := weather.NewSeries(st, cal.Of(2012, 7, 1), 1)
	for c, v := range map[weather.Column]float64{weather.Tmax: 33, weather.Tmin: 15, weather.Tdew: 9, weather.Rs: 27} {
		s.Add(c)
		s.Set(c, 0, v, weather.Observed)
	}
	r, err := et0.Daily(s, et0.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f mm by %v\n", r.EToMM[0], r.Methods[0])
	for _, f := range r.Findings {
		fmt.Printf("%s: %s\n", f.Code, f.What)
	}
	// Output:
	// 6.8 mm by full equation with estimates: measured radiation, dew point, assumed wind
	// wind-assumed: no wind: 2 m/s at 2 m assumed
}
