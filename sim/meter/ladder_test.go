package meter_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"loamledger/sim/meter"
	"loamledger/weather/cal"
)

// waters is a fixed schedule: the same use a day in every summer [m³/d].
var waters = []float64{0, 0, 0, 2, 3, 3, 3, 3, 2, 0, 0, 0}

// fixedSite is three years of a fixed schedule as the replay has it, times factor, over
// 0.5 m³ a day of base use.
func fixedSite(years int, factor float64) *meter.Site {
	var use []float64
	for i := range 12 * years {
		days := float64(cal.Of(2022, i+2, 1) - cal.Of(2022, i+1, 1))
		use = append(use, days*(0.5+factor*waters[i%12]))
	}
	return site(use, needs, waters)
}

// Hand: base use of 0.5 a day is that of the winters, so that the replay as programmed
// is exact: every score 0, "calibrated". With the replay a tenth low, metered outdoor
// use being 1.1 of it, NMBE of the season with p = 1 and 18 periods is
// 100·(0.1/1.1)·18/17 = 9.6257%.
func TestCompare(t *testing.T) {
	c := fixedSite(3, 1).Compare(0)
	for _, sc := range c.Scores {
		if !sc.OK || sc.P != 1 || math.Abs(sc.NMBE) > 1e-9 || sc.CV > 1e-9 {
			t.Errorf("%+v", sc)
		}
	}
	if c.Of(meter.Season).N != 18 || c.Of(meter.Outdoor).N != 36 {
		t.Errorf("%+v", c.Scores)
	}
	c = fixedSite(3, 1.1).Compare(0)
	near(t, "NMBE of the season", c.Of(meter.Season).NMBE, 100*0.1/1.1*18/17, 1e-9)
	if l := meter.LabelOf(&c.Of(meter.Season).Score); l.Label != meter.Indicative {
		t.Errorf("%+v", l)
	}
	// The error of each period is the same for outdoor use and the whole meter; only
	// the mean by which it is divided differs.
	o, w := c.Of(meter.Outdoor), c.Of(meter.Whole)
	near(t, "CV·mean", o.CV*o.MeanM3, w.CV*w.MeanM3, 1e-9)
	if w.CV >= o.CV {
		t.Error("base use does not flatter")
	}
}

// Hand: with use that repeats every year, the replay and the month mean predict held-out
// years exactly. Years of 365 days: the month mean of February differs by nothing, since
// use is per day.
func TestLadder(t *testing.T) {
	s := fixedSite(3, 1)
	l := s.Ladder(meter.Counted(s.Periods))
	if len(l.Years) != 3 || l.Chosen != 0 || l.Follows != 0 {
		t.Fatalf("%d years, chosen %d, %d", len(l.Years), l.Chosen, l.Follows)
	}
	for _, r := range l.Rungs[:3] {
		if !r.HeldOK || r.Held.CV > 1e-9 || r.Held.N != 36 || r.Missed != 0 || r.Held.P != 0 || len(r.Years) != 3 {
			t.Errorf("%+v", r)
		}
	}
	if l.Rungs[1].Fit.P != 2 || l.Rungs[2].Fit.P != 12 || l.Rungs[3].Held.CV < 5 {
		t.Errorf("%+v", l.Rungs)
	}
	// A replay half too low loses against itself, doubled.
	l = fixedSite(3, 2).Ladder(meter.Counted(s.Periods))
	if l.Rungs[l.Chosen].Model != meter.Scaled || l.Rungs[0].Held.CV < 5 {
		t.Errorf("%+v, chosen %q", l.Rungs, l.Rungs[l.Chosen].Model)
	}
	// One that waters in other months loses against the month mean, which follows no
	// weather.
	shifted := fixedSite(3, 1)
	shifted.Days.SimM3 = append(shifted.Days.SimM3[90:], make([]float64, 90)...)
	l = shifted.Ladder(meter.Counted(s.Periods))
	if l.Rungs[l.Chosen].Model != meter.MonthMean || l.Rungs[l.Follows].Model == meter.MonthMean {
		t.Errorf("chosen %q, follows %q", l.Rungs[l.Chosen].Model, l.Rungs[l.Follows].Model)
	}
	// One year cannot be held out.
	one := fixedSite(1, 1)
	if l := one.Ladder(meter.Counted(one.Periods)); l.Chosen >= 0 || l.Years != nil {
		t.Errorf("%+v", l)
	}
}

