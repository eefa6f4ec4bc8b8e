package replay_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// peekZones is how many zones the strategies of this file are made for.
const peekZones = 2

// everyKind makes, for each kind of part, strategies in which it has a say. A
// kind that is registered but missing here fails the test.
func everyKind(start cal.Date) map[string][]strategy.Strategy {
	all := []bool{true, true}
	any := strategy.DayRule{}
	daily := strategy.Programs{List: []strategy.Program{{Name: "p", Days: any, Starts: []int{300}, Minutes: []float64{14, 9}, Cycle: 6,
		Soak: 20}}}
	thirds := strategy.Programs{List: []strategy.Program{{Name: "q", Days: strategy.DayRule{Kind: strategy.Interval, Every: 3, From: start},
		Starts: []int{300, 500}, Minutes: []float64{30, 0}}}}
	stack := func(name string, parts ...strategy.Part) strategy.Strategy {
		return strategy.Strategy{Name: name, Parts: parts}
	}
	winter := strategy.Season{Start: 301, End: 1115, FrostC: 4, FrostFreeDays: 3}
	vacation := strategy.Suspend{From: start + 10, To: start + 25, Zones: []bool{true, false}}
	extra := strategy.Manual{Date: start + 14, Zone: 0, Minutes: 20, AtMin: 1080}
	person := strategy.Habit{Target: &[12]float64{.3, .4, .6, .8, 1, 1.2, 1.1, .9, .7, .5, .3, .2}, Edits: 6,
		MinDelay: 2, MaxDelay: 20, Seed: 3, RaiseBy: 0.5, Steps: 2, VisibleBelowKs: 0.9, RaiseAfter: 2, LowerAfter: 6}
	wind := strategy.WindHold{AboveMS: 2}
	percent := strategy.ZonePercent{Share: []float64{1.4, math.NaN()}}
	unsure := strategy.RainHold{AtLeastMM: 4, DryOutEToMM: 12, MissRate: 0.3, Seed: 8}
	monthly := strategy.Monthly{Share: [12]float64{.2, .4, .6, .8, 1, 1.2, 1.1, .9, .7, .5, .3, .1}}
	et := strategy.ETPercent{DesignEToMM: 5, Days: 5, SubtractRain: true, Max: 2}
	rain := strategy.RainHold{AtLeastMM: 5, DryOut: 3}
	freeze := strategy.FrostHold{BelowC: 5}
	refill := &strategy.Refill{Zones: all, MAD: 0.4, Extra: -1}
	sensor := strategy.Sensor{PermitAt: 0.3, Zones: all, Placement: "driest"}
	governs := strategy.Sensor{PermitAt: 0.3, Zones: all, ReadZone: 2, Placement: "average", Error: 0.05, Seed: 9}
	crossed := strategy.Sensor{PermitAt: 0.35, Zones: []bool{true, false}, ReadZone: 2, Placement: "driest"}
	noisy := strategy.Sensor{PermitAt: 0.3, Zones: all, Placement: "average", Error: 0.1, Seed: 5}
	return map[string][]strategy.Strategy{
		"programs":   {stack("daily", daily), stack("two programs", daily, thirds)},
		"monthly":    {stack("monthly", daily, monthly)},
		"round":      {stack("rounded", daily, et, strategy.Round{StepMin: 1})},
		"et_percent": {stack("et", daily, et), stack("et without rain", thirds, strategy.ETPercent{DesignEToMM: 4, Days: 1, Max: 3})},
		"hold.rain":  {stack("rain", daily, rain), stack("failing rain sensor that dries by ETo", daily, unsure)},
		"hold.frost": {stack("freeze", daily, freeze)},
		"hold.wind":  {stack("wind", daily, wind)},
		// Without a forecast for the site there is nothing to look at; the source
		// "perfect" is the weather itself, see TestPeekingIsCaught.
		"hold.forecast": {
			stack("no forecast", daily, strategy.ForecastHold{AtLeastMM: 5, Days: 3, MaxHeld: 4, Source: "none"}),
			stack("none issued", daily, strategy.ForecastHold{AtLeastMM: 5, Days: 3, MaxHeld: 4, Source: "site"}),
		},
		"season":       {stack("season", daily, winter)},
		"suspend":      {stack("suspended", daily, vacation, rain)},
		"manual":       {stack("by hand", thirds, extra, rain)},
		"zone_percent": {stack("zone percent", daily, percent, et)},
		// A habit without Target, and monthly auto, are set by the climate of the
		// whole record: hindsight that is declared, and no part of this law.
		"habit": {stack("habit", thirds, person), stack("habit and skips", daily, person, unsure, wind)},
		"refill": {
			stack("refill", refill),
			stack("refill of one zone", daily,
				&strategy.Refill{Zones: []bool{false, true}, MAD: 0.2, Extra: 0, CycleMin: 5, SoakMin: 30}),
			stack("refill under all", refill, monthly, et, rain, freeze, sensor),
			stack("two refills and a run by hand",
				&strategy.Refill{Zones: []bool{true, false}, MAD: 0.3},
				&strategy.Refill{Zones: []bool{false, true}, MAD: 0.6, Extra: -1}, extra),
			stack("mistaken refill", &strategy.Refill{Zones: all, MAD: 0.4, Share: 0.8, OverrideBeyond: 0.6,
				Assumed: strategy.Assumed{Storage: 0.7, Rate: 1.2, K: 0.9, RainMissed: 0.5, RainError: 0.4, Seed: 3}}, unsure, wind, freeze),
		},
		"sensor": {
			stack("sensor", daily, sensor),
			stack("one sensor for two zones", daily, governs),
			stack("sensors of each other's zones", daily, crossed,
				strategy.Sensor{PermitAt: 0.25, Zones: []bool{false, true}, ReadZone: 1, Placement: "wettest"}),
			stack("noisy sensor", daily, noisy),
			stack("all but refill", thirds, daily, monthly, et, rain, freeze, noisy, strategy.Round{StepMin: 1}),
		},
	}
}

