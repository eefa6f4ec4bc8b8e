package forecast_test

import (
	"fmt"

	"loamledger/weather/cal"
	"loamledger/weather/forecast"
)

// On the morning of 2 July only what was issued by the evening of 1 July is
// known; what is issued during 2 July is for the next morning.
func ExampleArchive_Known() {
	day := func(d int) cal.Date { return cal.Of(2024, 7, d) }
	early, late := forecast.Unknown(day(1), day(3)), forecast.Unknown(day(2), day(3))
	early.RainMM, late.RainMM = 4, 11
	a, err := forecast.NewArchive([]forecast.Forecast{late, early})
	if err != nil {
		fmt.Println(err)
		return
	}
	for d := 1; d <= 3; d++ {
		if f, ok := a.Known(day(d), day(3)); ok {
			fmt.Printf("on %v: %g mm, lead %d\n", day(d), f.RainMM, f.LeadDays())
		} else {
			fmt.Printf("on %v: nothing known\n", day(d))
		}
	}
	// Output:
	// on 2024-07-01: nothing known
	// on 2024-07-02: 4 mm, lead 2
	// on 2024-07-03: 11 mm, lead 1
}
