package strategy_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// listed writes breaches as "date zone rule minutes".
func listed(breaches []sim.Breach) (out []string) {
	for _, b := range breaches {
		out = append(out, fmt.Sprintf("%v %d %s %g", b.Date, b.Zone, b.Rule, math.Round(b.Minutes*1e6)/1e6))
	}
	return out
}

// A limitCase is one set of rules over some days, worked by hand.
type limitCase struct {
	why    string
	limits strategy.Limits
	first  cal.Date
	parts  []strategy.Part
	a, b   []float64 // minutes that are left of the zones
	listed []string
}

var monday = cal.Of(2012, 7, 30) // a Monday; the 31st and the 1st follow

func rule(r strategy.Rule) strategy.Limits { r.Name = "town"; return strategy.Limits{Always: r} }

func window(from, to float64) []clock.Window { return []clock.Window{{FromMin: from, ToMin: to}} }

func at(minutes []float64, starts ...int) []strategy.Part {
	return []strategy.Part{programs(strategy.Program{Name: "p", Starts: starts, Minutes: minutes})}
}

func limitCases() []limitCase {
	odd, even := strategy.DayRule{Kind: strategy.OddDays}, strategy.DayRule{Kind: strategy.EvenDays}
	tueThu := strategy.DayRule{Kind: strategy.Weekdays, Weekdays: [7]bool{2: true, 4: true}}
	stage := strategy.Rule{Name: "stage 2", From: cal.Of(2012, 7, 31), To: cal.Of(2012, 8, 1), Days: tueThu, MaxMinutes: 6}
	ban := strategy.Rule{Name: "stage 3", From: cal.Of(2012, 8, 1), To: cal.Of(2012, 8, 1), Ban: true}
	drip := ban
	drip.Exempt = []bool{false, true}
	return []limitCase{
		{"odd house numbers: the 31st and the 1st", rule(strategy.Rule{Days: odd}), monday, at([]float64{5, 0}, 300), []float64{0, 5, 5, 0},
			[]float64{0, 0, 0, 0},
			[]string{"2012-07-30 0 town: not an allowed day 5", "2012-08-02 0 town: not an allowed day 5"}},
		{"even house numbers", rule(strategy.Rule{Days: even}), monday, at([]float64{5, 0}, 300), []float64{5, 0, 0, 5}, []float64{0, 0, 0, 0},
			[]string{"2012-07-31 0 town: not an allowed day 5", "2012-08-01 0 town: not an allowed day 5"}},
		{"Tuesdays and Thursdays", rule(strategy.Rule{Days: tueThu}), monday, at([]float64{5, 2}, 300), []float64{0, 5, 0, 5},
			[]float64{0, 2, 0, 2},
			[]string{"2012-07-30 0 town: not an allowed day 5", "2012-07-30 1 town: not an allowed day 2",
				"2012-08-01 0 town: not an allowed day 5", "2012-08-01 1 town: not an allowed day 2"}},
		{"at most 10 min for a zone in one start: two starts may have ten each", rule(strategy.Rule{MaxMinutes: 10}), monday,
			at([]float64{12, 9}, 300, 900), []float64{20}, []float64{18},
			[]string{"2012-07-30 0 town: above the maximum run time 2", "2012-07-30 0 town: above the maximum run time 2"}},
		{"until 05:30: the second zone has 5 of its 15 min", rule(strategy.Rule{Windows: window(0, 330)}), monday,
			at([]float64{25, 15}, 300), []float64{25}, []float64{5},
			[]string{"2012-07-30 1 town: outside the watering window 10"}},
		{"from 05:10: the first zone has 15 of its 25 min", rule(strategy.Rule{Windows: window(310, 400)}), monday,
			at([]float64{25, 15}, 300), []float64{15}, []float64{15},
			[]string{"2012-07-30 0 town: outside the watering window 10"}},
		{"a night window: 23:50 to 00:30 is in it", rule(strategy.Rule{Windows: window(1200, 360)}), monday, at([]float64{25, 15}, 1430),
			[]float64{25}, []float64{15}, nil},
		{"and 05:50 to 06:30 is not quite", rule(strategy.Rule{Windows: window(1200, 360)}), monday, at([]float64{25, 15}, 350),
			[]float64{10}, []float64{0},
			[]string{"2012-07-30 0 town: outside the watering window 15", "2012-07-30 1 town: outside the watering window 15"}},
		{"a night that is cut short by midnight", rule(strategy.Rule{Windows: window(1200, 1440)}), monday, at([]float64{25, 15}, 1430),
			[]float64{10}, []float64{0},
			[]string{"2012-07-30 0 town: outside the watering window 15", "2012-07-30 1 town: outside the watering window 15"}},
		{"a drought stage from its first day to its last, on top of what always holds",
			strategy.Limits{Always: strategy.Rule{Name: "town", MaxMinutes: 10}, Stages: []strategy.Rule{stage}}, monday,
			at([]float64{12, 0}, 300), []float64{10, 6, 0, 10}, []float64{0, 0, 0, 0},
			[]string{"2012-07-30 0 town: above the maximum run time 2", "2012-07-31 0 town: above the maximum run time 2",
				"2012-07-31 0 stage 2: above the maximum run time 4",
				"2012-08-01 0 stage 2: not an allowed day 12", "2012-08-02 0 town: above the maximum run time 2"}},
		{"a ban", strategy.Limits{Stages: []strategy.Rule{ban}}, monday, at([]float64{5, 5}, 300), []float64{5, 5, 0, 5}, []float64{5, 5, 0, 5},
			[]string{"2012-08-01 0 stage 3: no watering 5", "2012-08-01 1 stage 3: no watering 5"}},
		{"a ban from which drip is exempt", strategy.Limits{Stages: []strategy.Rule{drip}}, monday, at([]float64{5, 5}, 300),
			[]float64{5, 5, 0, 5}, []float64{5, 5, 5, 5},
			[]string{"2012-08-01 0 stage 3: no watering 5"}},
		{"a zone with a permit", strategy.Limits{Always: strategy.Rule{Name: "town", Ban: true}, Exempt: []bool{true, false}}, monday,
			at([]float64{5, 5}, 300), []float64{5}, []float64{0},
			[]string{"2012-07-30 1 town: no watering 5"}},
		{"hand watering is bound", strategy.Limits{Always: strategy.Rule{Name: "town", Ban: true}}, monday,
			[]strategy.Part{strategy.Manual{Date: monday, Minutes: 7}}, []float64{0}, []float64{0},
			[]string{"2012-07-30 0 town: no watering 7"}},
		{"or exempt", strategy.Limits{Always: strategy.Rule{Name: "town", Ban: true}, ExemptManual: true}, monday,
			append(at([]float64{5, 0}, 300), strategy.Manual{Date: monday, Minutes: 7}), []float64{7}, []float64{0},
			[]string{"2012-07-30 0 town: no watering 5"}},
		{"two windows at once: 03:30 to 06:30 has 04:00 to 06:00",
			strategy.Limits{Always: strategy.Rule{Name: "town", Windows: window(1200, 360)},
				Stages: []strategy.Rule{{Name: "stage", From: monday, To: monday, Windows: window(240, 600)}}}, monday,
			at([]float64{180, 0}, 210), []float64{120}, []float64{0},
			[]string{"2012-07-30 0 town: outside the watering window 30", "2012-07-30 0 stage: outside the watering window 30"}},
		{"rules from a later day, stages, too", strategy.Limits{From: monday + 2,
			Always: strategy.Rule{Name: "town", MaxMinutes: 10},
			Stages: []strategy.Rule{{Name: "ban", From: monday + 1, To: monday + 3, Ban: true, Exempt: []bool{true, false}}}}, monday,
			at([]float64{12, 4}, 300), []float64{12, 12, 10, 10}, []float64{4, 4, 0, 0},
			[]string{"2012-08-01 0 town: above the maximum run time 2", "2012-08-01 1 ban: no watering 4",
				"2012-08-02 0 town: above the maximum run time 2", "2012-08-02 1 ban: no watering 4"}},
		// 300 min from 23:00 are over at 04:00; the next start at 02:00, a day of
		// its own, waits until then and has 120 of its 180 min until 06:00.
		{"a program of the evening before is still running", rule(strategy.Rule{Windows: window(1200, 360)}), monday,
			[]strategy.Part{programs(strategy.Program{Name: "evening", To: monday, Starts: []int{1380}, Minutes: []float64{300, 0}},
				strategy.Program{Name: "night", From: monday + 1, Starts: []int{120}, Minutes: []float64{0, 180}})},
			[]float64{300, 0}, []float64{0, 120}, []string{"2012-07-31 1 town: outside the watering window 60"}},
	}
}

