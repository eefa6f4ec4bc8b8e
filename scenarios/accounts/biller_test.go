package accounts

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/bill"
	"loamledger/sim/draw"
	"loamledger/sim/money"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// tiered are rates by hand, in m³: 8 at 2, 7 at 3, the rest at 5; fixed 10 a month.
func tiered() *bill.Rates {
	eight, fifteen := &bill.Bound{Terms: []bill.Term{{Of: bill.Units, Share: money.Int(8)}}}, &bill.Bound{Terms: []bill.Term{{Of: bill.Units,
		Share: money.Int(15)}}}
	return &bill.Rates{Currency: "USD", Unit: "m3", UnitL: money.Int(1000), NormalDays: 30, Months: 1,
		Charges: []bill.Charge{
			{Name: "service", Part: bill.Fixed, Amount: &bill.Table{All: money.Int(10)}},
			{Name: "water", Part: bill.Water, Tiers: []bill.Tier{{To: eight, Price: money.Int(2)}, {To: fifteen, Price: money.Int(3)},
				{Price: money.Int(5)}}},
		},
		Account: bill.Account{IndoorL: money.Int(100), Meters: []bill.Meter{{}}}}
}

// paidIn returns the bills of two years from 2001 with the given water by month [m³].
func paidIn(t *testing.T, rates *bill.Rates, cu *customer, water map[int]float64) (b *biller, out []float64) {
	t.Helper()
	b, err := newBiller(&Money{}, rates, sim.NewCalendar(cal.Of(2001, 1, 1), 730), make([]float64, 730))
	if err != nil {
		t.Fatal(err)
	}
	cu.account.Meters = []bill.Meter{b.meter}
	l := &b.layout[0]
	of := make([]float64, len(l.periods))
	for month, v := range water {
		of[month] = v
	}
	out = make([]float64, 2)
	b.byYear(l, b.curvesOf(l, &cu.account), cu, of, out)
	return b, out
}

// By hand. Indoors 100 L a day: 3.1 m³ in a month of 31 days, 3.0 in one of 30, 2.8 in February; a year has
// 36.5 m³, all in the first tier: 73, and fixed 12 × 10: 193. With 10 m³ outdoors in January: 13.1 m³ cost
// 8 × 2 + 5.1 × 3 = 31.3 in place of 6.2, so 25.1 more; with 20 in July: 23.1 cost 16 + 21 + 8.1 × 5 = 77.5, so 71.3 more.
func TestBillOfOutdoorWaterByHand(t *testing.T) {
	_, out := paidIn(t, tiered(), &customer{indoorL: 100}, map[int]float64{0: 10, 12 + 6: 20})
	if math.Abs(out[0]-218.1) > 0.011 || math.Abs(out[1]-264.3) > 0.011 {
		t.Errorf("bills of %v, by hand 218.1 and 264.3", out)
	}
	// The same water without use indoors: 10 m³ cost 16 + 6 = 22, 20 cost 16 + 21 + 25 = 62.
	_, out = paidIn(t, tiered(), &customer{}, map[int]float64{0: 10, 12 + 6: 20})
	if math.Abs(out[0]-142) > 0.011 || math.Abs(out[1]-182) > 0.011 {
		t.Errorf("bills of %v, by hand 142 and 182", out)
	}
}

// By hand: sewer at 4 a m³ by the mean of December to February, from April. Use indoors is 3.1, 3.1 and 2.8 m³ a month there,
// with 6 m³ outdoors in January 2001 and none in the winter after: until March 2001 the default 5 counts, 20 a
// month; from April 2001 the mean of January and February 2001 alone, (9.1 + 2.8) ÷ 2 = 5.95: 23.8 a month; from April
// 2002 that of December 2001 to February 2002, (3.1 + 3.1 + 2.8) ÷ 3 = 3: 12 a month. So sewer is 3 × 20 + 9 × 23.8 = 274.2 in
// 2001 and 3 × 23.8 + 9 × 12 = 179.4 in 2002. Water: 193 a year, and 9.1 m³ cost 16 + 3.3 in place of 6.2: 13.1 more.
func TestWinterAverageByHand(t *testing.T) {
	rates := tiered()
	five := money.Int(5)
	rates.Charges = append(rates.Charges, bill.Charge{Name: "sewer", Part: bill.Sewer, Tiers: []bill.Tier{{Price: money.Int(4)}},
		Basis: bill.Basis{Winter: &bill.Winter{Months: []int{12, 1, 2}, From: 401, Default: &five}}})
	b, out := paidIn(t, rates, &customer{indoorL: 100}, map[int]float64{0: 6})
	if b.state != bySplit {
		t.Fatalf("worked out by way %d", b.state)
	}
	if math.Abs(out[0]-(206.1+274.2)) > 0.02 || math.Abs(out[1]-(193+179.4)) > 0.02 {
		t.Errorf("bills of %v, by hand 480.3 and 372.4", out)
	}
}

// A rate that needs a number which an account lacks says so, with the column and the key that would give it.
func TestCustomerLacks(t *testing.T) {
	rates := tiered()
	rates.Budget = &bill.Budget{IndoorL: money.Int(200), Factor: money.Int(1), HasETo: true}
	rates.Charges[1].Tiers[0].To = &bill.Bound{Terms: []bill.Term{{Of: bill.Whole, Share: money.Int(1)}}}
	rates.Account.Persons, rates.Account.LandscapeM2 = money.Int(3), money.Int(100)
	b, err := newBiller(&Money{}, rates, sim.NewCalendar(cal.Of(2001, 1, 1), 730), make([]float64, 730))
	if err != nil {
		t.Fatal(err)
	}
	_, err = b.customer(&Account{ID: "1", Pos: diag.Pos{File: "a.csv", Line: 2, Col: 1}}, 50, &drawer{program: &Program{}})
	var text strings.Builder
	leaves, _ := diag.Leaves(err)
	for _, leaf := range leaves {
		var one *diag.Error
		if errors.As(leaf, &one) {
			fmt.Fprintln(&text, one.Pos, one.Msg, one.Remedy())
		}
	}
	for _, want := range []string{"the rates need the indoor use", "the rates need the persons", "the rates need the landscape",
		"fill the column persons, or add persons:", "a.csv:2:1"} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("%q is not in\n%s", want, text.String())
		}
	}
	// Drawn values are the same for every measure and listed; stated ones are not.
	b.values = []Customer{{Column: ColumnIndoor, Range: mustRange(t, 200, 400)}, {Column: columnPersons, Range: mustRange(t, 1, 5)},
		{Column: ColumnLandscape, Irrigated: true}}
	d := &drawer{program: &Program{Seed: 3}, account: "1"}
	a := &Account{ID: "1", Customer: []Customer{{Column: columnPersons, Range: mustRange(t, 2, 2)}}}
	cu, err := b.customer(a, 50, d)
	if err != nil || cu.account.Persons.Float64() != 2 || cu.account.LandscapeM2.Float64() != 50 || cu.indoorL < 200e3 || cu.indoorL > 400e3 {
		t.Errorf("%+v, %v", cu, err)
	}
	if codes(d.drawn) != "indoor_use;landscape" || cu.missing != 2 || cu.values != 3 {
		t.Errorf("drawn %q, %d of %d missing", d.drawn, cu.missing, cu.values)
	}
}

func mustRange(t *testing.T, low, high float64) draw.Range {
	t.Helper()
	r, ok := RangeOf([]float64{low, high})
	if low == high {
		r, ok = RangeOf([]float64{low})
	}
	if !ok {
		t.Fatalf("%g to %g is no range", low, high)
	}
	return r
}
