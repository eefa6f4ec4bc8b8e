package fill

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"pgregory.net/rapid"
)

// invented returns whole years of invented temperatures and rain: seasons,
// day-to-day memory, and rain on one day in four.
func invented(year, years int, seed uint64) *weather.Series {
	r := rand.New(rand.NewPCG(seed, 9))
	start := cal.Of(year, 1, 1)
	n := int(cal.Of(year+years, 1, 1) - start)
	s := weather.NewSeries(weather.Station{LatDeg: 40, LonDeg: -100, ElevM: 300, WindHeightM: 2}, start, n, weather.Tmax, weather.Tmin,
		weather.Rain)
	anomaly := 0.0
	for i := range n {
		anomaly = 0.7*anomaly + 2*r.NormFloat64()
		mean := 12 - 12*math.Cos(2*math.Pi*float64(s.Date(i).YearDay()-20)/365) + anomaly
		s.Set(weather.Tmax, i, mean+6, weather.Observed)
		s.Set(weather.Tmin, i, mean-6, weather.Observed)
		rain := 0.0
		if r.Float64() < 0.25 {
			rain = 8 * r.ExpFloat64()
		}
		s.Set(weather.Rain, i, rain, weather.Observed)
	}
	return s
}

func blank(s *weather.Series, c weather.Column, from cal.Date, days int) {
	for i := int(from - s.Start); i < int(from-s.Start)+days; i++ {
		s.Set(c, i, math.NaN(), weather.Missing)
	}
}

func finding(list []weather.Finding, code string, c weather.Column) *weather.Finding {
	for i := range list {
		if string(list[i].Code) == code && list[i].Column == c.Key() {
			return &list[i]
		}
	}
	return nil
}

// Hand-worked: between 20 and 26 °C, two missing days are 22 and 24 °C.
func TestShortGapIsDrawnStraight(t *testing.T) {
	s := invented(2010, 1, 1)
	i := int(cal.Of(2010, 5, 10) - s.Start)
	s.Data[weather.Tmax][i-1], s.Data[weather.Tmax][i+2] = 20, 26
	blank(s, weather.Tmax, s.Date(i), 2)
	list, err := Fill(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if got := s.Data[weather.Tmax][i : i+2]; math.Abs(got[0]-22) > 1e-9 || math.Abs(got[1]-24) > 1e-9 {
		t.Errorf("filled %v; worked by hand 22 and 24", got)
	}
	if s.Mark[weather.Tmax][i] != weather.Interpolated || s.CountMark(weather.Tmax, weather.Interpolated) != 2 {
		t.Errorf("marks %v", s.Mark[weather.Tmax][i-1:i+3])
	}
	f := finding(list, "filled-interpolated", weather.Tmax)
	if len(list) != 1 || f == nil || f.Count != 2 || f.Worst != s.Date(i) {
		t.Errorf("findings %+v", list)
	}
}

// A gap of rain is filled from another year whole, never drawn between days.
func TestRainComesFromOneYear(t *testing.T) {
	s := invented(2000, 6, 2)
	from := cal.Of(2003, 6, 3)
	i := int(from - s.Start)
	blank(s, weather.Rain, from, 5)
	list, err := Fill(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	got := s.Data[weather.Rain][i : i+5]
	from1 := 0
	for y := 2000; y < 2006; y++ {
		j := int(cal.Of(y, 6, 3) - s.Start)
		if y != 2003 && slices.Equal(got, s.Data[weather.Rain][j:j+5]) {
			from1 = y
		}
	}
	if from1 == 0 {
		t.Errorf("filled %v, the rain of no other year", got)
	}
	if f := finding(list, "filled-day-of-year", weather.Rain); f == nil || f.Count != 5 {
		t.Errorf("findings %+v", list)
	}
}

// A record without rain for a day must not become a dry record: with too few
// other years there is an error and not a zero.
func TestRainIsNeverAssumedZero(t *testing.T) {
	s := invented(2010, 2, 3)
	blank(s, weather.Rain, cal.Of(2010, 6, 3), 1)
	before := slices.Clone(s.Data[weather.Rain])
	_, err := Fill(s, Options{})
	var gap *GapError
	if !errors.As(err, &gap) || gap.Column != weather.Rain || gap.Days != 1 || gap.From != cal.Of(2010, 6, 3) || gap.fix() == "" {
		t.Fatalf("error %v", err)
	}
	if !equalNaN(before, s.Data[weather.Rain]) {
		t.Error("the series was changed although it was refused")
	}
}

func equalNaN(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return x == y || math.IsNaN(x) && math.IsNaN(y) })
}

