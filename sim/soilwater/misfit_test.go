package soilwater_test

import (
	"testing"

	"loamledger/sim"
	"loamledger/sim/soilwater"
	"loamledger/weather/cal"
)

// A truth is how the measured soil differs from the replay.
type truth struct {
	k          float64           // plant coefficient, times that of the replay
	rain       func(int) float64 // share of the day's rain that reaches the soil beyond the replay's
	extraMM    func(int) float64 // water that is not in the record
	drainDays  float64           // days in which water above field capacity drains by 1/e; 0 for one day
	belowShare float64           // share of plant use from below the root zone
	constant   bool              // use does not fall past RAW
}

// invent makes a series of 120 days from May 1: 30 mm of rain on every 12th day,
// ETo 5 mm, K 0.8, TAW 100 mm, p 0.4. The replay lets 24 mm of each rain enter.
func invent(of truth) *soilwater.Series {
	s := &soilwater.Series{Start: cal.Of(2021, 5, 1), TAWMM: 100}
	day := sim.Day{ETcMM: 4, RAWMM: 40, Slope: 1 / 60.0}
	dr, real, below := 10.0, 10.0, 0.0
	for i := range 120 {
		rain := 0.0
		if i%12 == 6 {
			rain = 30
		}
		d := day
		d.RainInMM = 0.8 * rain
		var f sim.Flux
		dr, f = sim.Step(dr, 100, &d, 0)

		enters := 0.8 * rain
		if of.rain != nil {
			enters = of.rain(i) * rain
		}
		if of.extraMM != nil {
			enters += of.extraMM(i)
		}
		real -= enters
		if real < 0 {
			if real *= 1 - 1/max(of.drainDays, 1); of.drainDays <= 1 {
				real = 0
			}
		}
		use := 4 * of.k * sim.Ks(max(real, 0), 100, 0.4)
		if of.constant {
			use = 4 * of.k
		}
		real = min(real+use*(1-of.belowShare), 100)
		below += use * of.belowShare

		s.SimMM, s.RAWMM = append(s.SimMM, dr), append(s.RAWMM, 40)
		s.MeasuredMM, s.SignedMM = append(s.MeasuredMM, max(real, 0)), append(s.SignedMM, real)
		s.BelowMM = append(s.BelowMM, below)
		s.EToMM, s.ETcMM, s.ETaMM = append(s.EToMM, 5), append(s.ETcMM, 4), append(s.ETaMM, f.ETaMM)
		s.RainMM, s.GrossMM = append(s.RainMM, rain), append(s.GrossMM, 0)
	}
	return s
}

// TestReasons makes soils that differ from the replay in one known way each, and
// expects that way as the reason.
func TestReasons(t *testing.T) {
	on := func(day int, v, other float64) func(int) float64 {
		return func(i int) float64 {
			if i == day {
				return v
			}
			return other
		}
	}
	for _, tt := range []struct {
		name string
		of   truth
		want soilwater.Reason
	}{
		{"a watering of 35 mm that is not in the record", truth{k: 1, extraMM: on(60, 35, 0)}, soilwater.RainMissed},
		{"a storm that passed the sensors by", truth{k: 1, rain: on(54, 0, 0.8)}, soilwater.RainLost},
		{"no runoff", truth{k: 1, rain: func(int) float64 { return 1 }}, soilwater.LessRunoff},
		{"drainage over ten days", truth{k: 1, drainDays: 10, extraMM: on(6, 25, 0), rain: on(6, 2, 0.8)}, soilwater.SlowDrainage},
		{"half the coefficient", truth{k: 0.5}, soilwater.KTooHigh},
		{"half of the use from below", truth{k: 1, belowShare: 0.5}, soilwater.DeeperRoots},
		{"use that does not fall past RAW", truth{k: 1, constant: true}, soilwater.ScarceUse},
	} {
		s := invent(tt.of)
		if tt.want == soilwater.SlowDrainage { // wet at the start, so that only drainage differs
			for i := range 7 {
				s.SimMM[i], s.SignedMM[i], s.MeasuredMM[i] = 0, 0, 0
			}
		}
		m, ok := s.Misfit()
		if !ok || m.Reason != tt.want {
			t.Errorf("%s: %s, want %s; %+v", tt.name, m.Reason.Key(), tt.want.Key(), m)
		}
	}
}

// TestKTooLow: a soil that uses half as much again, kept before RAW by rain.
func TestKTooLow(t *testing.T) {
	s := invent(truth{k: 1.5})
	for _, column := range []*[]float64{&s.SimMM, &s.MeasuredMM, &s.SignedMM, &s.BelowMM, &s.RAWMM, &s.EToMM, &s.ETcMM, &s.ETaMM, &s.RainMM, &s.GrossMM} {
		*column = (*column)[:6] // the dry days before the first rain
	}
	if m, ok := s.Misfit(); !ok || m.Reason != soilwater.KTooLow {
		t.Errorf("%s: %+v", m.Reason.Key(), m)
	}
}

// TestNoMisfit: without three measured days in a row there is none.
func TestNoMisfit(t *testing.T) {
	s := invent(truth{k: 1})
	for i := range s.MeasuredMM {
		if i%3 == 0 {
			s.MeasuredMM[i] = nan
		}
	}
	if m, ok := s.Misfit(); ok {
		t.Errorf("%+v", m)
	}
}

// TestReasonsHaveKeysAndWords: each its own.
func TestReasonsHaveKeysAndWords(t *testing.T) {
	seen := map[string]bool{}
	for r := range soilwater.Reasons {
		for _, text := range []string{r.Key(), r.Words()} {
			if text == "" || seen[text] {
				t.Errorf("%d: %q", r, text)
			}
			seen[text] = true
		}
	}
}