// TestLimits: what each rule leaves, and the list of what broke it, each with
// date, zone, rule and minutes.
func TestLimits(t *testing.T) {
	for _, tt := range limitCases() {
		t.Run(tt.why, func(t *testing.T) {
			w := days(tt.first, same(len(tt.a), 0)...)
			rows, breaches := played(t, twoZones(), w, &tt.limits, 0.5, tt.parts...)
			wantMinutes(t, rows[0], tt.a...)
			wantMinutes(t, rows[1], tt.b...)
			if got := listed(breaches); !slices.Equal(got, tt.listed) {
				t.Errorf("listed:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(tt.listed, "\n"))
			}
		})
	}
}

// TestFlaggedIsApplied: where breaches are only flagged, the water is that of a
// site without limits, and each breach is on the list all the same.
func TestFlaggedIsApplied(t *testing.T) {
	for _, tt := range limitCases() {
		flagged := tt.limits
		flagged.FlagOnly = true
		w := days(tt.first, same(len(tt.a), 0)...)
		rows, breaches := played(t, twoZones(), w, &flagged, 0.5, tt.parts...)
		free, _ := played(t, twoZones(), w, nil, 0.5, tt.parts...)
		for z := range rows {
			for i := range rows[z] {
				if rows[z][i] != free[z][i] {
					t.Errorf("%s: %+v where it is flagged, %+v without limits", tt.why, rows[z][i], free[z][i])
				}
			}
		}
		got := listed(breaches)
		for _, want := range tt.listed {
			// What a rule before it left is another number of minutes: the rule
			// and the day are the same.
			head := want[:strings.LastIndex(want, " ")]
			if !slices.ContainsFunc(got, func(g string) bool { return strings.HasPrefix(g, head) }) {
				t.Errorf("%s: flagged are %q, not %q", tt.why, got, want)
			}
		}
	}
}

// TestReasonsUnderLimits: a zone without water says which kind of rule it was.
func TestReasonsUnderLimits(t *testing.T) {
	odd := rule(strategy.Rule{Days: strategy.DayRule{Kind: strategy.OddDays}, Windows: window(300, 310)})
	rows, _ := played(t, twoZones(), days(monday, 0, 0), &odd, 0.5, at([]float64{10, 10}, 300)...)
	wantReasons(t, rows[0], "not allowed", "watered")
	wantReasons(t, rows[1], "not allowed", "no room in window")
}

// TestRefillKnowsWhatWasLeftOut: the refill books what it was allowed: 51.4 mm
// are due on the third day, 30 min are left of them, and it asks for the rest
// on the fourth: 51.4 − 30 + 6 = 27.4 is not due at MAD 50%, nor is 33.4.
func TestRefillKnowsWhatWasLeftOut(t *testing.T) {
	l := rule(strategy.Rule{MaxMinutes: 30})
	rows, _ := played(t, twoZones(), days(cal.Of(2003, 6, 1), same(5, 6)...), &l, 0.4, &strategy.Refill{Zones: []bool{true, false}, MAD: 0.5})
	wantMinutes(t, rows[0], 0, 0, 30, 0, 0)
	rows, _ = played(t, twoZones(), days(cal.Of(2003, 6, 1), same(5, 6)...), &l, 0.4, &strategy.Refill{Zones: []bool{true, false}, MAD: 0.27})
	// Due at once with 40 mm: 10 are left, 16, 22, 28 is due.
	wantMinutes(t, rows[0], 30, 0, 0, 28, 0)
}

// fortyZones is a site of 40 zones with a program of 20 min each.
func fortyZones() (zones []sim.Zone, p strategy.Program) {
	p = strategy.Program{Name: "all", Starts: []int{0}, Minutes: same(40, 20)}
	for z := range 40 {
		zone := handZone()
		zone.Name = fmt.Sprintf("zone %d", z+1)
		zones = append(zones, zone)
	}
	return zones, p
}

// TestFortyZonesDoNotFit: 40 zones of 20 min take 800 min, a window of six hours
// has 360: 18 zones, and the tool says so first.
func TestFortyZonesDoNotFit(t *testing.T) {
	zones, p := fortyZones()
	w := days(monday, 0)
	l := rule(strategy.Rule{Windows: window(0, 360)})
	site := &strategy.Site{Zones: zones, Weather: w, Calendar: sim.NewCalendar(w.Start, 1), Limits: &l}
	found := strategy.Feasibility(site, &strategy.Strategy{Parts: []strategy.Part{programs(p)}})
	if len(found) != 1 {
		t.Fatalf("%d findings, want 1", len(found))
	}
	f := found[0]
	if f.Fits() || f.RunMin != 800 || f.FinishMin != 800 || f.OpenMin != 360 || f.OutsideMin() != 440 || len(f.Outside) != 22 {
		t.Errorf("%+v", f)
	}
	const want = "all at 00:00: 40 zones run 800 min in total, until 13:20; 440 min do not fit town (00:00-06:00, open for 360 min): zone " +
		"19 20, zone 20 20, zone 21 20, zone 22 20 and 18 more"
	if got := f.String(); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	rows, breaches := played(t, zones, w, &l, 0.5, programs(p))
	for z := range rows {
		want := 20.0
		if z >= 18 {
			want = 0
		}
		wantMinutes(t, rows[z], want)
	}
	if len(breaches) != 22 {
		t.Errorf("%d breaches, want 22", len(breaches))
	}
	// With flow for three zones at a time it takes 14 turns of 20 min: 280.
	site.Wiring = clock.OneController(3 * zones[0].FlowLMin())
	f = strategy.Feasibility(site, &strategy.Strategy{Parts: []strategy.Part{programs(p)}})[0]
	if !f.Fits() || f.FinishMin != 280 {
		t.Errorf("three at a time: %v", f.String())
	}
	rows, breaches = playedOn(t, zones, w, &l, site.Wiring, 0.5, programs(p))
	if len(breaches) != 0 || rows[39][0].Minutes != 20 {
		t.Errorf("three at a time: %d breaches, the last zone has %g min", len(breaches), rows[39][0].Minutes)
	}
}

// TestFeasibilityOfTheWorstDay: programs of other days do not queue; a program
// that queues on one day of many is judged by that day; refills are judged with
// all zones due at once; lengths and exemptions count.
func TestFeasibilityOfTheWorstDay(t *testing.T) {
	w := days(cal.Of(2012, 1, 1), same(30, 0)...)
	l := rule(strategy.Rule{Windows: window(240, 420), MaxMinutes: 90})
	site := &strategy.Site{Zones: twoZones(), Weather: w, Calendar: sim.NewCalendar(w.Start, 30), Limits: &l}
	first := strategy.Program{Name: "first", Days: strategy.DayRule{Kind: strategy.OddDays}, Starts: []int{240}, Minutes: []float64{60, 0}}
	second := strategy.Program{Name: "second", Days: strategy.DayRule{Kind: strategy.Interval, Every: 5, From: cal.Of(2012, 1, 2)},
		Starts: []int{270}, Minutes: []float64{0, 150}}
	byName := func(st strategy.Strategy) map[string]strategy.Feasible {
		out := map[string]strategy.Feasible{}
		for _, f := range strategy.Feasibility(site, &st) {
			out[f.Program] = f
		}
		return out
	}
	found := byName(strategy.Strategy{Parts: []strategy.Part{programs(first, second)}})
	const told = "second at 04:30: 1 zone runs 150 min in total, until 07:30; 60 min do not fit town (04:00-07:00, open for 180 min, " +
		"maximum 90 min per zone and start): b 60"
	if f := found["second"]; f.String() != told {
		t.Errorf("%s\nwant %s", f.String(), told)
	}
	// On 7 January both run: 300 + 150 = 07:30, half an hour late; and 150 min
	// are 60 longer than a zone may run.
	if f := found["second"]; f.FinishMin != 450 || f.OutsideMin() != 60 {
		t.Errorf("%v", f.String())
	}
	if f := found["first"]; !f.Fits() || f.FinishMin != 300 {
		t.Errorf("%v", f.String())
	}
	l.Always.MaxMinutes = 0
	if f := byName(strategy.Strategy{Parts: []strategy.Part{programs(first, second)}})["second"]; f.OutsideMin() != 30 || f.FinishMin != 450 {
		t.Errorf("of 150 min, those after 07:00 are 30: %v", f.String())
	}
	l.Always.MaxMinutes = 90
	l.Exempt = []bool{false, true}
	if f := byName(strategy.Strategy{Parts: []strategy.Part{programs(first, second)}})["second"]; !f.Fits() {
		t.Errorf("exempt: %v", f.String())
	}
	l.Exempt = nil
	// Half of 100 mm at a minute for a millimeter: 50 min a zone, from 04:00.
	if f := byName(strategy.Strategy{Parts: []strategy.Part{&strategy.Refill{Zones: []bool{true, true}, MAD: 0.5,
		StartMin: 240}}})["refill"]; !f.Fits() || f.RunMin != 100 || f.FinishMin != 340 {
		t.Errorf("%v", f.String())
	}
	// Without limits there is a finish all the same.
	site.Limits = nil
	if f := byName(strategy.Strategy{Parts: []strategy.Part{programs(first)}})["first"]; !f.Fits() || f.FinishMin != 300 ||
		f.String() != "first at 04:00: 1 zone runs 60 min in total, until 05:00" {
		t.Errorf("%v", f.String())
	}
}

// TestEqualDaysComeOutEqual: days worked out once are what each would have been
// alone: a record of single days against one record.
func TestEqualDaysComeOutEqual(t *testing.T) {
	zones := twoZones()
	l := rule(strategy.Rule{Windows: window(240, 420), MaxMinutes: 95})
	l.Stages = []strategy.Rule{{Name: "stage", From: cal.Of(2012, 2, 1), To: cal.Of(2012, 2, 20),
		Days: strategy.DayRule{Kind: strategy.EvenDays}, MaxMinutes: 30}}
	p := programs(strategy.Program{Name: "p", Days: strategy.DayRule{Kind: strategy.Interval, Every: 2}, Starts: []int{240},
		Minutes: []float64{100, 60}},
		strategy.Program{Name: "q", Days: strategy.DayRule{Kind: strategy.Interval, Every: 3}, Starts: []int{300},
			Minutes: []float64{0, 40}, Cycle: 10, Soak: 30})
	months := strategy.Monthly{Share: [12]float64{0.5, 0.8, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}}
	w := days(cal.Of(2012, 1, 1), same(120, 0)...)
	rows, breaches := played(t, zones, w, &l, 0.5, p, months)
	var apart []sim.Breach
	for i := range w.EToMM {
		one, more := played(t, zones, days(w.Start+cal.Date(i), 0), &l, 0.5, p, months)
		apart = append(apart, more...)
		for z := range zones {
			if one[z][0].Minutes != rows[z][i].Minutes || one[z][0].Cycles != rows[z][i].Cycles || one[z][0].Reason != rows[z][i].Reason {
				t.Fatalf("%v: %g min in the record, %g alone", rows[z][i].Date, rows[z][i].Minutes, one[z][0].Minutes)
			}
		}
	}
	if !slices.Equal(apart, breaches) || len(apart) < 50 {
		t.Errorf("%d breaches of single days, %d of the record", len(apart), len(breaches))
	}
}
