package ratesfile_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"

	"loamledger/scenarios/ratesfile"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/cal"
)

// rates reads a file of testdata.
func rates(t testing.TB, name string) *bill.Rates {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r, err := ratesfile.Read(f, name+".yaml")
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func date(t testing.TB, text string) cal.Date {
	t.Helper()
	d, err := cal.Parse(text)
	if err != nil {
		t.Fatal(text, err)
	}
	return d
}

func num(t testing.TB, text string) money.Num {
	t.Helper()
	n, err := money.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// one works out the bill of one read.
func one(t testing.TB, r *bill.Rates, meter, from, to, volume string) bill.Bill {
	t.Helper()
	bills := r.Bills(&r.Account, []bill.Read{{Meter: meter, From: date(t, from), To: date(t, to), Volume: num(t, volume)}})
	if len(bills) != 1 {
		t.Fatalf("%d bills of one read", len(bills))
	}
	return bills[0]
}

// Published prices; every charge is worked beside them, to the cent.
func TestPublishedCharges(t *testing.T) {
	f, err := os.Open(filepath.Join("testdata", "charges.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	in := csv.NewReader(f)
	in.Comment = '#'
	rows, err := in.ReadAll()
	if err != nil || len(rows) != 15 {
		t.Fatalf("%d rows, %v; want a header and 14", len(rows), err)
	}
	for _, row := range rows[1:] {
		b := one(t, rates(t, row[0]), row[1], row[2], row[3], row[4])
		if got := b.Total.Fixed(2); got != row[5] {
			t.Errorf("%s, meter %q, %s: %s; by hand %s = %s; lines %+v", row[0], row[1], row[4], got, row[6], row[5], b.Lines)
		}
		sums := b.Sums()
		if sums.Total().Cmp(b.Total) != 0 {
			t.Errorf("%s: the parts add up to %v, not %v", row[0], sums.Total(), b.Total)
		}
	}
}

// Published: 60 gal · 3 persons · 30 days / 748 = 7.2 units, with 55 gal 6.6; a
// lot of 12,500 ft² has 5,000·19 + 7,500·17 = 222,500 gal a year.
func TestPublishedBudgets(t *testing.T) {
	r := rates(t, "budget")
	var june []cal.Date
	for d := cal.Of(2024, 6, 1); d < cal.Of(2024, 7, 1); d++ {
		june = append(june, d)
	}
	if got := r.Allowed(&r.Account, bill.Indoor, june).Fixed(1); got != "7.2" {
		t.Errorf("indoor budget %s units, printed 7.2", got)
	}
	r.Budget.IndoorL = r.Budget.IndoorL.Mul(money.Int(55)).Div(money.Int(60))
	if got := r.Allowed(&r.Account, bill.Indoor, june).Fixed(1); got != "6.6" {
		t.Errorf("indoor budget %s units, printed 6.6", got)
	}
	gallons := r.YearlyAllowanceL(&r.Account).Div(num(t, "3.785411784"))
	if got := gallons.Round(6).String(); got != "222500" {
		t.Errorf("allowance %s gal, printed 222,500", got)
	}
}

// Published: winter reads of 7, 5 and 6 kgal average 6, and 6 · 12.79 = 76.74;
// 6,900 gal of water cost 12.40 for the first two and 4.9 · 3.95 = 19.355, printed
// as 19.36: together 31.76.
func TestPublishedMinimumAndWinterAverage(t *testing.T) {
	r := rates(t, "minimum")
	var reads []bill.Read
	for i, v := range []string{"7", "5", "6", "6.9"} {
		reads = append(reads, bill.Read{From: cal.Of(2023, 12+i, 1), To: cal.Of(2023, 13+i, 1), Volume: num(t, v)})
	}
	reads = append(reads, bill.Read{From: cal.Of(2024, 4, 1), To: cal.Of(2024, 5, 1), Volume: num(t, "6.9")})
	bills := r.Bills(&r.Account, reads)
	last := bills[4].Sums()
	if got := last.Sewer.Fixed(2); got != "76.74" {
		t.Errorf("sewer %s, printed 76.74; %+v", got, bills[4].Lines)
	}
	if got := last.Fixed.Add(last.Outdoor).Fixed(2); got != "31.76" {
		t.Errorf("water and minimum %s, printed 31.76", got)
	}
	// Hand: before the first winter the default counts, 6 · 12.79.
	if first := bills[0].Sums(); first.Sewer.Fixed(2) != "76.74" || bills[0].Notes[0].Code != bill.WinterDefault {
		t.Errorf("first bill %v, notes %+v", first.Sewer, bills[0].Notes)
	}
}
