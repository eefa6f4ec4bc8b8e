package replay_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
)

// TestAgreesWithPlainModel replays random sites with the engine and with the
// plain model: every day of every zone under every strategy, and every month's
// sums, must agree to 1e-9. The model checks the balance of each strip itself.
func TestAgreesWithPlainModel(t *testing.T) {
	seen := map[string]int{}
	rapid.Check(t, func(t *rapid.T) { agree(t, drawSite(t, 3, 3, 500), seen) })
	// A property that never meets a case proves nothing about it.
	for _, reason := range []string{"not scheduled", "watered", "refilled", "not due", "scaled to zero", "held: rain", "held: frost",
		"sensor wet", "past RAW", "stress of the zone", "stress of the quarter",
		"browning of the zone", "browning of the quarter", "dry winter", "dormant", "between rest and growth", "no R7",
		"fill and drain", "overspray", "broken heads", "leak", "irrigation runoff", "rain runoff", "rain evaporated",
		"percolation of irrigation", "percolation of rain", "capped"} {
		if seen[reason] < 20 {
			t.Errorf("only %d zone-days with %q among those drawn", seen[reason], reason)
		}
	}
}

func agree(t failer, s *site, seen map[string]int) {
	table, rows := rowsOf(t, &s.job)
	w := walk(s.job.Weather, s.job.NoSpinUp)
	plain := append(append([]*setting(nil), s.settings...), &setting{name: "no watering"})
	for k, set := range plain {
		for z := range s.job.Zones {
			zone := s.job.Zones[z]
			if k == len(s.settings) {
				zone.LeakMMDay = 0 // nothing leaks where nothing is watered
			}
			days, reasons, err := modelReplay(z, zone, set, w, s.job.StartShare)
			if err != nil {
				t.Fatalf("%v", err)
			}
			for i := range days {
				got, want := &rows[k][z][i], &days[i]
				compareDay(t, set.name, got, want, reasons[i])
				count(seen, got, want)
			}
			compareMonths(t, set.name, table.Outcomes[k][z].Months, table.Spans, days, s.job.Weather, zone.TAWMM)
		}
	}
}

func compareDay(t failer, name string, got *replay.Row, want *modelDay, reason string) {
	t.Helper()
	for _, v := range []struct {
		what      string
		got, want float64
	}{
		{"minutes", got.Minutes, want.minutes}, {"gross", got.GrossMM, want.gross}, {"spray loss", got.SprayLossMM, want.sprayLoss},
		{"overspray", got.OversprayMM, want.overspray}, {"broken heads", got.BrokenMM, want.broken},
		{"fill and drain", got.FillDrainMM, want.fillDrain}, {"leak", got.LeakMM, want.leak},
		{"irrigation runoff", got.IrrRunoffMM, want.irrRunoff}, {"rain runoff", got.RainRunoffMM, want.rainRunoff},
		{"rain evaporated", got.RainEvapMM, want.rainEvaporated},
		{"percolation of irrigation", got.PercIrrMM, want.percIrr}, {"percolation of rain", got.PercRainMM, want.percRain},
		{"ETc", got.ETcMM, want.etc}, {"ETa", got.ETaMM, want.eta},
		{"Ks", got.Ks, want.ks}, {"RAW", got.RAWMM, want.raw}, {"low-quarter depletion", got.LowQuarterMM, want.lowQuarter},
		{"depletion", got.DepletionMM, want.after}, {"K", got.K, want.k}, {"activity", got.Activity, want.a},
	} {
		if !near(v.got, v.want) {
			t.Fatalf("%v, zone %q, strategy %q: %s is %.15g, the plain model says %.15g", got.Date, got.Zone, name, v.what, v.got, v.want)
		}
	}
	if got.PastRAW != want.pastRAW && math.Abs(want.lowQuarter-want.raw) > 1e-9 {
		t.Fatalf("%v, zone %q, strategy %q: past RAW is %v, the plain model says %v", got.Date, got.Zone, name, got.PastRAW, want.pastRAW)
	}
	if g := (sim.Grading{HasR7: want.hasR7, R7Zone: got.R7Zone, R7Quarter: got.R7Quarter, StressZone: want.stressZone,
		StressQuarter: want.stressQuarter, BrownZone: want.brownZone, BrownQuarter: want.brownQuarter}); !want.atEdge && (got.Grading != g ||
		!near(got.R7Zone, want.r7Zone) || !near(got.R7Quarter, want.r7Quarter)) {
		t.Fatalf("%v, zone %q, strategy %q: graded %+v, the plain model says %+v", got.Date, got.Zone, name, got.Grading, want.modelStress)
	}
	if got.Reason.String() != reason {
		t.Fatalf("%v, zone %q, strategy %q: reason %q, the plain controller says %q", got.Date, got.Zone, name, got.Reason, reason)
	}
	if r := residual(got, want.before); !sim.Closed(r) {
		t.Fatalf("%v, zone %q, strategy %q: the day's ledger row is off balance by %g mm", got.Date, got.Zone, name, r)
	}
}

