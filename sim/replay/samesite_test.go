package replay

import (
	"reflect"
	"slices"
	"testing"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/strategy"
)

// Every field of a job and of its weather either makes another site of it, or is known not to: with a new field, decide
// which, so that a run is not taken over from one of another site.
func TestSameSiteKnowsEveryField(t *testing.T) {
	column := func() []float64 { return []float64{1, 2} }
	job := func() *Job {
		return &Job{Weather: sim.Weather{Start: 10, RainMM: column(), EToMM: column()}, Zones: make([]sim.Zone, 1)}
	}
	other := map[string]func(j *Job){
		"Weather":      nil, // field by field below
		"Zones":        func(j *Job) { j.Zones = make([]sim.Zone, 2) },
		"Strategies":   func(j *Job) { j.Strategies = []strategy.Strategy{{Parts: []strategy.Part{&strategy.Refill{}}}} },
		"Limits":       func(j *Job) { j.Limits = &strategy.Limits{} },
		"Wiring":       func(j *Job) { j.Wiring = &clock.Wiring{} },
		"Forecast":     func(j *Job) { j.Forecast.RainMM = [][]float64{column()} },
		"NoSpinUp":     func(j *Job) { j.NoSpinUp = true },
		"StartShare":   func(j *Job) { j.StartShare = 0.5 },
		"South":        func(j *Job) { j.South = true },
		"ExcludeYears": func(j *Job) { j.ExcludeYears = []int{2001} },
		"Brief":        func(j *Job) { j.Brief = true },
		"Daily":        func(j *Job) { j.Daily = true },
		"Start":        func(j *Job) { j.Weather.Start++ },
		"RainMM":       func(j *Job) { j.Weather.RainMM = column() }, // equal, but in other memory
		"EToMM":        func(j *Job) { j.Weather.EToMM = column() },
		"TmaxC":        func(j *Job) { j.Weather.TmaxC = column() },
		"TminC":        func(j *Job) { j.Weather.TminC = column() },
		"WindMS":       func(j *Job) { j.Weather.WindMS = column() },
		"Probability":  func(j *Job) { j.Forecast.Probability = [][]float64{column()} },
	}
	same := []string{
		"DosesOnly", "MarkShifts", "Workers", // the same in every Repeat
		"Step", "Filled", // no number depends on them
	}
	for _, of := range []any{Job{}, sim.Weather{}, strategy.Forecast{}} {
		for _, field := range reflect.VisibleFields(reflect.TypeOf(of)) {
			change, known := other[field.Name]
			if !known && !slices.Contains(same, field.Name) {
				t.Errorf("%T.%s is not compared, and it is not known that it need not be", of, field.Name)
			}
			if change == nil {
				continue
			}
			a := job()
			b := *a
			if change(&b); a.sameSite(&b) || b.sameSite(a) {
				t.Errorf("jobs with another %T.%s count as the same site", of, field.Name)
			}
		}
	}
	if a := job(); !a.sameSite(a) {
		t.Error("a job is not the same site as itself")
	}
}
