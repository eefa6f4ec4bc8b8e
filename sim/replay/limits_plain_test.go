package replay_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// A valve is one zone's part of a start in the plain clock: whole minutes.
type valve struct {
	zone, left, cycle, soak int
	ready                   int // minute from which it may open
	open                    int // minutes left of the cycle that runs
}

// plainClock runs the starts of one day minute by minute, one valve at a time,
// sharing no code with the timetable. busy is when the day before is over. It
// returns the minutes in which water flowed by zone, and when the last ended.
func plainClock(starts []*plainStart, zones, busy int, inside func(zone, minute int) bool) (minutes []int, last int) {
	minutes = make([]int, zones)
	for at := range 1440 {
		for _, s := range starts { // in order of time, then of the list
			if s.at != at {
				continue
			}
			now := max(at, busy)
			for i := range s.valves {
				s.valves[i].ready = now
			}
			for ; ; now++ {
				running, waiting := -1, -1
				for i := range s.valves {
					v := &s.valves[i]
					if v.open > 0 {
						running = i
					}
					if v.open == 0 && v.left > 0 && v.ready <= now && (waiting < 0 || v.ready < s.valves[waiting].ready) {
						waiting = i
					}
				}
				if running < 0 && waiting >= 0 {
					v := &s.valves[waiting]
					v.open = v.left
					if v.cycle > 0 {
						v.open = min(v.open, v.cycle)
					}
					running = waiting
				}
				if running < 0 {
					done := true
					for i := range s.valves {
						done = done && s.valves[i].left == 0
					}
					if done {
						break
					}
					continue // all that is left soaks
				}
				v := &s.valves[running]
				v.open--
				v.left--
				if v.open == 0 {
					v.ready = now + 1 + v.soak
				}
				if inside(v.zone, now) {
					minutes[v.zone]++
					last = max(last, now+1)
				}
			}
			busy = max(busy, now)
		}
	}
	return minutes, last
}

type plainStart struct {
	at     int
	valves []valve
}

// insideWindow tells whether a minute of a day's run, which may be one of the
// next day, lies in a window that opens on that day or opened the day before.
func insideWindow(minute int, windows []clock.Window) bool {
	if len(windows) == 0 {
		return true
	}
	for _, w := range windows {
		from, to := int(w.FromMin), int(w.ToMin)
		if to > from {
			if minute >= from && minute < to {
				return true
			}
			// Until 24:00 and from 00:00 are one night.
			for _, v := range windows {
				if to == 1440 && v.FromMin == 0 && minute >= 1440 && minute < 1440+int(v.ToMin) {
					return true
				}
			}
			continue
		}
		if minute < to || minute >= from && minute < 1440+to {
			return true
		}
	}
	return false
}

// drawWindows draws one or two windows that do not overlap; the only one may
// run through midnight.
func drawWindows(t *rapid.T) []clock.Window {
	a, b := float64(rapid.IntRange(0, 1380).Draw(t, "opens")), float64(rapid.IntRange(0, 1380).Draw(t, "closes"))
	switch {
	case rapid.Bool().Draw(t, "no window"):
		return nil
	case a == b:
		return []clock.Window{{FromMin: a, ToMin: a + 60}}
	case rapid.Bool().Draw(t, "two windows") && a+1 < b:
		middle := (a + b) / 2
		return []clock.Window{{FromMin: a, ToMin: float64(int(middle))}, {FromMin: b, ToMin: b + 60}}[:1+rapid.IntRange(0, 1).Draw(t, "second")]
	}
	return []clock.Window{{FromMin: a, ToMin: b}}
}

