package strategy_test

import (
	"context"
	"math"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// handZone is made for working on paper: TAW 100 mm, p 0.4 not adjusted so
// that RAW is 40 mm, K 1, PR 60 mm/h so that a minute is a millimeter, no
// losses, a soil that takes in everything.
func handZone() sim.Zone {
	z := sim.Zone{Name: "zone", AreaM2: 100, TAWMM: 100, P: 0.4, PConstant: true, PRMMH: 60, DULQ: 1, Strips: 1,
		IntakeMMH: 1000, SurfaceStorageMM: 5, Rain: sim.Rain{Method: sim.FixedShare, EffectiveShare: 1}}
	for m := range z.K {
		z.K[m] = 1
	}
	return z
}

// days returns a record from start with the given ETo, no rain and 12 °C.
func days(start cal.Date, eto ...float64) sim.Weather {
	w := sim.Weather{Start: start, EToMM: eto, RainMM: make([]float64, len(eto)), TminC: make([]float64, len(eto)),
		WindMS: make([]float64, len(eto))}
	for i := range w.TminC {
		w.TminC[i] = 12
	}
	return w
}

// same returns n times v.
func same(n int, v float64) []float64 {
	all := make([]float64, n)
	for i := range all {
		all[i] = v
	}
	return all
}

// daily is a program that runs on all days for the given minutes.
func daily(minutes float64) strategy.Programs {
	return strategy.Programs{List: []strategy.Program{{Name: "daily", Starts: []int{330}, Minutes: []float64{minutes}}}}
}

// replayed returns the days of one zone under one stack of parts, without
// spin-up, from the given depletion as a share of TAW; and under least water.
func replayed(t *testing.T, z sim.Zone, w sim.Weather, start float64, parts ...strategy.Part) (rows, least []replay.Row) {
	t.Helper()
	job := &replay.Job{Zones: []sim.Zone{z}, Weather: w, NoSpinUp: true, StartShare: start,
		Strategies: []strategy.Strategy{{Name: "hand", Parts: parts}}}
	_, err := replay.Run(context.Background(), job, func(s *replay.Sheet) error {
		for i := range s.Days() {
			if s.Strategy == "hand" {
				rows = append(rows, s.Row(i))
			} else if s.Strategy != "no watering" {
				least = append(least, s.Row(i))
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return rows, least
}

// wantMinutes compares the minutes of each day with those worked by hand.
func wantMinutes(t *testing.T, rows []replay.Row, want ...float64) {
	t.Helper()
	if len(rows) != len(want) {
		t.Fatalf("%d days, want %d", len(rows), len(want))
	}
	for i := range want {
		if math.Abs(rows[i].Minutes-want[i]) > 1e-9 {
			t.Errorf("%v: %.6g minutes (%s), by hand %.6g", rows[i].Date, rows[i].Minutes, rows[i].Reason, want[i])
		}
	}
}

// wantReasons compares the reasons of each day.
func wantReasons(t *testing.T, rows []replay.Row, want ...string) {
	t.Helper()
	for i := range want {
		if rows[i].Reason.String() != want[i] {
			t.Errorf("%v: %q, want %q", rows[i].Date, rows[i].Reason, want[i])
		}
	}
}
