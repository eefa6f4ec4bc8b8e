package ratesfile_test

import (
	"strings"
	"testing"

	"loamledger/scenarios/ratesfile"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/cal"

	"pgregory.net/rapid"
)

// total checks a bill, worked by hand in the name of the case.
func total(t *testing.T, b bill.Bill, hand, want string) {
	t.Helper()
	if got := b.Total.Fixed(2); got != want {
		t.Errorf("%s = %s, not %s; lines %+v", hand, want, got, b.Lines)
	}
}

// Published: 14 HCF instead of 22 saves 7·3.99 + 3.84 = 31.77, not 8 average units.
func TestASavingIsTheDifferenceOfTwoBills(t *testing.T) {
	r := rates(t, "block")
	more, less := one(t, r, "", "2024-06-01", "2024-07-01", "22"), one(t, r, "", "2024-06-01", "2024-07-01", "14")
	if got := more.Total.Sub(less.Total).Fixed(2); got != "31.77" {
		t.Errorf("saving %s, by hand 31.77", got)
	}
}

// Use indoors lies under use outdoors: of 22 HCF, 10 indoors cost 8·2.61 + 2·3.84.
func TestIndoorUseFillsTheLowestTiers(t *testing.T) {
	r := rates(t, "block")
	indoor := money.Int(10)
	b := r.Bills(&r.Account, []bill.Read{{From: cal.Of(2024, 6, 1), To: cal.Of(2024, 7, 1), Volume: money.Int(22), Indoor: &indoor}})[0]
	if s := b.Sums(); s.Indoor.Fixed(2) != "28.56" || s.Outdoor.Fixed(2) != "47.13" || b.Total.Fixed(2) != "75.69" {
		t.Errorf("indoors %v, outdoors %v, total %v; by hand 28.56, 47.13, 75.69", s.Indoor, s.Outdoor, b.Total)
	}
}

// A read of 3.2 units is billed as 3, and the rest is carried: 3.2 + 2.9 = 6.1,
// billed 3 and 3; a third read of 0.9 makes the tenth carried whole, 1.
func TestWholeUnitsAreCarried(t *testing.T) {
	r := rates(t, "steep")
	var reads []bill.Read
	for i, v := range []string{"3.2", "2.9", "0.9"} {
		reads = append(reads, bill.Read{Meter: "house", From: cal.Of(2024, 1+i, 1), To: cal.Of(2024, 2+i, 1), Volume: num(t, v)})
	}
	bills := r.Bills(&r.Account, reads)
	for i, want := range [][2]string{{"3", "0.2"}, {"3", "0.1"}, {"1", "0"}} {
		if b := bills[i]; b.Billed.String() != want[0] || b.CarriedOut.String() != want[1] {
			t.Errorf("read %d: billed %v, carried %v; by hand %v", i+1, b.Billed, b.CarriedOut, want)
		}
	}
}

// A season that begins inside a period: 10 of 30 days in April at 7.17, 20 in May
// with tiers of two thirds. 15 kgal are 5 and 10: 5·7.17 = 35.85, and of the 10,
// 6·7.17 = 43.02 and 4·7.89 = 31.56; with 15.17 it is 125.60. By read date all
// of it is in the peak season: 9·7.17 + 6·7.89 + 15.17 = 127.04.
func TestAPriceThatChangesInsideAPeriod(t *testing.T) {
	r := rates(t, "seasonal")
	total(t, one(t, r, "", "2024-04-21", "2024-05-21", "15"), "15.17 + 35.85 + 43.02 + 31.56", "125.60")
	r.ByReadDate = true
	total(t, one(t, r, "", "2024-04-21", "2024-05-21", "15"), "15.17 + 64.53 + 47.34", "127.04")
}

