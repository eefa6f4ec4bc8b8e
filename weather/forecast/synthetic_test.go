package forecast

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// rainy makes years of rain with a share of wet days that follows the seasons
// and exponential amounts, and some Tmin and ETo.
func rainy(n int) (s *weather.Series, etoMM []float64) {
	r := rand.New(rand.NewPCG(5, 5))
	first := cal.Of(2001, 1, 1)
	s = weather.NewSeries(weather.UnknownStation(), first, int(cal.Of(2001+n, 1, 1)-first), weather.Rain, weather.Tmin)
	etoMM = make([]float64, s.Days)
	for i := range s.Days {
		season := math.Cos(2 * math.Pi * float64(s.Date(i).YearDay()) / 365)
		mm := 0.0
		if r.Float64() < 0.28+0.12*season {
			mm = math.Round(60*r.ExpFloat64()) / 10
		}
		s.Set(weather.Rain, i, mm, weather.Observed)
		s.Set(weather.Tmin, i, 8-9*season+3*r.NormFloat64(), weather.Observed)
		etoMM[i] = 3.5 - 2*season + r.Float64()
	}
	return s, etoMM
}

func synthetic(t *testing.T, s *weather.Series, etoMM []float64, o Options, seed uint64) *Archive {
	t.Helper()
	a, found, err := Synthetic(s, etoMM, o, seed)
	if err != nil || len(found) > 0 {
		t.Fatalf("%v, %v", err, found)
	}
	return a
}

// TestSyntheticHasTheSkillAskedFor verifies long synthetic forecasts and wants
// POD and FAR within four standard errors of a share.
func TestSyntheticHasTheSkillAskedFor(t *testing.T) {
	s, etoMM := rainy(120)
	for _, cut := range []float64{0, 0.075} {
		o := Defaults(40)
		o.WarmPODCut = cut
		scores, err := Verify(synthetic(t, s, etoMM, o, 6), s, Rule{RainMM: o.ThresholdMM})
		if err != nil || len(scores) != len(o.Leads) {
			t.Fatalf("%v, %v", scores, err)
		}
		for k, sc := range scores {
			want := o.Leads[k]
			// The warm season's cut works on its share of the events.
			warm, all := 0.0, 0.0
			for i := range s.Days {
				if s.At(weather.Rain, i) >= o.ThresholdMM {
					all++
					if o.warm[s.Date(i).Month()-1] {
						warm++
					}
				}
			}
			pod := want.POD - cut*warm/all
			events, yes := float64(sc.Hits+sc.Misses), float64(sc.Hits+sc.FalseAlarms)
			if off := math.Abs(sc.POD() - pod); off > 4*math.Sqrt(pod*(1-pod)/events) {
				t.Errorf("lead %d: POD %.4f, asked for %.4f, from %.0f events", k+1, sc.POD(), pod, events)
			}
			if off := math.Abs(sc.FAR() - want.FAR); off > 4*math.Sqrt(want.FAR*(1-want.FAR)/yes) {
				t.Errorf("lead %d: FAR %.4f, asked for %.4f, from %.0f forecasts", k+1, sc.FAR(), want.FAR, yes)
			}
		}
	}
}

// TestChancesAreTrue: of the days with a chance of about p, p have the event.
func TestChancesAreTrue(t *testing.T) {
	s, _ := rainy(120)
	o := Defaults(40)
	type bin struct{ n, events, chance float64 }
	bins := map[int]*bin{}
	for f := range synthetic(t, s, nil, o, 7).All() {
		b := bins[int(f.ProbabilityPct/10)]
		if b == nil {
			b = &bin{}
			bins[int(f.ProbabilityPct/10)] = b
		}
		b.n++
		b.chance += f.ProbabilityPct / 100
		if s.At(weather.Rain, int(f.Valid-s.Start)) >= o.ThresholdMM {
			b.events++
		}
	}
	if len(bins) < 4 {
		t.Fatalf("%d kinds of chance", len(bins))
	}
	for decade, b := range bins {
		p := b.chance / b.n
		// The five leads about one day are no independent cases: n/5.
		if off := math.Abs(b.events/b.n - p); off > 4*math.Sqrt(p*(1-p)/(b.n/5)) {
			t.Errorf("chances from %d%%: said %.4f, came %.4f of %.0f", 10*decade, p, b.events/b.n, b.n)
		}
	}
}

