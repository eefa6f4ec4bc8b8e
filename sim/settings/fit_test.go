package settings_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/weather/quantity"
)

func plainTimer(t *testing.T) *timer.Profile {
	t.Helper()
	p, ok := timer.Named(timer.Plain)
	if !ok {
		t.Fatal("no plain timer")
	}
	return &p
}

func list(p ...strategy.Program) strategy.Programs { return strategy.Programs{List: p} }

// TestCyclesBecomeStarts by hand: 20 min in cycles of 7 is three cycles. One start
// runs 13 min beyond the cycle; two starts of 10 run 2 x 3 beyond; three of 7 add a
// minute, 21 for 20; four of 5 change nothing. A start lasts 5 min and the soak is
// 30, so starts are 35 min apart.
func TestCyclesBecomeStarts(t *testing.T) {
	zones := []sim.Zone{plain("a")}
	p := strategy.Program{Name: "p", Days: weekdays(1), Starts: []int{300}, Minutes: []float64{20}, Cycle: 7, Soak: 30}
	s := make1(t, zones, nil, settings.Options{Timer: plainTimer(t)}, list(p))
	got := s.Programs[0]
	if !slices.Equal(got.Starts, []int{300, 335, 370, 405}) || got.Minutes[0] != 5 || got.Cycle != 0 {
		t.Errorf("starts %v, %v min, cycle %g; by hand 300, 335, 370 and 405, 5 min", got.Starts, got.Minutes, got.Cycle)
	}
	// With two starts on the timer, two of 10 min.
	two := *plainTimer(t)
	two.Starts = 2
	if got := make1(t, zones, nil, settings.Options{Timer: &two}, list(p)).Programs[0]; !slices.Equal(got.Starts, []int{300, 340}) ||
		got.Minutes[0] != 10 {
		t.Errorf("two starts: %v, %v min; by hand 300 and 340, 10 min", got.Starts, got.Minutes)
	}
	// Series that would pass midnight begin earlier: 23:50 is 1430; the last of four starts is at 1439.
	p.Starts = []int{1430}
	if got := make1(t, zones, nil, settings.Options{Timer: plainTimer(t)}, list(p)).Programs[0]; !slices.Equal(got.Starts,
		[]int{1334, 1369, 1404, 1439}) {
		t.Errorf("late starts: %v; by hand 1334, 1369, 1404 and 1439", got.Starts)
	}
}

// TestFewerStarts by hand: six starts of 8 min are 48 min, on a timer with four
// starts 12 min each; every other and a half is kept: the first, second, fourth
// and fifth.
func TestFewerStarts(t *testing.T) {
	p := strategy.Program{Name: "p", Starts: []int{0, 100, 200, 300, 400, 500}, Minutes: []float64{8}}
	got := make1(t, []sim.Zone{plain("a")}, nil, settings.Options{Timer: plainTimer(t)}, list(p)).Programs[0]
	if !slices.Equal(got.Starts, []int{0, 100, 300, 400}) || got.Minutes[0] != 12 {
		t.Errorf("starts %v of %v min", got.Starts, got.Minutes)
	}
}

// TestProgramsAreMerged by hand: of four programs, the two on the same days merge,
// which changes no water; their zones keep their minutes.
func TestProgramsAreMerged(t *testing.T) {
	zones := []sim.Zone{plain("a"), plain("b"), plain("c"), plain("d")}
	s := make1(t, zones, nil, settings.Options{Timer: plainTimer(t)}, list(
		strategy.Program{Name: "p", Days: weekdays(1, 4), Starts: []int{300}, Minutes: []float64{10, 0, 0, 0}},
		strategy.Program{Name: "q", Days: weekdays(2), Starts: []int{300}, Minutes: []float64{0, 20, 0, 0}},
		strategy.Program{Name: "r", Days: weekdays(1, 4), Starts: []int{360}, Minutes: []float64{0, 0, 30, 0}},
		strategy.Program{Name: "s", Days: weekdays(1, 3, 5), Starts: []int{300}, Minutes: []float64{0, 0, 0, 40}}))
	p := s.Programs[0]
	if len(s.Programs) != 3 || p.Name != "p + r" || !slices.Equal(p.Minutes, []float64{10, 0, 30, 0}) || p.Days != weekdays(1, 4) {
		t.Errorf("programs %+v", s.Programs)
	}
	if len(s.Merged) != 1 || !slices.Equal(s.Merged[0].Of, []string{"p", "r"}) {
		t.Errorf("merged %+v", s.Merged)
	}
	// Two programs on one timer program: twice a week 10 min is 20 a week, thrice 40 is 120. On
	// three days a week, a gets 20/3, entered as 7.
	one := *plainTimer(t)
	one.Programs = 1
	s = make1(t, zones, nil, settings.Options{Timer: &one}, list(
		strategy.Program{Name: "p", Days: weekdays(1, 4), Starts: []int{300}, Minutes: []float64{10, 0, 0, 0}},
		strategy.Program{Name: "s", Days: weekdays(1, 3, 5), Starts: []int{300}, Minutes: []float64{0, 0, 0, 40}}))
	if p := s.Programs[0]; len(s.Programs) != 1 || p.Days != weekdays(1, 3, 5) || p.Minutes[0] != 7 || p.Minutes[3] != 40 {
		t.Errorf("one program: %+v", s.Programs)
	}
}