// Hand: two years as before, then the meter shows 0.75 of the schedule: a year has
// 30·2 + 31·3 + 30·3 + 31·3 + 31·3 + 30·2 = 489 m³ outdoors, of which a quarter, 122.25,
// is saved. Baselines that are exact have no uncertainty.
func TestSaving(t *testing.T) {
	changed := cal.Of(2024, 1, 1)
	make := func() *meter.Site {
		s := fixedSite(2, 1)
		for i := range 12 {
			from, to := cal.Of(2024, i+1, 1), cal.Of(2024, i+2, 1)
			s.Periods = append(s.Periods, meter.Period{From: from, To: to, Kind: meter.Actual, M3: float64(to-from) * (0.5 + 0.75*waters[i])})
			for range int(to - from) {
				s.Days.NeedMM, s.Days.SimM3 = append(s.Days.NeedMM, needs[i]), append(s.Days.SimM3, waters[i])
			}
		}
		return s
	}
	s := make()
	c := s.Compare(changed)
	got := s.Saving(c, changed, true)
	if got.Status != meter.VerifiedSaving || len(got.Lacks) > 0 || got.DaysAfter != 366 || got.Claim != 0 {
		t.Fatalf("%+v", got)
	}
	by := got.By[got.Claim]
	near(t, "saving", by.M3, 122.25, 1e-9)
	near(t, "baseline", by.BaselineM3, 489+0.5*366, 1e-9)
	if by.TooClose() || by.Model != meter.AsProgrammed {
		t.Errorf("%+v", by)
	}
	if n := s.Notes(meter.Clean(monthly(2022, 1), 0), c, got, 1000, true); slices.ContainsFunc(n, func(n meter.Note) bool {
		return n.Code == meter.LargeSaving || n.Code == meter.CloseCall
	}) {
		t.Errorf("%+v", n)
	}
	for _, tt := range []struct {
		changed cal.Date
		stated  bool
		want    []meter.Lack
	}{
		{changed, false, []meter.Lack{meter.EventsUnsaid}},
		{0, true, []meter.Lack{meter.NoChange}},
		{cal.Of(2024, 6, 1), true, []meter.Lack{meter.PartYear}},
		{cal.Of(2025, 6, 1), true, []meter.Lack{meter.NoUseAfter}},
		{cal.Of(2022, 9, 1), true, []meter.Lack{meter.NoYearBefore, meter.NoModel}},
	} {
		s := make()
		got := s.Saving(s.Compare(tt.changed), tt.changed, tt.stated)
		if got.Status != meter.EstimatedSaving || !slices.Equal(got.Lacks, tt.want) {
			t.Errorf("changed %v, events stated %t: %q, %q", tt.changed, tt.stated, got.Status, got.Lacks)
		}
	}
}

// Known truth: a fixed schedule, base use of 0.5 m³ a day and errors of 5% of use. Over
// 200 draws, base use by winter is off by less than the error of 9 periods allows, the
// score finds the error, and a verified saving of a fifth is within its interval of 68%
// about as often as that says.
func TestKnownTruth(t *testing.T) {
	const draws, noise = 200, 0.05
	within, bias, cv := 0, 0.0, 0.0
	changed := cal.Of(2025, 1, 1)
	for seed := range uint64(draws) {
		r := rand.New(rand.NewPCG(seed, 1))
		s := fixedSite(4, 1)
		for i := range s.Periods {
			p := &s.Periods[i]
			if p.From >= changed {
				p.M3 -= 0.2 * s.Days.Sim(p)
			}
			p.M3 *= 1 + noise*r.NormFloat64()
		}
		c := s.Compare(changed)
		bias += (c.Bases[c.Base].M3Day - 0.5) / draws
		cv += c.Of(meter.Season).CV / draws
		got := s.Saving(c, changed, true)
		by := got.By[0] // as programmed
		if truth := 0.2 * 489; math.Abs(by.M3-truth) <= by.Plus {
			within++
		}
	}
	t.Logf("base use off by %.4f of 0.5 m³/d on average; CV of the season %.1f%%; saving within its 68%% interval in %d of %d draws",
		bias, cv, within, draws)
	// The mean of the lowest 3 of 5 equal months is low by 0.5527 of the error of one,
	// 0.025 m³ (order statistics of five normal draws: −1.1630, −0.4950 and 0). That holds
	// for two winters; the first has only 3 months and the last only 2, so of 11 months 6
	// are low: 0.5527·0.025·6/11. The standard error over the draws is 0.0005.
	near(t, "bias of base use", bias, -0.00754, 0.0015)
	// Errors of the season are 5% of outdoor use and base use together.
	if cv < 4 || cv > 9 {
		t.Errorf("CV of the season %.1f%%", cv)
	}
	if within < draws*55/100 || within > draws*95/100 {
		t.Errorf("%d of %d savings within the interval", within, draws)
	}
}
