package generate_test

import (
	"fmt"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/generate"
)

// A yearbook gives rain, wet days and temperatures; everything else is left
// out or stands in by a stated assumption.
func ExampleGenerate() {
	n := generate.Normals{
		RainMM:  [12]float64{60, 50, 50, 45, 40, 25, 10, 12, 30, 55, 65, 70},
		WetDays: [12]float64{10, 9, 9, 8, 7, 5, 2, 2, 5, 8, 10, 11},
		TmaxC:   [12]float64{11, 12, 15, 17, 21, 26, 29, 29, 26, 21, 15, 12},
		TminC:   [12]float64{3, 3, 5, 7, 10, 14, 16, 16, 14, 10, 6, 4},
	}
	p, err := n.Params()
	if err != nil {
		fmt.Println(err)
		return
	}
	rec, err := generate.Generate(p, weather.UnknownStation(), cal.Of(2020, 1, 1), 366, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(rec.Days, "days to", rec.End(), "marked as", rec.Mark[weather.Rain][0])
	fmt.Println(p.Assumptions[0])
	// Output:
	// 366 days to 2020-12-31 marked as synthetic
	// daytime is 3 °C cooler on wet days than on dry ones (common practice, no source)
}