// 29 February has its own place: it is filled, and the days after it keep theirs.
func TestLeapDay(t *testing.T) {
	s := invented(2000, 8, 4)
	from := cal.Of(2004, 2, 27)
	blank(s, weather.Rain, from, 5)
	blank(s, weather.Tmax, from, 5)
	if _, err := Fill(s, Options{}); err != nil {
		t.Fatal(err)
	}
	i := int(from - s.Start)
	for y := 2000; y < 2008; y++ {
		j := int(cal.Of(y, 2, 27) - s.Start)
		k := int(cal.Of(y, 3, 1) - s.Start)
		if y != 2004 && slices.Equal(s.Data[weather.Rain][i:i+2], s.Data[weather.Rain][j:j+2]) &&
			slices.Equal(s.Data[weather.Rain][i+3:i+5], s.Data[weather.Rain][k:k+2]) {
			return
		}
	}
	t.Errorf("filled %v: of no year by the calendar", s.Data[weather.Rain][i:i+5])
}

// A donor 3 °C warmer with half the rain gives the true values back.
func TestSecondStationIsAdjusted(t *testing.T) {
	s := invented(2000, 4, 5)
	truth := invented(2000, 4, 5)
	donor := invented(2000, 4, 5)
	for i := range donor.Days {
		donor.Data[weather.Tmax][i] += 3
		donor.Data[weather.Tmin][i] += 3
		donor.Data[weather.Rain][i] *= 0.5
	}
	donor.Station.LatDeg += 1
	from := cal.Of(2002, 7, 1)
	for _, c := range needed {
		blank(s, c, from, 8)
	}
	list, err := Fill(s, Options{Donor: donor})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range needed {
		for i := range s.Days {
			if math.Abs(s.Data[c][i]-truth.Data[c][i]) > 1e-6 {
				t.Fatalf("%s on %v: %g, the truth is %g", c.Label(), s.Date(i), s.Data[c][i], truth.Data[c][i])
			}
		}
		if f := finding(list, "filled-second-station", c); f == nil || f.Count != 8 || !strings.Contains(f.Detail, "111.2 km") {
			t.Errorf("%s: findings %+v", c.Label(), list)
		}
	}
}

// One degree of latitude is 111.2 km on a sphere of 6,371 km: 2π 6371/360.
func TestDistance(t *testing.T) {
	a, b := weather.Station{LatDeg: 40, LonDeg: -100}, weather.Station{LatDeg: 41, LonDeg: -100}
	if got := weather.DistanceKM(a, b); math.Abs(got-111.19) > 0.01 {
		t.Errorf("%.3f km; worked by hand 111.19", got)
	}
}

func TestSecondStationWithoutCommonDaysIsNotUsed(t *testing.T) {
	s, donor := invented(2000, 5, 6), invented(2010, 1, 6)
	blank(s, weather.Rain, cal.Of(2002, 7, 1), 3)
	list, err := Fill(s, Options{Donor: donor})
	if err != nil {
		t.Fatal(err)
	}
	if finding(list, "second-station-unused", weather.Rain) == nil || finding(list, "filled-day-of-year", weather.Rain) == nil {
		t.Errorf("findings %+v", list)
	}
}