// peeks replays one strategy under two records that agree up to day k−1 and
// reports what differs too early: any result before day k, or what the
// controller did on the morning of day k. It also reports whether anything at
// all differs from day k on.
func peeks(t failer, job replay.Job, st strategy.Strategy, k int, seed uint64) (early string, late bool) {
	t.Helper()
	job.NoSpinUp, job.Strategies = true, []strategy.Strategy{st}
	other := job
	other.Weather = changedFrom(job.Weather, k, seed)
	_, a := rowsOf(t, &job)
	_, b := rowsOf(t, &other)
	for z := range a[0] {
		for i := range a[0][z] {
			x, y := a[0][z][i], b[0][z][i]
			switch {
			case i < k && x != y:
				return "the row of " + x.Date.String() + ", before the weather changed", late
			case i == k && morning(&x) != morning(&y):
				return "what was decided on " + x.Date.String() + ", the morning of the change: " + x.Reason.String() + " or " + y.Reason.String(), late
			case i > k && morning(&x) != morning(&y):
				late = true
			}
		}
	}
	return "", late
}

// morning is the part of a row that is settled before the day's weather.
func morning(r *replay.Row) [6]any {
	return [6]any{r.Minutes, r.Cycles, r.Reason, r.GrossMM, r.IrrRunoffMM, r.PercIrrMM}
}

func drawPeekJob(t *rapid.T) (job replay.Job, k int, seed uint64) {
	job.Weather = drawWeather(t, rapid.IntRange(20, 120).Draw(t, "days"))
	job.Zones = []sim.Zone{drawZone(t, "a"), drawZone(t, "b")}
	job.StartShare = rapid.Float64Range(0, 1).Draw(t, "start")
	return job, rapid.IntRange(0, job.Weather.Days()-1).Draw(t, "day of change"), rapid.Uint64().Draw(t, "seed")
}

// TestNoPeeking changes the weather from a random day on and finds nothing
// changed before it, nor in that morning's decision, for every kind of part.
func TestNoPeeking(t *testing.T) {
	table := everyKind(0)
	for _, kind := range strategy.Kinds() {
		t.Run(kind.Key, func(t *testing.T) {
			if len(table[kind.Key]) == 0 {
				t.Fatalf("no strategy here uses the kind of part %q: add one to everyKind", kind.Key)
			}
			reacts := false
			rapid.Check(t, func(t *rapid.T) {
				job, k, seed := drawPeekJob(t)
				list := everyKind(job.Weather.Start)[kind.Key]
				st := list[rapid.IntRange(0, len(list)-1).Draw(t, "strategy")]
				early, late := peeks(t, job, st, k, seed)
				if early != "" {
					t.Fatalf("strategy %q: weather from day %d on changed %s", st.Name, k, early)
				}
				reacts = reacts || late
			})
			switch kind.Key {
			case "programs", "monthly", "hold.forecast":
			default:
				if !reacts {
					t.Errorf("no strategy with %q ever reacted to the weather: the law was not put to the test", kind.Key)
				}
			}
		})
	}
}

// TestNoPeekingInStacks does the same for random stacks of parts.
func TestNoPeekingInStacks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job, k, seed := drawPeekJob(t)
		st := drawSetting(t, "stack", peekZones, job.Weather.Start).strategy()
		if early, _ := peeks(t, job, st, k, seed); early != "" {
			t.Fatalf("weather from day %d on changed %s", k, early)
		}
	})
}

// A glimpse waters on the mornings before rain.
type glimpse struct{ ahead int }

func (glimpse) Kind() strategy.Kind { return strategy.Kind{Key: "glimpse"} }

func (glimpse) Stage() strategy.Stage { return strategy.Permit }

func (g glimpse) Apply(d *strategy.Draft) {
	rain := d.Site.Weather.RainMM
	for i := range d.Block {
		if i+g.ahead < len(rain) && rain[i+g.ahead] > 1 {
			d.Block[i] = sim.RainHold
		}
	}
}

// TestPeekingIsCaught shows that the check above is sharp: a part that looks at
// the rain of today or tomorrow is caught, one that looks at yesterday's is not.
func TestPeekingIsCaught(t *testing.T) {
	job := replay.Job{Weather: invented(60), Zones: []sim.Zone{plainZone("a"), plainZone("b")}}
	perfect := strategy.ForecastHold{AtLeastMM: 1, Days: 2, MaxHeld: 9, Source: "perfect"}
	for _, tt := range []struct {
		why    string
		part   strategy.Part
		caught bool
	}{
		{"yesterday's rain", strategy.RainHold{AtLeastMM: 1, DryOut: 1}, false},
		{"today's rain", glimpse{0}, true}, {"tomorrow's rain", glimpse{1}, true},
		{"the perfect forecast, a bound that no controller can reach", perfect, true},
	} {
		found := false
		for k := 1; k < 60; k++ {
			st := everyKind(job.Weather.Start)["programs"][0]
			st.Parts = append(st.Parts, tt.part)
			early, _ := peeks(t, job, st, k, uint64(k))
			found = found || early != ""
		}
		if found != tt.caught {
			t.Errorf("a part that looks at %s: caught is %v, want %v", tt.why, found, tt.caught)
		}
	}
}
