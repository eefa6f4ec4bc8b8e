package examples

import (
	"os"
	"path/filepath"
	"testing"

	"loamledger/scenarios/ratesfile"
	"loamledger/sim/bill"
	"loamledger/sim/readsfile"
)

// Hand: the amounts in the column billed are worked in the column notes beside
// them, and every one is reproduced to the cent. The sums of all bills were added
// up from the printed lines.
func TestSampleRatesReproduceTheirBills(t *testing.T) {
	f, err := os.Open(filepath.Join("rates", "quail-terrace-rates.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rates, err := ratesfile.Read(f, "quail-terrace-rates.yaml")
	if err != nil {
		t.Fatal(err)
	}
	in, err := os.Open(filepath.Join("rates", "quail-terrace-reads.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	rows, err := readsfile.Read(in, "quail-terrace-reads.csv")
	if err != nil {
		t.Fatal(err)
	}
	reads, err := readsfile.ForRates(rows, rates)
	if err != nil {
		t.Fatal(err)
	}
	bills := rates.Bills(&rates.Account, reads)
	given := 0
	for i := range bills {
		if want := rows[i].Billed; want != nil {
			given++
			if bills[i].Total.Cmp(*want) != 0 {
				t.Errorf("bill of %v: %v, by hand %v", bills[i].To, bills[i].Total, want)
			}
		}
	}
	if given != 2 || len(bills) != 12 {
		t.Errorf("%d of %d bills compared", given, len(bills))
	}
	sums := bill.TotalOf(bills)
	if total := sums.Total(); total.Fixed(2) != "1317.11" {
		t.Errorf("all bills %v", total)
	}
}
