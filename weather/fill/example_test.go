package fill_test

import (
	"fmt"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/fill"
)

// Two missing days between 20 and 26 °C get the values on the straight line between them, and are counted.
func ExampleFill() {
	s := weather.NewSeries(weather.UnknownStation(), cal.Of(2031, 7, 1), 4, weather.Tmax, weather.Tmin, weather.Rain)
	for i, tmax := range []float64{20, 0, 0, 26} {
		s.Set(weather.Tmin, i, 10, weather.Observed)
		s.Set(weather.Rain, i, 0, weather.Observed)
		if tmax > 0 {
			s.Set(weather.Tmax, i, tmax, weather.Observed)
		}
	}
	findings, err := fill.Fill(s, fill.Options{})
	fmt.Println(s.Data[weather.Tmax], err)
	for _, f := range findings {
		fmt.Println(f.Code, f.Column, f.Count)
	}
	// Output:
	// [20 22 24 26] <nil>
	// filled-interpolated tmax_c 2
}
