package ledgerfile

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/parquet-go/parquet-go"

	"loamledger/sim/replay"
	"loamledger/weather/cal"
)

// One entry in the list of columns is a column of both files, of the reader and
// of the check.
func TestAColumnIsOneEntry(t *testing.T) {
	columns := append(Columns(),
		DayColumn{Column: Column{"unmet_mm", "mm", "invented: ETc less ETa"},
			Float: func(d *Day) float64 { return d.ETcMM - d.ETaMM }},
		DayColumn{Column: Column{"thirsty", "", "invented, from the sheet"}, kind: kindBool,
			bool: func(d *Day) bool { return d.Sheet.Trace.Ks[d.Index] < 1 }},
		DayColumn{Column: Column{"weekday", "", "invented: days since 1970, by 7"}, kind: kindInt,
			int: func(d *Day) int { return int(d.Date) % 7 }},
		DayColumn{Column: Column{"mood", "", "invented"}, kind: kindText, few: true, text: func(d *Day) string {
			if d.PastRAW {
				return "weary, dry"
			}
			return "fine"
		}},
	)
	var text, file bytes.Buffer
	var sheets []*replay.Sheet
	replaySite(t, 500, 2, func(s *replay.Sheet) error {
		sheets = append(sheets, cloned(s))
		return nil
	})
	a, b := NewCSV(&text, columns), NewParquet(&file, nil, columns)
	for _, s := range sheets {
		if err := a.Write(s); err != nil {
			t.Fatal(err)
		}
		if err := b.Write(s); err != nil {
			t.Fatal(err)
		}
	}
	if err := a.Close(); err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	want := said(columns, sheets...)
	thirsty := sum(want.Floats("thirsty"))
	if !strings.Contains(text.String(), `"weary, dry"`) || thirsty == 0 || thirsty == float64(want.Rows) {
		t.Fatal("the invented columns are the same every day")
	}
	if off := differs(readCSV(t, text.String(), columns), want, rounding); off != "" {
		t.Error("CSV: " + off)
	}
	l, err := ReadParquet(bytes.NewReader(file.Bytes()), int64(file.Len()), columns)
	if err != nil {
		t.Fatal(err)
	}
	if off := differs(l, want, 0); off != "" {
		t.Error("Parquet: " + off)
	}
	if l.Meta["column.unmet_mm"] != "invented: ETc less ETa [mm]" {
		t.Errorf("metadata %q", l.Meta["column.unmet_mm"])
	}
	_, err = ReadParquet(bytes.NewReader(file.Bytes()), int64(file.Len()), Columns())
	if err == nil || !strings.Contains(err.Error(), "unmet_mm") {
		t.Errorf("read with the usual columns: %v", err)
	}
}

// A file of several row groups reads back as one of a single one.
func TestRowGroups(t *testing.T) {
	var file bytes.Buffer
	p := NewParquet(&file, nil, Columns())
	p.most = 300
	var sheets []*replay.Sheet
	replaySite(t, 500, 2, func(s *replay.Sheet) error {
		sheets = append(sheets, cloned(s))
		return p.Write(s)
	})
	if err := p.Close(); err != nil {
		t.Fatal(err)
	}
	f, err := parquet.OpenFile(bytes.NewReader(file.Bytes()), int64(file.Len()))
	if err != nil {
		t.Fatal(err)
	}
	if n := len(f.RowGroups()); n < 8 {
		t.Errorf("%d row groups, want several", n)
	}
	l, err := ReadParquet(bytes.NewReader(file.Bytes()), int64(file.Len()), Columns())
	if err != nil {
		t.Fatal(err)
	}
	if off := differs(l, said(Columns(), sheets...), 0); off != "" {
		t.Error(off)
	}
}

func sum(x []float64) float64 {
	total := 0.0
	for _, v := range x {
		total += v
	}
	return total
}

// The check follows the list: an invented column that is no number is refused,
// and one that is said to leave the zone and does not puts the balance out.
func TestTheCheckFollowsTheColumns(t *testing.T) {
	bad := append(Columns(), DayColumn{Column: Column{"weird", "", "invented"},
		Float: func(d *Day) float64 { return math.Sqrt(-d.TAWMM) }})
	s := oneDay(cal.Of(2001, 7, 1), "s", "z", 0, 1, 3, func(string) float64 { return 7 })
	for name, write := range map[string]func(*replay.Sheet) error{
		"CSV": NewCSV(new(bytes.Buffer), bad).Write, "Parquet": NewParquet(new(bytes.Buffer), nil, bad).Write,
	} {
		if err := write(s); err == nil || !strings.Contains(err.Error(), "weird is NaN") {
			t.Errorf("%s: %v", name, err)
		}
	}
	leaking := append(Columns(), DayColumn{Column: Column{"lost_mm", "mm", "invented"}, term: leaves,
		Float: func(*Day) float64 { return 0.25 }})
	var sheets []*replay.Sheet
	replaySite(t, 60, 2, func(s *replay.Sheet) error {
		sheets = append(sheets, cloned(s))
		return nil
	})
	if off := said(leaking, sheets...).Imbalance(); math.Abs(off-0.25) > 1e-9 {
		t.Errorf("the balance misses by %g mm, want 0.25", off)
	}
}
