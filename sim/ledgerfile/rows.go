package ledgerfile

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"

	"github.com/parquet-go/parquet-go"
)

// A Rows writes values of one struct type as Parquet, a column for each field that
// has a parquet tag. It is not safe for concurrent use.
type Rows[T any] struct {
	w     *parquet.GenericWriter[T]
	group int // rows in the row group so far
	most  int // rows in a row group
	err   error
}

// rowPage is the size of a page of one column [bytes]. Whoever joins many files has a page of
// each column of each in memory.
const rowPage = 1 << 14

// NewRows returns a Rows that writes to w, in row groups of about most rows, at least
// one. The file's metadata is as of [NewParquet]. [Rows.Close] writes the footer,
// without which the file cannot be read.
func NewRows[T any](w io.Writer, meta map[string]string, columns []Column, most int) *Rows[T] {
	options := []parquet.WriterOption{
		parquet.SchemaOf(new(T)), parquet.Compression(&parquet.Snappy), parquet.CreatedBy("loamledger", meta["version"], ""),
		parquet.PageBufferSize(rowPage),
	}
	for _, c := range columns {
		options = append(options, parquet.KeyValueMetadata("column."+c.Key, described(c)))
	}
	for key, value := range meta {
		options = append(options, parquet.KeyValueMetadata(key, value))
	}
	return &Rows[T]{w: parquet.NewGenericWriter[T](w, options...), most: max(most, 1)}
}

// described returns the meaning of a column with its unit.
func described(c Column) string {
	if c.Unit == "" {
		return c.About
	}
	return c.About + " [" + c.Unit + "]"
}

// Write appends rows. After a failure it writes nothing more.
func (r *Rows[T]) Write(rows []T) error {
	if r.err != nil {
		return r.err
	}
	_, r.err = r.w.Write(rows)
	r.group += len(rows)
	if r.group >= r.most && r.err == nil {
		r.err, r.group = r.w.Flush(), 0
	}
	return r.err
}

// Close writes the buffered rows and the footer. It does not close the underlying
// writer. After a failed Write it writes nothing and returns that error.
func (r *Rows[T]) Close() error {
	if r.err == nil {
		r.err = r.w.Close()
	}
	return r.err
}

// openFile opens a Parquet file. A footer that says it is longer than the file is an error
// here: the library would reserve up to 4 GB for it.
func openFile(r io.ReaderAt, size int64) (*parquet.File, error) {
	const tail = 8 // the length of the footer, and "PAR1"
	var end [tail]byte
	if size < tail {
		return nil, fmt.Errorf("%d bytes", size)
	}
	if _, err := r.ReadAt(end[:], size-tail); err != nil && !errors.Is(err, io.EOF) {
		return nil, err
	}
	if n := int64(binary.LittleEndian.Uint32(end[:])); n > size-tail {
		return nil, fmt.Errorf("a footer of %d bytes in a file of %d", n, size)
	}
	return parquet.OpenFile(r, size)
}

// namesOf returns the names of the columns.
func namesOf(s *parquet.Schema) []string {
	var names []string
	for _, f := range s.Fields() {
		names = append(names, f.Name())
	}
	return names
}

// mostRows is the number of rows that a byte of a file may stand for. Rows have numbers that
// take several bytes each, so a file with more is damaged, and reading it might never end.
const mostRows = 4

// rowBatch is the number of rows that [EachRow] reads at a time.
const rowBatch = 256

// EachRow reads a file written by [Rows] of the same type and calls take for each row
// in order; the row is valid during the call only. begin gets the metadata first and
// may stop the reading. Errors are those of begin and take, or say that the file is
// damaged or has other columns.
func EachRow[T any](r io.ReaderAt, size int64, begin func(meta map[string]string) error, take func(*T) error) (err error) {
	// The library panics on some damaged files; report them as unreadable.
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("damaged Parquet: %v", fault)
		}
	}()
	f, err := openFile(r, size)
	if err != nil {
		return fmt.Errorf("not a Parquet file: %w", err)
	}
	meta := map[string]string{}
	for _, kv := range f.Metadata().KeyValueMetadata {
		meta[kv.Key] = kv.Value
	}
	if err := begin(meta); err != nil {
		return err
	}
	want := parquet.SchemaOf(new(T))
	if got := namesOf(f.Schema()); fmt.Sprint(got) != fmt.Sprint(namesOf(want)) {
		return fmt.Errorf("columns are %q, want %q", got, namesOf(want))
	}
	if !parquet.SameNodes(f.Schema(), want) {
		return fmt.Errorf("the columns have the wrong types: %v", f.Schema())
	}
	if f.NumRows() > mostRows*size {
		return fmt.Errorf("damaged Parquet: %d rows in %d bytes", f.NumRows(), size)
	}
	for _, group := range f.RowGroups() {
		for i, chunk := range group.ColumnChunks() {
			if chunk.NumValues() != group.NumRows() {
				return fmt.Errorf("damaged Parquet: column %s has %d values in %d rows", want.Fields()[i].Name(), chunk.NumValues(), group.NumRows())
			}
		}
	}
	in := parquet.NewGenericReader[T](f)
	defer in.Close()
	batch := make([]T, rowBatch)
	for total := int64(0); ; {
		clear(batch)
		n, err := in.Read(batch)
		for i := range batch[:n] {
			if err := take(&batch[i]); err != nil {
				return err
			}
		}
		total += int64(n)
		switch {
		case errors.Is(err, io.EOF) && total != f.NumRows():
			return fmt.Errorf("damaged Parquet: %d of %d rows", total, f.NumRows())
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return fmt.Errorf("damaged Parquet: %w", err)
		case n == 0:
			return fmt.Errorf("damaged Parquet: %w", io.ErrNoProgress)
		}
	}
}
