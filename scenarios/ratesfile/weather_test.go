package ratesfile_test

import (
	"strings"
	"testing"

	"loamledger/scenarios/ratesfile"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/cal"
)

const followingRates = `currency: USD
unit: m3
budget: {eto: weather, factor: 50%}
account: {landscape: 200 m2}
charges:
- {name: water, part: water, tiers: [{to: 100% outdoor, price: 1}, {price: 3}]}
`

// Hand: ETo is 4 mm a day in January 2023 and 6 in January 2024, so 31 days allow
// 31·4·0.5·200/1000 = 12.4 m3 and 18.6 m3; of 20 m3, 12.4 + 3·7.6 = 35.20 and
// 18.6 + 3·1.4 = 22.80. In January 2025, which the weather lacks, the mean, 5 mm, allows
// 15.5: 15.5 + 3·4.5 = 29.00, with a note of 31 days.
func TestABudgetFollowsTheWeather(t *testing.T) {
	r, err := ratesfile.Read(strings.NewReader(followingRates), "r.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if !r.NeedsETo() {
		t.Fatal("the budget follows no weather")
	}
	start := cal.Of(2023, 1, 1)
	mm := make([]float64, cal.Of(2025, 1, 1)-start)
	for i := range mm {
		y, _, _ := (start + cal.Date(i)).YMD()
		mm[i] = float64(4 + 2*(y-2023))
	}
	r.WithETo(start, mm)
	var reads []bill.Read
	for y := 2023; y <= 2025; y++ {
		reads = append(reads, bill.Read{From: cal.Of(y, 1, 1), To: cal.Of(y, 2, 1), Volume: money.Int(20)})
	}
	bills := r.Bills(&r.Account, reads)
	for i, want := range []string{"35.20", "22.80", "29.00"} {
		if got := bills[i].Total.Fixed(2); got != want {
			t.Errorf("bill %d is %s, want %s: %+v", i, got, want, bills[i].Lines)
		}
	}
	for i, days := range []int{0, 0, 31} {
		noted := 0
		for _, n := range bills[i].Notes {
			if n.Code == bill.MeanETo {
				noted = n.Days
			}
		}
		if noted != days {
			t.Errorf("bill %d: %d days noted, want %d", i, noted, days)
		}
	}
}