// TestPlainClock: what is left of random programs under random rules is, day by
// day and zone by zone, what a clock that steps by minutes lets flow: no zone
// runs outside a window, or beside another, or on a day that is not its own.
func TestPlainClock(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, days := rapid.IntRange(1, 4).Draw(t, "zones"), rapid.IntRange(1, 12).Draw(t, "days")
		start := cal.Of(2012, 2, 25)
		job := &replay.Job{Weather: still(start, days, 1), NoSpinUp: true}
		for z := range n {
			job.Zones = append(job.Zones, plainZone(fmt.Sprint(z)))
		}
		var list []strategy.Program
		for range rapid.IntRange(1, 3).Draw(t, "programs") {
			p := strategy.Program{Name: "p", Days: drawRule(t, start), Cycle: float64(rapid.IntRange(0, 40).Draw(t, "cycle")),
				Soak: float64(rapid.IntRange(0, 60).Draw(t, "soak"))}
			for range rapid.IntRange(1, 3).Draw(t, "starts") {
				p.Starts = append(p.Starts, rapid.IntRange(0, 1439).Draw(t, "start"))
			}
			for range n {
				p.Minutes = append(p.Minutes, float64(rapid.IntRange(0, 200).Draw(t, "minutes")))
			}
			list = append(list, p)
		}
		l := &strategy.Limits{Exempt: someOf(t, "exempt", n)}
		l.Always = strategy.Rule{Name: "town", Days: drawRule(t, start), Windows: drawWindows(t)}
		if rapid.Bool().Draw(t, "stage") {
			l.Stages = []strategy.Rule{{Name: "stage", From: start + 2, To: start + 6, MaxMinutes: float64(rapid.IntRange(1, 90).Draw(t, "most")),
				Windows: drawWindows(t), Exempt: someOf(t, "exempt from the stage", n)}}
		}
		job.Limits = l
		job.Strategies = []strategy.Strategy{{Name: "p", Parts: []strategy.Part{strategy.Programs{List: list}}}}
		table, rows := rowsOf(t, job)
		lost := map[[2]int]bool{}
		for _, b := range table.Breaches[0] {
			lost[[2]int{int(b.Date - start), b.Zone}] = true
		}
		busy := 0
		for i := range days {
			date := start + cal.Date(i)
			rules := []strategy.Rule{l.Always}
			for _, s := range l.Stages {
				if date >= s.From && date <= s.To {
					rules = append(rules, s)
				}
			}
			wanted := make([]int, n)
			var starts []*plainStart
			for _, p := range list {
				if !runsOn(p.Days, date) {
					continue
				}
				for _, at := range p.Starts {
					s := &plainStart{at: at}
					for z := range n {
						m := int(p.Minutes[z])
						wanted[z] += m
						for _, r := range rules {
							if l.Exempt[z] || r.Exempt != nil && r.Exempt[z] {
								continue
							}
							if !runsOn(r.Days, date) {
								m = 0
							} else if r.MaxMinutes > 0 {
								m = min(m, int(r.MaxMinutes))
							}
						}
						s.valves = append(s.valves, valve{zone: z, left: m, cycle: int(p.Cycle), soak: int(p.Soak)})
					}
					starts = append(starts, s)
				}
			}
			minutes, last := plainClock(starts, n, busy, func(z, minute int) bool {
				for _, r := range rules {
					if !l.Exempt[z] && (r.Exempt == nil || !r.Exempt[z]) && !insideWindow(minute, r.Windows) {
						return false
					}
				}
				return true
			})
			busy = min(max(last-1440, 0), 1440)
			for z := range n {
				if got := rows[0][z][i].Minutes; !near(got, float64(minutes[z])) {
					t.Fatalf("%v, zone %d: %g min of the %d asked for, by the plain clock %d", date, z, got, wanted[z], minutes[z])
				}
				if listed := lost[[2]int{i, z}]; listed != (minutes[z] < wanted[z]) {
					t.Fatalf("%v, zone %d: %d of %d min are left, and a breach is listed: %v", date, z, minutes[z], wanted[z], listed)
				}
			}
		}
	})
}

// TestAnythingUnderLimits: random sites with every kind of part under random
// rules close their balance, and no zone that is bound gets more minutes on a
// day than its windows are open.
func TestAnythingUnderLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 2, 200)
		drawMore(t, s)
		start, n := s.job.Weather.Start, len(s.job.Zones)
		l := &strategy.Limits{Exempt: someOf(t, "exempt", n), ExemptManual: rapid.Bool().Draw(t, "by hand")}
		l.Always = strategy.Rule{Name: "town", Days: drawRule(t, start), Windows: drawWindows(t),
			MaxMinutes: rapid.SampledFrom([]float64{0, 9}).Draw(t, "most")}
		l.Stages = []strategy.Rule{{Name: "stage", From: start + 20, To: start + 90, Windows: drawWindows(t)},
			{Name: "ban", From: start + 60, To: start + 99, Ban: true, Exempt: someOf(t, "exempt from the ban", n)}}
		if rapid.Bool().Draw(t, "capacity") {
			s.job.Wiring = clock.OneController(rapid.Float64Range(1, 2000).Draw(t, "flow"))
		}
		s.job.Limits = l
		closes(t, &s.job)
		site := replay.SiteOf(&s.job)
		for k := range s.job.Strategies {
			if _, err := s.job.Strategies[k].Describe(site); err != nil {
				t.Fatal(err)
			}
			for _, f := range strategy.Feasibility(site, &s.job.Strategies[k]) {
				if f.String() == "" || f.Fits() != (f.OutsideMin() == 0) || f.RunMin <= 0 {
					t.Fatalf("%+v", f)
				}
			}
		}
		table, rows := rowsOf(t, &s.job)
		for k := range s.job.Strategies {
			byHand := hasManual(&s.job.Strategies[k])
			for z := range n {
				if l.Exempt[z] || byHand && l.ExemptManual {
					continue
				}
				known := map[string]int{} // by what is in force
				for _, r := range rows[k][z] {
					var windows [][]clock.Window
					key := ""
					for i, rule := range append([]strategy.Rule{l.Always}, l.Stages...) {
						inForce := rule.From == 0 || r.Date >= rule.From && r.Date <= rule.To
						if !inForce || rule.Exempt != nil && rule.Exempt[z] {
							continue
						}
						if rule.Ban || !runsOn(rule.Days, r.Date) {
							key = "none"
							break
						}
						windows = append(windows, rule.Windows)
						key += fmt.Sprint(i)
					}
					open, met := known[key]
					if !met && key != "none" {
						for minute := range 2880 {
							if !slices.ContainsFunc(windows, func(w []clock.Window) bool { return !insideWindow(minute, w) }) {
								open++
							}
						}
						known[key] = open
					}
					if r.Minutes > float64(open)+1e-6 && open < 2880 {
						t.Fatalf("%v, zone %q, %q: %g min where its windows are open for %d", r.Date, r.Zone, r.Strategy, r.Minutes, open)
					}
				}
			}
			for i := 1; i < len(table.Breaches[k]); i++ {
				if table.Breaches[k][i].Date < table.Breaches[k][i-1].Date {
					t.Fatalf("breaches are not in order of date")
				}
			}
		}
	})
}

func hasManual(st *strategy.Strategy) bool {
	for _, p := range st.Parts {
		if _, ok := p.(strategy.Manual); ok {
			return true
		}
	}
	return false
}
