package bill

import (
	"slices"
	"testing"

	"loamledger/sim/money"
	"loamledger/weather/cal"

	"pgregory.net/rapid"
)

func num(t *testing.T, text string) money.Num {
	t.Helper()
	n, err := money.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// Hand: 1,000 to 1,200 at the start, 20 a year; 150 to 300 saved in the first year,
// 220 on average, over 3 years at 5%. Fastest: 1000/280 = 3.57 years; slowest: 1200/130 =
// 9.23. NPV of the means: 200·(1/1.05 + 1/1.1025 + 1/1.157625) − 1100 = 544.65 − 1100 =
// −555.35.
func TestWorth(t *testing.T) {
	p := Project{CostLow: money.Int(1000), CostHigh: money.Int(1200), UpkeepLow: money.Int(20), UpkeepHigh: money.Int(20), Years: 3,
		Discount: num(t, "0.05")}
	w := p.Worth(money.Int(150), money.Int(220), money.Int(300), money.Num{})
	if w.PaybackLow.Fixed(2) != "3.57" || w.PaybackHigh.Fixed(2) != "9.23" || w.NPV.Fixed(2) != "-555.35" {
		t.Errorf("payback %v to %v, NPV %v", w.PaybackLow, w.PaybackHigh, w.NPV)
	}
	// With prices rising by 10%: 110 of 100 saved in the second year, so 205 is paid back
	// in 1 + 105/110 = 1.95 years.
	if got := payback(money.Int(205), money.Int(100), money.Num{}, num(t, "0.1")); got == nil || got.Fixed(2) != "1.95" {
		t.Errorf("payback %v, by hand 1.95", got)
	}
	// A saving below the upkeep never pays back; 10 a year less 20 is worth −10/1.05 − 10/1.1025
	// − 10/1.157625 = −27.23 without any cost.
	free := Project{Years: 3, Discount: num(t, "0.05"), CostHigh: money.Int(1), UpkeepLow: money.Int(20), UpkeepHigh: money.Int(20)}
	if w := free.Worth(money.Int(10), money.Int(10), money.Int(10), money.Num{}); w.PaybackHigh != nil || w.NPVHigh.Fixed(2) != "-27.23" {
		t.Errorf("payback %v, NPV %v", w.PaybackHigh, w.NPVHigh)
	}
}

// Published: a program of 218,790 for 325 units, each saving 30,070 gal a year, costs 730
// an acre-foot over 10 years undiscounted, 855 at 3% and 945 at 5% (worked from figures of
// two programs; an acre-foot is 325,851 gal).
func TestPublishedCostOfSavedWater(t *testing.T) {
	cost, saved := money.Int(218790).Div(money.Int(325)), money.Int(30070).Div(money.Int(325851))
	for _, tt := range []struct{ rate, want string }{{"0", "730"}, {"0.03", "855"}, {"0.05", "945"}} {
		p := Project{CostLow: cost, CostHigh: cost, Years: 10, Discount: num(t, tt.rate)}
		low, high, ok := p.Levelized(saved)
		if !ok || low.Fixed(0) != tt.want || high.Cmp(low) != 0 {
			t.Errorf("at %s: %v, published %s", tt.rate, low, tt.want)
		}
	}
	// Hand: an upkeep of 20 a year alone is 20 for each of 2 units, 10; without a saving there is none.
	p := Project{UpkeepLow: money.Int(20), UpkeepHigh: money.Int(20), Years: 7, Discount: num(t, "0.04")}
	if low, _, _ := p.Levelized(money.Int(2)); low.Round(9).Fixed(2) != "10.00" {
		t.Errorf("%v, by hand 10", low)
	}
	if _, _, ok := p.Levelized(money.Num{}); ok {
		t.Error("no saving has a cost")
	}
}

// Bills at other prices or meters do not check the prices that matter.
func TestCheckedFor(t *testing.T) {
	r := &Rates{Charges: []Charge{{Name: "water", Dates: cal.Period{}.To(cal.Of(2022, 12, 31))},
		{Name: "water", Dates: cal.Period{}.From(cal.Of(2023, 1, 1))}}}
	bills := []Bill{{Read: Read{Meter: "a", From: cal.Of(2022, 10, 1), To: cal.Of(2022, 11, 1)}},
		{Read: Read{Meter: "a", From: cal.Of(2022, 12, 10), To: cal.Of(2023, 1, 10)}}}
	day := cal.Of(2024, 6, 1)
	fine, off := []Match{{At: 0}}, []Match{{At: 0}, {At: 1, Off: money.Int(1)}}
	for i, tt := range []struct {
		matches []Match
		meter   string
		want    Verdict
	}{{nil, "a", NoBill}, {off, "a", Unlike}, {fine, "b", OtherMeter}, {fine, "a", OtherPrices}, {[]Match{{At: 0}, {At: 1}}, "a", Checked}} {
		if got := r.CheckedFor(tt.matches, bills, tt.meter, &day); got != tt.want {
			t.Errorf("case %d: %v, want %v", i, got, tt.want)
		}
	}
	if got := r.CheckedFor(fine, bills, "a", nil); got != Checked {
		t.Errorf("rates without dates: %v", got)
	}
}

// Law: the changes of a bridge add up to the difference of its ends, and yearly
// parts to the yearly total, to the cent.
func TestBridgeAndYearlyPartsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sums := func(label string) Sums {
			var v [5]money.Num
			for i := range v {
				v[i] = money.Int(rapid.IntRange(-1e6, 1e6).Draw(t, label)).Div(money.Int(100))
			}
			return Sums{v[0], v[1], v[2], v[3], v[4]}
		}
		steps := []Step{{"a", sums("a")}, {"b", sums("b")}, {"c", sums("c")}}
		var total money.Num
		for _, s := range Bridge(steps) {
			total = total.Add(s.Change.Total())
		}
		if last, first := steps[2].Sums, steps[0].Sums; total.Cmp(last.Total().Sub(first.Total())) != 0 {
			t.Fatalf("bridge adds up to %v", total)
		}
		years := rapid.IntRange(1, 40).Draw(t, "years")
		yearly, whole := steps[0].Sums.PerYear(years), steps[0].Sums
		if yearly.Total().Cmp(whole.Total().Div(money.Int(years)).Cents()) != 0 {
			t.Fatalf("yearly parts add up to %v", yearly.Total())
		}
	})
}