func TestErrorsPersistFromLeadToLead(t *testing.T) {
	s, _ := rainy(40)
	agree := func(persistence float64) float64 {
		o := Options{Leads: []Skill{{0.5, 0.4}, {0.5, 0.4}}, persistence: persistence}
		a := synthetic(t, s, nil, o, 8)
		same, n := 0.0, 0.0
		for i := range s.Days {
			if s.At(weather.Rain, i) < DefaultThresholdMM {
				continue
			}
			d := s.Date(i)
			two, _ := a.Known(d-1, d)
			one, _ := a.Known(d, d)
			if one.LeadDays() != 1 || two.LeadDays() != 2 {
				t.Fatalf("leads %d and %d", one.LeadDays(), two.LeadDays())
			}
			n++
			if (one.RainMM >= DefaultThresholdMM) == (two.RainMM >= DefaultThresholdMM) {
				same++
			}
		}
		return same / n
	}
	// Two normal numbers with correlation ρ lie on the same side of their median
	// with the chance 1/2 + asin(ρ)/π (Sheppard 1899, from memory); 40 years have
	// some 1,700 events, so four standard errors are 0.05.
	for _, rho := range []float64{0, 0.6, 0.9} {
		if got, want := agree(rho), 0.5+math.Asin(rho)/math.Pi; math.Abs(got-want) > 0.05 {
			t.Errorf("persistence %g: consecutive leads agree on %.3f of events, want %.3f", rho, got, want)
		}
	}
}

func TestBoundsAreLimitsOfSkill(t *testing.T) {
	s, etoMM := rainy(5)
	equal := func(a, b Forecast) bool {
		return a.Issued == b.Issued && a.Valid == b.Valid && a.RainMM == b.RainMM && a.ProbabilityPct == b.ProbabilityPct && a.TminC == b.TminC &&
			a.EToMM == b.EToMM
	}
	// rainy has no Tmax, which synthetic forecasts never have.
	perfect := synthetic(t, s, etoMM, Options{Leads: []Skill{{1, 0}, {1, 0}, {1, 0}}}, 9)
	if want := Perfect(s, etoMM, DefaultThresholdMM, 3); !slices.EqualFunc(perfect.list, want.list, equal) {
		t.Error("POD 1 and FAR 0 are not perfect forecasts")
	}
	blind := synthetic(t, s, etoMM, Options{Leads: []Skill{{0, 0}, {0, 0}, {0, 0}}}, 9)
	if want := None(s, 3); !slices.EqualFunc(blind.list, want.list, func(a, b Forecast) bool {
		return a.Issued == b.Issued && a.Valid == b.Valid && a.RainMM == b.RainMM
	}) {
		t.Error("POD 0 and FAR 0 do not forecast what no forecast does")
	}
	// Who never forecasts the event can only give its share of the month's days.
	climates := newClimates(s, DefaultThresholdMM)
	for f := range blind.All() {
		c, _ := climates.of(f.Valid.Year())
		if want := 100 * c[f.Valid.Month()-1].baseRate(); math.Abs(f.ProbabilityPct-want) > 1e-9 {
			t.Fatalf("%v: chance %g%%, want the month's %g%%", f.Valid, f.ProbabilityPct, want)
		}
	}
	for _, a := range []*Archive{Perfect(s, nil, DefaultThresholdMM, 2), None(s, 2)} {
		if again, err := NewArchive(a.list); err != nil || !slices.EqualFunc(a.list, again.list,
			func(a, b Forecast) bool { return a.Valid == b.Valid && a.Issued == b.Issued }) {
			t.Errorf("a bound is out of order: %v", err)
		}
	}
}

func TestAmounts(t *testing.T) {
	s, _ := rainy(60)
	o := Defaults(40)
	events := 0.0
	light, alarms := 0.0, 0.0
	climates := newClimates(s, o.ThresholdMM)
	for f := range synthetic(t, s, nil, o, 10).All() {
		came := s.At(weather.Rain, int(f.Valid-s.Start))
		if !(f.RainMM >= 0) {
			t.Fatalf("%v: rain %g", f.Valid, f.RainMM)
		}
		if came < o.ThresholdMM && f.RainMM >= o.ThresholdMM {
			alarms++
			c, _ := climates.of(f.Valid.Year())
			amounts := c[f.Valid.Month()-1].amounts
			if !slices.Contains(amounts, f.RainMM) {
				t.Fatalf("%v: a false alarm of %g mm, which the month never had in other years", f.Valid, f.RainMM)
			}
			if f.RainMM <= amounts[len(amounts)/4] {
				light++
			}
		}
		if came == 0 && f.RainMM > 0 && f.RainMM < o.ThresholdMM {
			t.Fatalf("%v: %g mm forecast on a day without rain", f.Valid, f.RainMM)
		}
		if came >= o.ThresholdMM && f.RainMM >= o.ThresholdMM {
			events++
		}
	}
	// The square of an even number lies below a quarter half the time; equal
	// amounts at the quarter add some.
	if share := light / alarms; share < 0.48 || share > 0.58 {
		t.Errorf("%.3f of %.0f false alarms are in the light quarter", share, alarms)
	}
	if events == 0 {
		t.Error("no event was forecast")
	}
}

