package settings_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

func limitsOf(zones int, r strategy.Rule) *strategy.Limits {
	return &strategy.Limits{Always: r, Exempt: make([]bool, zones)}
}

// TestFortyZonesDoNotFit: 40 zones of 20 min take 13.3 h, and a window of six
// hours has room for 18 of them. By hand: 360/20.
func TestFortyZonesDoNotFit(t *testing.T) {
	var zones []sim.Zone
	p := strategy.Program{Name: "all", Starts: []int{0}}
	for i := range 40 {
		zones = append(zones, plain(fmt.Sprint("zone ", i+1)))
		p.Minutes = append(p.Minutes, 20)
	}
	s := make1(t, zones, limitsOf(40, strategy.Rule{Name: "town", Windows: []clock.Window{{FromMin: 0, ToMin: 360}}}), settings.Options{},
		strategy.Programs{List: []strategy.Program{p}})
	if len(s.Misfits) != 22 || s.Misfits[0].Zone != 18 || s.Misfits[0].FitMin != 0 || s.Misfits[0].AskedMin != 20 ||
		!strings.Contains(s.Misfits[0].Rule, "town") {
		t.Errorf("%d zones do not fit, the first of them %+v; by hand 22, zone 19", len(s.Misfits), s.Misfits[0])
	}
	if s.Times[0].FinishMin != 360 || len(s.Held) > 0 {
		t.Errorf("ends at %g, blocked %v", s.Times[0].FinishMin, s.Held)
	}
	// With enough flow for two zones at a time (100 m² at 60 mm/h takes 100 L/min), 36 fit.
	l := limitsOf(40, strategy.Rule{Windows: []clock.Window{{FromMin: 0, ToMin: 360}}})
	st := strategy.Strategy{Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{p}}}}
	s, err := settings.Make(settings.NewSite(zones, still(730), l, clock.OneController(200)), &st, settings.Options{})
	if err != nil || len(s.Misfits) != 4 {
		t.Errorf("two at a time, %d zones do not fit; by hand 4", len(s.Misfits))
	}
}

func TestLegalDaysMinutesStarts(t *testing.T) {
	zones := []sim.Zone{plain("a"), plain("b")}
	program := func(days strategy.DayRule, start int, minutes ...float64) strategy.Programs {
		return strategy.Programs{List: []strategy.Program{{Name: "p", Days: days, Starts: []int{start}, Minutes: minutes}}}
	}
	night := []clock.Window{{FromMin: 20 * 60, ToMin: 6 * 60}}
	for _, c := range []struct {
		name   string
		rule   strategy.Rule
		asked  strategy.Programs
		days   strategy.DayRule
		start  int
		a      float64
		finish float64
	}{
		{"days that are allowed", strategy.Rule{Days: weekdays(2, 6)}, program(weekdays(1, 2, 3), 300, 5, 5), weekdays(2), 300, 5, 310},
		{"no asked day is allowed", strategy.Rule{Days: weekdays(2, 6)}, program(weekdays(1, 3, 5), 300, 5, 5), weekdays(2, 6), 300, 5, 310},
		{"odd dates", strategy.Rule{Days: strategy.DayRule{Kind: strategy.OddDays}}, program(weekdays(1, 3, 5), 300, 5, 5),
			strategy.DayRule{Kind: strategy.OddDays}, 300, 5, 310},
		{"longest run", strategy.Rule{MaxMinutes: 10}, program(weekdays(1), 300, 25, 5), weekdays(1), 300, 10, 315},
		{"moved into the window", strategy.Rule{Windows: night}, program(weekdays(1), 10*60, 5, 5), weekdays(1), 20 * 60, 5, 20*60 + 10},
		{"in the window past midnight", strategy.Rule{Windows: night}, program(weekdays(1), 23*60, 100, 5), weekdays(1), 23 * 60, 100,
			23*60 + 105},
	} {
		s := make1(t, zones, limitsOf(2, c.rule), settings.Options{}, c.asked)
		p := s.Programs[0]
		if p.Days != c.days || p.Starts[0] != c.start || p.Minutes[0] != c.a || s.Times[0].FinishMin != c.finish || len(s.Held) > 0 {
			t.Errorf("%s: %s at %v, %g min, ends at %g, held %v; by hand %s at %d, %g min, %g", c.name, strategy.DaysText(p.Days), p.Starts,
				p.Minutes[0], s.Times[0].FinishMin, s.Held,
				strategy.DaysText(c.days), c.start, c.a, c.finish)
		}
	}
	// A zone on drip is exempt; the other is cut.
	l := limitsOf(2, strategy.Rule{MaxMinutes: 10})
	l.Exempt[0] = true
	if s := make1(t, zones, l, settings.Options{}, program(weekdays(1), 300, 25, 25)); s.Programs[0].Minutes[0] != 25 ||
		s.Programs[0].Minutes[1] != 10 {
		t.Errorf("minutes %v, by hand 25 and 10", s.Programs[0].Minutes)
	}
	// The longest run is that of the highest percentage: 10 min at 150% are 15, and 6 are 9.
	if s := make1(t, zones, limitsOf(2, strategy.Rule{MaxMinutes: 10}), settings.Options{}, program(weekdays(1), 300, 10, 5),
		strategy.Monthly{Share: [12]float64{6: 1.5, 7: 1}}); s.Programs[0].Minutes[0] != 6 {
		t.Errorf("minutes %v, by hand 6", s.Programs[0].Minutes)
	}
	// A stage in force on the date of the sheet applies to it. For one that has ended, the blocked watering is listed.
	stage := &strategy.Limits{Exempt: make([]bool, 2),
		Stages: []strategy.Rule{{Name: "stage 2", From: cal.Of(2018, 7, 1), To: cal.Of(2018, 7, 31), Days: weekdays(2)}}}
	if s := make1(t, zones, stage, settings.Options{AsOf: cal.Of(2018, 7, 4)},
		program(weekdays(1, 2), 300, 5, 5)); s.Programs[0].Days != weekdays(2) {
		t.Errorf("in stage 2 the days are %s", strategy.DaysText(s.Programs[0].Days))
	}
	s := make1(t, zones, stage, settings.Options{}, program(weekdays(1, 2), 300, 5, 5))
	// Mondays of July 2018: 2, 9, 16, 23, 30
	if s.Programs[0].Days != weekdays(1, 2) || len(s.Held) != 2 || s.Held[0].Days != 5 || s.Held[0].First != cal.Of(2018, 7, 2) {
		t.Errorf("after stage 2: %s, held %+v; by hand five Mondays from 2018-07-02", strategy.DaysText(s.Programs[0].Days), s.Held)
	}
}

