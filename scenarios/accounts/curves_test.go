package accounts

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/cal"
)

// drawRates draws rates with tiers that rise, in any unit, perhaps with sewer by a winter average and with a percentage.
func drawRates(t *rapid.T) *bill.Rates {
	r := tiered()
	liters := rapid.SampledFrom([]int{100, 1000, 2832}).Draw(t, "unit [L]")
	units := func(m3 float64) money.Num { return money.Float(m3*1000/float64(liters), 3) }
	price := func(perM3 float64) money.Num { return money.Float(perM3*float64(liters)/1000, 5) }
	r.UnitL, r.WholeUnits = money.Int(liters), rapid.Bool().Draw(t, "whole units")
	r.Months = rapid.SampledFrom([]int{1, 2, 3}).Draw(t, "months")
	r.Tiers = rapid.SampledFrom([]bill.Prorate{{}, {Always: true}, {Beyond: money.Float(0.1, 2)}}).Draw(t, "tiers by the days")
	to, costs := 0.0, rapid.Float64Range(0, 4).Draw(t, "first price")
	r.Charges[1].Tiers = nil
	for range rapid.IntRange(0, 3).Draw(t, "tiers") {
		to += rapid.Float64Range(1, 30).Draw(t, "width")
		end := &bill.Bound{Terms: []bill.Term{{Of: bill.Units, Share: units(to)}}}
		r.Charges[1].Tiers = append(r.Charges[1].Tiers, bill.Tier{To: end, Price: price(costs)})
		costs = rapid.Float64Range(0, 12).Draw(t, "next price")
	}
	r.Charges[1].Tiers = append(r.Charges[1].Tiers, bill.Tier{Price: price(costs)})
	if rapid.Bool().Draw(t, "winter average") {
		w := &bill.Winter{Months: []int{12, 1, 2}, From: rapid.SampledFrom([]bill.Day{401, 101, 1215}).Draw(t, "from")}
		sewer := bill.Charge{Name: "sewer", Part: bill.Sewer, Tiers: []bill.Tier{{Price: price(4)}},
			Basis: bill.Basis{Winter: w, Lesser: rapid.Bool().Draw(t, "the lesser")}}
		five, nine := units(5), units(9)
		if rapid.Bool().Draw(t, "default") {
			w.Default = &five
		}
		if rapid.Bool().Draw(t, "cap") {
			sewer.Basis.Cap = &nine
		}
		r.Charges = append(r.Charges, sewer)
	}
	if rapid.Bool().Draw(t, "percentage") {
		r.Charges = append(r.Charges, bill.Charge{Name: "tax", Part: bill.Surcharge,
			Percent: &bill.Percent{Share: money.Float(0.07, 2), Of: []string{"water", "sewer"}}})
	}
	return r
}

// What an account pays in a year off curves is what its bills worked out in full add up to, to a few cents a bill: the
// whole units of each bill, what is carried, the winter average and the years that bills count for are the same.
func TestCurvesAreTheBills(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rates, days := drawRates(t), rapid.IntRange(40, 1200).Draw(t, "days")
		start := cal.Of(2001, 1, 1) + cal.Date(rapid.IntRange(0, 364).Draw(t, "start"))
		b, err := newBiller(&Money{}, rates, sim.NewCalendar(start, days), make([]float64, days))
		if err != nil {
			t.Fatal(err)
		}
		l := &b.layout[rapid.IntRange(0, 1).Draw(t, "south")]
		cu := &customer{indoorL: rapid.SampledFrom([]float64{0, 150, 333.3, 600}).Draw(t, "indoors")}
		cu.account.Meters = []bill.Meter{b.meter}
		water := make([]float64, len(l.periods))
		for i := range water {
			water[i] = rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 80), rapid.Float64Range(0, 900)).Draw(t, "water")
		}
		n := l.year[len(l.year)-1] - l.year[0] + 1
		got, want, bills := make([]float64, n), make([]float64, n), make([]int, n)
		b.byYear(l, b.curvesOf(l, &cu.account), cu, water, got)
		b.inFull(l, cu, water, want)
		for _, y := range l.year {
			bills[y-l.year[0]]++
		}
		for i := range got {
			if off := math.Abs(got[i] - want[i]); off > 0.05*float64(bills[i]) {
				t.Fatalf("way %d, year %d of %d bills: %v, in full %v", b.state, i, bills[i], got[i], want[i])
			}
		}
	})
}

// Rates without dates whose only charge for water is for others are an error, not a crash.
func TestNoWaterPriceWithoutDates(t *testing.T) {
	rates := tiered()
	rates.Charges = rates.Charges[:1]
	if _, err := newBiller(&Money{}, rates, sim.NewCalendar(cal.Of(2001, 1, 1), 730), make([]float64, 730)); err == nil {
		t.Error("no error")
	}
}
