package ledgerfile

import (
	"io"
	"reflect"
	"strconv"

	"github.com/parquet-go/parquet-go"

	"loamledger/sim/replay"
)

// batchRows is the number of rows collected before they are written, column by
// column. They and their values should fit into the cache of a core.
const batchRows = 128

// mostTexts is the maximum number of cached texts.
const mostTexts = 1024

// groupRows is the number of rows in a row group; the writer keeps one in memory.
const groupRows = 1 << 17

// schemaOf returns the schema of the columns, in order, from a struct with a field
// for each.
func schemaOf(columns []DayColumn) *parquet.Schema {
	fields := make([]reflect.StructField, len(columns))
	for i := range columns {
		tag, c := columns[i].Key, &columns[i]
		var of reflect.Type
		switch c.kind {
		case kindFloat:
			of = reflect.TypeFor[float64]()
		case kindFloatOrNone:
			of, tag = reflect.TypeFor[float64](), tag+",optional"
		case kindInt:
			of = reflect.TypeFor[int32]()
		case kindBool:
			of = reflect.TypeFor[bool]()
		case kindText:
			of = reflect.TypeFor[string]()
		case kindDate:
			of, tag = reflect.TypeFor[int32](), tag+",date,delta"
		}
		if c.few {
			tag += ",dict"
		}
		fields[i] = reflect.StructField{Name: "C" + strconv.Itoa(i), Type: of, Tag: reflect.StructTag("parquet:" + strconv.Quote(tag))}
	}
	return parquet.SchemaOf(reflect.New(reflect.StructOf(fields)).Interface())
}

// A Parquet writes the ledger as Parquet, with the types of [kind]. It is not safe
// for concurrent use.
type Parquet struct {
	w       *parquet.GenericWriter[any]
	columns []DayColumn
	days    []Day           // collected
	group   int             // rows in the row group so far
	most    int             // rows in a row group
	values  []parquet.Value // of one column of the days
	texts   map[string]parquet.Value
	err     error
}

// NewParquet returns a Parquet that writes the columns to w. The file's metadata
// contains meta, and "column.<name>" for every column with its meaning and unit.
// [Parquet.Close] writes the footer, without which the file cannot be read.
func NewParquet(w io.Writer, meta map[string]string, columns []DayColumn) *Parquet {
	options := []parquet.WriterOption{
		schemaOf(columns),
		parquet.Compression(&parquet.Snappy),
		parquet.CreatedBy("loamledger", meta["version"], ""),
	}
	for i := range columns {
		options = append(options, parquet.KeyValueMetadata("column."+columns[i].Key, described(columns[i].Column)))
	}
	for key, value := range meta {
		options = append(options, parquet.KeyValueMetadata(key, value))
	}
	return &Parquet{
		w: parquet.NewGenericWriter[any](w, options...), columns: columns, most: groupRows,
		days: make([]Day, 0, batchRows), values: make([]parquet.Value, batchRows), texts: map[string]parquet.Value{},
	}
}

// Write appends the days of a sheet. It fails if a value is not finite or the
// writer fails; after a failure it writes nothing more.
func (p *Parquet) Write(s *replay.Sheet) error {
	for i := range s.Days() {
		n := len(p.days)
		p.days = p.days[:n+1]
		d := &p.days[n]
		d.Row, d.Sheet, d.Index = s.Row(i), s, i
		if len(p.days) == batchRows {
			p.flush()
		}
		if p.err != nil {
			return p.err
		}
	}
	p.flush() // the sheet is only valid now
	return p.err
}

// flush passes the collected days to the writer, column by column.
func (p *Parquet) flush() {
	writers := p.w.ColumnWriters()
	for i := range p.columns {
		if p.err != nil {
			break
		}
		values := p.values[:len(p.days)]
		if p.err = p.column(i, values, p.days); p.err == nil {
			_, p.err = writers[i].WriteRowValues(values)
		}
	}
	p.group += len(p.days)
	p.days = p.days[:0]
	if p.group >= p.most && p.err == nil {
		p.err, p.group = p.w.Flush(), 0
	}
}

// column sets the values of column at on the days. It fails if one is not finite.
func (p *Parquet) column(at int, values []parquet.Value, days []Day) error {
	c := &p.columns[at]
	switch c.kind {
	case kindFloat:
		zero := 0.0 // becomes NaN if any value is not finite
		for i := range days {
			v := c.Float(&days[i])
			zero += float64(0 * v)
			values[i] = parquet.DoubleValue(v)
		}
		if zero != 0 {
			return firstNoNumber(c, days)
		}
	case kindFloatOrNone:
		for i := range days {
			v := c.Float(&days[i])
			switch {
			case v != v:
				values[i] = parquet.NullValue().Level(0, 0, at)
			case v-v != 0:
				return noNumber(c, &days[i])
			default:
				values[i] = parquet.DoubleValue(v).Level(0, 1, at)
			}
		}
	case kindInt, kindDate:
		for i := range days {
			values[i] = parquet.Int32Value(int32(c.int(&days[i])))
		}
	case kindBool:
		for i := range days {
			values[i] = parquet.BooleanValue(c.bool(&days[i]))
		}
	case kindText:
		last, value := "", parquet.ByteArrayValue(nil)
		for i := range days {
			if text := c.text(&days[i]); text != last {
				last, value = text, p.text(text)
			}
			values[i] = value
		}
	}
	return nil
}

// text returns text as a value, from the cache if possible.
func (p *Parquet) text(text string) parquet.Value {
	value, met := p.texts[text]
	if !met {
		value = parquet.ByteArrayValue([]byte(text))
		if len(p.texts) < mostTexts {
			p.texts[text] = value
		}
	}
	return value
}

// Close writes the buffered data and the footer. It does not close the underlying
// writer. After a failed Write it writes nothing and returns that error.
func (p *Parquet) Close() error {
	if p.err == nil {
		p.err = p.w.Close()
	}
	return p.err
}