func count(seen map[string]int, got *replay.Row, want *modelDay) {
	seen[got.Reason.String()]++
	for what, v := range map[string]float64{"fill and drain": want.fillDrain, "overspray": want.overspray, "broken heads": want.broken,
		"leak": want.leak, "irrigation runoff": want.irrRunoff, "rain runoff": want.rainRunoff, "rain evaporated": want.rainEvaporated,
		"percolation of irrigation": want.percIrr, "percolation of rain": want.percRain} {
		if v > 0 {
			seen[what]++
		}
	}
	for what, yes := range map[string]bool{"past RAW": want.pastRAW, "stress of the zone": want.stressZone,
		"stress of the quarter": want.stressQuarter, "browning of the zone": want.brownZone, "browning of the quarter": want.brownQuarter,
		"dry winter": want.dryWinter, "dormant": want.knowsT30 && !want.active, "between rest and growth": want.a > 0 && want.a < 1,
		"no R7": !want.hasR7} {
		if yes {
			seen[what]++
		}
	}
	if want.ks*want.etc > want.eta+1e-6 && want.after > got.TAWMM-1e-9 {
		seen["capped"]++
	}
}

// compareMonths adds the model's days up by month and compares every sum.
func compareMonths(t failer, name string, got []sim.Sums, spans []sim.Span, days []modelDay, w sim.Weather, taw float64) {
	t.Helper()
	streak := 0
	edge := 0 // days so near a mark that rounding decides
	for m, span := range spans {
		var want sim.Sums
		for i := span.From; i < span.To; i++ {
			d := &days[i]
			want.Days++
			want.Minutes += d.minutes
			want.GrossMM += d.gross
			want.SprayLossMM += d.sprayLoss
			want.OversprayMM += d.overspray
			want.BrokenMM += d.broken
			want.FillDrainMM += d.fillDrain
			want.LeakMM += d.leak
			want.IrrRunoffMM += d.irrRunoff
			want.RainMM += w.RainMM[i]
			want.EToMM += w.EToMM[i]
			want.ETcMM += d.etc
			want.ETaMM += d.eta
			want.RainRunoffMM += d.rainRunoff
			want.RainEvapMM += d.rainEvaporated
			want.PercIrrMM += d.percIrr
			want.PercRainMM += d.percRain
			if d.active {
				want.SeverityDays += 1 - d.ks
			}
			want.StorageMM += d.before - d.after
			if d.minutes > 0 {
				want.WateringDays++
			}
			if d.irrRunoff >= 0.25 {
				want.RunoffEvents++
			}
			if d.rainRunoff >= 0.25 {
				want.RainRunoffDays++
			}
			for _, v := range []struct {
				yes bool
				sum *int
			}{
				{d.pastRAW, &want.PastRAWDays}, {d.dryWinter, &want.DryWinterDays}, {d.stressZone, &want.StressZoneDays},
				{d.stressQuarter, &want.StressDays}, {d.brownZone, &want.BrownZoneDays}, {d.brownQuarter, &want.BrownDays},
			} {
				if v.yes {
					*v.sum++
				}
			}
			if streak++; !d.stressQuarter {
				streak = 0
			}
			if d.atEdge || math.Abs(d.lowQuarter-d.raw) < 1e-9 || math.Abs(d.lowQuarter-0.8*taw) < 1e-9 {
				edge++
			}
			want.LongestStreak = max(want.LongestStreak, streak)
		}
		if edge > 0 { // rounding may decide, here and for the streak from here on
			want.PastRAWDays, want.DryWinterDays, want.StressZoneDays, want.StressDays = got[m].PastRAWDays, got[m].DryWinterDays,
				got[m].StressZoneDays, got[m].StressDays
			want.BrownZoneDays, want.BrownDays, want.LongestStreak = got[m].BrownZoneDays, got[m].BrownDays, got[m].LongestStreak
		}
		compareSums(t, name, span, &got[m], &want)
		if r := got[m].Residual(); !sim.Closed(r) {
			t.Fatalf("%d-%02d, strategy %q: the month is off balance by %g mm", span.Year, span.Month, name, r)
		}
	}
}

