package replay_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/forecast"
)

// identity fails unless both stacks, on top of the same random site, come out
// the same to the last bit.
func identity(t *testing.T, why string, a, b func(zones int) []strategy.Part) {
	t.Helper()
	t.Run(why, func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			s := drawSite(t, 3, 2, 400)
			var tables [2]*tally.Table
			for k, parts := range []func(int) []strategy.Part{a, b} {
				job := s.job
				job.Strategies = nil
				for _, st := range s.job.Strategies {
					st.Parts = append(append([]strategy.Part(nil), st.Parts...), parts(len(job.Zones))...)
					job.Strategies = append(job.Strategies, st)
				}
				tables[k] = tableOf(t, &job)
			}
			identical(t, why, tables[0], tables[1], same)
		})
	})
}

func always(parts ...strategy.Part) func(int) []strategy.Part {
	return func(int) []strategy.Part { return parts }
}

// TestAdjustersThatDoNothing: what is switched off, set to 100% or never
// works is not there.
func TestAdjustersThatDoNothing(t *testing.T) {
	none := always()
	identity(t, "100 % every month", always(strategy.Monthly{Share: everyMonth(1)}), none)
	identity(t, "100 % for every zone", func(n int) []strategy.Part {
		share := make([]float64, n)
		for z := range share {
			share[z] = 1
		}
		return []strategy.Part{strategy.ZonePercent{Share: share}}
	}, none)
	identity(t, "a rain sensor that misses every rain", always(strategy.RainHold{AtLeastMM: 3, DryOut: 2, MissRate: 1}), none)
	identity(t, "a rain sensor that is switched out", always(strategy.RainHold{AtLeastMM: 3, DryOut: 2, Bypass: true}), none)
	identity(t, "a rain sensor that misses none, whatever its seed", always(strategy.RainHold{AtLeastMM: 3, DryOut: 2, Seed: 1}),
		always(strategy.RainHold{AtLeastMM: 3, DryOut: 2, Seed: 2}))
	identity(t, "no source of forecasts", always(strategy.ForecastHold{AtLeastMM: 1, Days: 3, MaxHeld: 4, Source: "none"}), none)
	identity(t, "no forecast given", always(strategy.ForecastHold{AtLeastMM: 1, Days: 3, MaxHeld: 4, Source: "site"}), none)
	identity(t, "set and forget", always(strategy.Habit{RaiseBy: 0, Steps: 3, VisibleBelowKs: 1, RaiseAfter: 1, LowerAfter: 1}), none)
	identity(t, "nobody sees stress below 0",
		always(strategy.Habit{RaiseBy: 0.5, Steps: 3, VisibleBelowKs: 0, RaiseAfter: 1, LowerAfter: 1}), none)
	identity(t, "a season of the whole year", always(strategy.Season{Start: 101, End: 1231, FrostC: -100, FrostFreeDays: 1}), none)
	identity(t, "a sensor that permits at any depletion", func(n int) []strategy.Part {
		all := make([]bool, n)
		for z := range all {
			all[z] = true
		}
		return []strategy.Part{strategy.Sensor{PermitAt: -1, Zones: all, ReadZone: 1, Placement: "average"}}
	}, none)
}

// forecastOf fills a job's forecast from an archive.
func forecastOf(job *replay.Job, a *forecast.Archive, leads int) strategy.Forecast {
	var f strategy.Forecast
	for l := range leads {
		f.RainMM = append(f.RainMM, a.Ahead(forecast.Rain, job.Weather.Start, job.Weather.Days(), l))
		chance := a.Ahead(forecast.Probability, job.Weather.Start, job.Weather.Days(), l)
		for i := range chance {
			chance[i] /= 100
		}
		f.Probability = append(f.Probability, chance)
	}
	return f
}

// TestForecastBounds: forecasts of POD 1 and FAR 0 are as good as perfect
// ones, those of POD 0 and FAR 0 as none.
func TestForecastBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 2, 1, 400)
		w := s.job.Weather
		series := weather.NewSeries(weather.UnknownStation(), w.Start, w.Days(), weather.Rain)
		for i, mm := range w.RainMM {
			series.Set(weather.Rain, i, mm, weather.Observed)
		}
		days := rapid.IntRange(1, 4).Draw(t, "days ahead")
		skip := strategy.ForecastHold{AtLeastMM: 5, Days: days, MaxHeld: rapid.IntRange(1, 6).Draw(t, "most"), Source: "site"}
		// The lead of a forecast counts from its issue, the evening before.
		all, never := make([]forecast.Skill, days+1), make([]forecast.Skill, days+1)
		for k := range all {
			all[k] = forecast.Skill{POD: 1}
		}
		archive := func(leads []forecast.Skill) *forecast.Archive {
			a, _, err := forecast.Synthetic(series, nil, forecast.Options{ThresholdMM: 5, Leads: leads}, rapid.Uint64().Draw(t, "forecast seed"))
			if err != nil {
				t.Fatal(err)
			}
			return a
		}
		run := func(source string, f strategy.Forecast) *tally.Table {
			job := s.job
			job.Forecast = f
			skip := skip
			skip.Source = source
			job.Strategies = []strategy.Strategy{{Name: "forecast", Parts: append([]strategy.Part{skip}, s.job.Strategies[0].Parts...)}}
			return tableOf(t, &job)
		}
		perfect := run("perfect", strategy.Forecast{})
		identical(t, "POD 1, FAR 0", run("site", forecastOf(&s.job, archive(all), days)), perfect, same)
		identical(t, "the perfect archive", run("site", forecastOf(&s.job, forecast.Perfect(series, nil, 5, days+1), days)), perfect, same)
		none := run("none", strategy.Forecast{})
		identical(t, "POD 0, FAR 0", run("site", forecastOf(&s.job, archive(never), days)), none, same)
		identical(t, "the archive of none", run("site", forecastOf(&s.job, forecast.None(series, days+1), days)), none, same)
	})
}

