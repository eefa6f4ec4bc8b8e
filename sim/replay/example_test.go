package replay_test

import (
	"context"
	"fmt"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// Ten hot days without rain on one lawn: watered daily, left alone, and given
// the least that keeps it from stress.
func ExampleRun() {
	lawn := sim.Zone{Name: "lawn", AreaM2: 200, TAWMM: 40, P: 0.4, PConstant: true, PRMMH: 30, DULQ: 0.7, Strips: 4,
		IntakeMMH: 20, SurfaceStorageMM: 6, Rain: sim.Rain{CN: 74},
		ToleranceR7: 0.8, BrowningR7: 0.5}
	for m := range lawn.K {
		lawn.K[m] = 0.8
	}
	weather := sim.Weather{Start: cal.Of(2024, 7, 1), RainMM: make([]float64, 10), EToMM: []float64{6, 6, 7, 7, 8, 8, 7, 6, 6, 7}}
	daily := strategy.Programs{List: []strategy.Program{{Name: "daily", Starts: []int{330}, Minutes: []float64{12}}}}
	job := &replay.Job{Zones: []sim.Zone{lawn}, Weather: weather, NoSpinUp: true,
		Strategies: []strategy.Strategy{{Name: "12 min a day", Parts: []strategy.Part{daily}}}}
	table, err := replay.Run(context.Background(), job, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for s, name := range table.Strategies {
		sum := table.Total(s, 0)
		fmt.Printf("%s: %.1f mm, %d stress days, %.0f%% of need met\n", name, sum.GrossMM, sum.StressZoneDays, 100*sum.NeedMet())
	}
	// Output:
	// 12 min a day: 60.0 mm, 0 stress days, 100% of need met
	// no watering: 0.0 mm, 3 stress days, 66% of need met
	// least water at full supply: 32.8 mm, 0 stress days, 100% of need met
}
