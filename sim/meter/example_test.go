package meter_test

import (
	"fmt"

	"loamledger/sim/meter"
	"loamledger/weather/cal"
)

// The supplier estimated June and read the meter in July: the two months are known only together.
func ExampleClean() {
	may, june, july, august := cal.Of(2031, 5, 1), cal.Of(2031, 6, 1), cal.Of(2031, 7, 1), cal.Of(2031, 8, 1)
	h := meter.Clean([]meter.Read{
		{From: may, To: june, M3: 62, Kind: meter.Actual},
		{From: june, To: july, M3: 50, Kind: meter.Estimated},
		{From: july, To: august, M3: 133, Kind: meter.Actual},
	}, 1)
	for _, p := range h.Periods {
		fmt.Printf("%v to %v: %v m³, %.1f a day, %s\n", p.From, p.To, p.M3, p.PerDay(), p.Kind)
	}
	// Output:
	// 2031-05-01 to 2031-06-01: 62 m³, 2.0 a day, actual
	// 2031-06-01 to 2031-08-01: 183 m³, 3.0 a day, corrected
}
