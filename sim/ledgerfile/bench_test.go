package ledgerfile

import (
	"bytes"
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"testing"
	"time"

	"loamledger/sim/replay"
)

// counter is a writer that counts.
type counter struct{ n int64 }

func (c *counter) Write(p []byte) (int, error) { c.n += int64(len(p)); return len(p), nil }

type ledger interface {
	Write(*replay.Sheet) error
	Close() error
}

// invented returns the sheets of a large site, and their number of rows.
func invented(b *testing.B) (sheets []*replay.Sheet, rows int) {
	replaySite(b, 10957, 4, func(s *replay.Sheet) error {
		sheets = append(sheets, cloned(s))
		rows += s.Days()
		return nil
	})
	return sheets, rows
}

// write writes the sheets and returns the time it took and the bytes.
func write(b *testing.B, sheets []*replay.Sheet, open func(io.Writer) ledger) (time.Duration, int64) {
	var n counter
	start := time.Now()
	l := open(&n)
	for _, s := range sheets {
		if err := l.Write(s); err != nil {
			b.Fatal(err)
		}
	}
	if err := l.Close(); err != nil {
		b.Fatal(err)
	}
	return time.Since(start), n.n
}

// BenchmarkCSV writes the same rows to the same bytes with [CSV] and, in turn
// with it, with the standard library.
func BenchmarkCSV(b *testing.B) {
	sheets, rows := invented(b)
	var ours, plain time.Duration
	var size int64
	for b.Loop() {
		took, n := write(b, sheets, func(w io.Writer) ledger { return NewCSV(w, Columns()) })
		ours, size = ours+took, n
		took, _ = write(b, sheets, func(w io.Writer) ledger { return newPlainCSV(w) })
		plain += took
	}
	total := float64(rows) * float64(b.N)
	b.ReportMetric(total/ours.Seconds(), "rows/s")
	b.ReportMetric(total/plain.Seconds(), "rows/s-encoding/csv")
	b.ReportMetric(plain.Seconds()/ours.Seconds(), "times-as-fast")
	b.ReportMetric(float64(size)/float64(rows), "B/row")
}

func BenchmarkParquet(b *testing.B) {
	sheets, rows := invented(b)
	var took time.Duration
	var size int64
	b.ReportAllocs()
	for b.Loop() {
		t, n := write(b, sheets, func(w io.Writer) ledger { return NewParquet(w, nil, Columns()) })
		took, size = took+t, n
	}
	b.ReportMetric(float64(rows)*float64(b.N)/took.Seconds(), "rows/s")
	b.ReportMetric(float64(size)/float64(rows), "B/row")
}

// plainCSV writes the ledger as one would with the standard library: every cell
// a string.
type plainCSV struct {
	w    *csv.Writer
	line []string
}

func newPlainCSV(w io.Writer) *plainCSV {
	p := &plainCSV{w: csv.NewWriter(w), line: make([]string, len(Columns()))}
	p.w.Write(keys(headings(Columns())))
	return p
}

func (p *plainCSV) Write(s *replay.Sheet) error {
	num := func(v float64) string {
		return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(v+0, 'f', 4, 64), "0"), ".")
	}
	yes := func(b bool) string {
		if b {
			return "1"
		}
		return "0"
	}
	for i := range s.Days() {
		r := s.Row(i)
		ratio := func(v float64) string {
			if !r.HasR7 {
				return ""
			}
			return num(v)
		}
		if err := p.w.Write(append(p.line[:0],
			r.Date.String(), r.Strategy, r.Zone, num(r.Minutes), strconv.Itoa(r.Cycles), r.Reason.String(), num(r.EToMM), num(r.K),
			num(r.Activity), num(r.ETcMM),
			num(r.RainMM), num(r.GrossMM), num(r.SprayLossMM), num(r.IrrRunoffMM), num(r.RainRunoffMM), num(r.RainEvapMM),
			num(r.PercIrrMM), num(r.PercRainMM),
			num(r.ETaMM), num(r.DepletionMM), num(r.LowQuarterMM), num(r.TAWMM), num(r.RAWMM), num(r.Ks), yes(r.PastRAW),
			ratio(r.R7Quarter), ratio(r.R7Zone), yes(r.StressQuarter), yes(r.StressZone), yes(r.BrownQuarter), yes(r.BrownZone),
			num(r.OversprayMM), num(r.BrokenMM), num(r.FillDrainMM), num(r.LeakMM), num(r.RateMMH), num(r.AreaM2),
			num(r.SoilChangeMM), yes(r.Filled))); err != nil {
			return err
		}
	}
	return nil
}

func (p *plainCSV) Close() error {
	p.w.Flush()
	return p.w.Error()
}

// What the benchmark compares is the same to the byte.
func TestPlainCSVIsTheSame(t *testing.T) {
	var sheets []*replay.Sheet
	replaySite(t, 800, 2, func(s *replay.Sheet) error {
		sheets = append(sheets, cloned(s))
		return nil
	})
	var b bytes.Buffer
	p := newPlainCSV(&b)
	for _, s := range sheets {
		if err := p.Write(s); err != nil {
			t.Fatal(err)
		}
	}
	if err := p.Close(); err != nil {
		t.Fatal(err)
	}
	ours, plain := strings.Split(writeCSV(t, sheets...), "\n"), strings.Split(b.String(), "\n")
	if len(ours) != len(plain) {
		t.Fatalf("%d lines, %d by the standard library", len(ours), len(plain))
	}
	for i := range ours {
		if plain[i] = strings.ReplaceAll(plain[i], ",-0,", ",0,"); ours[i] != plain[i] {
			t.Fatalf("line %d\n got %s\nwant %s", i+1, ours[i], plain[i])
		}
	}
}
