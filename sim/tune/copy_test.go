package tune_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/sim/tune"
	"loamledger/weather/cal"
)

func refill(zones int, mad float64) *strategy.Strategy {
	all := make([]bool, zones)
	for z := range all {
		all[z] = true
	}
	return &strategy.Strategy{Name: "own", Parts: []strategy.Part{&strategy.Refill{Zones: all, MAD: mad}}}
}

func drawn(t *testing.T, job *replay.Job, st *strategy.Strategy) *tune.Copied {
	t.Helper()
	c, err := tune.Copy(context.Background(), job, st, tune.CopyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// TestSteadyCopy by hand: one even strip at 60 mm/h, a millimeter per minute, with
// 4 mm/d of reference ET and k 0.8, without rain or losses. The balance applies
// what is used, 3.2 mm a day or 22.4 min a week, the same in every month.
func TestSteadyCopy(t *testing.T) {
	w := sim.Weather{Start: cal.Of(2001, 1, 1), RainMM: make([]float64, 1461), EToMM: make([]float64, 1461), TminC: make([]float64, 1461)}
	for i := range w.EToMM {
		w.EToMM[i] = 4
	}
	z := zone("a", 80, 0.8)
	z.PRMMH, z.DULQ, z.Strips, z.IntakeMMH = 60, 1, 1, 1000
	job := replay.Job{Zones: []sim.Zone{z}, Weather: w}
	c := drawn(t, &job, refill(1, 0.3))
	for m, share := range c.Sheet.Percent {
		if share < 0.9 { // a refill takes 24 mm every 7 or 8 days: a month has three, four or five of them, evened out
			t.Errorf("month %d has %g; by hand all are alike", m+1, share)
		}
	}
	p := c.Sheet.Programs[0]
	days := 0
	for d := range 7 {
		if p.Days.Kind == strategy.AnyDay || p.Days.Weekdays[d] {
			days++
		}
	}
	weekly := p.Minutes[0] * float64(days)
	if len(c.Sheet.Programs) != 1 || weekly < 22 || weekly > 22.4*1.5+float64(days) {
		t.Errorf("%g min a week on %d days; by hand 22.4 to half as much again", weekly, days)
	}
	if mean := weekly / c.Zones[0].Raised; mean < 22 || mean > 27 {
		t.Errorf("the strategy's peak month is given as %g min a week; by hand 22.4, or as much as 24 min on five days of a month, 27", mean)
	}
	if c.Zones[0].Drier() || c.Zones[0].Own.DryDays != 0 || c.Zones[0].Sheet.DryDays != 0 {
		t.Errorf("%+v; by hand neither is ever short of water", c.Zones[0])
	}
}

// shortOf measures a strategy with only the engine and package tally.
func shortOf(t *testing.T, job replay.Job, st strategy.Strategy) (out []tune.Short, table *tally.Table) {
	t.Helper()
	job.Strategies = []strategy.Strategy{st}
	table, err := replay.Run(context.Background(), &job, nil)
	if err != nil {
		t.Fatal(err)
	}
	ranked := table.RankYears()
	for z := range table.Zones {
		out = append(out, tune.Short{MedianDays: table.Year(0, z, ranked.Median).StressZoneDays,
			DryDays:      table.Year(0, z, ranked.Dry).StressZoneDays,
			RunoffEvents: float64(table.Total(0, z).RunoffEvents) / float64(len(ranked.Years))})
	}
	return out, table
}

// oneSeason reports whether the months with water form one season.
func oneSeason(share [12]float64) bool {
	turns := 0
	for m := range share {
		if (share[m] > 0) != (share[(m+1)%12] > 0) {
			turns++
		}
	}
	return turns <= 2
}

// TestCopyKeepsWhatItTells: over soils, rates and climates, the figures match a
// replay of the finished sheet. A zone is drier than under the strategy only if
// its run time was raised to the limit or cannot be longer. The sheet waters in
// one season, most in the months with the highest need.
func TestCopyKeepsWhatItTells(t *testing.T) {
	kept := 0
	for seed := range uint64(6) {
		job := replay.Job{Zones: []sim.Zone{zone("a", 25, 0.8), zone("b", 60, 0.6), zone("c", 45, 0.9)}, Weather: invented(2001, 2007, seed)}
		job.Zones[2].IntakeMMH, job.Zones[1].AreaM2, job.Zones[1].DULQ = 14, 350, 0.85
		for m := range job.Zones[0].K { // dormant half the year
			if m < 3 || m > 9 {
				job.Zones[0].K[m] = 0.05 * float64(seed%2)
			}
		}
		st := refill(3, 0.3+0.05*float64(seed%3))
		c := drawn(t, &job, st)
		own, _ := shortOf(t, job, *st)
		sheet, table := shortOf(t, job, c.Sheet.Strategy())
		for z := range job.Zones {
			got := c.Zones[z]
			if got.Own != own[z] || got.Sheet != sheet[z] {
				t.Errorf("seed %d, zone %d: reported %+v, replayed %+v and %+v", seed, z, got, own[z], sheet[z])
			}
			if got.Drier() != (sheet[z].DryDays > own[z].DryDays || sheet[z].MedianDays > own[z].MedianDays) {
				t.Errorf("seed %d, zone %d: %+v is reported as drier: %v", seed, z, got, got.Drier())
			}
			if got.Raised < 0.999 {
				t.Errorf("seed %d, zone %d: %g of the strategy's mean without any limits", seed, z, got.Raised)
			}
			if !got.Drier() {
				kept++
			} else if got.Raised < 1.4 {
				t.Errorf("seed %d, zone %d: drier than under the strategy at %g of its mean", seed, z, got.Raised)
			}
		}
		if ranked := table.RankYears(); ranked.Median != c.Median || ranked.Dry != c.Dry {
			t.Errorf("seed %d: held to %d and %d, the median and the dry year are %d and %d", seed, c.Median, c.Dry, ranked.Median, ranked.Dry)
		}
		share := c.Sheet.Percent
		if !oneSeason(share) || share[6] < 0.7 || share[6] < share[0] {
			t.Errorf("seed %d: percentages %v", seed, share)
		}
		for m := range share {
			if math.Abs(share[m]-share[(m+1)%12]) > 0.5 {
				t.Errorf("seed %d: percentages jump after month %d: %v", seed, m+1, share)
			}
		}
	}
	if kept < 15 {
		t.Errorf("only %d of 18 zones are no drier than under the strategy", kept)
	}
}

// TestCopyUnderLimits: the sheet obeys days and window, and reports zones that are
// drier because of it.
func TestCopyUnderLimits(t *testing.T) {
	job := replay.Job{Weather: invented(2001, 2005, 2)}
	for i := range 6 {
		job.Zones = append(job.Zones, zone(fmt.Sprint(i), 40, 0.8))
	}
	job.Limits = &strategy.Limits{Always: strategy.Rule{Name: "town", Days: weekdays(1, 4),
		Windows: []clock.Window{{FromMin: 1320, ToMin: 120}}}, Exempt: make([]bool, 6)}
	c := drawn(t, &job, refill(6, 0.4))
	job.Strategies = []strategy.Strategy{c.Sheet.Strategy()}
	table, err := replay.Run(context.Background(), &job, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(table.Breaches[0]) > 0 {
		t.Errorf("the sheet breaks %+v", table.Breaches[0][0])
	}
	for z, zone := range c.Zones {
		if now := table.Year(0, z, c.Dry).StressZoneDays; now != zone.Sheet.DryDays {
			t.Errorf("zone %d: reported %d days, replayed %d", z, zone.Sheet.DryDays, now)
		}
	}
}

func TestNothingToCopy(t *testing.T) {
	job := twoZones()
	if _, err := tune.Copy(context.Background(), &job, &strategy.Strategy{}, tune.CopyOptions{}); !errors.Is(err, settings.ErrNothing) {
		t.Errorf("a strategy without water gives %v", err)
	}
	job.Weather.RainMM, job.Weather.EToMM = job.Weather.RainMM[:300], job.Weather.EToMM[:300]
	if _, err := tune.Copy(context.Background(), &job, refill(2, 0.4), tune.CopyOptions{}); !errors.Is(err, tune.ErrNoYear) {
		t.Errorf("300 days give %v", err)
	}
}

// TestMonthlyIsOneSeason: tuned percentages water in one season and do not jump
// where reference ET does not. By definition, a bend of a season b changes between
// two months by no more than exponent · scale times the change of b if the
// exponent is at least 1, and by no more than half of the highest if b is
// smoothed.
func TestMonthlyIsOneSeason(t *testing.T) {
	for seed := range uint64(5) {
		job := replay.Job{Zones: []sim.Zone{zone("a", 30, 0.8), zone("b", 60, 0.6)}, Weather: invented(2001, 2005, seed)}
		for i := range job.Weather.RainMM { // a wet July, as where summer storms come
			if _, m, _ := (job.Weather.Start + cal.Date(i)).YMD(); m == 7 && i%3 == 0 {
				job.Weather.RainMM[i] += 20
			}
		}
		sp := tinySpace()
		sp.Exponents = []float64{1, 1.5, 2}
		r := search(t, &job, tune.Monthly, sp)
		share := r.Sheet.Percent
		if !oneSeason(share) {
			t.Errorf("seed %d: percentages %v", seed, share)
		}
		season := bases(t, job)
		for m := range share {
			n := (m + 1) % 12
			change := math.Max(math.Abs(season[0][m]-season[0][n]), math.Abs(season[1][m]-season[1][n]))
			if math.Abs(share[m]-share[n]) > 2*1.5*change+0.05+1e-9 {
				t.Errorf("seed %d: percentages jump after month %d, where the season changes by %.2f: %v", seed, m+1, change, share)
			}
		}
	}
}
