package portfoliofile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"testing"

	"loamledger/sim/ledgerfile"
	"loamledger/sim/portfolio"
	"loamledger/weather/diag"
)

func ptr(v float64) *float64 { return &v }

// results returns n results that differ in every column that may differ.
func results(n int) []portfolio.Result {
	out := make([]portfolio.Result, n)
	for i := range out {
		v := float64(i)
		out[i] = portfolio.Result{Account: fmt.Sprintf("%06d", i/6), Measure: []string{"as found", "months"}[i/3%2], Reference: i/3%2 == 0,
			Year: int32(2011 + i%3), WholeYear: i%3 != 2, AreaM2: 100 + v, VolumeM3: 1.5 * v, RequirementM3: v,
			StressZoneDays: v / 7, StressQuarterDays: v / 3, BrowningDays: v / 9, WorstStressDays: v, RunoffM3: v / 11, RunoffEvents: v,
			PercolationM3: v / 13, PeakMonthM3: v / 5, PeakDayM3: v / 50, Alarms: []string{"", "dry;steep"}[i%2]}
		if i%5 != 0 {
			out[i].ApplicationRatio, out[i].Money = ptr(1.5), ptr(v/4)
		}
	}
	return out
}

func file(t testing.TB, rows []portfolio.Result) []byte {
	t.Helper()
	var b bytes.Buffer
	w := NewResults(&b, map[string]string{"currency": "USD"})
	for i := range rows {
		if err := w.Write(rows[i]); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// What is written is read again, row by row, over several row groups.
func TestResultsAreReadAsWritten(t *testing.T) {
	want := results(groupRows + 5000)
	data := file(t, want)
	i := 0
	meta, err := ReadResults(bytes.NewReader(data), int64(len(data)), "r.parquet", func(r *portfolio.Result) error {
		if !reflect.DeepEqual(*r, want[i]) {
			t.Fatalf("row %d\n got %+v\nwant %+v", i, *r, want[i])
		}
		i++
		return nil
	})
	if err != nil || i != len(want) {
		t.Fatalf("%v after %d of %d rows", err, i, len(want))
	}
	if meta["currency"] != "USD" || meta["column.volume_m3"] != "irrigation at the meter [m3]" || meta[versionKey] != portfolio.Version {
		t.Errorf("metadata %v", meta)
	}
	if again := file(t, want); !bytes.Equal(data, again) {
		t.Error("equal rows give other bytes")
	}
}

func TestOtherTablesAreReadAsWritten(t *testing.T) {
	var b bytes.Buffer
	account := portfolio.Account{ID: "007", Station: "Dry Fork", DistanceKM: ptr(3.5), Zones: 4, AreaM2: 210, Class: "single", Area: "north",
		AsFound: portfolio.Drawn, AsFoundScale: 1.2, ImputedShare: 0.4, Drawn: "soil;roots"}
	w := NewAccounts(&b, nil)
	if err := errors.Join(w.Write(account), w.Close()); err != nil {
		t.Fatal(err)
	}
	_, err := ReadAccounts(bytes.NewReader(b.Bytes()), int64(b.Len()), "a.parquet", func(a *portfolio.Account) error {
		if !reflect.DeepEqual(*a, account) {
			t.Errorf("got %+v", a)
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
	b.Reset()
	month := portfolio.Month{Account: "007", Measure: "months", Weather: portfolio.DryYear, Year: 2012, Month: 7,
		VolumeM3: 3, RequirementM3: 2}
	m := NewMonths(&b, nil)
	if err := errors.Join(m.Write(month), m.Close()); err != nil {
		t.Fatal(err)
	}
	_, err = ReadMonths(bytes.NewReader(b.Bytes()), int64(b.Len()), "m.parquet", func(got *portfolio.Month) error {
		if *got != month {
			t.Errorf("got %+v", got)
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
}

// Each fault has its code, and an error of the caller stays what it is.
func TestFaults(t *testing.T) {
	data := file(t, results(12))
	pass := func(*portfolio.Result) error { return nil }
	var other, old bytes.Buffer
	w := NewMonths(&other, nil)
	o := ledgerfile.NewRows[portfolio.Result](&old, map[string]string{tableKey: resultsTable, versionKey: "0"}, nil, 1)
	if err := errors.Join(w.Close(), o.Close()); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		name string
		data []byte
		want diag.Code
	}{
		{"text", []byte("account,volume\n"), diag.DamagedFile}, {"empty", nil, diag.DamagedFile},
		{"half", data[:len(data)/2], diag.DamagedFile}, {"another table", other.Bytes(), diag.WrongShape},
		{"another version", old.Bytes(), diag.OtherVersion},
	} {
		_, err := ReadResults(bytes.NewReader(tt.data), int64(len(tt.data)), "r.parquet", pass)
		var e *diag.Error
		if !errors.As(err, &e) || e.Code != tt.want || e.Pos.File != "r.parquet" || e.Fix == "" {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
	_, err := ReadResults(bytes.NewReader(data), int64(len(data)), "r.parquet", func(*portfolio.Result) error { return io.ErrClosedPipe })
	if err != io.ErrClosedPipe {
		t.Errorf("an error of the caller came back as %v", err)
	}
	bad := results(1)[0]
	bad.VolumeM3 = math.NaN()
	if err := NewResults(io.Discard, nil).Write(bad); err == nil {
		t.Error("a number that is not finite was written")
	}
}

// FuzzReadResults: no file makes the reader panic, and what is read is finite.
func FuzzReadResults(f *testing.F) {
	data := file(f, results(12))
	f.Add(data)
	f.Add(data[:40])
	f.Fuzz(func(t *testing.T, data []byte) {
		_, err := ReadResults(bytes.NewReader(data), int64(len(data)), "r.parquet", func(r *portfolio.Result) error { return checkResult(r) })
		var e *diag.Error
		if err != nil && !errors.As(err, &e) {
			t.Errorf("%T %v", err, err)
		}
	})
}
