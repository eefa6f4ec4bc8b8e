package replay_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather"
	"loamledger/weather/forecast"
)

// TestNothingOutsideTheSeason: no strategy waters outside its season or in a
// suspension, but by hand.
func TestNothingOutsideTheSeason(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 2, 2, 500)
		from := s.job.Weather.Start + 30
		for k := range s.job.Strategies {
			s.job.Strategies[k].Parts = append(s.job.Strategies[k].Parts, strategy.Season{Start: 415, End: 1015, FrostC: -100},
				strategy.Suspend{From: from, To: from + 20, Zones: []bool{true, true}[:len(s.job.Zones)]})
		}
		_, rows := rowsOf(t, &s.job)
		for k := range s.job.Strategies {
			for z := range s.job.Zones {
				for _, r := range rows[k][z] {
					_, m, d := r.Date.YMD()
					out := 100*m+d < 415 || 100*m+d > 1015 || r.Date >= from && r.Date <= from+20
					if out && r.Minutes != 0 {
						t.Fatalf("%v: %g min out of season", r.Date, r.Minutes)
					}
				}
			}
		}
	})
}

// TestMeterWithZonesOff: with every zone shut, a leak is all the meter counts:
// 0.4 mm a day on 100 m² are 40 L, for 200 days 8000 L.
func TestMeterWithZonesOff(t *testing.T) {
	z := plainZone("a")
	z.LeakMMDay = 0.4
	w := still(0, 200, 4)
	job := &replay.Job{Zones: []sim.Zone{z}, Weather: w, Strategies: []strategy.Strategy{{Name: "off", Parts: []strategy.Part{
		strategy.Programs{List: []strategy.Program{{Name: "p", Starts: []int{1}, Minutes: []float64{9}}}},
		strategy.Suspend{From: w.Start, To: w.Start + 200, Zones: []bool{true}}}}}}
	sum := tableOf(t, job).Total(0, 0)
	if liters := sum.GrossMM * z.AreaM2; math.Abs(liters-8000) > 1e-6 || math.Abs(sum.LeakMM*z.AreaM2-8000) > 1e-6 || sum.Minutes != 0 {
		t.Errorf("%g L, of which leaked %g, %g min; by hand 8000 L", liters, sum.LeakMM*z.AreaM2, sum.Minutes)
	}
}

// TestNeedOverEfficiency: over a season without rain, a refill on an even zone
// that is never short gives need over efficiency: 5 mm on each of 200 days, of
// which 10% are lost, are 1000/0.9 = 1111.1 mm, but for what is left to refill
// at the end; rain that is used, 2 mm of rain every fifth day less what falls
// on a root zone just filled, is need that is met already.
func TestNeedOverEfficiency(t *testing.T) {
	z := plainZone("a")
	z.LossShare = 0.1
	w := still(0, 200, 5)
	job := &replay.Job{Zones: []sim.Zone{z}, Weather: w, NoSpinUp: true,
		Strategies: []strategy.Strategy{{Name: "refill", Parts: []strategy.Part{&strategy.Refill{Zones: []bool{true}, MAD: 0.2}}}}}
	for _, rain := range []float64{0, 2} {
		for i := range w.RainMM {
			if i%5 == 3 {
				w.RainMM[i] = rain
			}
		}
		table, rows := rowsOf(t, job)
		sum, left := table.Total(0, 0), rows[0][0][199].DepletionMM
		if want := (1000 - (40*rain - sum.PercRainMM) - left) / 0.9; math.Abs(sum.GrossMM-want) > 1e-6 || sum.PastRAWDays != 0 || left > 25 ||
			rain > 0 && sum.PercRainMM > 60 {
			t.Errorf("%g mm of rain: %.4f mm, by hand %.4f; %d days past RAW, %g mm left", rain, sum.GrossMM, want, sum.PastRAWDays, left)
		}
	}
}

// TestFalseAlarmsCost: more false alarms hold more watering back, and plants go
// short on more days, on average over seeds; more hits do the first, too.
func TestFalseAlarmsCost(t *testing.T) {
	z := plainZone("a")
	z.TAWMM = 40
	job := replay.Job{Zones: []sim.Zone{z}, Weather: invented(2200)}
	w := job.Weather
	series := weather.NewSeries(weather.UnknownStation(), w.Start, w.Days(), weather.Rain)
	for i, mm := range w.RainMM {
		series.Set(weather.Rain, i, mm, weather.Observed)
	}
	p := strategy.Programs{List: []strategy.Program{{Name: "p", Days: strategy.DayRule{Kind: strategy.Interval, Every: 2},
		Starts: []int{300}, Minutes: []float64{9}}}}
	mean := func(skill forecast.Skill) (gross, stress float64) {
		const seeds = 12
		for seed := range uint64(seeds) {
			a, _, err := forecast.Synthetic(series, nil, forecast.Options{ThresholdMM: 5, Leads: []forecast.Skill{skill}}, seed)
			if err != nil {
				t.Fatal(err)
			}
			job.Forecast = forecastOf(&job, a, 1)
			job.Strategies = []strategy.Strategy{{Name: "forecast",
				Parts: []strategy.Part{p, strategy.ForecastHold{AtLeastMM: 5, Days: 1, MaxHeld: 3, Source: "site"}}}}
			sum := tableOf(t, &job).Total(0, 0)
			gross += sum.GrossMM / seeds
			stress += float64(sum.PastRAWDays) / seeds
		}
		return gross, stress
	}
	lastGross, lastStress := math.Inf(1), -1.0
	for _, far := range []float64{0, 0.25, 0.5, 0.7} {
		gross, stress := mean(forecast.Skill{POD: 0.8, FAR: far})
		if gross >= lastGross || stress <= lastStress {
			t.Errorf("FAR %g: %.0f mm and %.1f stress days, before it %.0f mm and %.1f", far, gross, stress, lastGross, lastStress)
		}
		lastGross, lastStress = gross, stress
	}
	lastGross = math.Inf(1)
	for _, pod := range []float64{0, 0.3, 0.6, 0.9} {
		gross, _ := mean(forecast.Skill{POD: pod})
		if gross >= lastGross {
			t.Errorf("POD %g: %.0f mm, before it %.0f mm", pod, gross, lastGross)
		}
		lastGross = gross
	}
}
