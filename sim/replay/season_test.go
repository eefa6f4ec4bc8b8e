package replay_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// TestR7OfADryDown follows a fortnight with a pocket calculator: one even strip
// of TAW 40 mm, p 0.5 not adjusted, so that RAW is 20 mm, from a full root zone
// with ETc 5 mm a day and no water until 30 mm on the morning of day 11. Past RAW,
// Ks = (40 − Dr)/20, so each day draws a quarter of what is left:
//
//	day   Dr dawn   Ks          ETa           Σ7 ETa        R7
//	1-4   0 to 15   1           5             5 n           1 (of the days there are)
//	5     20        1           5             25            1
//	6     25        0.75        3.75          28.75         28.75/30 = 0.958333
//	7     28.75     0.5625      2.8125        31.5625       31.5625/35 = 0.901786
//	8     31.5625   0.421875    2.109375      28.671875     0.819196
//	9     33.671875 0.31640625  1.58203125    25.25390625   0.721540
//	10    35.253906 0.237304688 1.186523438   21.44042969   0.612584
//	11    6.440430  1           5             21.44042969   0.612584
//	12    11.440430 1           5             21.44042969   0.612584
//	13    16.440430 1           5             22.69042969   0.648298
//	14    21.440430 0.927978516 4.639892578   24.51782227   0.700509
//
// With a tolerance of 0.75 days 9 to 14 are stress days, six in a row, though the
// root zone was refilled on day 11: plants show a week's drought. With a browning
// mark of 0.65 days 10 to 13 are browning days. Dr exceeds RAW on days 6 to 10 and
// 14.
func TestR7OfADryDown(t *testing.T) {
	z := plainZone("a")
	z.TAWMM, z.P, z.ToleranceR7, z.BrowningR7 = 40, 0.5, 0.75, 0.65
	w := still(cal.Of(2003, 6, 2), 14, 5)
	water := make(schedule, 14)
	water[10] = 30
	job := replay.Job{Zones: []sim.Zone{z}, Weather: w, NoSpinUp: true,
		Strategies: []strategy.Strategy{{Name: "s", Parts: []strategy.Part{water}}}}
	table, rows := rowsOf(t, &job)
	want := []float64{1, 1, 1, 1, 1, 0.958333, 0.901786, 0.819196, 0.721540, 0.612584, 0.612584, 0.612584, 0.648298, 0.700509}
	for i, r := range rows[0][0] {
		if math.Abs(r.R7Zone-want[i]) > 5e-7 || r.R7Quarter != r.R7Zone || !r.HasR7 {
			t.Errorf("day %d: R7 %.7f and %.7f, by hand %.6f", i+1, r.R7Zone, r.R7Quarter, want[i])
		}
		day := i + 1
		if stress, brown, past := day >= 9, day >= 10 && day <= 13, day >= 6 && day <= 10 || day == 14; r.StressZone != stress ||
			r.StressQuarter != stress || r.BrownZone != brown || r.BrownQuarter != brown || r.PastRAW != past {
			t.Errorf("day %d: %+v, past RAW %v; by hand %v, %v and %v", day, r.Grading, r.PastRAW, stress, brown, past)
		}
	}
	sum := table.Total(0, 0)
	if sum.StressDays != 6 || sum.StressZoneDays != 6 || sum.LongestStreak != 6 || sum.BrownDays != 4 || sum.BrownZoneDays != 4 ||
		sum.PastRAWDays != 6 || sum.DryWinterDays != 0 {
		t.Errorf("%+v, by hand 6, 6, 6, 4, 4, 6 and 0", sum)
	}
}

// TestMarksAtZero: below nothing there is nothing.
func TestMarksAtZero(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 2, 2, 500)
		drawMore(t, s)
		for z := range s.job.Zones {
			z := &s.job.Zones[z]
			z.ToleranceR7, z.BrowningR7 = 0, 0
			if z.Overseed != nil {
				z.Overseed.ToleranceR7, z.Overseed.BrowningR7 = 0, 0
			}
		}
		table := tableOf(t, &s.job)
		for st := range table.Strategies {
			for z := range table.Zones {
				if sum := table.Total(st, z); sum.StressDays+sum.StressZoneDays+sum.BrownDays+sum.BrownZoneDays+sum.LongestStreak != 0 {
					t.Fatalf("%q on zone %d: %+v", table.Strategies[st], z, sum)
				}
			}
		}
	})
}

// TestFullGrowthIsConstant: where T30 never falls below T1, a season is its Ka, to
// the last bit.
func TestFullGrowthIsConstant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 2, 2, 500)
		for s.job.Weather.TmaxC == nil {
			s.job.Weather = drawWeather(t, 100)
		}
		other := s.job
		other.Zones = slices.Clone(s.job.Zones)
		for z := range s.job.Zones {
			ka := rapid.Float64Range(0.1, 1.3).Draw(t, "Ka")
			a, b := &s.job.Zones[z], &other.Zones[z]
			a.Overseed, b.Overseed = nil, nil
			// What a controller believes stays the calendar's, which is set alike.
			a.K, b.K = everyMonth(ka), everyMonth(ka)
			a.Season, b.Season = &sim.Season{Ka: ka, Kd: ka / 3, T0C: -200, T1C: -100}, nil
		}
		identical(t, "a of 1 all year", tableOf(t, &s.job), tableOf(t, &other), same)
	})
}

