package ratesfile_test

import (
	"strings"
	"testing"

	"loamledger/scenarios/ratesfile"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/cal"
)

const ranged = `name: ranged
currency: USD
unit: HCF
charges:
  - {name: service, part: fixed, amount: 10 to 14}
  - {name: water, part: water, tiers: [{to: 8, price: 2 to 3 to 5}, {price: 6}]}
  - {name: tax, part: surcharge, percent: 5 to 15%, of: [water]}
account: {meters: [{name: house}]}
`

// TestPricesAsRanges: a bill has the middle of two numbers and the middle one of three; with
// values chosen it has those. By hand, of 10 HCF: 12 + 8·3 + 2·6 + 10% of 36 = 51.60, and
// at 14, 2 and 15%: 14 + 8·2 + 2·6 + 15% of 28 = 46.20.
func TestPricesAsRanges(t *testing.T) {
	r, err := ratesfile.Read(strings.NewReader(ranged), "rates.yaml")
	if err != nil {
		t.Fatal(err)
	}
	total(t, one(t, r, "house", "2024-06-01", "2024-07-01", "10"), "12 + 24 + 12 + 3.60", "51.60")
	open := r.Open()
	if len(open) != 3 || open[1].Of != bill.OfPrice || open[1].Tier != 1 || open[1].Flat || !open[0].Flat || open[2].Low.Fixed(2) != "0.05" {
		t.Fatalf("%+v", open)
	}
	other := r.With(open, []money.Num{num(t, "14"), num(t, "2"), num(t, "0.15")})
	total(t, one(t, other, "house", "2024-06-01", "2024-07-01", "10"), "14 + 16 + 12 + 4.20", "46.20")
	total(t, one(t, r, "house", "2024-06-01", "2024-07-01", "10"), "as before", "51.60")
}

// TestRangesNotInForce: a price that has ended is not in doubt on a later day.
func TestRangesNotInForce(t *testing.T) {
	text := strings.Replace(ranged, "part: surcharge,", "part: surcharge, to: 2023-12-31,", 1)
	r, err := ratesfile.Read(strings.NewReader(text), "rates.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if now := r.AsOf(cal.Of(2024, 6, 1)).Open(); len(now) != 2 {
		t.Errorf("%+v", now)
	}
}

// TestRatesThatCannotBeRanges: what a tariff states as one number is refused as a range, at
// its place.
func TestRatesThatCannotBeRanges(t *testing.T) {
	for _, c := range []struct{ from, into, want string }{
		{"{to: 8,", "{to: 8 to 9,", "cannot be a range"},
		{"amount: 10 to 14", "amount: {3/4 in: 10 to 14}", "cannot be a range"},
		{"amount: 10 to 14", "minimum: 10 to 14", "cannot be a range"},
		{"{price: 6}]}", "{price: 6}], cap: 5 to 6}", "cannot be a range"},
		{"amount: 10 to 14", "amount: 14 to 10", "is not a range"},
		{"2 to 3 to 5", "2 to 3 to 4 to 5", "4 numbers"},
		{"2 to 3 to 5", "$2 to $5", "currency symbol"},
		{"5 to 15%", "5 to 15", "percentage"},
	} {
		_, err := ratesfile.Read(strings.NewReader(strings.Replace(ranged, c.from, c.into, 1)), "rates.yaml")
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "rates.yaml:") {
			t.Errorf("%s: %v", c.into, err)
		}
	}
}