// Prices by date need only first days: the service charge is 30, 33 and 36 in
// three years. Drainage of 8,000 ft² is 8·0.50 = 4. Conditions choose the tiers: 20 HCF
// for lot B in June cost 8·2 + 12·3 = 52, with 15% surcharge 7.80; in January
// 8·2 + 6·3 + 6·6 = 70.
func TestDatesClassesSeasonsAndPercent(t *testing.T) {
	r := rates(t, "lots")
	total(t, one(t, r, "", "2023-06-01", "2023-07-01", "20"), "30 + 4 + 52 + 7.80", "93.80")
	total(t, one(t, r, "", "2024-06-01", "2024-07-01", "20"), "33 + 4 + 52 + 7.80", "96.80")
	total(t, one(t, r, "", "2025-11-01", "2025-12-01", "20"), "36 + 4 + 70", "110.00")
	r.Account.Classes["lot"] = "A"
	total(t, one(t, r, "", "2024-06-01", "2024-07-01", "23"), "33 + 4 + (16 + 36 + 18)·1.15", "117.50")
}

// 33 days are 10% longer than 30 and not prorated; 36 days are 20% longer: tiers
// of 9.6 and 31.2. 36 days of lot B in June to July with 30 HCF: 9.6·2 + 20.4·3 =
// 80.40; surcharge 12.06; fixed 1.2·33 = 39.60 and 1.2·4 = 4.80.
func TestProration(t *testing.T) {
	r := rates(t, "lots")
	total(t, one(t, r, "", "2024-06-01", "2024-07-07", "30"), "39.60 + 4.80 + 80.40 + 12.06", "136.86")
	// 33 days: 8·2 + 18·3 + 4·6 = 94, surcharge 14.10, fixed 1.1·37 = 40.70.
	total(t, one(t, r, "", "2024-06-01", "2024-07-04", "30"), "40.70 + 94 + 14.10", "148.80")
	r.Tiers, r.Fixed = bill.Prorate{}, bill.Prorate{}
	total(t, one(t, r, "", "2024-06-01", "2024-07-07", "30"), "37 + 94 + 14.10", "145.10")
	r.Tiers = bill.Prorate{Always: true} // 33 days: 8.8·2 + 19.8·3 + 1.4·6 = 85.40; 12.81
	total(t, one(t, r, "", "2024-06-01", "2024-07-04", "30"), "37 + 85.40 + 12.81", "135.21")
}

// Budget tiers for June 2024, 748 gal to the unit: indoor 5400/748, outdoor 6 in · 0.8 on
// 2,000 ft², 6·0.8/12·2000 = 800 ft³ = 5984.4156 gal = 8.000556 units. Of 20 units the first
// 7.219251 cost 14.44, the next 8.000556 24.00, and the rest, 4.780193, at 5, 23.90, below
// the width of half of both, 7.609904.
func TestBudgetTiers(t *testing.T) {
	total(t, one(t, rates(t, "budget"), "", "2024-06-01", "2024-07-01", "20"), "14.44 + 24.00 + 23.90", "62.34")
}

// Both meters in one period of 60 days. The garden: 25 kgal declining, 10·5 +
// 10·4 + 5·3 = 105. The house has 20 kgal, of which the deduct meter read 3:
// water 90, sewer at most 16 of 17, 96; the threshold of 12.717 kgal counts both
// meters, 45 − 12.717 = 32.283 at 2, 64.57, once.
func TestDecliningCombinedAndDeduct(t *testing.T) {
	r := rates(t, "declining")
	r.Account.HasPlants = false
	from, to := cal.Of(2024, 7, 1), cal.Of(2024, 8, 30)
	read := func(meter string, v int) bill.Read {
		return bill.Read{Meter: meter, From: from, To: to, Volume: money.Int(v)}
	}
	bills := r.Bills(&r.Account, []bill.Read{read("cooler", 3), read("garden", 25), read("house", 20)})
	if len(bills) != 2 || bills[0].Meter != "house" {
		t.Fatalf("%d bills", len(bills))
	}
	total(t, bills[0], "90 + 64.57 + 96", "250.57")
	total(t, bills[1], "105", "105.00")
}