func TestYearsPastTheLimitsAreRefused(t *testing.T) {
	s := invented(2000, 6, 7)
	blank(s, weather.Rain, cal.Of(2001, 3, 1), 11) // Eleven in a row.
	for k := range 31 {                            // 31 single days.
		blank(s, weather.Tmin, cal.Of(2003, 1, 1)+cal.Date(5*k), 1)
	}
	blank(s, weather.Tmax, cal.Of(2004, 3, 1), 10) // Just allowed.
	_, err := Fill(s, Options{})
	var years *YearsError
	if !errors.As(err, &years) {
		t.Fatalf("error %v", err)
	}
	want := []YearGap{{2001, 11, 11, cal.Of(2001, 3, 1)}, {2003, 31, 1, cal.Of(2003, 1, 1)}}
	if !slices.Equal(years.Years, want) {
		t.Errorf("refused %+v; want %+v", years.Years, want)
	}
	if !strings.Contains(err.Error(), "2001, 2003") {
		t.Errorf("the fix must name the years: %v", err)
	}
	var numbers []int
	for _, y := range years.Years {
		numbers = append(numbers, y.Year)
	}
	list, err := Fill(s, Options{Exclude: numbers})
	if err != nil {
		t.Errorf("with the years left out: %v", err)
	}
	if k := slices.IndexFunc(list, func(f weather.Finding) bool { return f.Code == "years-left-out" }); k < 0 || list[k].Count != 11+31 {
		t.Errorf("42 days of the years left out are to be told: %+v", list)
	}
	for _, c := range needed {
		if n := s.CountMissing(c); n != 0 {
			t.Errorf("%s still missing on %d days", c.Label(), n)
		}
	}
}

