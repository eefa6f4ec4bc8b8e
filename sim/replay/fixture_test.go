package replay_test

import (
	"math"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// invented returns n days of an invented place from 2001-01-01, the same every
// time: warm dry summers, a rain every few days.
func invented(n int) sim.Weather {
	w := sim.Weather{Start: cal.Of(2001, 1, 1), RainMM: make([]float64, n), EToMM: make([]float64, n), TminC: make([]float64, n),
		WindMS: make([]float64, n)}
	for i := range n {
		season := math.Sin(2 * math.Pi * (float64(i) - 100) / 365)
		w.EToMM[i] = 3.7 + 2.9*season + 0.6*math.Sin(float64(i)*1.7)
		w.TminC[i] = 7 + 9*season + 3*math.Sin(float64(i)*0.9)
		w.WindMS[i] = 2 + math.Sin(float64(i))
		if i%5 == 2 || i%11 == 7 {
			w.RainMM[i] = 7 + 6.5*math.Sin(float64(i)*2.3)
		}
	}
	return w
}

// still returns n days from start with the same ETo and no rain.
func still(start cal.Date, n int, eto float64) sim.Weather {
	w := sim.Weather{Start: start, RainMM: make([]float64, n), EToMM: make([]float64, n), TminC: make([]float64, n),
		WindMS: make([]float64, n)}
	for i := range n {
		w.EToMM[i], w.TminC[i] = eto, 12
	}
	return w
}

// everyMonth returns the same coefficient twelve times.
func everyMonth(k float64) (all [12]float64) {
	for m := range all {
		all[m] = k
	}
	return all
}

// plainZone is one even strip without losses on a soil that takes in all rain
// and water: TAW 100 mm, p 0.4 not adjusted, K 1, PR 60 mm/h, so that one
// minute is one millimeter.
func plainZone(name string) sim.Zone {
	return sim.Zone{Name: name, AreaM2: 100, TAWMM: 100, P: 0.4, PConstant: true, K: everyMonth(1), PRMMH: 60, DULQ: 1, Strips: 1,
		IntakeMMH: 1000, SurfaceStorageMM: 5, Rain: sim.Rain{Method: sim.FixedShare, EffectiveShare: 1}}
}

// A schedule waters zone 0 for the given minutes on each day of a plan.
type schedule []float64

func (schedule) Kind() strategy.Kind { return strategy.Kind{Key: "schedule"} }

func (schedule) Stage() strategy.Stage { return strategy.Scale }

func (s schedule) Apply(d *strategy.Draft) {
	d.Programs = append(d.Programs, strategy.Program{Name: "schedule", Starts: []int{300},
		Minutes: append([]float64{1}, make([]float64, len(d.Site.Zones)-1)...)})
	d.Scale = append([]float64(nil), s...)
}
