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

// FAO-56 example 18 from its intermediate values: Brussels, 6 July. The book prints 3.88 mm/d, and 3.9 as the result.
func ExampleSurface_ReferenceET() {
	slope, gamma := et0.Slope(16.9), et0.PsychrometricConstant(et0.Pressure(100))
	wind := et0.WindAt2M(10/3.6, 10)
	fmt.Printf("%.3f kPa/°C, %.4f kPa/°C, %.3f m/s\n", slope, gamma, wind)
	fmt.Printf("%.2f mm/d\n", et0.Short().ReferenceET(slope, gamma, 13.28, 0, 16.9, wind, 0.589))
	// Output:
	// 0.122 kPa/°C, 0.0666 kPa/°C, 2.078 m/s
	// 3.88 mm/d
}

// FAO-56 example 8: 20° south on 3 September, printed as 32.2 MJ/m².
func ExampleRa() {
	doy := cal.Of(2031, 9, 3).YearDay()
	fmt.Printf("%.1f MJ/m²\n", et0.Ra(-20, doy))
	// Output: 32.2 MJ/m²
}
