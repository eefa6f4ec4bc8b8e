package replay_test

import (
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// sameWater fails unless two jobs put the same water on every zone every day.
func sameWater(t failer, why string, a, b *replay.Job) {
	t.Helper()
	_, x := rowsOf(t, a)
	_, y := rowsOf(t, b)
	for s := range x {
		for z := range x[s] {
			for i := range x[s][z] {
				p, q := &x[s][z][i], &y[s][z][i]
				if !near(p.Minutes, q.Minutes) || !near(p.IrrRunoffMM, q.IrrRunoffMM) || !near(p.DepletionMM, q.DepletionMM) ||
					p.Reason != q.Reason || p.Cycles != q.Cycles {
					t.Fatalf("%s: %v, zone %q, strategy %q: %g min (%s) and %g min (%s)", why, p.Date, p.Zone, p.Strategy, p.Minutes, p.Reason,
						q.Minutes, q.Reason)
				}
			}
		}
	}
}

// TestLimitsThatDoNotBind: limits that forbid nothing, and limits that only
// flag, change nothing.
func TestLimitsThatDoNotBind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 2, 300)
		free := s.job
		free.Limits = &strategy.Limits{Exempt: make([]bool, len(free.Zones))}
		sameWater(t, "limits that forbid nothing", &s.job, &free)
		flagged := s.job
		flagged.Limits = drawLimits(t, s)
		flagged.Limits.FlagOnly = true
		sameWater(t, "limits that only flag", &s.job, &flagged)
		exempt := s.job
		exempt.Limits = drawLimits(t, s)
		for z := range exempt.Limits.Exempt {
			exempt.Limits.Exempt[z] = true
		}
		sameWater(t, "zones free of every rule", &s.job, &exempt)
	})
}

func drawLimits(t *rapid.T, s *site) *strategy.Limits {
	start := s.job.Weather.Start
	l := &strategy.Limits{Exempt: someOf(t, "exempt", len(s.job.Zones))}
	l.Always = strategy.Rule{Name: "town", Days: drawRule(t, start)}
	if rapid.Bool().Draw(t, "most") {
		l.Always.MaxMinutes = float64(rapid.IntRange(1, 30).Draw(t, "most minutes"))
	}
	if rapid.Bool().Draw(t, "window") {
		from := rapid.IntRange(0, 1300).Draw(t, "opens")
		l.Always.Windows = []clock.Window{{FromMin: float64(from), ToMin: float64(from + rapid.IntRange(1, 139).Draw(t, "open for"))}}
	}
	if rapid.Bool().Draw(t, "stage") {
		first := rapid.IntRange(0, 200).Draw(t, "stage from")
		l.Stages = append(l.Stages, strategy.Rule{Name: "drought", From: start, To: start, Ban: rapid.Bool().Draw(t, "ban"), MaxMinutes: 4})
		l.Stages[0].From += cal.Date(first)
		l.Stages[0].To = l.Stages[0].From + 40
	}
	if rapid.Bool().Draw(t, "capacity") {
		s.job.Wiring = clock.OneController(rapid.Float64Range(1, 2000).Draw(t, "capacity"))
	}
	return l
}

// TestLimitsBind: under limits no zone but an exempt one is watered on a
// forbidden day, longer than allowed, or for longer than the window is open;
// the balance closes, no day gets more minutes than it would without limits
// under a strategy that does not react, and what a ban leaves is nothing.
func TestLimitsBind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 2, 300)
		l := drawLimits(t, s)
		s.job.Limits = l
		closes(t, &s.job)
		_, rows := rowsOf(t, &s.job)
		for k, set := range s.settings {
			for z := range s.job.Zones {
				if l.Exempt[z] {
					continue
				}
				starts := 1
				for _, p := range set.programs {
					starts += len(p.Starts)
				}
				for _, r := range rows[k][z] {
					rules := []strategy.Rule{l.Always}
					for _, stage := range l.Stages {
						if r.Date >= stage.From && r.Date <= stage.To {
							rules = append(rules, stage)
						}
					}
					for _, rule := range rules {
						switch {
						case r.Minutes == 0:
						case rule.Ban, !runsOn(rule.Days, r.Date):
							t.Fatalf("%v, zone %q, strategy %q: %g min on a day that %q forbids", r.Date, r.Zone, r.Strategy, r.Minutes, rule.Name)
						case rule.MaxMinutes > 0 && r.Minutes > rule.MaxMinutes*float64(starts)+1e-9:
							t.Fatalf("%v, zone %q, strategy %q: %g min in at most %d starts of %g", r.Date, r.Zone, r.Strategy, r.Minutes, starts,
								rule.MaxMinutes)
						}
						for _, w := range rule.Windows {
							if open := w.ToMin - w.FromMin; r.Minutes > open+1e-6 {
								t.Fatalf("%v, zone %q, strategy %q: %g min in a window of %g", r.Date, r.Zone, r.Strategy, r.Minutes, open)
							}
						}
					}
				}
			}
		}
	})
}

// TestReferencesKnowNoLimits: the two references are what no rule can touch.
func TestReferencesKnowNoLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 2, 1, 200)
		free := tableOf(t, &s.job)
		s.job.Limits = &strategy.Limits{Always: strategy.Rule{Name: "ban", Ban: true}, Exempt: make([]bool, len(s.job.Zones))}
		bound := tableOf(t, &s.job)
		for z := range s.job.Zones {
			if sum := bound.Total(0, z); sum.Minutes != 0 || !near(sum.GrossMM, sum.LeakMM) {
				t.Fatalf("%g min and %g mm under a ban, of which %g leaked", sum.Minutes, sum.GrossMM, sum.LeakMM)
			}
			for _, k := range []int{bound.NoWaterIndex(), bound.LeastWaterIndex()} {
				if !sameBits(free.Outcomes[k][z].Months, bound.Outcomes[k][z].Months) {
					t.Fatalf("%q changed under a ban", bound.Strategies[k])
				}
			}
		}
	})
}
