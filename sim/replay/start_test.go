package replay_test

import (
	"math"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/weather/cal"
)

// TestSpinUpNeedsAYear by hand: a root zone of 1000 mm loses 0.5 mm a day, never
// under stress. After 365 days of spin-up the first day ends at 365·0.5 + 0.5 =
// 183 mm; a record of 364 days starts full, and its first day ends at 0.5 mm.
func TestSpinUpNeedsAYear(t *testing.T) {
	z := sim.Zone{Name: "deep", AreaM2: 1, TAWMM: 1000, P: 0.5, PConstant: true, K: everyMonth(0.5), PRMMH: 10, DULQ: 1, Strips: 1}
	for _, tt := range []struct {
		days, spin int
		want       float64
	}{{1, 0, 0.5}, {153, 0, 0.5}, {364, 0, 0.5}, {365, 365, 183}, {366, 365, 183}, {800, 365, 183}} {
		w := sim.Weather{Start: cal.Of(2006, 5, 1), RainMM: make([]float64, tt.days), EToMM: make([]float64, tt.days),
			TminC: make([]float64, tt.days), WindMS: make([]float64, tt.days)}
		for i := range w.EToMM {
			w.EToMM[i] = 1
		}
		job := replay.Job{Zones: []sim.Zone{z}, Weather: w}
		m, ok := replay.At(&job, 0, 0, w.Start)
		if !ok || math.Abs(m.Row.DepletionMM-tt.want) > 1e-9 || m.SpinUpDays != tt.spin || m.FullStart != (tt.spin == 0) ||
			job.SpinUp() != tt.spin {
			t.Errorf("%d days: %g mm after the first day, spin-up of %d days, full %t; by hand %g mm and %d days",
				tt.days, m.Row.DepletionMM, m.SpinUpDays, m.FullStart, tt.want, tt.spin)
		}
		job.NoSpinUp, job.StartShare = true, 0.3 // stated: 300 mm and 0.5
		if m, _ := replay.At(&job, 0, 0, w.Start); math.Abs(m.Row.DepletionMM-300.5) > 1e-9 || m.FullStart {
			t.Errorf("%d days: %g mm from a stated start, by hand 300.5", tt.days, m.Row.DepletionMM)
		}
	}
}

// TestYearsAreRankedByTheWeather: the same weather over other zones, strategies
// and starts names the same years, and a record turned to the south other ones.
func TestYearsAreRankedByTheWeather(t *testing.T) {
	w := invented(5 * 365)
	shallow := sim.Zone{Name: "shallow", AreaM2: 10, TAWMM: 10, P: 0.3, K: everyMonth(1), PRMMH: 10, DULQ: 0.5, Strips: 4, IntakeMMH: 5,
		Rain: sim.Rain{Method: sim.CurveNumber, CN: 90}}
	deep := sim.Zone{Name: "deep", AreaM2: 5000, TAWMM: 200, P: 0.6, K: everyMonth(0.3), PRMMH: 10, DULQ: 1, Strips: 1, IntakeMMH: 50}
	a := replay.Job{Zones: []sim.Zone{shallow}, Weather: w}
	b := replay.Job{Zones: []sim.Zone{deep, shallow}, Weather: w, NoSpinUp: true, StartShare: 0.9}
	ta, tb := tableOf(t, &a), tableOf(t, &b)
	ra, rb := ta.RankYears(), tb.RankYears()
	if len(ra.Years) < 4 {
		t.Fatalf("years %v", ra.Years)
	}
	for i, y := range ra.Years {
		if rb.Years[i] != y {
			t.Fatalf("ranked %v and %v", ra.Years, rb.Years)
		}
		if i > 0 && ta.Dryness(ra.Years[i-1]) > ta.Dryness(y) {
			t.Errorf("%d is ranked after a drier year", y)
		}
	}
	b.South = true // July 2001 to June 2005 are four years of 365, 365, 366 and 365 days
	south := tableOf(t, &b)
	r, basis := south.RankYears(), south.Basis()
	if len(r.Years) != 4 || !r.South || basis.Days != 1461 || basis.List() != "2001/02 to 2004/05" {
		t.Errorf("in the south %+v, %+v", r, basis)
	}
}
