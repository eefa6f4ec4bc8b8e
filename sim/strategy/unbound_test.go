package strategy_test

import (
	"context"
	"slices"
	"testing"

	"loamledger/sim/replay"
	"loamledger/sim/strategy"
)

// TestUnbound: a strategy that the rules do not bind applies what it would apply
// if breaches were only flagged, and lists the same, while another with the same
// parts in the same replay is cut as ever.
func TestUnbound(t *testing.T) {
	for _, tt := range limitCases() {
		w := days(tt.first, same(len(tt.a), 0)...)
		flagged := tt.limits
		flagged.FlagOnly = true
		want, listedWhenFlagged := played(t, twoZones(), w, &flagged, 0.5, tt.parts...)
		job := &replay.Job{Zones: twoZones(), Weather: w, NoSpinUp: true, StartShare: 0.5, Limits: &tt.limits,
			Strategies: []strategy.Strategy{{Name: "bound", Parts: tt.parts},
				{Name: "free", Parts: tt.parts, Unbound: true, Role: strategy.Baseline}}}
		rows := map[string][][]replay.Row{}
		table, err := replay.Run(context.Background(), job, func(s *replay.Sheet) error {
			var zone []replay.Row
			for i := range s.Days() {
				zone = append(zone, s.Row(i))
			}
			rows[s.Strategy] = append(rows[s.Strategy], zone)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		if table.Baseline != 1 || table.Cut != 0 {
			t.Errorf("baseline %d, cut %d", table.Baseline, table.Cut)
		}
		wantMinutes(t, rows["bound"][0], tt.a...)
		wantMinutes(t, rows["bound"][1], tt.b...)
		if got := listed(table.Breaches[0]); !slices.Equal(got, tt.listed) {
			t.Errorf("%s: the bound one breaks %q, want %q", tt.why, got, tt.listed)
		}
		for z := range want {
			for i := range want[z] {
				if got := rows["free"][z][i]; got.Minutes != want[z][i].Minutes || got.DepletionMM != want[z][i].DepletionMM {
					t.Errorf("%s: zone %d, day %d: %g min, want %g", tt.why, z, i, got.Minutes, want[z][i].Minutes)
				}
			}
		}
		if got := listed(table.Breaches[1]); !slices.Equal(got, listed(listedWhenFlagged)) {
			t.Errorf("%s: the free one breaks %q, want %q", tt.why, got, listed(listedWhenFlagged))
		}
	}
}
