package ledgerfile

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"github.com/parquet-go/parquet-go"
)

// A Ledger is a ledger read from a file, column by column.
type Ledger struct {
	Rows    int
	Meta    map[string]string // the metadata of the file
	columns []DayColumn
	numbers [][]float64 // by column; Bool is 1 for yes, Date is days since 1970
	texts   [][]string
}

// Floats returns the numbers of a column: Bool is 1 for yes, Date is days since
// 1970. It returns nil for a text column and for a missing column.
func (l *Ledger) Floats(key string) []float64 {
	if i := l.index(key); i >= 0 {
		return l.numbers[i]
	}
	return nil
}

// Texts returns the texts of a column, or nil if it is missing or not text.
func (l *Ledger) Texts(key string) []string {
	if i := l.index(key); i >= 0 {
		return l.texts[i]
	}
	return nil
}

func (l *Ledger) index(key string) int {
	return slices.IndexFunc(l.columns, func(c DayColumn) bool { return c.Key == key })
}

// ReadParquet reads a whole ledger of the given columns written by [Parquet]. It
// returns an error if the file is not Parquet, has other columns or types, or
// contains a value that is not finite. An empty cell reads as NaN.
func ReadParquet(r io.ReaderAt, size int64, columns []DayColumn) (l *Ledger, err error) {
	// The library panics on some damaged files; report them as unreadable.
	defer func() {
		if fault := recover(); fault != nil {
			l, err = nil, fmt.Errorf("ledger: damaged Parquet: %v", fault)
		}
	}()
	f, err := openFile(r, size)
	if err != nil {
		return nil, fmt.Errorf("ledger: not a Parquet file: %w", err)
	}
	if got, want := namesOf(f.Schema()), namesOf(schemaOf(columns)); !slices.Equal(got, want) {
		return nil, fmt.Errorf("ledger: columns are %q, want %q", got, want)
	}
	if !parquet.SameNodes(f.Schema(), schemaOf(columns)) {
		return nil, fmt.Errorf("ledger: the columns have the wrong types: %v", f.Schema())
	}
	l = &Ledger{Meta: map[string]string{}, columns: columns, numbers: make([][]float64, len(columns)), texts: make([][]string, len(columns))}
	for _, kv := range f.Metadata().KeyValueMetadata {
		l.Meta[kv.Key] = kv.Value
	}
	for _, group := range f.RowGroups() {
		l.Rows += int(group.NumRows())
		for i, chunk := range group.ColumnChunks() {
			if err := l.take(i, chunk); err != nil {
				return nil, fmt.Errorf("ledger: column %s: %w", columns[i].Key, err)
			}
			if n := max(len(l.numbers[i]), len(l.texts[i])); n != l.Rows {
				return nil, fmt.Errorf("ledger: column %s has %d values in %d rows", columns[i].Key, n, l.Rows)
			}
		}
	}
	return l, nil
}

// take appends the values of a chunk to column i.
func (l *Ledger) take(i int, chunk parquet.ColumnChunk) error {
	pages := chunk.Pages()
	defer pages.Close()
	var buf [512]parquet.Value
	for {
		page, err := pages.ReadPage()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		values := page.Values()
		for {
			n, err := values.ReadValues(buf[:])
			for _, v := range buf[:n] {
				if err := l.add(i, v); err != nil {
					return err
				}
			}
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				return err
			}
			if n == 0 {
				return io.ErrNoProgress
			}
		}
		parquet.Release(page)
	}
}

// add appends a value to column i.
func (l *Ledger) add(i int, v parquet.Value) error {
	x := 0.0
	switch l.columns[i].kind {
	case kindText:
		l.texts[i] = append(l.texts[i], string(v.ByteArray()))
		return nil
	case kindFloatOrNone:
		if x = math.NaN(); v.IsNull() {
			break
		}
		fallthrough
	case kindFloat:
		if x = v.Double(); !finite(x) {
			return fmt.Errorf("row %d is %g, not a finite number", len(l.numbers[i])+1, x)
		}
	case kindInt, kindDate:
		x = float64(v.Int32())
	case kindBool:
		if v.Boolean() {
			x = 1
		}
	}
	l.numbers[i] = append(l.numbers[i], x)
	return nil
}

// Imbalance returns the largest daily error of the balance [mm], from the second
// day of each strategy and zone on: inflow less outflow must equal the fall in
// depletion. It needs the columns strategy and zone, and those with a [term].
func (l *Ledger) Imbalance() float64 {
	strategies, zones := l.Texts("strategy"), l.Texts("zone")
	worst := 0.0
	for i := 1; i < l.Rows; i++ {
		if strategies[i] != strategies[i-1] || zones[i] != zones[i-1] {
			continue
		}
		off := 0.0
		for k := range l.columns {
			v := l.numbers[k]
			switch l.columns[k].term {
			case enters:
				off += v[i]
			case leaves:
				off -= v[i]
			case depletion:
				off += v[i] - v[i-1]
			}
		}
		worst = max(worst, math.Abs(off))
	}
	return worst
}
