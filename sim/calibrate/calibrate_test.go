package calibrate_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"loamledger/sim/calibrate"
	"loamledger/sim/meter"
	"loamledger/weather/cal"
)

// months reads exact use once a month, with a base of 0.5 m³ a day.
func months(u *calibrate.Use, n int, scale float64) []meter.Period {
	var list []meter.Period
	from := begin
	for m := 1; m <= n; m++ {
		to := cal.Of(2015+m/12, 1+m%12, 1)
		p := meter.Period{From: from, To: to}
		for d := from; d < to; d++ {
			p.M3 += 0.5 + scale*u.RunM3[d-begin]
		}
		list = append(list, p)
		from = to
	}
	return list
}

func run(t *testing.T, j calibrate.Job) *calibrate.Result {
	t.Helper()
	if j.Draws == 0 {
		j.Draws = 99
	}
	r, err := j.Run(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func value(r *calibrate.Result, key calibrate.Key) float64 {
	for i := range r.Params {
		if r.Params[i].Key == key {
			return r.Params[i].Value
		}
	}
	return math.NaN()
}

// Exact reads give exact values, and the last year is held out.
func TestExactReads(t *testing.T) {
	u := scheduled(365*3 + 1)
	r := run(t, calibrate.Job{Periods: months(u, 36, 1.3), Replay: replayed(u)})
	if b, f := value(r, calibrate.Base), value(r, calibrate.Scale); math.Abs(b-0.5) > 1e-9 || math.Abs(f-1.3) > 1e-9 {
		t.Errorf("base %g, flow %g", b, f)
	}
	if r.P != 2 || r.Memory || r.Plants || !r.Better() {
		t.Errorf("%+v", r)
	}
	for i := range r.Rows {
		if want := i >= 24; (r.Rows[i].Part == calibrate.Held) != want {
			t.Errorf("period %d: %v", i, r.Rows[i].Part.Key())
		}
		if math.Abs(r.Rows[i].After-r.Rows[i].M3) > 1e-9 {
			t.Errorf("period %d: %g, metered %g", i, r.Rows[i].After, r.Rows[i].M3)
		}
	}
}

// What is held out, after the change, or left out decides nothing.
func TestOnlyFittedPeriodsDecide(t *testing.T) {
	u := scheduled(365*4 + 1)
	list := months(u, 48, 1.3)
	changed := cal.Of(2018, 2, 10)
	list[3].Left, list[3].Why = true, meter.InEvent
	j := calibrate.Job{Periods: list, Replay: replayed(u), Reporting: changed}
	was := run(t, j)
	parts := map[calibrate.Part]int{}
	j.Periods = slices.Clone(list)
	for i := range was.Rows {
		parts[was.Rows[i].Part]++
		if was.Rows[i].Part != calibrate.Fitted {
			j.Periods[i].M3 = 7*j.Periods[i].M3 + 100
		}
	}
	// Hand: January 2018 ends before the change of February 10, which February straddles; the
	// ten months after it are of the reporting period. Of the 37 before, one is left out,
	// and the year before February 1, 2018, less 20 days, holds 12.
	if parts[calibrate.Reporting] != 10 || parts[calibrate.Left] != 2 || parts[calibrate.Held] != 12 || parts[calibrate.Fitted] != 24 {
		t.Errorf("%v", parts)
	}
	if was.Rows[37].Why != meter.Straddles {
		t.Errorf("%+v", was.Rows[37])
	}
	is := run(t, j)
	for i := range was.Params {
		a, b := was.Params[i], is.Params[i]
		if a.Value != b.Value || a.Tuned && a.Key != calibrate.Off && a.Interval != b.Interval {
			t.Errorf("%+v became %+v", a, b)
		}
	}
}

// Hand: of ten usable periods in less than two years, every third is held out: the
// second, the fifth and the eighth.
func TestEveryThirdIsHeldOut(t *testing.T) {
	u := scheduled(400)
	r := run(t, calibrate.Job{Periods: months(u, 10, 1), Replay: replayed(u)})
	for i := range r.Rows {
		if want := i == 1 || i == 4 || i == 7; (r.Rows[i].Part == calibrate.Held) != want {
			t.Errorf("period %d: %s", i, r.Rows[i].Part.Key())
		}
	}
	if !slices.Contains(r.Findings, calibrate.FewPeriods) || !slices.Contains(r.Findings, calibrate.ScheduleUntold) {
		t.Error(r.Findings)
	}
}

// The same job gives the same result, digit for digit.
func TestRepeats(t *testing.T) {
	u := scheduled(365*3 + 1)
	list := months(u, 36, 1.3)
	for i := range list {
		list[i].M3 *= 1 + 0.1*math.Sin(float64(i*i))
	}
	j := calibrate.Job{Periods: list, Replay: replayed(u), Seed: 5}
	a, b := run(t, j), run(t, j)
	// As texts, in which NaN is equal to itself.
	if x, y := fmt.Sprintf("%+v", a), fmt.Sprintf("%+v", b); x != y {
		t.Errorf("two runs differ:\n%s\n%s", x, y)
	}
}

// Hostile reads.
func TestNothingToTune(t *testing.T) {
	u := scheduled(365*3 + 1)
	all := months(u, 36, 1)
	zero := slices.Clone(all)
	for i := range zero {
		zero[i].M3 = 0
	}
	dry := &calibrate.Use{Start: u.Start, RunM3: make([]float64, len(u.RunM3))}
	outside := slices.Clone(all)
	for i := range outside {
		outside[i].From, outside[i].To = outside[i].From-9000, outside[i].To-9000
	}
	for _, tt := range []struct {
		name string
		list []meter.Period
		u    *calibrate.Use
		want calibrate.Reason
	}{
		{"none", nil, u, calibrate.TooFew}, {"three periods", all[:3], u, calibrate.TooFew}, {"all zeros", zero, u, calibrate.NoUse},
		{"a replay that never waters", all, dry, calibrate.NeverWaters}, {"outside the weather", outside, u, calibrate.TooFew},
	} {
		r := run(t, calibrate.Job{Periods: tt.list, Replay: replayed(tt.u)})
		if r.Stopped != tt.want || r.Better() || len(r.Rows) != len(tt.list) {
			t.Errorf("%s: %q, want %q", tt.name, r.Stopped, tt.want)
		}
		if tt.name == "outside the weather" && (r.Rows[0].Why != meter.OutOfRecord || !math.IsNaN(r.Rows[0].After)) {
			t.Errorf("%+v", r.Rows[0])
		}
	}
}

// Constant use under a replay that is not constant: the flow goes to its lower bound,
// which is said.
func TestConstantUse(t *testing.T) {
	u := scheduled(365*3 + 1)
	list := months(u, 36, 0)
	for i := range list {
		list[i].M3 = float64(list[i].Days())
	}
	r := run(t, calibrate.Job{Periods: list, Replay: replayed(u)})
	if v := value(r, calibrate.Scale); v != 0.5 || !slices.Contains(r.Findings, calibrate.AtBound) {
		t.Errorf("flow %g, %v", v, r.Findings)
	}
}

// A replay that is the same every day is not told from base use, which keeps its value.
func TestSameEveryDay(t *testing.T) {
	u := &calibrate.Use{Start: begin, RunM3: make([]float64, 365*3+1)}
	for i := range u.RunM3 {
		u.RunM3[i] = 2
	}
	r := run(t, calibrate.Job{Periods: months(u, 36, 1.1), Replay: replayed(u), Base: func([]int) float64 { return 0.5 }})
	if b, f := value(r, calibrate.Base), value(r, calibrate.Scale); b != 0.5 || math.Abs(f-1.1) > 1e-9 {
		t.Errorf("base %g, flow %g", b, f)
	}
	if r.Params[0].Tuned || r.P != 1 || !slices.Contains(r.Findings, calibrate.SameEveryDay) {
		t.Errorf("%+v, p %d, %v", r.Params[0], r.P, r.Findings)
	}
}

// Use in winter, when the replay waters nothing, is a finding if it is not base use.
func TestUseWhileOff(t *testing.T) {
	u := scheduled(365*3 + 1)
	list := months(u, 36, 1)
	for i := range list {
		if list[i].From.Month() == 3 { // watered in March only
			list[i].M3 += 60
		}
	}
	r := run(t, calibrate.Job{Periods: list, Replay: replayed(u)})
	if !slices.Contains(r.Findings, calibrate.UseWhileOff) {
		t.Error(r.Findings)
	}
}

// An error of a replay ends the calibration.
func TestErrorOfAReplay(t *testing.T) {
	stop := errors.New("stop")
	u := scheduled(365*3 + 1)
	for last := range 3 {
		n := 0
		j := calibrate.Job{Periods: months(u, 36, 1), Replay: func(ctx context.Context, a calibrate.Altered) (*calibrate.Use, error) {
			if n++; n > last {
				return nil, stop
			}
			return replayed(u)(ctx, a)
		}}
		if _, err := j.Run(context.Background()); !errors.Is(err, stop) {
			t.Errorf("after %d replays: %v", last, err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	j := calibrate.Job{Periods: months(u, 36, 1), Replay: replayed(u)}
	if _, err := j.Run(ctx); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// Every code has a line that says what it means.
func TestCodes(t *testing.T) {
	for _, d := range calibrate.Keys() {
		if d.Key == "" || d.Doc == "" {
			t.Errorf("%+v", d)
		}
	}
	for _, d := range calibrate.Reasons() {
		if d.Reason == "" || d.Doc == "" {
			t.Errorf("%+v", d)
		}
	}
	for p := calibrate.Left; p <= calibrate.Reporting; p++ {
		if p.Key() == "" {
			t.Error(p)
		}
	}
}

func BenchmarkRun(b *testing.B) {
	u := scheduled(365*4 + 1)
	j := calibrate.Job{Periods: months(u, 48, 1.3), Replay: replayed(u)}
	for i := range j.Periods {
		j.Periods[i].M3 *= 1 + 0.1*math.Sin(float64(i*i))
	}
	for b.Loop() {
		if _, err := j.Run(context.Background()); err != nil {
			b.Fatal(err)
		}
	}
}
