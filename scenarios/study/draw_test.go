package study

import (
	"context"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim/draw"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather"
)

// rangedYard is the yard with some numbers given as ranges.
func rangedYard(tb testing.TB, changes ...string) (*Study, *tally.Table) {
	tb.Helper()
	sc := readYard(tb, strings.NewReplacer(changes...).Replace(yardText))
	w, err := Prepare(sc, Records{Parts: []*weather.Record{inventRecord(tb, 4)}})
	if err != nil {
		tb.Fatal(err)
	}
	l, err := New(sc, w, nil)
	if err != nil {
		tb.Fatal(err)
	}
	t, err := l.Replay(context.Background(), nil)
	if err != nil {
		tb.Fatal(err)
	}
	return l, t
}

func drawn(tb testing.TB, l *Study, t *tally.Table, o DrawOptions) *plots.Ranges {
	tb.Helper()
	r, err := l.Draw(context.Background(), t, o)
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

// waterOf returns the spread of the yearly water of strategy s, and the replay's.
func waterOf(r *plots.Ranges, s int) (draw.Spread, float64) {
	for i := range r.Spreads {
		if r.Spreads[i].Figure.Measure.Kind == tally.Volume {
			return r.Spreads[i].Of[s], r.Spreads[i].Point[s]
		}
	}
	return draw.Spread{}, math.NaN()
}

// TestFixedScheduleAgainstItsClosedForm: the water of fixed run times is linear in the
// rate, so with one zone watered and a rate flat from 30 to 40 mm/h, a tenth of the draws
// lies below 31/35 of the replay's water, half below 35/35 and nine tenths below 39/35,
// whatever else is in doubt.
func TestFixedScheduleAgainstItsClosedForm(t *testing.T) {
	l, table := rangedYard(t, "rate: 35 mm/h", "rate: 30 to 40 mm/h", "front: 12, back: 30", "front: 12")
	for _, keep := range []bool{false, true} {
		r := drawn(t, l, table, DrawOptions{Draws: 500, Workers: 2, Keep: keep})
		got, point := waterOf(r, 0)
		for _, c := range [][2]float64{{got.P10, 31.0 / 35}, {got.P50, 1}, {got.P90, 39.0 / 35}} {
			if math.Abs(c[0]/point-c[1]) > 0.003 {
				t.Errorf("keep %v: %v of the replay's water, want %v", keep, c[0]/point, c[1])
			}
		}
	}
}

// TestDrawsOnAnyNumberOfGoroutines: the record of the draws is the same to the last bit
// on one goroutine and on three; another seed gives others.
func TestDrawsOnAnyNumberOfGoroutines(t *testing.T) {
	record := func(workers int, seed string) string {
		l, table := rangedYard(t, "uniformity: 55 %", "uniformity: 45% to 65%", "units: si", "units: si\nranges: {seed: "+seed+"}")
		r := drawn(t, l, table, DrawOptions{Draws: 120, Workers: workers})
		text, err := json.Marshal(l.DrawRecord(table, r))
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	one := record(1, "5")
	if three := record(3, "5"); three != one {
		t.Errorf("on one goroutine:\n%s\non three:\n%s", one, three)
	}
	if record(2, "6") == one {
		t.Error("another seed gives the same draws")
	}
}

// TestWhatFollowsTheSettings: with settings kept, doubt about the plants changes nothing
// that a controller does, so a refill uses the same water in every draw; set from the
// values of each draw, it uses more where plants need more.
func TestWhatFollowsTheSettings(t *testing.T) {
	l, table := rangedYard(t)
	kept, point := waterOf(drawn(t, l, table, DrawOptions{Draws: 200, Workers: 2, Keep: true}), 1)
	if math.Abs(kept.P10-point) > 1e-9 || math.Abs(kept.P90-point) > 1e-9 {
		t.Errorf("with settings kept: %+v, the replay %v", kept, point)
	}
	r := drawn(t, l, table, DrawOptions{Draws: 200, Workers: 2})
	if follows, _ := waterOf(r, 1); follows.Width() < 0.1*point {
		t.Errorf("set from each draw: %+v, the replay %v", follows, point)
	}
	if r.Other == nil || r.Other.Draws != 50 {
		t.Errorf("what the other settings come to: %+v", r.Other)
	}
	if top := r.Swings[0]; top.What != "water need (K), cool-season turf" {
		t.Errorf("the water need moves a refill most, and not %q", top.What)
	}
	years := r.Years
	if years == nil || years.Years != 4 || years.Mean.Width() >= years.Single.Width() {
		t.Errorf("a mean of years differs less than a year: %+v", years)
	}
}

// TestDrawsCoverTheTruth: P10 and P90 of the draws are those of sites that are drawn
// apart from them, so that eight in ten such sites lie between.
func TestDrawsCoverTheTruth(t *testing.T) {
	l, table := rangedYard(t, "rate: 35 mm/h", "rate: 25 to 45 mm/h", "area: 160 m2", "area: 120 to 160 to 200 m2")
	r := drawn(t, l, table, DrawOptions{Draws: 400, Workers: 2})
	truths := *l
	sc := *l.Scenario
	sc.Ranges.Seed = 99
	truths.Scenario = &sc
	of := drawn(t, &truths, table, DrawOptions{Draws: 300, Workers: 2})
	if of.Saving == r.Saving {
		t.Fatal("the truths are the draws")
	}
	// The quantiles of 300 other draws differ from those of 400 by chance alone: a tenth of
	// the values is off by about sqrt(0.1·0.9/300) = 0.017 in share, 0.05 at three times.
	width := r.Saving.Width()
	for _, pair := range [][2]float64{{of.Saving.P10, r.Saving.P10}, {of.Saving.P90, r.Saving.P90}} {
		if math.Abs(pair[0]-pair[1]) > 0.12*width {
			t.Errorf("%+v and %+v", of.Saving, r.Saving)
		}
	}
}

// TestDrawsOfOneStrategy: one strategy has no option, and its water is what is looked at.
func TestDrawsOfOneStrategy(t *testing.T) {
	l, table := rangedYard(t, "rate: 35 mm/h", "rate: 30 to 40 mm/h", "\n  - {name: refill when due, refill: {mad: 50 %}}", "")
	r := drawn(t, l, table, DrawOptions{Draws: 100})
	if r.Option != table.Baseline || r.Swings[0].What != "sprinkler rate, front" {
		t.Errorf("%d, %+v", r.Option, r.Swings[0])
	}
	for _, v := range l.RangeViews(table, r) {
		if len(v.Head)+len(v.Notes) == 0 && v.Grid == nil {
			t.Error("an empty view")
		}
	}
}

// TestRunTimeAgainstItsClosedForm: the water of a program is linear in its run time, so of
// 10 to 14 minutes where 12 are the middle, a tenth of the draws lies below 10.4/12, half
// below 1 and nine tenths below 13.6/12, whether or not controllers keep their settings.
func TestRunTimeAgainstItsClosedForm(t *testing.T) {
	l, table := rangedYard(t, "front: 12, back: 30", "front: 10 to 14", "cycle: 8 min, soak: 30 min", "cycle: 15 min")
	for _, keep := range []bool{false, true} {
		r := drawn(t, l, table, DrawOptions{Draws: 500, Workers: 2, Keep: keep})
		got, point := waterOf(r, 0)
		for _, c := range [][2]float64{{got.P10, 10.4 / 12}, {got.P50, 1}, {got.P90, 13.6 / 12}} {
			if math.Abs(c[0]/point-c[1]) > 0.003 {
				t.Errorf("keep %v: %v of the replay's water, want %v", keep, c[0]/point, c[1])
			}
		}
		found := false
		for _, m := range r.Settle {
			found = found || m.What == "run time of front, program “p”" && strings.Contains(m.How, "read it off")
		}
		if !found {
			t.Errorf("keep %v: %+v", keep, r.Settle)
		}
	}
}

// TestOwnNumbersWithSettingsKept: where nothing but numbers of strategies differs from the
// stated values, it makes no difference whether settings are kept, and both are the replay
// of a scenario with those numbers.
func TestOwnNumbersWithSettingsKept(t *testing.T) {
	l, table := rangedYard(t, "front: 12,", "front: 8 to 16,", "refill: {mad: 50 %}", "refill: {mad: 30% to 70%, share: 70% to 90%}",
		"programs: [p]}", "programs: [p], hold: {rain: {at_least: 3 to 6 mm, dry_out: 1 to 5 days}}}")
	pick := func(of *scenarios.Doubt) float64 {
		if of.Zone == "" && of.Input != "ranges.eto" && of.Input != "ranges.rain" {
			return of.Range.At(0.85)
		}
		return of.Replay
	}
	var got [2]sample
	for i, anew := range []bool{false, true} {
		d := &drawing{Study: l, ctx: context.Background(), table: table, basis: table.Basis(), causes: causesOf(l.doubts(), 1000)}
		d.figures = d.basis.Figures(tally.FrontFigures(l.measures()))
		d.option, d.own = l.verdictData(table).Option(), d.ownNumbers()
		d.worlds = replay.NewWorlds(&l.Job, table)
		d.worlds.Anew = anew
		samples, err := d.run(1, 0, func(int) func(*scenarios.Doubt) float64 { return pick })
		if err != nil {
			t.Fatal(err)
		}
		got[i] = samples[0]
	}
	sc, err := l.Scenario.Drawn(pick)
	if err != nil {
		t.Fatal(err)
	}
	w, err := Prepare(sc, Records{Parts: []*weather.Record{inventRecord(t, 4)}})
	if err != nil {
		t.Fatal(err)
	}
	truth, err := New(sc, w, nil)
	if err != nil {
		t.Fatal(err)
	}
	replayed, err := truth.Replay(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	for st, row := range replayed.Compare()[:2] {
		was := table.Compare()[st].M3PerYear
		for i := range got {
			if v := got[i].m3[st]; math.Abs(v/row.M3PerYear-1) > 1e-9 || math.Abs(v/was-1) < 0.02 {
				t.Errorf("strategy %d, anew %v: %v m³, the scenario %v, as stated %v", st, i == 1, v, row.M3PerYear, was)
			}
		}
	}
}

// TestOneSidedRangeIsShown: of ETo from 90% to 100% the replay has the station's and the draws
// are centered on 95%, which is said, as is what it does to the water of a refill: about 5%.
func TestOneSidedRangeIsShown(t *testing.T) {
	l, table := rangedYard(t, "units: si", "units: si\nranges: {eto: 90% to 100%, rain: 99% to 101%}",
		"\n  - {name: as found, programs: [p]}", "")
	r := drawn(t, l, table, DrawOptions{Draws: 100, Workers: 2})
	at := slices.IndexFunc(r.Off, func(o plots.OffCenter) bool { return o.What == "reference ET" })
	if at < 0 || r.Off[at].Replay != "100%" || r.Off[at].Middle != "95%" {
		t.Fatalf("%+v", r.Off)
	}
	if m := r.Middle; m == nil || m.SavingM3 > 0.98*m.ReplayM3 {
		t.Errorf("%+v", m)
	}
	text := ""
	for _, v := range l.RangeViews(table, r) {
		text += strings.Join(v.Head, "\n") + strings.Join(v.Notes, "\n")
	}
	if !strings.Contains(text, "With the values of the replay") || !strings.Contains(text, "not the middle of their draws") {
		t.Error(text)
	}
	for i := range r.Swings { // all others as in the replay
		if w := &r.Swings[i]; w.What == "rain" && (w.SavingM3[0]-r.Middle.ReplayM3)*(w.SavingM3[1]-r.Middle.ReplayM3) > 0 {
			t.Errorf("%+v around %v", w, r.Middle.ReplayM3)
		}
	}
}

// Advice alone is what the report says, with draws and without.
func TestAdviceIsThatOfTheReport(t *testing.T) {
	l, table := rangedYard(t, "rate: 30 mm/h", "rate: 20 to 40 mm/h")
	for range 2 {
		a, r := l.Advice(table), plots.NewReport(l.ChartData(table, &Season{}), l.Facts(table, 0))
		if a.Answer != r.Answer || a.Ranges != r.Front.Ranges || a.WhyNot != r.Front.WhyNot || a.Measure != r.Front.Measure ||
			!slices.Equal(a.Uncertainties, r.Front.Uncertainties) || !slices.Equal(a.Steps, r.Front.Steps) || a.Answer == "" || len(a.Steps) == 0 {
			t.Errorf("%+v\nis not that of\n%+v", a, r.Front)
		}
		drawn(t, l, table, DrawOptions{Draws: 32, Lean: true})
	}
}