// TestPercentAndShortRuns by hand: 35% is between steps of 10% and becomes 40%, 4%
// turns the month off, and a run of 1 min becomes the timer's shortest, 3.
func TestPercentAndShortRuns(t *testing.T) {
	o := *plainTimer(t)
	o.MinMinutes = 3
	s := make1(t, []sim.Zone{plain("a")}, nil, settings.Options{Timer: &o}, list(strategy.Program{Name: "p", Starts: []int{300},
		Minutes: []float64{1}}), strategy.Monthly{Share: [12]float64{0.04, 0.35, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}})
	if s.Percent[0] != 0 || s.Percent[1] != 0.4 || s.Programs[0].Minutes[0] != 3 || len(s.Notes) != 1 {
		t.Errorf("percentages %v, minutes %v, notes %q", s.Percent, s.Programs[0].Minutes, s.Notes)
	}
}

// TestFittedSheetsFit: whatever is asked, the sheet for a timer fits the timer,
// waters the same zones and keeps each zone's weekly minutes but for rounding: a
// whole minute per start, or the shortest run.
func TestFittedSheetsFit(t *testing.T) {
	refused := 0
	rapid.Check(t, func(t *rapid.T) {
		o := timer.Profile{Programs: rapid.IntRange(1, 3).Draw(t, "programs"), Starts: rapid.IntRange(1, 4).Draw(t, "starts"),
			PercentStep: rapid.SampledFrom([]float64{0.05, 0.1, 0.25}).Draw(t, "step"),
			MinMinutes:  float64(rapid.IntRange(1, 5).Draw(t, "least")), Cycle: rapid.Bool().Draw(t, "cycle")}
		zones := []sim.Zone{plain("a"), plain("b"), plain("c")}
		var programs strategy.Programs
		for i := range rapid.IntRange(1, 5).Draw(t, "asked programs") {
			p := strategy.Program{Name: fmt.Sprint("p", i), Days: rapid.SampledFrom([]strategy.DayRule{weekdays(1), weekdays(2, 5),
				weekdays(1, 3, 5), {}}).Draw(t, "days"), Cycle: float64(rapid.IntRange(0, 9).Draw(t, "cycle")), Soak: 20}
			for k := range rapid.IntRange(1, 6).Draw(t, "starts") {
				p.Starts = append(p.Starts, 60+200*k)
			}
			for range zones {
				p.Minutes = append(p.Minutes, float64(rapid.IntRange(0, 25).Draw(t, "minutes")))
			}
			programs.List = append(programs.List, p)
		}
		st := strategy.Strategy{Name: "s", Parts: []strategy.Part{programs, strategy.Monthly{Share: [12]float64{6: 1, 7: 0.35}}}}
		site := settings.NewSite(zones, still(730), nil, nil)
		asked, err := settings.Make(site, &st, settings.Options{PercentStep: 0.01})
		if err != nil {
			t.Skip(err)
		}
		if len(asked.Refusals(&o)) > 0 {
			refused++
		}
		s, err := settings.Make(site, &st, settings.Options{Timer: &o})
		if err != nil {
			t.Fatal(err)
		}
		if left := s.Refusals(&o); len(left) > 0 {
			t.Errorf("does not fit: %+v\n%+v", left, s.Programs)
		}
		week := func(s *settings.Sheet, z int) (minutes, starts float64) {
			for _, p := range s.Programs {
				days := 0.0
				for i := range 364 {
					if p.Days.Runs(site.Calendar, i) {
						days += 7.0 / 364
					}
				}
				if p.Minutes[z] > 0 {
					starts += days * float64(len(p.Starts))
				}
				minutes += p.Minutes[z] * days * float64(len(p.Starts))
			}
			return minutes, starts
		}
		for z := range zones {
			was, _ := week(asked, z)
			now, starts := week(s, z)
			if (was > 0) != (now > 0) || math.Abs(now-was) > starts*max(0.6, o.MinMinutes)+0.01*was {
				t.Errorf("zone %d: %g min a week, asked %g, %g starts a week\n%+v\n%+v", z, now, was, starts, asked.Programs, s.Programs)
			}
		}
		for _, r := range settings.Nearest(asked.Refusals(&o), s) {
			if r.Nearest == "" {
				t.Errorf("%s has no nearest", r.Reason)
			}
		}
	})
	if refused == 0 {
		t.Error("no timer refused anything: the property met no case of it")
	}
}

