package accountsfile

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"loamledger/sim/ledgerfile"
	"loamledger/sim/portfolio"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// bills reads a table of bills.
func bills(text string) (list []portfolio.MeteredRead, outdoor bool, err error) {
	err = ReadBills(CSV(strings.NewReader(text), "b.csv"), "b.csv", func(o bool) { outdoor = o },
		func(r portfolio.MeteredRead) { list = append(list, r) })
	return list, outdoor, err
}

// IDs stay text, volumes come in the unit of the heading, estimates are flagged, a correction may be below 0.
func TestBillsAreReadAsWritten(t *testing.T) {
	list, outdoor, err := bills("Account,From,To,volume (HCF),read_type,notes\n007,2019-01-02,2019-03-04,10,,\n" +
		"007,2019-03-04,2019-05-01,12.5,estimated,ours\n0012,2019-01-02,2019-03-04,3,actual,\n007,2019-05-01,2019-07-01,-2,corrected,\n")
	if err != nil || outdoor || len(list) != 4 {
		t.Fatalf("%v, %v, %v", list, outdoor, err)
	}
	// 10 HCF are 28.3168 m³ (1 ft³ is 0.0283168 m³).
	if r := list[0]; r.Account != "007" || math.Abs(r.M3-28.3168) > 1e-3 || r.From != cal.Of(2019, 1, 2) || r.To != cal.Of(2019, 3, 4) ||
		r.Estimated {
		t.Errorf("%+v", r)
	}
	if !list[1].Estimated || list[2].Account != "0012" || list[3].M3 >= 0 {
		t.Errorf("%+v", list)
	}
	if _, outdoor, err := bills("account;from;to;outdoor_volume [m3]\n1;2019-01-01;2019-02-01;5\n"); err != nil || !outdoor {
		t.Errorf("%v, %v", outdoor, err)
	}
}

// Every error has its place and a fix, and all are reported.
func TestBadBills(t *testing.T) {
	const head = "account,from,to,volume (m3),read_type\n"
	for _, c := range []struct{ text, want string }{
		{"", "b.csv: the table is empty"},
		{"date,rain\n", "b.csv:1:1: this is not a table of bills: no column is known"},
		{"account,from,to,volume\n", "b.csv:1:17: volume has no unit, and units are never guessed\n\tfix: write it in the heading, as in " +
			"volume (HCF)"},
		{"account,from,to,volume (bananas)\n", "b.csv:1:17: \"bananas\" is not a unit of volume"},
		{"account,from,until,volume (m3)\n", "b.csv:1:14: unknown column \"until\""},
		{"account,from,to\n", "b.csv:1:1: missing column volume"},
		{"account,from,to,volume (m3),outdoor_volume (m3)\n", "b.csv:1:1: the table has both volume and outdoor_volume"},
		{"account,from,to,volume (m3),volume (HCF)\n", "b.csv:1:29: duplicate column"},
		{"account (m3),from,to,volume (m3)\n", "b.csv:1:1: column account has no unit"},
		{head, "b.csv: the table has no bills"},
		{head + "1,2019-01-01\n", "b.csv:2:1: the row has 2 cells, the heading 5"},
		{head + ",2019-01-01,2019-02-01,5,\n", "b.csv:2:1: the row names no account"},
		{head + "1,2019-13-01,2019-02-01,5,\n", "b.csv:2:3: from \"2019-13-01\" is not a date"},
		{head + "1,2019-01-01,soon,abc,x\n", "b.csv:2:19: volume: \"abc\" is not a number\n\tfix: write the use in m3 in digits, as the " +
			"heading says"},
		{head + "1,2019-01-01,soon,5,x\n", "b.csv:2:21: unknown read_type \"x\""},
		{head + "1,2019-02-01,2019-02-01,5,\n", "b.csv:2:14: the read of 2019-02-01 is not after 2019-02-01"},
		{head + "1,2018-01-01,2019-12-01,5,\n", "b.csv:2:14: the period has 699 days"},
		{head + "1,2019-01-01,2019-02-01,5,\n2,2019-01-01,2019-02-01,5,\n1,2019-01-20,2019-03-01,5,\n",
			"b.csv:4:14: account \"1\": the period from 2019-01-20 begins before the read of 2019-02-01 on a row above"},
		{head + "1,2019-01-01,2019-02-01,-5,\n", "b.csv:2:25: volume -5 is below 0\n\tfix: write corrected"},
		{head + "1,2019-01-01,2019-02-01,1e30,\n", "b.csv:2:25: volume 1e30 is outside"},
	} {
		_, _, err := bills(c.text)
		if err == nil || !diag.IsInput(err) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: got\n%v\nwant\n%s", c.text, err, c.want)
		}
	}
}

// Parquet with dates as dates gives what CSV gives.
func TestBillsInParquet(t *testing.T) {
	type row struct {
		Account string  `parquet:"account"`
		From    int32   `parquet:"from,date"`
		To      int32   `parquet:"to,date"`
		Volume  float64 `parquet:"volume (m3)"`
		Type    string  `parquet:"read_type,optional"`
	}
	var b bytes.Buffer
	w := ledgerfile.NewRows[row](&b, nil, nil, 10)
	if err := w.Write([]row{{"007", int32(cal.Of(2019, 1, 2)), int32(cal.Of(2019, 3, 4)), 10.5, "estimated"}}); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	rows, err := Parquet(bytes.NewReader(b.Bytes()), int64(b.Len()), "b.parquet")
	if err != nil {
		t.Fatal(err)
	}
	var list []portfolio.MeteredRead
	err = ReadBills(rows, "b.parquet", func(bool) {}, func(r portfolio.MeteredRead) { list = append(list, r) })
	want := portfolio.MeteredRead{Account: "007", From: cal.Of(2019, 1, 2), To: cal.Of(2019, 3, 4), M3: 10.5, Estimated: true}
	if err != nil || len(list) != 1 || list[0] != want {
		t.Errorf("%+v, %v", list, err)
	}
}

// FuzzReadBills: no table makes the reader panic, every error is one of the input, and what is read has rising days.
func FuzzReadBills(f *testing.F) {
	f.Add("account,from,to,volume (HCF),read_type\n007,2019-01-02,2019-03-04,10,\n007,2019-03-04,2019-05-01,12.5,estimated\n")
	f.Add("account;from;to;outdoor_volume [m3]\n1;2019-01-01;2019-02-01;5\n")
	f.Add("account,from,to,volume\n\"")
	f.Fuzz(func(t *testing.T, text string) {
		list, _, err := bills(text)
		if err != nil && !diag.IsInput(err) {
			t.Errorf("%T %v", err, err)
		}
		for _, r := range list {
			if r.To <= r.From || r.Account == "" || math.IsNaN(r.M3) {
				t.Errorf("%+v", r)
			}
		}
	})
}