// TestBeliefEqualToTheTruth: on one even strip without losses, on a soil that
// takes in all, a strategy that believes what is so never overshoots: no
// irrigation percolates, whatever the trigger.
func TestBeliefEqualToTheTruth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := drawZone(t, "a")
		z.Strips, z.DULQ, z.LossShare, z.OversprayShare, z.BrokenShare, z.FillDrainMM, z.LeakMMDay = 1, 1, 0, 0, 0, 0, 0
		z.IntakeMMH = 1e6
		job := &replay.Job{Zones: []sim.Zone{z}, Weather: drawWeather(t, 400), NoSpinUp: rapid.Bool().Draw(t, "no spin-up")}
		if job.NoSpinUp {
			job.StartShare = rapid.Float64Range(0, 1).Draw(t, "start")
		}
		job.Strategies = []strategy.Strategy{{Name: "refill",
			Parts: []strategy.Part{&strategy.Refill{Zones: []bool{true}, MAD: rapid.Float64Range(0.01, 1).Draw(t, "MAD"),
				Share: rapid.Float64Range(0.05, 1).Draw(t, "share"), Extra: -1, KnowsSeason: true, Days: drawRule(t, job.Weather.Start)}}}}
		if perc := tableOf(t, job).Total(0, 0).PercIrrMM; perc > 1e-9*400 {
			t.Fatalf("%g mm of irrigation percolate", perc)
		}
	})
}

// gross returns the water of each zone under a stack of parts.
func gross(t failer, job replay.Job, parts ...strategy.Part) []float64 {
	job.Strategies = []strategy.Strategy{{Name: "one", Parts: parts}}
	table := tableOf(t, &job)
	out := make([]float64, len(job.Zones))
	for z := range out {
		out[z] = table.Total(0, z).GrossMM
	}
	return out
}

// TestMonotonicities of fixed programs, on every random record: a sensor that
// fails more, one that dries faster, a higher threshold, a longer list of
// permitted months and an eye on the plants never take water away.
func TestMonotonicities(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 2, 1, 400)
		n := len(s.job.Zones)
		var list []strategy.Program
		for i := range 2 {
			list = append(list, drawProgram(t, string(rune('p'+i)), n, s.job.Weather.Start))
		}
		p := strategy.Programs{List: list}
		seed := rapid.Uint64().Draw(t, "seed")
		more := func(why string, less, more []strategy.Part) {
			a, b := gross(t, s.job, append(less, p)...), gross(t, s.job, append(more, p)...)
			for z := range a {
				if a[z] > b[z]+1e-9*(1+b[z]) {
					t.Fatalf("%s: %g mm and %g mm on zone %d", why, a[z], b[z], z)
				}
			}
		}
		one := func(p strategy.Part) []strategy.Part { return []strategy.Part{p} }
		f, g := rapid.Float64Range(0, 1).Draw(t, "fails"), rapid.Float64Range(0, 1).Draw(t, "fails more")
		dry := rapid.IntRange(1, 6).Draw(t, "dry-out")
		more("a sensor that fails more", one(strategy.RainHold{AtLeastMM: 3, DryOut: dry, MissRate: min(f, g), Seed: seed}),
			one(strategy.RainHold{AtLeastMM: 3, DryOut: dry, MissRate: max(f, g), Seed: seed}))
		more("a sensor that dries faster", one(strategy.RainHold{AtLeastMM: 3, DryOut: dry + 1, MissRate: f, Seed: seed}),
			one(strategy.RainHold{AtLeastMM: 3, DryOut: dry, MissRate: f, Seed: seed}))
		eto := rapid.Float64Range(0.5, 30).Draw(t, "dry-out by ETo")
		more("a sensor that dries by less ETo", one(strategy.RainHold{AtLeastMM: 3, DryOutEToMM: eto * 1.5, MissRate: f, Seed: seed}),
			one(strategy.RainHold{AtLeastMM: 3, DryOutEToMM: eto, MissRate: f, Seed: seed}))
		more("a sensor that trips later", one(strategy.RainHold{AtLeastMM: 3, DryOut: dry}), one(strategy.RainHold{AtLeastMM: 8, DryOut: dry}))
		more("a forecast skip for more rain", one(strategy.ForecastHold{AtLeastMM: 3, Days: 1, MaxHeld: 1 << 30, Source: "perfect"}),
			one(strategy.ForecastHold{AtLeastMM: 9, Days: 1, MaxHeld: 1 << 30, Source: "perfect"}))
		more("an eye on the plants", nil, one(strategy.Habit{RaiseBy: 0.3, Steps: 3, VisibleBelowKs: 0.8, RaiseAfter: 3, LowerAfter: 20}))
		more("a frost rule that bites later", one(strategy.Season{FrostC: 5, FrostFreeDays: 9}),
			one(strategy.Season{FrostC: 0, FrostFreeDays: 9}))
		more("fewer nights to wait for", one(strategy.Season{FrostC: 2, FrostFreeDays: 9}), one(strategy.Season{FrostC: 2, FrostFreeDays: 4}))
	})
}

