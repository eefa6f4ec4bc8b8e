package studyfile

import (
	"bytes"
	"io"
	"slices"

	"loamledger/scenarios/ratesfile"
	"loamledger/scenarios/study"
	"loamledger/sim/bill"
	"loamledger/sim/readsfile"
	"loamledger/weather/diag"
)

// A Billing is the bills of reads.
type Billing struct {
	Reads   []bill.Read
	Bills   []bill.Bill
	RowOf   []int        // of each bill, in Reads
	Matches []bill.Match // with the amounts of bills that were received
}

// NewBilling works out the bills of reads.
func NewBilling(rates *bill.Rates, rows []readsfile.Row) (*Billing, error) {
	reads, err := readsfile.ForRates(rows, rates)
	if err != nil {
		return nil, err
	}
	b := &Billing{Reads: reads, Bills: rates.Bills(&rates.Account, reads)}
	for i := range b.Bills {
		for k := range reads {
			if o := &reads[k]; o.Meter != b.Bills[i].Meter || o.To != b.Bills[i].To {
				continue
			}
			b.RowOf = append(b.RowOf, k)
			if got := rows[k].Billed; got != nil {
				b.Matches = append(b.Matches, bill.Match{At: i, Received: *got, Off: b.Bills[i].Total.Sub(*got)})
			}
		}
	}
	return b, nil
}

// Rates reads a file of rates, unless it was the last that was kept.
func (f *Files) Rates(path string, at diag.Pos) (*bill.Rates, error) {
	r, err := f.Open(path, at)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	if f.Kept == nil {
		return ratesfile.Read(r, path)
	}
	text, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	k := f.Kept
	if k.rates == nil || k.path != path || !bytes.Equal(k.text, text) {
		rates, err := ratesfile.Read(bytes.NewReader(text), path)
		if err != nil {
			return nil, err
		}
		*k = KeptRates{path, text, rates}
	}
	own := *k.rates
	return &own, nil
}

// Price reads the rates and meter reads that the scenario of a study names, if any, and
// prices the study; see [study.Study.Price].
func (f *Files) Price(l *study.Study) error {
	own := l.Scenario.Money
	if own == nil {
		return nil
	}
	rates, err := f.Rates(f.Path(own.Rates.Name), own.Rates.Pos)
	if err != nil {
		return err
	}
	if rates.NeedsETo() {
		rates.WithETo(l.Job.Weather.Start, l.Job.Weather.EToMM)
	}
	meters, err := l.AccountMeters(rates)
	if err != nil {
		return err
	}
	var rows []readsfile.Row
	var taken []string // a file of several meters is read once
	for i := range l.Scenario.Meters {
		of := l.Scenario.Meters[i].Reads
		if of == nil || slices.Contains(taken, of.Name) {
			continue
		}
		taken = append(taken, of.Name)
		more, err := f.Reads(f.Path(of.Name), of.Pos)
		if err != nil {
			return err
		}
		for k := range more {
			if more[k].Meter == "" {
				more[k].Meter = meters[i].Name
			}
		}
		rows = append(rows, more...)
	}
	b, err := NewBilling(rates, rows)
	if err != nil {
		return err
	}
	return l.Price(rates, meters, b.Reads, b.Bills, b.Matches)
}