// New plants from May 1 for 45 days, at the price of tier 1: of 60 days from May
// 1 and 24 kgal, 18 kgal at 5, and 6 kgal in tiers of a quarter of 10 and 20: 2.5·5 +
// 2.5·4 + 1·3 = 25.50; 24 − 12.717 at 2 = 22.57, which plants do not change. A bill
// below 25 is topped up.
func TestEstablishmentAndLeastBill(t *testing.T) {
	r := rates(t, "declining")
	b := one(t, r, "garden", "2024-05-01", "2024-06-30", "24")
	total(t, b, "90 + 25.50 + 22.57", "138.07")
	b = one(t, r, "garden", "2024-08-01", "2024-09-30", "3")
	total(t, b, "15 + 10 up to the minimum", "25.00")
}

// Days without a price for water are counted, not filled.
func TestDaysWithoutAPrice(t *testing.T) {
	r := rates(t, "lots")
	r.Charges = r.Charges[:6] // water in June to October only
	b := one(t, r, "", "2024-10-22", "2024-11-11", "6")
	if len(b.Notes) != 1 || b.Notes[0].Code != bill.NoPrice || b.Notes[0].Days != 10 {
		t.Errorf("notes %+v, by hand 10 days without a price", b.Notes)
	}
}

// Laws, whatever the rates: lines and parts add up to the bill, more water never
// costs less (no rate here declines below 0), the order of reads does not matter.
func TestLawsOfBills(t *testing.T) {
	var all []*bill.Rates
	for _, name := range []string{"block", "steep", "seasonal", "sizes", "minimum", "budget", "lots", "declining"} {
		all = append(all, rates(t, name))
	}
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(all).Draw(t, "rates")
		meter := rapid.SampledFrom(r.Account.Meters).Draw(t, "meter")
		if meter.Use == bill.DeductUse {
			return
		}
		from := cal.Of(2024, 1, 1) + cal.Date(rapid.IntRange(0, 800).Draw(t, "from"))
		read := bill.Read{Meter: meter.Name, From: from, To: from + cal.Date(rapid.IntRange(1, 70).Draw(t, "days")),
			Volume: money.Int(rapid.IntRange(0, 9000).Draw(t, "volume")).Div(money.Int(100))}
		indoor := read.Volume.Mul(money.Int(rapid.IntRange(0, 100).Draw(t, "indoor"))).Div(money.Int(100))
		read.Indoor = &indoor
		b := r.Bills(&r.Account, []bill.Read{read})[0]
		var sum money.Num
		for _, l := range b.Lines {
			if l.Amount.Cents().Cmp(l.Amount) != 0 {
				t.Fatalf("line %+v is not in whole cents", l)
			}
			sum = sum.Add(l.Amount)
		}
		if s := b.Sums(); s.Total().Cmp(b.Total) != 0 || sum.Cmp(b.Total) != 0 {
			t.Fatalf("total %v, lines %v, parts %v", b.Total, sum, s.Total())
		}
		next := read
		next.Volume = next.Volume.Add(money.Int(1))
		if more := r.Bills(&r.Account, []bill.Read{next})[0]; more.Total.Cmp(b.Total) < 0 {
			t.Fatalf("%v for %v, but %v for one unit more", b.Total, read.Volume, more.Total)
		}
	})
}

// Every error has its place, what was found and what to write; all are reported
// at once.
func TestFaults(t *testing.T) {
	const text = `name: bad
charges:
  - {name: service, part: fixed, amount: $24.42}
  - name: water
    part: watr
    tiers: [{to: 8, price: "2,61"}, {from: 7, to: 7, price: 3.84/HCF}, {to: 20, price: 4}]
  - {name: sewer, part: sewer, price: 5, amount: 3}
  - {name: tax, part: surcharge, percent: 0.15, of: [water]}
  - {name: drought, part: surcharge, from: 2024-13-01, price: 1, cap: -2, combne: true}
`
	_, err := ratesfile.Read(strings.NewReader(text), "rates.yaml")
	if err == nil {
		t.Fatal("no error")
	}
	for _, want := range []string{
		"rates.yaml:1:1: currency is missing", "rates.yaml:1:1: unit is missing, and is never guessed",
		`rates.yaml:3:42: amount: "$24.42" has a currency symbol`, "such as 24.42; currency and unit are stated once",
		`rates.yaml:5:11: unknown part "watr"`, `price: "2,61" contains a comma`, `price: "3.84/HCF" has a unit`, "such as 3.84;",
		"begins at 7, but the tier below ends at 8: tiers overlap", "is the last one and has an upper bound",
		`charge "sewer" has amount and price`, "percent is not a percentage", `from "2024-13-01" is not a date`, "cap: -2 is out of range",
		`unknown key "combne"`, "did you mean combine?",
	} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("no %q in\n%v", want, err)
		}
	}
}

