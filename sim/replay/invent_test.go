package replay

import (
	"math"
	"math/rand/v2"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// inventWeather makes n days of an invented place with warm dry summers.
func inventWeather(seed uint64, n int) sim.Weather {
	r := rand.New(rand.NewPCG(seed, 1))
	w := sim.Weather{Start: cal.Of(1990, 1, 1), RainMM: make([]float64, n), EToMM: make([]float64, n), TminC: make([]float64, n)}
	for i := range n {
		season := math.Cos(2 * math.Pi * (float64(i%365) - 200) / 365)
		w.EToMM[i] = max(0.2, 3.5+2.8*season+0.8*r.NormFloat64())
		w.TminC[i] = 8 + 10*season + 3*r.NormFloat64()
		if r.Float64() < 0.22-0.08*season {
			w.RainMM[i] = 9 * r.ExpFloat64()
		}
	}
	return w
}

// inventZones makes count zones that differ in soil, plant and sprinkler.
func inventZones(count, strips int) []sim.Zone {
	zones := make([]sim.Zone, count)
	for i := range zones {
		f := float64(i)
		z := sim.Zone{Name: string(rune('a' + i)), AreaM2: 100 + 40*f, TAWMM: 20 + 9*f, P: 0.4 + 0.02*f, PRMMH: 12 + 4*f, LossShare: 0.02,
			DULQ: 0.45 + 0.05*f, Strips: strips, IntakeMMH: 4 + 3*f, SurfaceStorageMM: 4, Rain: sim.Rain{CN: 62 + 3*f}, ToleranceR7: 0.75 + 0.02*f,
			BrowningR7: 0.45 + 0.02*f}
		for m := range z.K {
			z.K[m] = 0.5 + 0.03*f + 0.2*math.Sin(float64(m)/4)
		}
		zones[i] = z
	}
	return zones
}

// inventStrategies makes six strategies that differ in kind.
func inventStrategies(zones int) []strategy.Strategy {
	minutes := make([]float64, zones)
	all := make([]bool, zones)
	for i := range minutes {
		minutes[i], all[i] = 12+3*float64(i), true
	}
	mwf := strategy.DayRule{Kind: strategy.Weekdays, Weekdays: [7]bool{1: true, 3: true, 5: true}}
	prog := func(r strategy.DayRule, starts ...int) strategy.Programs {
		return strategy.Programs{List: []strategy.Program{{Name: "p", Days: r, Starts: starts, Minutes: minutes, Cycle: 8, Soak: 30}}}
	}
	monthly := strategy.Monthly{Share: [12]float64{0, 0, .4, .6, .8, 1, 1, .95, .75, .5, .25, 0}}
	return []strategy.Strategy{
		{Name: "fixed", Parts: []strategy.Part{prog(mwf, 330)}},
		{Name: "twice", Parts: []strategy.Part{prog(strategy.DayRule{Kind: strategy.OddDays}, 300, 600)}},
		{Name: "monthly", Parts: []strategy.Part{prog(mwf, 330), monthly, strategy.FrostHold{BelowC: 2}}},
		{Name: "weather", Parts: []strategy.Part{prog(mwf, 330), strategy.ETPercent{DesignEToMM: 6, Days: 7, SubtractRain: true, Max: 1.5},
			strategy.RainHold{AtLeastMM: 6, DryOut: 2}}},
		{Name: "refill", Parts: []strategy.Part{&strategy.Refill{Zones: all, MAD: 0.5, Extra: -1, CycleMin: 8, SoakMin: 30}}},
		{Name: "sensor", Parts: []strategy.Part{prog(strategy.DayRule{Kind: strategy.Interval, Every: 2, From: 0}, 330),
			strategy.Sensor{PermitAt: 0.35, Zones: all, Placement: "average"}}},
	}
}