// Hand: months of a record from January 10 to June 30, 2024; with a real read from
// March 20 to April 18, the days of March before it are a period of 19 days, and
// May 1, 13 days after the read, is no end: the rest of April joins May.
func TestPeriods(t *testing.T) {
	start, end := cal.Of(2024, 1, 10), cal.Of(2024, 7, 1)
	d := func(m, day int) cal.Date { return cal.Of(2024, m, day) }
	for _, tt := range []struct {
		months int
		real   []Between
		cuts   []cal.Date
	}{
		{1, nil, []cal.Date{start, d(2, 1), d(3, 1), d(4, 1), d(5, 1), d(6, 1), end}},
		{2, nil, []cal.Date{start, d(3, 1), d(5, 1), end}},
		{1, []Between{{d(3, 20), d(4, 18)}}, []cal.Date{start, d(2, 1), d(3, 1), d(3, 20), d(4, 18), d(6, 1), end}},
		{1, []Between{{d(6, 20), d(7, 20)}}, []cal.Date{start, d(2, 1), d(3, 1), d(4, 1), d(5, 1), d(6, 1), end}},
	} {
		var want []Between
		for i := 1; i < len(tt.cuts); i++ {
			want = append(want, Between{tt.cuts[i-1], tt.cuts[i]})
		}
		if got := Periods(start, end, tt.months, 1, tt.real); !slices.Equal(got, want) {
			t.Errorf("%d months, reads %v: %v, want %v", tt.months, tt.real, got, want)
		}
	}
}