// TestNoRoomForASecondProgram by hand: two zones of 200 min fill a window of six
// hours. A second program would begin 40 min after it closes and is omitted, as is
// the second start of the first.
func TestNoRoomForASecondProgram(t *testing.T) {
	zones := []sim.Zone{plain("a"), plain("b"), plain("c")}
	list := []strategy.Program{{Name: "p", Starts: []int{1320, 300}, Minutes: []float64{200, 200, 0}},
		{Name: "q", Starts: []int{900}, Minutes: []float64{0, 0, 30}}}
	s := make1(t, zones, limitsOf(3, strategy.Rule{Name: "town", Windows: []clock.Window{{FromMin: 1320, ToMin: 240}}}), settings.Options{},
		strategy.Programs{List: list})
	if len(s.Programs) != 1 || len(s.Programs[0].Starts) != 1 || s.Programs[0].Starts[0] != 1320 || s.Programs[0].Minutes[0] != 200 ||
		s.Programs[0].Minutes[1] != 160 {
		t.Errorf("the sheet has %+v; by hand one program at 22:00, 200 and 160 min", s.Programs)
	}
	if u := s.Unwatered(); len(u) != 1 || u[0] != 2 {
		t.Errorf("without water are %v, by hand zone c", u)
	}
	// Requested per day: 400 min at 22:00, the same at 05:00, and 30 min.
	if s.Room == nil || s.Room.Zones != 3 || s.Room.NeedMin != 830 || s.Room.HoldMin != 360 {
		t.Errorf("room %+v, by hand 3 zones, 830 and 360 min", s.Room)
	}
}

// TestOneAfter by hand: p takes 20 min from 04:00 on Mondays and Thursdays; q,
// 10 min on Mondays, begins as p ends; r, on Tuesdays, shares no day with them.
func TestOneAfter(t *testing.T) {
	zones := []sim.Zone{plain("a"), plain("b"), plain("c")}
	list := []strategy.Program{
		{Name: "p", Days: weekdays(1, 4), Starts: []int{240}, Minutes: []float64{20, 0, 0}},
		{Name: "q", Days: weekdays(1), Starts: []int{240}, Minutes: []float64{0, 10, 0}},
		{Name: "r", Days: weekdays(2), Starts: []int{240}, Minutes: []float64{0, 0, 30}}}
	s := make1(t, zones, nil, settings.Options{OneAfter: true}, strategy.Programs{List: list})
	for i, want := range []int{240, 260, 240} {
		if got := s.Programs[i].Starts; len(got) != 1 || got[0] != want {
			t.Errorf("%s starts at %v, by hand at %d", s.Programs[i].Name, got, want)
		}
	}
	if s.Times[0].FinishMin != 270 {
		t.Errorf("ends at %g, by hand at 270", s.Times[0].FinishMin)
	}
}

