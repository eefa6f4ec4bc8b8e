package replay_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// TestMomentIsTheRow: a day taken out for explaining is the ledger's row, its
// strips begin at yesterday's depletion, and one strip after another through
// sim.Step gives the row's numbers.
func TestMomentIsTheRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 2, 2, 200)
		_, rows := rowsOf(t, &s.job)
		k := rapid.IntRange(0, len(rows)-1).Draw(t, "strategy")
		z := rapid.IntRange(0, len(s.job.Zones)-1).Draw(t, "zone")
		i := rapid.IntRange(0, s.job.Weather.Days()-1).Draw(t, "day")
		want := rows[k][z][i]
		m, ok := replay.At(&s.job, k, z, want.Date)
		if !ok || m.Row != want {
			t.Fatalf("the moment %+v is not the row %+v", m.Row, want)
		}
		n := float64(len(m.MorningMM))
		var morning, evening, eta, ks, percIrr, percRain float64
		for strip, dr := range m.MorningMM {
			after, flux := sim.Step(dr, m.Zone.TAWMM, &m.Day, m.InfiltMM[strip])
			morning, evening, eta, ks = morning+dr/n, evening+after/n, eta+flux.ETaMM/n, ks+flux.Ks/n
			percIrr, percRain = percIrr+flux.PercIrrMM/n, percRain+flux.PercRainMM/n
		}
		if i > 0 && !near(morning, rows[k][z][i-1].DepletionMM) {
			t.Fatalf("%v begins at %g mm, the day before ended at %g", want.Date, morning, rows[k][z][i-1].DepletionMM)
		}
		if !near(evening, want.DepletionMM) || !near(eta, want.ETaMM) || !near(ks, want.Ks) || !near(percIrr, want.PercIrrMM) ||
			!near(percRain, want.PercRainMM) {
			t.Fatalf("strip by strip: depletion %g, ETa %g, Ks %g, percolation %g and %g; the row: %+v", evening, eta, ks, percIrr, percRain, want)
		}
		if !near(m.Dose.Minutes, want.Minutes) || !near(m.Dose.GrossMM+want.LeakMM, want.GrossMM) ||
			m.SensorClosed != (want.Reason == sim.SensorWet) {
			t.Fatalf("dose %+v, sensor closed %v; the row: %+v", m.Dose, m.SensorClosed, want)
		}
		if m.Reference {
			return
		}
		in := make([]float64, len(m.InfiltMM))
		if d := m.Zone.Dose(m.Runs, m.Shares, in); d != m.Dose || !slices.Equal(in, m.InfiltMM) {
			t.Fatalf("the runs %+v make %+v and %v, the moment has %+v and %v", m.Runs, d, in, m.Dose, m.InfiltMM)
		}
		permitted := !slices.ContainsFunc(m.Readings, func(r strategy.Reading) bool { return r.ReadingMM < r.PermitAtMM })
		if m.Dose.Minutes > 0 && !permitted || m.SensorClosed && permitted {
			t.Fatalf("readings %+v with a dose of %g min, sensor closed %v", m.Readings, m.Dose.Minutes, m.SensorClosed)
		}
		if own := m.Seen.Refill; own != nil && want.Reason == sim.Refilled && own.DepletionMM < own.TriggerMM {
			t.Fatalf("refilled at %g mm, before the trigger at %g", own.DepletionMM, own.TriggerMM)
		}
	})
	job := replay.Job{Zones: []sim.Zone{plainZone("a")}, Weather: still(100, 3, 1)}
	for date, inside := range map[cal.Date]bool{99: false, 100: true, 102: true, 103: false} {
		if _, ok := replay.At(&job, 0, 0, date); ok != inside {
			t.Errorf("%v: found %v in a record from %v to %v", date, ok, cal.Date(100), cal.Date(102))
		}
	}
}

// TestMomentOfALevel: where a person has turned the minutes up, the runs and
// percentages of the moment are those of that level. Up by half once is 1.5
// times the minutes, twice 2 times.
func TestMomentOfALevel(t *testing.T) {
	z := plainZone("a")
	job := replay.Job{Zones: []sim.Zone{z}, Weather: still(100, 60, 6), NoSpinUp: true, StartShare: 0.9}
	program := strategy.Program{Name: "p", Days: strategy.DayRule{Kind: strategy.AnyDay}, Starts: []int{300}, Minutes: []float64{2}}
	job.Strategies = []strategy.Strategy{{Name: "s", Parts: []strategy.Part{
		strategy.Programs{List: []strategy.Program{program}},
		strategy.Habit{RaiseBy: 0.5, Steps: 2, VisibleBelowKs: 0.99, RaiseAfter: 4, LowerAfter: 50},
	}}}
	seen := map[int]bool{}
	for day := range 60 {
		m, ok := replay.At(&job, 0, 0, job.Weather.Start+cal.Date(day))
		if !ok {
			t.Fatal("the day is not in the record")
		}
		seen[m.Level] = true
		want := 2 * (1 + 0.5*float64(m.Level))
		if len(m.Runs) != 1 || !near(m.Runs[0].Minutes, want) || !near(m.Row.Minutes, want) || !near(m.Seen.Factor, want/2) {
			t.Fatalf("day %d, level %d: runs %+v, factor %g, row %+v", day, m.Level, m.Runs, m.Seen.Factor, m.Row)
		}
	}
	if !seen[0] || !seen[1] || !seen[2] {
		t.Errorf("levels %v, want all three", seen)
	}
}