func TestSyntheticSeedsAndRefusals(t *testing.T) {
	s, etoMM := rainy(2)
	o := Defaults(40)
	a, b, c := synthetic(t, s, etoMM, o, 1), synthetic(t, s, etoMM, o, 1), synthetic(t, s, etoMM, o, 2)
	same := func(a, b Forecast) bool {
		a.TmaxC, b.TmaxC = 0, 0 // never forecast, so NaN
		return a == b
	}
	if !slices.EqualFunc(a.list, b.list, same) {
		t.Error("one seed gave two sets of forecasts")
	}
	if slices.EqualFunc(a.list, c.list, same) {
		t.Error("two seeds gave one set of forecasts")
	}
	if !slices.IsSortedFunc(a.list, compare) {
		t.Error("synthetic forecasts are out of order")
	}
	rain := func(a *Archive) (v []float64) {
		for f := range a.All() {
			v = append(v, f.RainMM)
		}
		return v
	}
	if !slices.Equal(rain(a), rain(synthetic(t, s, nil, o, 1))) {
		t.Error("leaving out ETo changed the rain")
	}
	s.Set(weather.Rain, 10, math.NaN(), weather.Missing)
	with, found, err := Synthetic(s, nil, o, 1)
	if err != nil || len(found) != 1 || found[0].Count != 1 {
		t.Errorf("a day without rain: %v, %v", found, err)
	}
	if f, ok := with.Known(s.Date(10), s.Date(10)); !ok || !math.IsNaN(f.RainMM) || math.IsNaN(f.TminC) {
		t.Errorf("a day without rain got %+v", f)
	}
	for name, spoil := range map[string]func(*Options){
		"no leads":       func(o *Options) { o.Leads = nil },
		"POD above 1":    func(o *Options) { o.Leads[0].POD = 1.1 },
		"FAR of 1":       func(o *Options) { o.Leads[0].FAR = 1 },
		"unknown POD":    func(o *Options) { o.Leads[0].POD = math.NaN() },
		"persistence 1":  func(o *Options) { o.persistence = 1 },
		"negative error": func(o *Options) { o.amountSD = -1 },
	} {
		o := Defaults(40)
		spoil(&o)
		if _, _, err := Synthetic(s, nil, o, 1); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestAWetMonthIsCounted(t *testing.T) {
	s := weather.NewSeries(weather.UnknownStation(), 0, 31, weather.Rain)
	for i := range s.Days {
		s.Set(weather.Rain, i, float64(10*min(1, i%10)), weather.Observed)
	}
	_, found, err := Synthetic(s, nil, Options{Leads: []Skill{{0.6, 0.4}}}, 1)
	if err != nil || len(found) != 2 || found[1].Code != weather.CodeForecastFARHeld || found[1].Count != 1 {
		t.Errorf("%v, %v", found, err)
	}
	// Its climate can only be its own.
	if len(found) > 0 && (found[0].Code != weather.CodeForecastHindsight || found[0].Count != s.Days) {
		t.Errorf("one month of one year is not called hindsight: %v", found[0])
	}
}

// twoJunes is 60 days of June in two years, in a record of two whole years: 10
// days of 20 mm in the first, 3 days of 6 mm in the second.
func twoJunes() *weather.Series {
	first := cal.Of(2001, 1, 1)
	s := weather.NewSeries(weather.UnknownStation(), first, 730, weather.Rain)
	for i := range s.Days {
		y, m, d := s.Date(i).YMD()
		mm := 0.0
		switch {
		case m == 6 && y == 2001 && d <= 10:
			mm = 20
		case m == 6 && y == 2002 && d <= 3:
			mm = 6
		}
		s.Set(weather.Rain, i, mm, weather.Observed)
	}
	return s
}

// By hand, POD 0.6, FAR 0.4. In June 2001 the climate is that of June 2002,
// b = 3/30: pofd = 0.4 · 0.6 · 0.1 / (0.6 · 0.9) = 0.0444, so rain is forecast
// on 0.06 + 0.04 of days, and the chance without such a forecast is 0.1 · 0.4 /
// 0.9 = 4.44%. In June 2002 it is that of 2001, b = 1/3: pofd 0.2, forecast on
// 0.2 + 0.1333 of days, chance without 0.1333 / 0.6667 = 20%. False alarms take
// the amounts of the other year.
func TestClimateIsFromOtherYears(t *testing.T) {
	s := twoJunes()
	o := Options{Leads: []Skill{{0.6, 0.4}}, amountSD: 0.5}
	alarms := map[int]int{}
	for seed := range uint64(200) {
		for f := range synthetic(t, s, nil, o, seed).All() {
			y, m, _ := f.Valid.YMD()
			if m != 6 {
				if f.RainMM != 0 || f.ProbabilityPct != 0 {
					t.Fatalf("%v: %g mm, %g%%, in a month that is always dry", f.Valid, f.RainMM, f.ProbabilityPct)
				}
				continue
			}
			said := f.RainMM >= DefaultThresholdMM
			want := 60.0 // 1 - FAR
			if !said {
				want = map[int]float64{2001: 100 * 0.04 / 0.9, 2002: 20}[y]
			}
			if math.Abs(f.ProbabilityPct-want) > 1e-9 {
				t.Fatalf("%v: chance %g%%, want %g%%", f.Valid, f.ProbabilityPct, want)
			}
			if said && s.At(weather.Rain, int(f.Valid-s.Start)) == 0 {
				alarms[y]++
				if amount := map[int]float64{2001: 6, 2002: 20}[y]; f.RainMM != amount {
					t.Fatalf("%v: a false alarm of %g mm, want the other year's %g", f.Valid, f.RainMM, amount)
				}
			}
		}
	}
	// 200 draws of 20 and 27 dry days: 178 and 1,080 false alarms expected, four
	// standard errors of a count are about 53 and 118.
	if a := alarms[2001]; a < 125 || a > 231 {
		t.Errorf("%d false alarms in 2001, want about 178", a)
	}
	if a := alarms[2002]; a < 962 || a > 1198 {
		t.Errorf("%d false alarms in 2002, want about 1,080", a)
	}
}

// A year's own rain below the threshold or above decides its hits, but never
// its false alarms: days that stay dry get the same forecasts.
func TestOwnYearDoesNotMoveFalseAlarms(t *testing.T) {
	s, _ := rainy(6)
	o := Defaults(40)
	before := synthetic(t, s, nil, o, 3)
	changed := cal.Of(2003, 7, 1)
	for i := range s.Days {
		if y, m, _ := s.Date(i).YMD(); y == 2003 && m < 7 && s.At(weather.Rain, i) >= o.ThresholdMM {
			s.Set(weather.Rain, i, 0, weather.Observed)
		}
	}
	after := synthetic(t, s, nil, o, 3)
	same := 0
	for i, f := range before.list {
		if f.Valid.Year() != 2003 || f.Valid < changed {
			continue
		}
		if g := after.list[i]; f.RainMM != g.RainMM || f.ProbabilityPct != g.ProbabilityPct {
			t.Fatalf("%v: %g mm, %g%% before, %g mm, %g%% after", f.Valid, f.RainMM, f.ProbabilityPct, g.RainMM, g.ProbabilityPct)
		}
		same++
	}
	if same != 5*184 {
		t.Errorf("%d forecasts compared, want %d", same, 5*184)
	}
}

// The months of a record of eighteen months that no other year has are counted:
// July to December of the first year, 184 days.
func TestHindsightIsCounted(t *testing.T) {
	long, _ := rainy(2)
	s := weather.NewSeries(weather.UnknownStation(), long.Start, 365+181, weather.Rain)
	copy(s.Data[weather.Rain], long.Data[weather.Rain])
	_, found, err := Synthetic(s, nil, Defaults(40), 1)
	if err != nil || len(found) != 1 || found[0].Code != weather.CodeForecastHindsight || found[0].Count != 184 {
		t.Errorf("%v, %v", found, err)
	}
}

func BenchmarkSynthetic(b *testing.B) {
	s, etoMM := rainy(40)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Synthetic(s, etoMM, Defaults(40), 1); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)*float64(5*s.Days)/b.Elapsed().Seconds(), "forecasts/s")
}
