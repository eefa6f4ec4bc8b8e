package settings_test

import (
	"context"
	"errors"
	"reflect"
	"testing"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// still returns n days from a Monday, 2018-01-01, with the same ETo and a rain
// every ninth day.
func still(n int) sim.Weather {
	w := sim.Weather{Start: cal.Of(2018, 1, 1), RainMM: make([]float64, n), EToMM: make([]float64, n), TminC: make([]float64, n)}
	for i := range n {
		w.EToMM[i] = 4
		if i%9 == 3 {
			w.RainMM[i] = 12
		}
	}
	return w
}

// plain is one even strip that takes in all water: PR 60 mm/h.
func plain(name string) sim.Zone {
	z := sim.Zone{Name: name, AreaM2: 100, TAWMM: 60, P: 0.5, PRMMH: 60, DULQ: 1, Strips: 1, IntakeMMH: 1000, SurfaceStorageMM: 5,
		Rain: sim.Rain{Method: sim.FixedShare, EffectiveShare: 1}}
	for m := range z.K {
		z.K[m] = 0.8
	}
	return z
}

func weekdays(days ...int) strategy.DayRule {
	r := strategy.DayRule{Kind: strategy.Weekdays}
	for _, d := range days {
		r.Weekdays[d] = true
	}
	return r
}

func make1(t *testing.T, zones []sim.Zone, limits *strategy.Limits, o settings.Options, parts ...strategy.Part) *settings.Sheet {
	t.Helper()
	s, err := settings.Make(settings.NewSite(zones, still(730), limits, nil), &strategy.Strategy{Name: "s", Parts: parts}, o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestRounding is worked by hand from the rules in the comment of Make.
func TestRounding(t *testing.T) {
	zones := []sim.Zone{plain("a"), plain("b"), plain("c"), plain("d")}
	p := strategy.Program{Name: "p", Days: weekdays(1, 4), Starts: []int{400, 300}, Minutes: []float64{22.4, 0.2, 17.5, 0}, Cycle: 7.8,
		Soak: 30.2}
	monthly := strategy.Monthly{Share: [12]float64{0, 0.02, 0.37, 0.38, 0.5, 1, 1.04, 0.96, 0.7, 0.33, 0.1, 0}}
	for _, c := range []struct {
		step float64
		want [12]float64
	}{
		{0, [12]float64{0, 0, 0.35, 0.4, 0.5, 1, 1.05, 0.95, 0.7, 0.35, 0.1, 0}},
		{0.1, [12]float64{0, 0, 0.4, 0.4, 0.5, 1, 1, 1, 0.7, 0.3, 0.1, 0}},
	} {
		s := make1(t, zones, nil, settings.Options{PercentStep: c.step}, monthly, strategy.Programs{List: []strategy.Program{p}})
		if s.Percent != c.want {
			t.Errorf("step %g: percentages %v, by hand %v", c.step, s.Percent, c.want)
		}
		got := s.Programs[0]
		if want := []float64{22, 1, 18, 0}; !reflect.DeepEqual(got.Minutes, want) || got.Cycle != 7 || got.Soak != 31 ||
			!reflect.DeepEqual(got.Starts, []int{300, 400}) {
			t.Errorf("minutes %v, cycle %g, soak %g, starts %v; by hand %v, 7, 31, [300 400]", got.Minutes, got.Cycle, got.Soak, got.Starts, want)
		}
	}
	// A zone percentage changes the zone's run time: 22.4 at 50% is 11.2.
	s := make1(t, zones, nil, settings.Options{}, strategy.ZonePercent{Share: []float64{0.5, 1, 1, 1}},
		strategy.Programs{List: []strategy.Program{p}})
	if s.Programs[0].Minutes[0] != 11 {
		t.Errorf("22.4 min at 50%% is entered as %g, by hand 11", s.Programs[0].Minutes[0])
	}
}

// TestEntries by hand: 20 min at 40% is 8 min, one cycle; at 100% there are three
// cycles, 8 + 8 + 4.
func TestEntries(t *testing.T) {
	p := strategy.Program{Name: "p", Starts: []int{300}, Minutes: []float64{20}, Cycle: 8, Soak: 30}
	var monthly strategy.Monthly
	monthly.Share[3], monthly.Share[6] = 0.4, 1
	s := make1(t, []sim.Zone{plain("a")}, nil, settings.Options{}, monthly, strategy.Programs{List: []strategy.Program{p}})
	e := s.Entries()
	if len(e) != 12 || e[3].Minutes != 8 || e[3].Cycles != 1 || e[6].Minutes != 20 || e[6].Cycles != 3 || e[0].Minutes != 0 ||
		e[0].Cycles != 0 {
		t.Errorf("entries %+v", e)
	}
	// 05:00 plus 20 min in three cycles with two soaks: 20 + 60 min, 06:20.
	if got := s.Times[6]; !got.Waters || got.StartMin != 300 || got.FinishMin != 380 {
		t.Errorf("July runs %+v, by hand 300 to 380", got)
	}
	if got := s.Times[3]; got.FinishMin != 308 {
		t.Errorf("April ends at %g, by hand 308", got.FinishMin)
	}
	if s.Times[0].Waters {
		t.Error("January waters")
	}
}

// TestMonthsOutsideTheSeason by hand: a season from March 1 to November 15 leaves
// December to February off, so that March 1 is the first change and follows
// November; one from November 10 to March 5 leaves April to October off.
func TestMonthsOutsideTheSeason(t *testing.T) {
	s := &settings.Sheet{Percent: [12]float64{0.1, 0.15, 0.3, 1, 1, 1, 1, 1, 1, 1, 0.15, 0.1},
		Parts: []strategy.Part{strategy.Season{Start: 301, End: 1115}}}
	if want := []int{2, 3, 4, 5, 6, 7, 8, 9, 10}; !reflect.DeepEqual(s.Months(), want) {
		t.Errorf("months %v, by hand %v", s.Months(), want)
	}
	want := []settings.Change{{Month: 3, Day: 1, Percent: 0.3}, {Month: 4, Day: 1, Percent: 1}, {Month: 11, Day: 1, Percent: 0.15}}
	if got := s.Changes(); !reflect.DeepEqual(got, want) {
		t.Errorf("changes %v, by hand %v", got, want)
	}
	s.Parts = []strategy.Part{strategy.Season{Start: 1110, End: 305}}
	if want := []int{0, 1, 2, 10, 11}; !reflect.DeepEqual(s.Months(), want) {
		t.Errorf("months over the new year %v, by hand %v", s.Months(), want)
	}
}

// TestChanges: there is a change where the percentage differs from the month
// before; December comes before January.
func TestChanges(t *testing.T) {
	s := &settings.Sheet{Percent: [12]float64{0, 0, 0.4, 0.4, 1, 1, 1, 1, 1, 0.5, 0, 0}}
	want := []settings.Change{{Month: 3, Day: 1, Percent: 0.4}, {Month: 5, Day: 1, Percent: 1}, {Month: 10, Day: 1, Percent: 0.5},
		{Month: 11, Day: 1}}
	if got := s.Changes(); !reflect.DeepEqual(got, want) {
		t.Errorf("changes %v, by hand %v", got, want)
	}
	for _, c := range []struct{ from, want cal.Date }{
		{cal.Of(2026, 2, 28), cal.Of(2026, 3, 1)}, {cal.Of(2026, 3, 1), cal.Of(2026, 5, 1)}, {cal.Of(2026, 11, 1), cal.Of(2027, 3, 1)},
		{cal.Of(2028, 2, 29), cal.Of(2028, 3, 1)},
	} {
		if at, ch, ok := s.Next(c.from); !ok || at != c.want || ch.Percent != s.Percent[ch.Month-1] {
			t.Errorf("next after %v is %v (%v), by hand %v", c.from, at, ok, c.want)
		}
	}
	all := &settings.Sheet{Percent: [12]float64{1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}}
	if _, _, ok := all.Next(0); ok || len(all.Changes()) > 0 {
		t.Error("a sheet without percentages has changes")
	}
}

func run(t *testing.T, zones []sim.Zone, limits *strategy.Limits, list ...strategy.Strategy) *tally.Table {
	t.Helper()
	table, err := replay.Run(context.Background(), &replay.Job{Zones: zones, Weather: still(730), Limits: limits, Strategies: list}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// TestSheetIsTheStrategy: if nothing needs rounding, the sheet replays to the same
// digits as the strategy it was made from.
func TestSheetIsTheStrategy(t *testing.T) {
	zones := []sim.Zone{plain("a"), plain("b")}
	zones[1].PRMMH, zones[1].IntakeMMH, zones[1].Strips, zones[1].DULQ = 38, 9, 8, 0.6
	programs := strategy.Programs{List: []strategy.Program{
		{Name: "p", Days: weekdays(1, 3, 5), Starts: []int{300, 900}, Minutes: []float64{4, 11}, Cycle: 5, Soak: 25},
		{Name: "q", Days: strategy.DayRule{Kind: strategy.OddDays}, Starts: []int{300}, Minutes: []float64{0, 3}}}}
	monthly := strategy.Monthly{Share: [12]float64{0, 0, 0.4, 0.6, 0.8, 1, 1, 0.95, 0.75, 0.5, 0.25, 0}}
	limits := &strategy.Limits{Exempt: make([]bool, 2)}
	limits.Always.Windows = []clock.Window{{FromMin: 1080, ToMin: 1079}}
	for _, st := range []strategy.Strategy{
		{Name: "fixed", Parts: []strategy.Part{programs}},
		{Name: "monthly", Parts: []strategy.Part{programs, monthly}},
		{Name: "kept", Parts: []strategy.Part{programs, monthly, strategy.RainHold{AtLeastMM: 6, DryOut: 2},
			strategy.ETPercent{DesignEToMM: 5, Days: 7, SubtractRain: true, Max: 1.3}}},
	} {
		for _, l := range []*strategy.Limits{nil, limits} {
			s, err := settings.Make(settings.NewSite(zones, still(730), l, nil), &st, settings.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if len(s.Notes)+len(s.Misfits)+len(s.Held) > 0 {
				t.Errorf("%s: %v %v %v", st.Name, s.Notes, s.Misfits, s.Held)
			}
			table := run(t, zones, l, st, s.Strategy())
			if !reflect.DeepEqual(table.Outcomes[0], table.Outcomes[1]) {
				t.Errorf("%s: the sheet and the strategy replay to different digits", st.Name)
			}
		}
	}
}

// TestRoundedSheetIsWhatIsReplayed: 22.4 min every day is entered as 22, and the
// replay of the sheet applies 22.
func TestRoundedSheetIsWhatIsReplayed(t *testing.T) {
	zones := []sim.Zone{plain("a")}
	s := make1(t, zones, nil, settings.Options{}, strategy.Programs{List: []strategy.Program{{Name: "p", Starts: []int{300},
		Minutes: []float64{22.4}}}})
	table := run(t, zones, nil, s.Strategy())
	if got, want := table.Total(0, 0).GrossMM, 22.0*730; got < want-1e-6 || got > want+1e-6 { // 60 mm/h: a millimeter per minute
		t.Errorf("the sheet applies %g mm, by hand %g", got, want)
	}
}

func TestRefused(t *testing.T) {
	zones := []sim.Zone{plain("a")}
	site := settings.NewSite(zones, still(400), nil, nil)
	if _, err := settings.Make(site, &strategy.Strategy{Parts: []strategy.Part{&strategy.Refill{Zones: []bool{true}, MAD: 0.5}}},
		settings.Options{}); !errors.Is(err, settings.ErrOwnBalance) {
		t.Errorf("a refill gives %v", err)
	}
	old := strategy.Program{Name: "old", Starts: []int{300}, Minutes: []float64{5}, To: cal.Of(2018, 3, 1)}
	if _, err := settings.Make(site, &strategy.Strategy{Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{old}}}},
		settings.Options{}); !errors.Is(err, settings.ErrNothing) {
		t.Errorf("a program that has ended gives %v", err)
	}
	// The same on a day on which it was in force.
	if s, err := settings.Make(site, &strategy.Strategy{Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{old}}}},
		settings.Options{AsOf: cal.Of(2018, 2, 1)}); err != nil || len(s.Notes) != 1 {
		t.Errorf("on Feb 1: %v", err)
	}
}
