package ratesfile_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/scenarios/ratesfile"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// Any text is rates or an input error, and rates make a bill whose parts add up.
func FuzzRead(f *testing.F) {
	names, err := filepath.Glob(filepath.Join("testdata", "*.yaml"))
	if err != nil || len(names) < 8 {
		f.Fatal(names, err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ratesfile.Read(strings.NewReader(text), "rates.yaml")
		if err != nil {
			if !diag.IsInput(err) {
				t.Fatalf("%v is not an input error", err)
			}
			return
		}
		var reads []bill.Read
		for _, m := range r.Account.Meters {
			reads = append(reads, bill.Read{Meter: m.Name, From: cal.Of(2024, 4, 21), To: cal.Of(2024, 5, 21), Volume: money.Int(37)})
		}
		for _, b := range r.Bills(&r.Account, reads) {
			if s := b.Sums(); s.Total().Cmp(b.Total) != 0 {
				t.Fatalf("parts %v, total %v", s.Total(), b.Total)
			}
		}
	})
}