// Errors that show only once the rates are read.
func TestFaultsOfTheWhole(t *testing.T) {
	for _, tt := range []struct{ charges, want string }{
		{"- {name: water, part: water, tiers: [{to: 8, price: 1}, {to: 8, price: 2}, {price: 3}]}",
			"tier 2 ends at 8, but tier 1 ends at 8: tiers overlap"},
		{"- {name: water, part: water, price: 1}\n- {name: water, part: water, season: {from: 05-01, to: 09-30}, price: 2}",
			`charge "water" applies at the same time`},
		{"- {name: water, part: water, price: 1}\n- {name: base, part: fixed, amount: {1 in: 3}}", `charge "base" needs the size of the meter`},
		{"- {name: water, part: water, tiers: [{to: 100% budget, price: 1}, {price: 2}]}", `charge "water" needs a budget`},
		{"- {name: water, part: water, tiers: [{to: 100% budget, price: 1}, {to: 50% budget, price: 2}, {price: 3}]}", "tiers overlap"},
		{"- {name: water, part: water, tiers: [{to: 100% budget, price: 1}, {to: 100% indoor + 80% outdoor, price: 2}, {price: 3}]}",
			"r.yaml:4:67: charge \"water\": tier 2 ends at or below the end of tier 1 in every period"},
		{"- {name: water, part: water, price: 1e3}", "such as 2.61;"},
		{"- {name: water, part: water, price: 1, when: {lot: A}}", `charge "water" needs the class "lot" of the account`},
		{"- {name: water, part: water, price: 1}\n- {name: tax, part: surcharge, percent: 5%, of: [watter]}",
			`of names "watter", which is not a charge`},
		{"- {name: base, part: fixed, amount: 1}", "no charge has part: water"},
	} {
		_, err := ratesfile.Read(strings.NewReader("currency: USD\nunit: HCF\ncharges:\n"+tt.charges+"\n"), "r.yaml")
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v; want %q", tt.charges, err, tt.want)
		}
	}
}

// Volumes that a billing unit stands for, by definition.
func TestUnitsOfRates(t *testing.T) {
	for unit, liters := range map[string]string{"gal": "3.785411784", "kgal": "3785.411784", "HCF": "2831.6846592", "CCF": "2831.6846592",
		"ft3": "28.316846592", "AF": "1233481.83754752", "m3": "1000"} {
		r, err := ratesfile.Read(strings.NewReader("currency: USD\nunit: "+unit+"\ncharges: [{name: water, part: water, price: 1}]\n"), "r.yaml")
		if err != nil || r.UnitL.String() != liters {
			t.Errorf("%s: %v L, %v; by definition %s", unit, r, err, liters)
		}
	}
}

// Hand: a cap of 16 kgal is 16·1000·3.785411784/2831.6846592 = 21.388888... HCF; at 2 a unit
// and 30 HCF that is 42.78. A minimum that covers 748.0519... gal covers 1 HCF.
func TestVolumesWithTheirUnit(t *testing.T) {
	r, err := ratesfile.Read(strings.NewReader("currency: USD\nunit: HCF\ncharges:\n- {name: water, part: water, price: 1}\n"+
		"- {name: sewer, part: sewer, price: 2, cap: 16 kgal}\n- {name: least, part: fixed, minimum: 9, covers: 100 ft3, of: [water]}\n"),
		"r.yaml")
	if err != nil {
		t.Fatal(err)
	}
	b := r.Bills(&r.Account, []bill.Read{{From: cal.Of(2024, 1, 1), To: cal.Of(2024, 2, 1), Volume: money.Int(30)}})[0]
	if got := b.Total.Fixed(2); got != "80.78" { // 9 + 29 + 42.78
		t.Errorf("bill %s, want 80.78: %+v", got, b.Lines)
	}
}