// TestMistakesMoveResults: on ten years of an invented place, the share of the
// need that is replaced and each wrong belief moves water and stress the way it
// must.
func TestMistakesMoveResults(t *testing.T) {
	z := plainZone("lawn")
	z.TAWMM, z.P, z.DULQ, z.Strips, z.PRMMH, z.IntakeMMH, z.Rain = 40, 0.45, 0.65, 8, 30, 12, sim.Rain{CN: 74}
	job := replay.Job{Zones: []sim.Zone{z}, Weather: invented(3650)}
	refill := func(change func(r *strategy.Refill)) sim.Sums {
		r := &strategy.Refill{Zones: []bool{true}, MAD: 0.45, Extra: -1, CycleMin: 10, SoakMin: 40}
		change(r)
		job.Strategies = []strategy.Strategy{{Name: "refill", Parts: []strategy.Part{r}}}
		return tableOf(t, &job).Total(0, 0)
	}
	for _, tt := range []struct {
		why    string
		values []float64 // in order of more water and less stress
		set    func(r *strategy.Refill, v float64)
	}{
		{"share of the need", []float64{0.3, 0.5, 0.7, 0.85, 1}, func(r *strategy.Refill, v float64) { r.Share = v }},
		{"believed rate", []float64{2, 1.5, 1.2, 1, 0.8}, func(r *strategy.Refill, v float64) { r.Assumed.Rate = v }},
		{"believed plant coefficient", []float64{0.5, 0.7, 0.85, 1, 1.2}, func(r *strategy.Refill, v float64) { r.Assumed.K = v }},
		{"share of the rain that is booked", []float64{-0.5, 0, 0.5, 1}, func(r *strategy.Refill, v float64) { r.Assumed.RainMissed = v }},
		// Who believes in more storage than there is waters late and then more
		// than fits: only the stress is told by this one.
		{"believed storage", []float64{2, 1.5, 1, 0.7}, func(r *strategy.Refill, v float64) { r.Assumed.Storage = v }},
	} {
		water, stress := 0.0, math.Inf(1)
		for _, v := range tt.values {
			sum := refill(func(r *strategy.Refill) { tt.set(r, v) })
			if sum.GrossMM <= water && tt.why != "believed storage" {
				t.Errorf("%s %g: %.0f mm, not more than the %.0f mm before", tt.why, v, sum.GrossMM, water)
			}
			if sum.SeverityDays >= stress {
				t.Errorf("%s %g: stress of %.1f days, not less than the %.1f before", tt.why, v, sum.SeverityDays, stress)
			}
			water, stress = sum.GrossMM, sum.SeverityDays
		}
	}
}

// TestFailingSensorsOnAverage: over twenty seeds the water goes up with the
// share of failures, and lies between that of no failure and of no sensor.
func TestFailingSensorsOnAverage(t *testing.T) {
	z := plainZone("lawn")
	job := replay.Job{Zones: []sim.Zone{z}, Weather: invented(1500)}
	p := strategy.Programs{List: []strategy.Program{{Name: "p", Starts: []int{300}, Minutes: []float64{4}}}}
	none := gross(t, job, p)[0]
	works := gross(t, job, p, strategy.RainHold{AtLeastMM: 4, DryOut: 3})[0]
	last := works
	for _, fails := range []float64{0.25, 0.5, 0.75} {
		sum := 0.0
		for seed := range uint64(20) {
			sum += gross(t, job, p, strategy.RainHold{AtLeastMM: 4, DryOut: 3, MissRate: fails, Seed: seed})[0]
		}
		mean := sum / 20
		// With dry-out days that overlap, the first failures cost little.
		if mean <= last || mean >= none {
			t.Errorf("share %g: %.0f mm, between %.0f mm and %.0f mm without a sensor", fails, mean, last, none)
		}
		last = mean
	}
	if works >= none {
		t.Errorf("%.0f mm with a sensor that works, %.0f without", works, none)
	}
}