// TestSheetsAreLegal: whatever is requested under permanent rules, the sheet obeys
// them: the engine's compliance check finds nothing to block.
func TestSheetsAreLegal(t *testing.T) {
	cut := 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 4).Draw(t, "zones")
		var zones []sim.Zone
		for i := range n {
			z := plain(string(rune('a' + i)))
			z.AreaM2 = rapid.Float64Range(50, 300).Draw(t, "area")
			zones = append(zones, z)
		}
		day := func(name string) strategy.DayRule {
			switch rapid.IntRange(0, 4).Draw(t, name) {
			case 1:
				return strategy.DayRule{Kind: strategy.OddDays}
			case 2:
				return strategy.DayRule{Kind: strategy.EvenDays}
			case 3:
				return strategy.DayRule{Kind: strategy.Interval, Every: rapid.IntRange(1, 5).Draw(t, "every"), From: cal.Of(2018, 1, 3)}
			case 4:
				r := weekdays(rapid.IntRange(0, 6).Draw(t, "day"))
				for d := range 7 {
					r.Weekdays[d] = r.Weekdays[d] || rapid.Bool().Draw(t, "on")
				}
				return r
			}
			return strategy.DayRule{}
		}
		l := limitsOf(n, strategy.Rule{Name: "rule", Days: day("allowed")})
		if rapid.Bool().Draw(t, "window") {
			l.Always.Windows = []clock.Window{{FromMin: float64(rapid.IntRange(0, 1439).Draw(t, "from")),
				ToMin: float64(rapid.IntRange(0, 1439).Draw(t, "to"))}}
		}
		if rapid.Bool().Draw(t, "most") {
			l.Always.MaxMinutes = rapid.Float64Range(1, 60).Draw(t, "most minutes")
		}
		var wiring *clock.Wiring
		if rapid.Bool().Draw(t, "flow") {
			wiring = clock.OneController(rapid.Float64Range(50, 600).Draw(t, "capacity"))
		}
		var programs strategy.Programs
		for i := range rapid.IntRange(1, 3).Draw(t, "programs") {
			p := strategy.Program{Name: fmt.Sprint("p", i), Days: day("days"), Starts: []int{rapid.IntRange(0, 1439).Draw(t, "start")},
				Cycle: float64(rapid.IntRange(0, 12).Draw(t, "cycle")), Soak: 20}
			for range n {
				p.Minutes = append(p.Minutes, rapid.Float64Range(0, 90).Draw(t, "minutes"))
			}
			programs.List = append(programs.List, p)
		}
		var monthly strategy.Monthly
		for m := range monthly.Share {
			monthly.Share[m] = rapid.Float64Range(0, 1.4).Draw(t, "share")
		}
		s, err := settings.Make(settings.NewSite(zones, still(400), l, wiring), &strategy.Strategy{Parts: []strategy.Part{programs, monthly}},
			settings.Options{})
		if err != nil {
			t.Skip(err)
		}
		for _, h := range s.Held {
			t.Errorf("blocked: %+v\nsheet %+v %v", h, s.Programs, s.Percent)
		}
		if len(s.Misfits) > 0 {
			cut++
		}
		for _, p := range s.Programs {
			if !slices.ContainsFunc(p.Minutes, func(m float64) bool { return m > 0 }) {
				t.Errorf("program %q waters no zone", p.Name)
			}
			for _, at := range p.Starts {
				o := clock.Opening{FromMin: float64(at), ToMin: float64(at) + 1}
				if w := l.Always.Windows; len(w) > 0 && s.Room != nil && clock.Inside(o, w) < 1e-9 {
					t.Errorf("program %q starts at %d, outside the window %v", p.Name, at, w)
				}
			}
		}
		for _, e := range s.Entries() {
			if e.Minutes < 0 || math.Round(e.Program.Minutes[e.Zone]) != e.Program.Minutes[e.Zone] {
				t.Errorf("entry %+v", e)
			}
		}
	})
	if cut == 0 {
		t.Error("no sheet was cut: the property met no case of it")
	}
}
