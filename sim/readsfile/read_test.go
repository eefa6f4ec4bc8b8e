package readsfile_test

import (
	"strings"
	"testing"

	"loamledger/scenarios/ratesfile"
	"loamledger/sim/meter"
	"loamledger/sim/readsfile"
)

// Hand: two meters, one with a gap of 4 days, one whose first row only begins.
func TestRead(t *testing.T) {
	reads, err := readsfile.Read(strings.NewReader(`# reads
date,from,volume (HCF),meter,read_type,billed,notes
2024-02-01,,,house,,,
2024-03-01,,22,house,actual,75.69,paid
2024-03-02,2024-02-01,3.5,garden,estimated,,
2024-04-04,2024-03-05,14,house,customer,43.92,
`), "reads.csv")
	if err != nil || len(reads) != 3 {
		t.Fatal(reads, err)
	}
	a, b, c := reads[0], reads[1], reads[2]
	if a.To-a.From != 29 || a.Volume.String() != "22" || a.Unit != "HCF" || a.Billed.Fixed(2) != "75.69" || a.Pos.Line != 4 {
		t.Errorf("first read %+v", a)
	}
	if b.Meter != "garden" || b.Type != meter.Estimated || b.To-b.From != 30 || b.Billed != nil {
		t.Errorf("second read %+v", b)
	}
	if c.GapDays != 4 || c.To-c.From != 30 {
		t.Errorf("third read %+v", c)
	}
}

// Every error has its place, and all are reported at once.
func TestFaults(t *testing.T) {
	for _, tt := range []struct {
		text string
		want []string
	}{
		{"", []string{"reads.csv: the file is empty"}},
		{"date,volume\n2024-01-01,3\n", []string{"reads.csv:1:6: the volumes have no unit, and units are never guessed"}},
		{"date,volume (HFC)\n", []string{`"hfc" is not a unit of volume`}},
		{"root:secret\n", []string{"reads.csv:1:1: this is not a file of meter reads"}},
		{"day,volume (HCF)\n", []string{`unknown column "day"`, "missing column date"}},
		{"date,volume (HCF),meters\n", []string{"did you mean meter?"}},
		{"date,volume (HCF),billed\n2024-01-01,,\n2024-02-30,3,\n2024-02-01,-3,$5\n2024-01-01,3,\n2026-01-01,3,5\n2024-02-01\n", []string{
			`reads.csv:3:1: date "2024-02-30" is not a date`, "reads.csv:4:12: volume -3 is below 0 and corrects no estimate",
			`reads.csv:4:15: billed: "$5" has a currency symbol`,
			"reads.csv:5:1: duplicate read of 2024-01-01, see line 2", "the period has 731 days", "does not have as many cells",
		}},
		{"date,volume (HCF)\n2024-02-01,3\n", []string{"does not say when the use began"}},
		{"date;volume (HCF)\n2024-02-01;3\n", []string{"reads.csv:1:1: the cells are separated by semicolons"}},
		{"date\tvolume (HCF)\n2024-02-01\t3\n", []string{"the cells are separated by tabs"}},
		{"date,volume (HCF)\n1/15/2024,\n1/5/2024,\nFeb 5 2024,\"9,5\"\n", []string{"and day: 2024-01-15", "and day: 2024-01-05 or 2024-05-01,",
			"and day: 2024-02-05"}},
		{"date,volume (HCF)\n2024-01-01,\n2024-02-01,\"9,5\"\n", []string{`reads.csv:3:12: volume: "9,5" contains a comma`}},
		{"date,volume (HCF),meter\n2024-01-01,,a\n2024-02-01,3,\n", []string{"reads.csv:3:14: the cell meter is empty"}},
		{"date,from,volume (HCF)\n2024-02-01,2024-01-01,3\n2024-03-01,2024-01-20,3\n", []string{
			"the period from 2024-01-20 overlaps the one that ends on 2024-02-01"}},
	} {
		_, err := readsfile.Read(strings.NewReader(tt.text), "reads.csv")
		for _, want := range tt.want {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%q: no %q in %v", tt.text, want, err)
			}
		}
	}
}

// One error in the first rows is not repeated for each row after it.
func TestAFaultIsToldOnce(t *testing.T) {
	for _, tt := range []struct {
		text string
		want []string
	}{
		{"date,volume (HCF)\n2024-01-01\n2024-02-01,9\n2024-03-01,9\n",
			[]string{"reads.csv:2:1: the row does not have as many cells as the heading"}},
		{"date,volume (HCF)\n01.01.2024,\n2024-02-01,9\n2024-03-01,9\n", []string{`reads.csv:2:1: date "01.01.2024" is not a date`}},
		{"date,volume (HCF)\n2024-04-01,9\n2024-03-01,9\n2024-02-01,9\n2024-01-01,\n", []string{
			"reads.csv:2:1: the first read of the meter does not say", "reads.csv:3:1: the read of 2024-03-01 is below that of 2024-04-01"}},
	} {
		_, err := readsfile.Read(strings.NewReader(tt.text), "reads.csv")
		for _, want := range tt.want {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%q: %v; want %s", tt.text, err, want)
			}
		}
		if n := strings.Count(err.Error(), "reads.csv:"); n != len(tt.want) {
			t.Errorf("%q: %d errors, want %d: %v", tt.text, n, len(tt.want), err)
		}
	}
}

const rates = "currency: USD\nunit: kgal\naccount: {indoor: 100 gal, meters: [{name: house}, {name: garden, use: irrigation}]}\n" +
	"charges: [{name: water, part: water, price: 1}]\n"

// Hand: 10 HCF are 10·28.316846592/3.785411784 = 7.480519 kgal; 100 gal a day are 3 kgal in
// 30 days, none of them at the irrigation meter.
func TestForRates(t *testing.T) {
	r, err := ratesfile.Read(strings.NewReader(rates), "rates.yaml")
	if err != nil {
		t.Fatal(err)
	}
	reads, err := readsfile.Read(strings.NewReader(`date,from,volume,unit,meter
2024-03-02,2024-02-01,10,CCF,house
2024-03-02,2024-02-01,4,kgal,garden
`), "reads.csv")
	if err != nil {
		t.Fatal(err)
	}
	got, err := readsfile.ForRates(reads, r)
	if err != nil || got[0].Volume.Fixed(6) != "7.480519" ||
		got[0].Indoor.String() != "3" || got[1].Volume.String() != "4" || got[1].Indoor.Sign() != 0 {
		t.Errorf("%+v, %v", got, err)
	}
	reads[0].Meter = "barn"
	if _, err := readsfile.ForRates(reads, r); err == nil || !strings.Contains(err.Error(), `has no meter "barn"`) {
		t.Errorf("%v", err)
	}
}