// TestT30ByHand: ten days at 0 °C and fifty at 30 °C. Without a spin-up pass T30
// is 0 on the first eleven days, 30·n/(10 + n) after n warm ones, and 30 from 30
// warm ones on; with T0 3 and T1 27, a is 0 on day 10 (0-based), (2.7273 − 3 < 0)
// on day 11 and (5 − 3)/24 = 0.0833 on day 12; 0.1603 on day 13 (90/13 = 6.9231).
// From day 13 on a is at least 0.1, so that the seventh day in a row, day 19, is the
// first active one.
func TestT30ByHand(t *testing.T) {
	w := still(cal.Of(2003, 6, 2), 60, 5)
	w.TmaxC = make([]float64, 60)
	for i := range w.TmaxC {
		w.TmaxC[i], w.TminC[i] = 5, -5
		if i >= 10 {
			w.TmaxC[i], w.TminC[i] = 40, 20
		}
	}
	z := plainZone("a")
	z.Season = &sim.Season{Ka: 1, Kd: 0.4, T0C: 3, T1C: 27}
	z.ToleranceR7, z.BrowningR7 = 0.99, 0.5
	job := replay.Job{Zones: []sim.Zone{z}, Weather: w, NoSpinUp: true, StartShare: 0.97}
	table, rows := rowsOf(t, &job)
	for i, want := range map[int]float64{0: 0, 10: 0, 11: 0, 12: 2.0 / 24, 13: (90.0/13 - 3) / 24, 20: (15.0 - 3) / 24, 40: 1, 59: 1} {
		if got := rows[0][0][i].Activity; math.Abs(got-want) > 1e-12 {
			t.Errorf("day %d: activity %.6f, by hand %.6f", i, got, want)
		}
		if got := rows[0][0][i].K; math.Abs(got-(0.4+0.6*want)) > 1e-12 {
			t.Errorf("day %d: K %.6f, by hand %.6f", i, got, 0.4+0.6*want)
		}
	}
	// Depletion is 97 mm of 100 and grows: every day falls short, and counts as
	// dry winter until the plant is active, as stress after.
	if sum := table.Total(0, 0); sum.DryWinterDays != 19 || sum.StressDays != 41 {
		t.Errorf("%d dry winter and %d stress days, by hand 19 and 41", sum.DryWinterDays, sum.StressDays)
	}
}

// TestSpinUpHandsItsWarmthOn: the record of 400 days begins after the last days of
// the pass, which is its own first year, so T30 of its first day is the mean of
// days 335 to 364.
func TestSpinUpHandsItsWarmthOn(t *testing.T) {
	w := still(cal.Of(2001, 1, 1), 400, 5)
	w.TmaxC = make([]float64, 400)
	sum := 0.0
	for i := range w.TmaxC {
		w.TmaxC[i] = 20 + 10*math.Sin(float64(i)/58)
		if i >= 335 && i < 365 {
			sum += (w.TmaxC[i] + w.TminC[i]) / 2
		}
	}
	z := plainZone("a")
	z.Season = &sim.Season{Ka: 1, Kd: 0.4, T0C: 0, T1C: 40}
	_, rows := rowsOf(t, &replay.Job{Zones: []sim.Zone{z}, Weather: w})
	if got, want := rows[0][0][0].Activity, sum/30/40; math.Abs(got-want) > 1e-12 {
		t.Errorf("activity %.9f on the first day, by hand %.9f", got, want)
	}
}

// TestOverseedSwapsThePlant: the second plant's coefficient, stress fraction and
// marks hold from its first day to its last, over the turn of the year.
func TestOverseedSwapsThePlant(t *testing.T) {
	z := plainZone("a")
	z.Overseed = &sim.Overseed{From: sim.DayOfYear{Month: 10, Day: 15}, To: sim.DayOfYear{Month: 5, Day: 1}, K: everyMonth(0.5), P: 0.2}
	_, rows := rowsOf(t, &replay.Job{Zones: []sim.Zone{z}, Weather: still(cal.Of(2003, 1, 1), 365, 1)})
	for _, r := range rows[0][0] {
		_, m, d := r.Date.YMD()
		over := m > 10 || m == 10 && d >= 15 || m < 5 || m == 5 && d == 1
		if k, raw := map[bool]float64{true: 0.5, false: 1}[over], map[bool]float64{true: 20, false: 40}[over]; r.K != k || r.RAWMM != raw {
			t.Fatalf("%v: K %g and RAW %g, want %g and %g", r.Date, r.K, r.RAWMM, k, raw)
		}
	}
}
