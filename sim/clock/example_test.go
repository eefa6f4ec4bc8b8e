package clock_test

import (
	"fmt"

	"loamledger/sim"
	"loamledger/sim/clock"
)

// Two zones of one program, from 05:00 on: while the first soaks, the second runs.
func ExampleTimetable_Lay() {
	soaking := sim.Run{Minutes: 20, CycleMin: 10, SoakMin: 30}
	var t clock.Timetable
	t.Lay([]clock.Start{{AtMin: 300, Runs: []clock.ZoneRun{{Zone: 0, Run: soaking}, {Zone: 1, Run: sim.Run{Minutes: 15}}}}})
	for _, o := range t.Openings {
		fmt.Printf("zone %d from %.0f to %.0f min\n", o.Zone, o.FromMin, o.ToMin)
	}
	// Output:
	// zone 0 from 300 to 310 min
	// zone 1 from 310 to 325 min
	// zone 0 from 340 to 350 min
}
