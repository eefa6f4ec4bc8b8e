package generate

import (
	"math"
	"slices"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// years makes n whole years of the demonstration place.
func years(t *testing.T, p Params, n int, seed uint64) *weather.Record {
	t.Helper()
	first := cal.Of(2001, 1, 1)
	rec, err := Generate(p, DemoStation(), first, int(cal.Of(2001+n, 1, 1)-first), seed)
	if err != nil {
		t.Fatal(err)
	}
	return rec
}

func demoParams(t *testing.T, spread float64) (Normals, Params) {
	t.Helper()
	n := DemoNormals()
	n.YearSpread = spread
	p, err := n.Params()
	if err != nil {
		t.Fatal(err)
	}
	return n, p
}

// byMonth collects the values of c, and for rain the totals and wet days of
// each single month.
type monthly struct{ value, total, wet [12]sums }

func byMonth(s *weather.Series, c weather.Column, wetMM float64) (out monthly) {
	total, wet := 0.0, 0.0
	for i := range s.Days {
		d := s.Date(i)
		m, _ := place(d)
		v := s.At(c, i)
		out.value[m].add(v)
		total += v
		if v >= wetMM {
			wet++
		}
		if next, _ := place(d + 1); next != m {
			out.total[m].add(total)
			out.wet[m].add(wet)
			total, wet = 0, 0
		}
	}
	return out
}

// TestNormalsComeBack compares long runs with the figures they were made from.
// Limits are four standard errors of the run's own spread: about one false
// alarm in 16,000 comparisons.
func TestNormalsComeBack(t *testing.T) {
	const n = 400
	for _, spread := range []float64{0, 0.3} {
		want, p := demoParams(t, spread)
		rec := years(t, p, n, 11)
		rain := byMonth(&rec.Series, weather.Rain, DefaultWetMM)
		for m := range 12 {
			near(t, m, "rain [mm]", rain.total[m].mean(), want.RainMM[m], 4*rain.total[m].sd()/math.Sqrt(n))
			near(t, m, "wet days", rain.wet[m].mean(), want.WetDays[m], 4*rain.wet[m].sd()/math.Sqrt(n))
		}
		for _, c := range []struct {
			col  weather.Column
			want [12]float64
		}{{weather.Tmax, want.TmaxC}, {weather.Tmin, want.TminC}, {weather.Rs, *want.RsMJ}, {weather.Wind, *want.WindMS},
			{weather.Tdew, *want.DewC}} {
			got := byMonth(&rec.Series, c.col, math.Inf(1))
			for m := range 12 {
				// Days hang together, so the error is that of the monthly sums.
				days := got.value[m].n() / n
				near(t, m, c.col.Key(), got.value[m].mean(), c.want[m], 4*got.total[m].sd()/days/math.Sqrt(n))
			}
		}
	}
}

func near(t *testing.T, month int, what string, got, want, limit float64) {
	t.Helper()
	if !(math.Abs(got-want) <= limit) {
		t.Errorf("%s: %s is %.3f, given was %.3f (limit %.3f)", monthNames[month], what, got, want, limit)
	}
}

// TestSpreadOfTemperatures checks the day-to-day spread, which the figures
// give for all days of a month together. The course within the month comes on
// top of it, so it is taken out by comparing days of the year.
func TestSpreadOfTemperatures(t *testing.T) {
	const n = 400
	want, p := demoParams(t, 0)
	rec := years(t, p, n, 12)
	for _, c := range []struct {
		col  weather.Column
		want [12]float64
	}{{weather.Tmax, *want.TmaxSD}, {weather.Tmin, *want.TminSD}} {
		var byDay [yearDays]sums
		for i := range rec.Days {
			_, at := place(rec.Date(i))
			byDay[at].add(rec.At(c.col, i))
		}
		for m := range 12 {
			v, days := 0.0, 0.0
			for at := monthStart[m]; at < monthStart[m+1]; at++ {
				if byDay[at].n() == n {
					v += byDay[at].variance()
					days++
				}
			}
			// Some 8 of a month's days are independent with a carry-over near 0.6.
			near(t, m, "spread of "+c.col.Key(), math.Sqrt(v/days), c.want[m], 4*c.want[m]/math.Sqrt(2*8*n)+0.05)
		}
	}
}

// TestFitFindsWhatMadeTheWeather fits a long run and wants the parameters back.
func TestFitFindsWhatMadeTheWeather(t *testing.T) {
	_, p := demoParams(t, 0.3)
	rec := years(t, p, 400, 13)
	got, _, err := Fit(&rec.Series, 0)
	if err != nil {
		t.Fatal(err)
	}
	for m := range 12 {
		g, w := got.month[m], p.month[m]
		// About 12,000 days a month; a share has the error sqrt(s(1-s)/n). Years
		// that differ mix chains and lift the carry-over by a few hundredths.
		near(t, m, "chance of a wet day after a dry one", g.wetAfterDry, w.wetAfterDry, 0.02)
		near(t, m, "chance of a wet day after a wet one", g.wetAfterWet, w.wetAfterWet, 0.06)
		for s := range 2 {
			near(t, m, "Tmax by state", g.tmaxC[s], w.tmaxC[s], 0.6)
			near(t, m, "Tmin by state", g.tminC[s], w.tminC[s], 0.5)
			near(t, m, "radiation by state", g.rsMJ[s], w.rsMJ[s], 0.06*w.rsMJ[dryDay])
		}
		near(t, m, "wind", g.windMS, w.windMS, 0.05)
	}
	for i := range 3 {
		for j := range 3 {
			const limit = 0.03
			if d0, d1 := got.m0[i][j]-publishedM0()[i][j], got.m1[i][j]-publishedM1()[i][j]; math.Abs(d0) > limit || math.Abs(d1) > limit {
				t.Errorf("row %d column %d: correlations %.3f and %.3f of the same day and the day before; drawn from %.3f and %.3f",
					i, j, got.m0[i][j], got.m1[i][j], publishedM0()[i][j], publishedM1()[i][j])
			}
		}
	}
	// The standard error of a spread from 400 years is a twenty-eighth of it,
	// more for a sum of which chance makes a good half.
	if math.Abs(got.yearSpread-0.3) > 0.06 {
		t.Errorf("spread of years %.3f, drawn from 0.3", got.yearSpread)
	}
	if math.Abs(got.windCV-p.windCV) > 0.02 || math.Abs(got.windLag-p.windLag) > 0.02 {
		t.Errorf("wind: spread %.3f and carry-over %.3f, drawn from %g and %g", got.windCV, got.windLag, p.windCV, p.windLag)
	}
}

func TestSpreadMakesYearsDiffer(t *testing.T) {
	cv := func(spread float64) float64 {
		_, p := demoParams(t, spread)
		rec := years(t, p, 300, 14)
		var y sums
		total := 0.0
		for i := range rec.Days {
			total += rec.At(weather.Rain, i)
			if rec.Date(i+1).Year() != rec.Date(i).Year() {
				y.add(total)
				total = 0
			}
		}
		return y.sd() / y.mean()
	}
	alike, apart := cv(0), cv(0.3)
	// Variances of independent causes add; 6 standard errors of a ratio of spreads are about a quarter.
	want := math.Sqrt(alike*alike + math.Exp(0.09) - 1)
	if math.Abs(apart-want) > 0.25*want {
		t.Errorf("years vary by %.3f without and %.3f with a spread of 0.3; want %.3f", alike, apart, want)
	}
}

func TestLaws(t *testing.T) {
	_, p := demoParams(t, 0.5)
	rec := years(t, p, 100, 15)
	sky := newSunshine(&p, rec.Station)
	for i := range rec.Days {
		tmax, tmin := rec.At(weather.Tmax, i), rec.At(weather.Tmin, i)
		_, at := place(rec.Date(i))
		switch rain := rec.At(weather.Rain, i); {
		case !(rain >= 0), rain > 0 && rain < DefaultWetMM:
			t.Fatalf("%v: rain %g mm", rec.Date(i), rain)
		case !(tmax >= tmin):
			t.Fatalf("%v: Tmax %g below Tmin %g", rec.Date(i), tmax, tmin)
		case !(rec.At(weather.Tdew, i) <= tmin):
			t.Fatalf("%v: dew point %g above Tmin %g", rec.Date(i), rec.At(weather.Tdew, i), tmin)
		case !(rec.At(weather.Rs, i) >= 0 && rec.At(weather.Rs, i) <= sky.high[at]):
			t.Fatalf("%v: radiation %g past a clear sky's %g", rec.Date(i), rec.At(weather.Rs, i), sky.high[at])
		case !(rec.At(weather.Wind, i) > 0):
			t.Fatalf("%v: wind %g", rec.Date(i), rec.At(weather.Wind, i))
		}
	}
	for c := range weather.Columns {
		if rec.Has(c) && rec.CountMark(c, weather.Synthetic) != rec.Days {
			t.Errorf("%s: not every value is marked as synthetic", c.Key())
		}
	}
	held := 0
	for i := range rec.Days {
		if r := rec.At(weather.Tmax, i) - rec.At(weather.Tmin, i); r < leastRangeC+0.15 {
			held++
		}
	}
	for _, f := range rec.Findings {
		if f.Code == "synthetic-range-held" && (f.Count == 0 || f.Count > held) {
			t.Errorf("%d days counted as held, %d days have the least range", f.Count, held)
		}
	}
}

func TestSeeds(t *testing.T) {
	_, p := demoParams(t, 0.3)
	a, b, c := years(t, p, 3, 1), years(t, p, 3, 1), years(t, p, 3, 2)
	for col := range weather.Columns {
		if !slices.Equal(a.Data[col], b.Data[col]) {
			t.Errorf("%s: one seed gave two records", col.Key())
		}
		if a.Has(col) && slices.Equal(a.Data[col], c.Data[col]) {
			t.Errorf("%s: two seeds gave one record", col.Key())
		}
	}
	p.wind, p.dew = false, false
	fewer := years(t, p, 3, 1)
	if fewer.Has(weather.Wind) || fewer.Has(weather.Tdew) {
		t.Error("columns were made that were not asked for")
	}
	for _, col := range []weather.Column{weather.Tmax, weather.Tmin, weather.Rain, weather.Rs} {
		if !slices.Equal(a.Data[col], fewer.Data[col]) {
			t.Errorf("%s: leaving out wind and dew point changed it", col.Key())
		}
	}
}

func TestContradictionsAreRefused(t *testing.T) {
	for name, spoil := range map[string]func(*Normals){
		"rain without wet days":    func(n *Normals) { n.WetDays[6] = 0 },
		"a drizzle below the bar":  func(n *Normals) { n.RainMM[6] = 0.1 },
		"more wet days than days":  func(n *Normals) { n.WetDays[1] = 29 },
		"lows above highs":         func(n *Normals) { n.TminC[0] = 20 },
		"dew above the lows":       func(n *Normals) { n.DewC[0] = 0 },
		"unknown rain":             func(n *Normals) { n.RainMM[3] = math.NaN() },
		"unknown temperature":      func(n *Normals) { n.TmaxC[3] = math.NaN() },
		"radiation of another sun": func(n *Normals) { n.RsMJ[5] = 80 },
		"years past all measure":   func(n *Normals) { n.YearSpread = 3 },
		"a wet day of no rain":     func(n *Normals) { n.WetMM = 0.01 },
	} {
		n := DemoNormals()
		spoil(&n)
		if _, err := n.Params(); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	_, p := demoParams(t, 0)
	if _, err := Generate(p, DemoStation(), 0, 0, 1); err == nil {
		t.Error("no days: no error")
	}
	if _, _, err := Fit(&years(t, p, 2, 1).Series, 0); err == nil {
		t.Error("two years were fitted")
	}
}

func BenchmarkGenerate(b *testing.B) {
	p, err := DemoNormals().Params()
	if err != nil {
		b.Fatal(err)
	}
	const days = 40 * 365
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Generate(p, DemoStation(), 0, days, 1); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)*days/b.Elapsed().Seconds(), "days/s")
}

// TestYearFactorsHaveTheMeanOne: a spread of years may not make the place
// wetter, neither in days nor in rain.
func TestYearFactorsHaveTheMeanOne(t *testing.T) {
	_, p := demoParams(t, 0.6)
	k := newMaker(&p, DemoStation(), 16)
	var days, rain sums
	const n = 100_000
	for y := range n {
		k.newYear(y)
		days.add(k.moreDays)
		rain.add(k.moreDays * k.moreRain)
	}
	near(t, 0, "factor of wet days", days.mean(), 1, 4*days.sd()/math.Sqrt(n))
	near(t, 0, "factor of rain", rain.mean(), 1, 4*rain.sd()/math.Sqrt(n))
	// A lognormal number with spread σ has the relative variance exp(σ²) - 1.
	near(t, 0, "variance of the factor of rain", rain.variance(), math.Exp(0.36)-1, 0.03)
}
