package ratesfile_test

import (
	"strings"
	"testing"

	"loamledger/scenarios/ratesfile"
	"loamledger/sim/bill"
	"loamledger/weather/cal"
)

// parsed reads rates from a text.
func parsed(t testing.TB, text string) *bill.Rates {
	t.Helper()
	r, err := ratesfile.Read(strings.NewReader(text), "rates.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Structures of bills in prices of our own. Each read is "meter from to volume want";
// the arithmetic of every total is in the comment above it.
func TestStructuresByHand(t *testing.T) {
	for _, tt := range []struct {
		name, rates string
		reads       []string
	}{
		// Winter reads of 12 and 10 average 11, capped at 9: 40*3.20 + 9*6.15 = 128 + 55.35. Seven
		// are fewer than both: 7*3.20 + 7*6.15 = 22.40 + 43.05.
		{"bimonthly sewer, the lesser of use and winter average, capped", `
unit: kgal
period: {days: 60, months: 2}
charges:
  - {name: water, part: water, price: 3.20}
  - {name: sewer, part: sewer, volume: lesser, winter: {months: [dec, jan, feb], from: 05-01}, cap: 9, price: 6.15}
`, []string{"- 2022-11-15 2023-01-14 12 -", "- 2023-01-14 2023-03-15 10 -", "- 2023-03-15 2023-05-14 14 -",
			"- 2023-05-14 2023-07-13 40 183.35", "- 2023-07-13 2023-09-11 7 65.45"}},
		// Indoors 4*55*30 gal = 6,600 gal = 882.2917 ft3; outdoors 0.7*(6.0*11/30 + 7.2*19/31) in on 1,200 ft2
		// = 462.9032 ft3: 13.451949 CCF, and 130% of it 17.487534. 13.451949*2 = 26.90, 4.035585*3.50 = 14.12,
		// 2.512466*9 = 22.61.
		{"budget of persons, days and ETo", `
unit: CCF
account: {persons: 4, landscape: 1200 ft2}
budget: {indoor: 55 gal, factor: 0.7, eto: [1 in, 2 in, 3 in, 4 in, 5 in, 6.0 in, 7.2 in, 6 in, 5 in, 3 in, 2 in, 1 in]}
charges:
  - {name: water, part: water, tiers: [{to: 100% budget, price: 2}, {to: 130% budget, price: 3.50}, {price: 9}]}
`, []string{"- 2023-06-20 2023-07-20 20 63.63"}},
		// 10 of 30 days before July 1: 30*10/30 = 10 units, of which a third of 12 = 4 at 2 and 6 at 4: 32.
		// Then 20 units in tiers of 2/3: 4 at 2.50, 8 at 4.50, 8 at 7: 10 + 36 + 56 = 102. Extra 1.25 a unit
		// above two thirds of 15, 20 - 10 = 10: 12.50.
		{"price, number of tiers and drought price change inside a period", `
unit: HCF
charges:
  - {name: water, part: water, from: 2022-01-01, tiers: [{to: 12, price: 2}, {price: 4}]}
  - {name: water, part: water, from: 2023-07-01, tiers: [{to: 6, price: 2.50}, {to: 18, price: 4.50}, {price: 7}]}
  - {name: drought, part: surcharge, from: 2023-07-01, tiers: [{to: 15, price: 0}, {price: 1.25}]}
`, []string{"- 2023-06-21 2023-07-21 30 146.50"}},
		// 11 + 3*2 = 17 is topped up to 20; city tax 5% of 20 = 1.00, and sewer 3*4 = 12 is outside both. 9*3 = 27 + 11 =
		// 38, tax 1.90, sewer 36.
		{"minimum of some parts, then a tax on them", `
unit: kgal
charges:
  - {name: service, part: fixed, amount: 11}
  - {name: water, part: water, tiers: [{to: 5, price: 2}, {price: 4.25}]}
  - {name: sewer, part: sewer, price: 4}
  - {name: least for water, part: fixed, minimum: 20, of: [service, water]}
  - {name: city tax, part: surcharge, percent: 5%, of: [fixed, water]}
`, []string{"- 2023-01-01 2023-01-31 3 33.00", "- 2023-01-31 2023-03-02 9 75.90"}},
		// 15 + 10*3.33 = 48.30; utility tax 6% = 2.898, printed 2.90; franchise fee 2% of 51.20 = 1.024, 1.02.
		{"a tax on a tax", `
unit: HCF
charges:
  - {name: service, part: fixed, amount: 15}
  - {name: use, part: water, price: 3.33}
  - {name: utility tax, part: surcharge, percent: 6%, of: [fixed, use]}
  - {name: franchise fee, part: surcharge, percent: 2%, of: [fixed, use, utility tax]}
`, []string{"- 2023-01-01 2023-01-31 10 52.22"}},
		// Monthly tiers on a read of 61 days: 8*61/30 = 16.266667 at 2 = 32.53, and 13.733333 at 3 = 41.20; a month's
		// charge of 12 twice and a bit, 24.40.
		{"monthly tiers on bimonthly reads", `
unit: HCF
period: {days: 30, months: 2}
prorate: {tiers: always, fixed: always}
charges:
  - {name: service, part: fixed, amount: 12}
  - {name: water, part: water, tiers: [{to: 8, price: 2}, {price: 3}]}
`, []string{"- 2023-03-01 2023-05-01 30 98.13"}},
		// 3.2 kgal are billed as 3 and 0.2 carried; 3.9 and 0.2 as 4: 3*4.10, 4*4.10; 0.9 and 0.1 as 1.
		{"whole units with the rest carried", `
unit: kgal
whole_units: true
charges: [{name: water, part: water, price: 4.10}]
`, []string{"- 2023-01-01 2023-02-01 3.2 12.30", "- 2023-02-01 2023-03-01 3.9 16.40", "- 2023-03-01 2023-04-01 0.9 4.10"}},
		// 31 days at 0.41 = 12.71; 7,350 ft2 are 7.35*0.62 = 4.557, 4.56; 21*2 = 42; a credit of 5 and 10% off water, 4.20.
		{"by day and area, with a credit and a discount", `
unit: m3
account: {lot: 7350 ft2}
charges:
  - {name: service, part: fixed, amount: 0.41, per: day}
  - {name: drainage, part: fixed, amount: 0.62, per: 1000 ft2}
  - {name: water, part: water, price: 2}
  - {name: direct debit, part: fixed, amount: -5.00}
  - {name: seniors, part: surcharge, percent: -10%, of: [water]}
`, []string{"- 2023-01-01 2023-02-01 21 50.07"}},
		// A charge on both meters that only mixed meters have counts the house alone, 30 - 20 = 10 at 1, also if the garden
		// is read first; one for all counts 30 + 14 - 20 = 24 once, with the garden: 14*2 + 24*0.5 and 30*2 + 10.
		{"thresholds for some meters and for all", `
unit: kgal
account: {meters: [{name: garden, use: irrigation}, {name: house}]}
charges:
  - {name: water, part: water, price: 2}
  - {name: homes, part: surcharge, when: {use: mixed}, combine: true, tiers: [{to: 20, price: 0}, {price: 1}]}
  - {name: all, part: surcharge, combine: true, tiers: [{to: 20, price: 0}, {price: 0.50}]}
`, []string{"garden 2023-06-01 2023-07-01 14 40.00", "house 2023-06-01 2023-07-01 30 70.00"}},
		// The minimum covers 2 units until July 1 and then 3: on 10 and 20 of 30 days 2*10/30 and 3*20/30 = 2.666667
		// of 8: 5.333333*4 = 21.33; 10*10/30 + 13*20/30: 3.33 + 8.67 = 12.00.
		{"a minimum whose volume changes inside a period", `
unit: kgal
charges:
  - {name: least, part: fixed, from: 2022-01-01, minimum: 10, covers: 2, of: water}
  - {name: least, part: fixed, from: 2023-07-01, minimum: 13, covers: 3, of: water}
  - {name: water, part: water, price: 4}
`, []string{"- 2023-06-21 2023-07-21 8 33.33"}},
		// 748 gal are a unit on this bill: the bound of 8 HCF is 8 units, not 8*748.05/748. 8*2 + 4*3.
		{"a bound in the supplier's own unit", `
unit: HCF
gallons: 748
charges: [{name: water, part: water, tiers: [{to: 8 CCF, price: 2}, {price: 3}]}]
`, []string{"- 2023-06-01 2023-07-01 12 28.00"}},
		// Prices per 1,000 gal with reads in gallons: 3,000*0.00235 = 7.05 and 4,210*0.0041 = 17.261, 17.26.
		{"prices of less than a cent", `
unit: gal
charges: [{name: water, part: water, tiers: [{from: 0, to: 3000, price: 0.00235}, {from: 3001, price: 0.0041}]}]
`, []string{"- 2023-06-01 2023-07-01 7210 24.31"}},
		// The irrigation class begins at the third price, 0.75*310 = 232.50 by the acre-foot, and pays no sewer; a home of a
		// 1-in meter pays 41 and 120*0.2 + 190*0.2 = 62.00.
		{"classes of meters, by the acre-foot", `
unit: AF
account: {meters: [{name: park, use: irrigation, size: 2 in}, {name: hall, size: 1 in}]}
charges:
  - {name: service, part: fixed, amount: {1 in: 41, 2 in: 96.40}}
  - {name: water, part: water, when: {use: mixed}, tiers: [{to: 0.25, price: 120}, {price: 240}]}
  - {name: water, part: water, when: {use: irrigation}, price: 310}
  - {name: sewer, part: sewer, when: {use: mixed}, price: 190}
`, []string{"park 2023-06-01 2023-07-01 0.75 328.90", "hall 2023-06-01 2023-07-01 0.2 103.00"}},
		// A yearly allowance of 4,000 ft2 * 20 gal/ft2 = 80,000 gal, of which July has 15% = 12,000 gal; tier 1 ends
		// there, tier 2 at 150%: 12*3 + 6*5 + 2*11.
		{"a yearly allowance by month", `
unit: kgal
account: {lot: 4000 ft2}
budget: {annual: [{depth: 20 gal/ft2}], months: [1%, 2%, 5%, 9%, 13%, 15%, 15%, 14%, 11%, 8%, 5%, 2%]}
charges:
  - {name: water, part: water, tiers: [{to: 100% allowance, price: 3}, {to: 150% allowance, price: 5}, {price: 11}]}
`, []string{"- 2023-07-01 2023-08-01 20 88.00"}},
		// Prices by the day of the read: all 20 units at the price of July 1.
		{"price by read date", `
unit: HCF
change: by read date
charges:
  - {name: water, part: water, from: 2022-07-01, price: 2}
  - {name: water, part: water, from: 2023-07-01, price: 2.25}
`, []string{"- 2023-06-02 2023-07-01 20 45.00", "- 2023-05-02 2023-06-02 20 40.00"}},
	} {
		r := parsed(t, "currency: USD"+tt.rates)
		var reads []bill.Read
		var want []string
		for _, text := range tt.reads {
			f := strings.Fields(text)
			m, _ := r.Account.Meter(strings.TrimPrefix(f[0], "-"))
			reads = append(reads, bill.Read{Meter: m.Name, From: date(t, f[1]), To: date(t, f[2]), Volume: num(t, f[3])})
			want = append(want, f[4])
		}
		for i, b := range r.Bills(&r.Account, reads) {
			for k := range reads { // bills are in the order of read dates and of the account's meters
				if reads[k].Meter == b.Meter && reads[k].To == b.To && want[k] != "-" && b.Total.Fixed(2) != want[k] {
					t.Errorf("%s, bill %d: %s, by hand %s; lines %+v", tt.name, i+1, b.Total.Fixed(2), want[k], b.Lines)
				}
			}
		}
	}
}

// A deduct meter that is read on another day cannot be counted, and the bill says so.
func TestMetersReadApart(t *testing.T) {
	r := rates(t, "declining")
	r.Account.HasPlants = false
	bills := r.Bills(&r.Account, []bill.Read{
		{Meter: "cooler", From: cal.Of(2024, 7, 2), To: cal.Of(2024, 8, 31), Volume: num(t, "3")},
		{Meter: "house", From: cal.Of(2024, 7, 1), To: cal.Of(2024, 8, 30), Volume: num(t, "10")},
	})
	if len(bills) != 1 || len(bills[0].Notes) != 1 || bills[0].Notes[0].Code != bill.ReadApart || bills[0].Notes[0].Meter != "cooler" {
		t.Errorf("notes %+v", bills[0].Notes)
	}
}

// The newest prices are those after the last change, so a drought stage that has
// ended is not charged; it is named as not in force.
func TestNewestPrices(t *testing.T) {
	r := parsed(t, `currency: USD
unit: HCF
charges:
  - {name: water, part: water, from: 2021-01-01, price: 2}
  - {name: drought, part: surcharge, from: 2022-07-01, to: 2022-10-31, percent: 10%, of: [water]}
`)
	day, ok := r.Newest(&r.Account)
	if !ok || day != cal.Of(2022, 11, 1) {
		t.Fatalf("newest prices of %v, by hand the day after the drought", day)
	}
	if idle := r.Idle(day); len(idle) != 1 || idle[0] != "drought" {
		t.Errorf("not in force: %q", idle)
	}
	// Prices that end without others are the last that there were.
	r = parsed(t, `currency: USD
unit: HCF
charges: [{name: water, part: water, from: 2021-01-01, to: 2022-12-31, price: 2}]
`)
	if day, ok := r.Newest(&r.Account); !ok || day != cal.Of(2021, 1, 1) {
		t.Errorf("newest prices of %v", day)
	}
}

// What a percentage is of must come before it and mean one thing.
func TestFaultsOfShares(t *testing.T) {
	for _, tt := range []struct{ charges, want string }{
		{"- {name: a, part: surcharge, percent: 5%, of: [b]}\n- {name: b, part: surcharge, percent: 5%, of: [water]}",
			`charge "a" counts "b", which comes later`},
		{"- {name: water, part: water, price: 2}\n- {name: t, part: surcharge, percent: 5%, of: [water]}",
			`"water" in of is a charge, and also the part with "use"`},
		{"- {name: least, part: fixed, minimum: 5, covers: 2}", "covers needs of, with one charge"},
		{"- {name: tax, part: surcharge, percent: 0.15, of: [water]}", "write 15% if that is the share, or 0.15%"},
		{"- {name: tax, part: surcharge, percent: 6.5, of: [water]}", "write 6.5%"},
		{"- {name: tax, part: surcharge, percent: -101%, of: [water]}", "percent -101% is out of range"},
		{"- {name: least, part: fixed, minimum: -5}", "minimum: -5 is out of range"},
	} {
		_, err := ratesfile.Read(strings.NewReader("currency: USD\nunit: HCF\ncharges:\n- {name: use, part: water, price: 1}\n"+tt.charges+"\n"),
			"r.yaml")
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v; want %q", tt.charges, err, tt.want)
		}
	}
}