func TestFilledTmaxNeverBelowObservedTmin(t *testing.T) {
	s := invented(2000, 5, 8)
	from := cal.Of(2002, 1, 5)
	i := int(from - s.Start)
	blank(s, weather.Tmax, from, 6)
	for k := range 6 {
		s.Data[weather.Tmin][i+k] = 30 // A heat wave in January that the mean knows nothing of.
	}
	list, err := Fill(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if s.Data[weather.Tmax][i] != 30 || finding(list, "filled-tmax-below-tmin", weather.Tmax) == nil {
		t.Errorf("Tmax %g over Tmin 30; findings %+v", s.Data[weather.Tmax][i], list)
	}
}

// Whatever is missing: observed values stay, marks and counts agree, nothing is
// left, or the series is untouched and there is an error.
func TestFillLaws(t *testing.T) {
	base := invented(2000, 6, 9)
	rapid.Check(t, func(t *rapid.T) {
		s := invented(2000, 6, 9)
		for _, c := range needed {
			for range rapid.IntRange(0, 6).Draw(t, "gaps") {
				from := rapid.IntRange(0, s.Days-1).Draw(t, "from")
				n := min(rapid.IntRange(1, 14).Draw(t, "days"), s.Days-from)
				blank(s, c, s.Date(from), n)
			}
		}
		holed := invented(2000, 6, 9)
		missing := 0
		for _, c := range needed {
			copy(holed.Data[c], s.Data[c])
			missing += s.CountMissing(c)
		}
		list, err := Fill(s, Options{})
		filled := 0
		for _, c := range needed {
			if err != nil && !equalNaN(s.Data[c], holed.Data[c]) {
				t.Fatalf("refused, yet %s was changed", c.Label())
			}
			for i, v := range s.Data[c] {
				if !s.Mark[c][i].Filled() && !math.IsNaN(v) && v != base.Data[c][i] {
					t.Fatalf("%s on %v: observed %g became %g", c.Label(), s.Date(i), base.Data[c][i], v)
				}
				if s.Mark[c][i].Filled() {
					filled++
				}
				if err == nil && (math.IsNaN(v) || c == weather.Rain && v < 0) {
					t.Fatalf("%s on %v: %g", c.Label(), s.Date(i), v)
				}
			}
		}
		told := 0
		for _, f := range list {
			if strings.HasPrefix(string(f.Code), "filled-") && f.Code != "filled-tmax-below-tmin" {
				told += f.Count
			}
		}
		if err == nil && (filled != missing || told != missing) {
			t.Fatalf("%d missing, %d marked as filled, %d told", missing, filled, told)
		}
	})
}

func TestSelfTest(t *testing.T) {
	s := invented(1990, 20, 10)
	donor := invented(1990, 20, 10)
	before := slices.Clone(s.Data[weather.Tmax])
	list := SelfTest(s, Options{}, 1)
	if !slices.Equal(before, s.Data[weather.Tmax]) {
		t.Fatal("the series was changed")
	}
	by := map[weather.Column]map[weather.Mark]ColumnError{}
	for _, e := range list {
		if by[e.Column] == nil {
			by[e.Column] = map[weather.Mark]ColumnError{}
		}
		by[e.Column][e.Mark] = e
		t.Log(e)
	}
	short, long := by[weather.Tmax][weather.Interpolated], by[weather.Tmax][weather.Climatology]
	if short.Days < 50 || long.Days < 50 || by[weather.Rain][weather.Climatology].Days < 100 {
		t.Fatalf("too few days blanked: %+v", list)
	}
	if want := longGapError(); math.Abs(long.MeanAbs-want) > 0.25 || short.MeanAbs >= long.MeanAbs {
		t.Errorf("mean absolute error %.2f by the day of the year, %.2f interpolated; the theory of the invented weather gives %.2f for the "+
			"first", long.MeanAbs, short.MeanAbs, want)
	}
	if r := by[weather.Rain][weather.Climatology].Ratio; r < 0.7 || r > 1.4 {
		t.Errorf("filled rain is %.2f of true rain", r)
	}
	// The same record as its own second station is without error.
	for _, e := range SelfTest(s, Options{Donor: donor, tempGapDays: -1}, 1) {
		if e.Mark != weather.Donated || e.MeanAbs > 1e-9 {
			t.Errorf("a perfect second station: %v", e)
		}
	}
	if a, b := SelfTest(s, Options{}, 1), SelfTest(s, Options{}, 2); slices.Equal(a, b) || !slices.Equal(a, SelfTest(s, Options{}, 1)) {
		t.Error("equal seeds must blank equal days, and others others")
	}
}

// A record without Tmin at all cannot be filled, and its Tmax is not spoiled.
func TestColumnWithoutValues(t *testing.T) {
	s := invented(2000, 5, 12)
	for i := range s.Days {
		s.Set(weather.Tmin, i, math.NaN(), weather.Missing)
	}
	for _, e := range SelfTest(s, Options{}, 1) {
		if math.IsNaN(e.MeanAbs) || e.Column == weather.Tmin {
			t.Errorf("%v", e)
		}
	}
	var gap *GapError
	if _, err := Fill(s, Options{Exclude: []int{2000, 2001, 2002, 2003, 2004}}); !errors.As(err, &gap) || gap.Column != weather.Tmin ||
		gap.Days != s.Days {
		t.Errorf("error %v", err)
	}
}

// longGapError is the least mean absolute error [°C] that gaps of 5 and 10 days
// can be filled with in the invented weather, an autoregression with memory 0.7
// and steps of 2 °C: √(2/π) times the standard deviation on condition of both
// ends, averaged over the days.
func longGapError() float64 {
	const rho = 0.7
	variance := 4 / (1 - rho*rho)
	sum, days := 0.0, 0.0
	for _, length := range []int{5, 10} {
		for m := 1; m <= length; m++ {
			a, b := math.Pow(rho, 2*float64(m)), math.Pow(rho, 2*float64(length+1-m))
			sum += math.Sqrt(2 / math.Pi * variance * (1 - (a+b-2*a*b)/(1-a*b)))
			days++
		}
	}
	return sum / days
}

// Hand-worked: one day between anomalies a and b is ρ/(1 + ρ²) (a + b); with
// ρ = 0.5 and both 1 that is 0.8. Far from both it is 0, and without memory too.
func TestBridgeAnomaly(t *testing.T) {
	for _, tt := range []struct {
		rho, before, after float64
		days, until        int
		want               float64
	}{{0.5, 1, 1, 1, 1, 0.8}, {0.5, 3, -3, 1, 1, 0}, {0.5, 4, 0, 1, 60, 2}, {0.5, 4, 4, 60, 60, 0}, {0, 5, 5, 1, 1, 0}} {
		if got := bridgeAnomaly(tt.rho, tt.before, tt.after, tt.days, tt.until); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("%+v: %g", tt, got)
		}
	}
}

func BenchmarkFill40Years(b *testing.B) {
	s := invented(1980, 40, 11)
	for y := 1980; y < 2020; y++ {
		blank(s, weather.Rain, cal.Of(y, 4, 1)+cal.Date(y%90), 4)
		blank(s, weather.Tmax, cal.Of(y, 8, 1), 2)
	}
	o := Options{}.withDefaults()
	b.ReportAllocs()
	for b.Loop() {
		w := newWork(s, o)
		w.run()
	}
	b.ReportMetric(float64(b.N)*float64(s.Days)/b.Elapsed().Seconds(), "days/s")
}