// TestDryZonesAreNamed: every zone without water has the reason.
func TestDryZonesAreNamed(t *testing.T) {
	zones := []sim.Zone{plain("a"), plain("b"), plain("c"), plain("d"), plain("e")}
	hand := strategy.Program{Name: "h", Starts: []int{300}, Minutes: []float64{0, 0, 0, 9, 0}, ByHand: true}
	old := strategy.Program{Name: "o", Starts: []int{300}, Minutes: []float64{0, 9, 0, 0, 0}, To: still(1).Start + 9}
	s := make1(t, zones, nil, settings.Options{}, list(strategy.Program{Name: "p", Starts: []int{300}, Minutes: []float64{9, 0, 9, 0, 0}},
		hand,
		old), strategy.ZonePercent{Share: []float64{1, 1, 0, 1, 1}})
	want := []settings.DryZone{{Zone: 1, Reason: settings.NotInForce}, {Zone: 2, Reason: settings.PercentZero},
		{Zone: 3, Reason: settings.ByHand}, {Zone: 4, Reason: settings.NotIncluded}}
	if !slices.Equal(s.Dry, want) {
		t.Errorf("dry zones %+v, by hand %+v", s.Dry, want)
	}
	if text := s.Dry[3].Text(s); text != "e: no water, since the strategy does not include it" {
		t.Errorf("%q", text)
	}
}

func TestClockText(t *testing.T) {
	for _, c := range []struct {
		minutes float64
		us, si  string
	}{
		{0, "12:00 AM", "00:00"}, {300, "5:00 AM", "05:00"}, {719.2, "12:00 PM", "12:00"}, {1358, "10:38 PM", "22:38"},
		{-82, "10:38 PM the day before", "22:38 the day before"}, {1440, "12:00 AM the next day", "00:00 the next day"},
		{1603, "2:43 AM the next day", "02:43 the next day"}, {2880, "12:00 AM 2 days later", "00:00 2 days later"},
	} {
		if us, si := settings.ClockText(c.minutes, quantity.US), settings.ClockText(c.minutes, quantity.SI); us != c.us || si != c.si {
			t.Errorf("%g min is %q and %q, by hand %q and %q", c.minutes, us, si, c.us, c.si)
		}
	}
}

// TestFinishUsesPrintedMinutes by hand: 25 min at 30% is 7.5, printed as 8, and
// 11 at 30% is 3.3, printed as 3: from 05:00 the zones end at 05:11, not 05:10.8.
func TestFinishUsesPrintedMinutes(t *testing.T) {
	s := make1(t, []sim.Zone{plain("a"), plain("b")}, nil, settings.Options{}, list(strategy.Program{Name: "p", Starts: []int{300},
		Minutes: []float64{25, 11}}), strategy.Monthly{Share: [12]float64{6: 0.3, 7: 0.15}})
	if got := s.Times[6].FinishMin; got != 311 {
		t.Errorf("ends at %g, by hand at 311", got)
	}
	// At 15%: 3.75 is 4 and 1.65 is 2.
	if got := s.Times[7].FinishMin; got != 306 {
		t.Errorf("ends at %g, by hand at 306", got)
	}
}

// TestLateSheetsStartEarlier by hand: a zone of 400 min from 04:00 ends at 10:40.
// To end by 08:00, it starts 160 min earlier, at 01:20; one of 600 min ends at
// 14:00 and starts six hours earlier, at 22:00 the day before.
func TestLateSheetsStartEarlier(t *testing.T) {
	of := func(minutes float64) *settings.Shift {
		return make1(t, []sim.Zone{plain("a")}, nil, settings.Options{}, list(strategy.Program{Name: "p", Starts: []int{240},
			Minutes: []float64{minutes}})).Shift
	}
	if s := of(360); s != nil {
		t.Errorf("an end at 10:00 is late: %+v", s)
	}
	if s := of(400); s == nil || s.EarlierMin != 160 || s.NewFromMin != 80 || s.Month != 1 {
		t.Errorf("%+v, by hand 160 min earlier, at 80", s)
	}
	s := of(600)
	if s == nil || s.NewFromMin != -120 {
		t.Fatalf("%+v, by hand at -120", s)
	}
	const want = "The longest day, in Jan, waters from 4:00 AM to 2:00 PM. To finish by 8:00 AM, start every program 6 h earlier: " +
		"the first at 10:00 PM the day before; a start before midnight needs the days set one day earlier."
	if got := s.Text(quantity.US); got != want {
		t.Errorf("%q", got)
	}
}
