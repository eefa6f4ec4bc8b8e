package ledgerfile

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/parquet-go/parquet-go"

	"loamledger/weather/cal"
)

// Texts reads the rows of any Parquet file whose columns are texts, plain numbers, dates and
// switches, each cell as text. It is not safe for concurrent use.
type Texts struct {
	Columns []string
	// IsText says of each column whether it is text in the file.
	IsText []bool
	dates  []bool // whose numbers are days since 1970-01-01

	groups []parquet.RowGroup
	rows   parquet.Rows // of the group under way; nil before it
	buf    []parquet.Row
	n, at  int // rows in buf, and the next of them
	out    []string
}

// plainTypes lists the types of columns that [Texts] reads, without what is in parentheses.
var plainTypes = [...]string{"BYTE_ARRAY", "STRING", "ENUM", "BOOLEAN", "INT", "INT32", "INT64", "FLOAT", "DOUBLE", "DATE"}

// textBatch is the number of rows that [Texts] reads at a time.
const textBatch = 64

// OpenTexts reads the columns of r, a file of size bytes. It returns an error if the file
// is not Parquet, or has a column that is nested, repeated, or of another type.
func OpenTexts(r io.ReaderAt, size int64) (t *Texts, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			t, err = nil, fmt.Errorf("damaged Parquet: %v", fault)
		}
	}()
	f, err := openFile(r, size)
	if err != nil {
		return nil, fmt.Errorf("not a Parquet file: %w", err)
	}
	t = &Texts{groups: f.RowGroups(), buf: make([]parquet.Row, textBatch)}
	for _, field := range f.Schema().Fields() {
		if !field.Leaf() || field.Repeated() {
			return nil, fmt.Errorf("column %q is nested or repeated", field.Name())
		}
		name, _, _ := strings.Cut(field.Type().String(), "(")
		if !slices.Contains(plainTypes[:], name) {
			return nil, fmt.Errorf("column %q is of type %v, not a text or a plain number", field.Name(), field.Type())
		}
		text := field.Type().Kind() == parquet.ByteArray
		t.Columns, t.IsText, t.dates = append(t.Columns, field.Name()), append(t.IsText, text), append(t.dates, name == "DATE")
	}
	t.out = make([]string, len(t.Columns))
	return t, nil
}

// Next returns the cells of the next row, empty for null, valid until the next call. At
// the end the error is [io.EOF]; any other says that the file is damaged.
func (t *Texts) Next() (cells []string, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			cells, err = nil, fmt.Errorf("damaged Parquet: %v", fault)
		}
	}()
	for t.at == t.n {
		if err := t.read(); err != nil {
			return nil, err
		}
	}
	clear(t.out)
	for _, v := range t.buf[t.at] {
		if c := v.Column(); c >= 0 && c < len(t.out) {
			if t.out[c] = textOf(v); t.dates[c] && !v.IsNull() {
				t.out[c] = cal.Date(v.Int32()).String()
			}
		}
	}
	t.at++
	return t.out, nil
}

// read reads the next rows.
func (t *Texts) read() error {
	if t.rows == nil {
		if len(t.groups) == 0 {
			return io.EOF
		}
		t.rows, t.groups = t.groups[0].Rows(), t.groups[1:]
	}
	n, err := t.rows.ReadRows(t.buf)
	t.n, t.at = n, 0
	switch {
	case errors.Is(err, io.EOF):
		t.close()
	case err != nil:
		return fmt.Errorf("damaged Parquet: %w", err)
	case n == 0:
		return fmt.Errorf("damaged Parquet: %w", io.ErrNoProgress)
	}
	return nil
}

// close ends the reading early. It may be called again.
func (t *Texts) close() {
	if t.rows != nil {
		_ = t.rows.Close() // nothing was written
		t.rows = nil
	}
}

// textOf writes a value so that reading it gives the same number.
func textOf(v parquet.Value) string {
	switch v.Kind() {
	case parquet.Boolean:
		return strconv.FormatBool(v.Boolean())
	case parquet.Int32:
		return strconv.Itoa(int(v.Int32()))
	case parquet.Int64:
		return strconv.FormatInt(v.Int64(), 10)
	case parquet.Float:
		return strconv.FormatFloat(float64(v.Float()), 'f', -1, 32)
	case parquet.Double:
		return strconv.FormatFloat(v.Double(), 'f', -1, 64)
	case parquet.ByteArray:
		return string(v.ByteArray())
	}
	return ""
}
