package replay_test

import (
	"context"
	"math"

	"loamledger/sim/replay"
	"loamledger/sim/tally"
)

// A failer is what a *testing.T and a *rapid.T have in common here.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

// rowsOf replays the job with a ledger and returns its table and the daily
// rows by strategy, then zone.
func rowsOf(t failer, job *replay.Job) (*tally.Table, [][][]replay.Row) {
	t.Helper()
	var rows [][][]replay.Row
	table, err := replay.Run(context.Background(), job, func(s *replay.Sheet) error {
		if len(rows) == 0 || len(rows[len(rows)-1]) == len(job.Zones) {
			rows = append(rows, nil)
		}
		days := make([]replay.Row, s.Days())
		for i := range days {
			days[i] = s.Row(i)
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], days)
		return nil
	})
	if err != nil {
		t.Fatalf("replay: %v", err)
	}
	return table, rows
}

// tableOf replays the job without a ledger.
func tableOf(t failer, job *replay.Job) *tally.Table {
	t.Helper()
	table, err := replay.Run(context.Background(), job, nil)
	if err != nil {
		t.Fatalf("replay: %v", err)
	}
	return table
}

// residual is the law of balance of one zone's day, from its ledger row and
// the mean depletion before.
func residual(r *replay.Row, before float64) float64 {
	return r.GrossMM + r.RainMM - (r.SprayLossMM + r.OversprayMM + r.BrokenMM + r.FillDrainMM + r.LeakMM + r.IrrRunoffMM + r.RainRunoffMM +
		r.RainEvapMM + r.PercIrrMM + r.PercRainMM + r.ETaMM + before + r.SoilChangeMM - r.DepletionMM)
}

// near reports whether two depths agree to the promise of the balance.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9 }
