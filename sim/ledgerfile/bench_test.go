package ledgerfile

import (
	"io"
	"testing"

	"loamledger/sim/replay"
)

// counter is a writer that counts.
type counter struct{ n int64 }

func (c *counter) Write(p []byte) (int, error) { c.n += int64(len(p)); return len(p), nil }

type ledger interface {
	Write(*replay.Sheet) error
	Close() error
}

func benchmark(b *testing.B, open func(io.Writer) ledger) {
	var sheets []*replay.Sheet
	rows := 0
	replaySite(b, 10957, 4, func(s *replay.Sheet) error {
		sheets = append(sheets, cloned(s))
		rows += s.Days()
		return nil
	})
	var n counter
	b.ReportAllocs()
	for b.Loop() {
		n = counter{}
		l := open(&n)
		for _, s := range sheets {
			if err := l.Write(s); err != nil {
				b.Fatal(err)
			}
		}
		if err := l.Close(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(rows)*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
	b.ReportMetric(float64(n.n)/float64(rows), "B/row")
}

func BenchmarkCSV(b *testing.B) {
	benchmark(b, func(w io.Writer) ledger { return NewCSV(w) })
}

func BenchmarkParquet(b *testing.B) {
	benchmark(b, func(w io.Writer) ledger { return NewParquet(w, nil) })
}