func compareSums(t failer, name string, span sim.Span, got, want *sim.Sums) {
	t.Helper()
	for _, v := range []struct {
		what      string
		got, want float64
	}{
		{"days", float64(got.Days), float64(want.Days)}, {"watering days", float64(got.WateringDays), float64(want.WateringDays)},
		{"stress days", float64(got.StressDays), float64(want.StressDays)},
		{"stress days of the zone", float64(got.StressZoneDays), float64(want.StressZoneDays)},
		{"browning days", float64(got.BrownDays), float64(want.BrownDays)},
		{"browning days of the zone", float64(got.BrownZoneDays), float64(want.BrownZoneDays)},
		{"dry winter days", float64(got.DryWinterDays), float64(want.DryWinterDays)},
		{"days past RAW", float64(got.PastRAWDays), float64(want.PastRAWDays)},
		{"longest streak", float64(got.LongestStreak), float64(want.LongestStreak)},
		{"runoff events", float64(got.RunoffEvents), float64(want.RunoffEvents)},
		{"rain runoff days", float64(got.RainRunoffDays), float64(want.RainRunoffDays)},
		{"minutes", got.Minutes, want.Minutes}, {"ETo", got.EToMM, want.EToMM}, {"ETc", got.ETcMM, want.ETcMM}, {"ETa", got.ETaMM, want.ETaMM},
		{"rain", got.RainMM, want.RainMM}, {"rain runoff", got.RainRunoffMM, want.RainRunoffMM},
		{"rain evaporated", got.RainEvapMM, want.RainEvapMM},
		{"gross", got.GrossMM, want.GrossMM}, {"spray loss", got.SprayLossMM, want.SprayLossMM},
		{"overspray", got.OversprayMM, want.OversprayMM}, {"broken heads", got.BrokenMM, want.BrokenMM},
		{"fill and drain", got.FillDrainMM, want.FillDrainMM}, {"leak", got.LeakMM, want.LeakMM},
		{"irrigation runoff", got.IrrRunoffMM, want.IrrRunoffMM},
		{"percolation of irrigation", got.PercIrrMM, want.PercIrrMM}, {"percolation of rain", got.PercRainMM, want.PercRainMM},
		{"severity", got.SeverityDays, want.SeverityDays}, {"storage", got.StorageMM, want.StorageMM},
	} {
		if !near(v.got, v.want) {
			t.Fatalf("%d-%02d, strategy %q: %s is %.15g, the plain model adds up to %.15g", span.Year, span.Month, name, v.what, v.got, v.want)
		}
	}
}

// TestBalanceClosesEverywhere closes the balance of every zone's day and month
// under every strategy, the two references included.
func TestBalanceClosesEverywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 2, 400)
		drawMore(t, s)
		closes(t, &s.job)
	})
}

// closes checks the balance and the limits of depletion on a whole job.
func closes(t failer, job *replay.Job) {
	t.Helper()
	table, rows := rowsOf(t, job)
	for s := range rows {
		for z := range rows[s] {
			for i := range rows[s][z] {
				r := &rows[s][z][i]
				// there it tells the deficit, too
				if r.DepletionMM < -1e-9 || r.DepletionMM > r.TAWMM+1e-9 || r.LowQuarterMM < -1e-9 || r.LowQuarterMM > r.TAWMM+1e-9 &&
					!job.Zones[z].WorkingStorage {
					t.Fatalf("%v, zone %q, strategy %q: depletion %g, low quarter %g outside 0 to TAW %g", r.Date, r.Zone, r.Strategy, r.DepletionMM,
						r.LowQuarterMM, r.TAWMM)
				}
				if r.Ks < -1e-9 || r.Ks > 1+1e-9 || r.ETaMM < -1e-9 || r.ETaMM > r.ETcMM+1e-9 {
					t.Fatalf("%v, zone %q, strategy %q: Ks %g, ETa %g of ETc %g", r.Date, r.Zone, r.Strategy, r.Ks, r.ETaMM, r.ETcMM)
				}
				if i > 0 {
					if off := residual(r, rows[s][z][i-1].DepletionMM); !sim.Closed(off) {
						t.Fatalf("%v, zone %q, strategy %q: off balance by %g mm", r.Date, r.Zone, r.Strategy, off)
					}
				}
			}
			for m := range table.Outcomes[s][z].Months {
				if off := table.Outcomes[s][z].Months[m].Residual(); !sim.Closed(off) {
					t.Fatalf("%v, zone %d, strategy %q: month off balance by %g mm", table.Spans[m], z, table.Strategies[s], off)
				}
			}
		}
	}
}
