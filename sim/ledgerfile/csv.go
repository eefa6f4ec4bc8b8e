package ledgerfile

import (
	"io"
	"strconv"

	"loamledger/sim/replay"
	"loamledger/weather/cal"
)

// flushAt is the buffer size at which it is flushed [bytes].
const flushAt = 64 << 10

// A CSV writes the ledger as CSV, one line per day. It is not safe for concurrent
// use.
type CSV struct {
	w       io.Writer
	columns []DayColumn
	last    []lastText // by column
	day     Day
	year    int
	years   string // year, as text
	buf     []byte
	err     error
}

// lastText is the last text of a column and its quoted form: most texts repeat
// from day to day.
type lastText struct{ text, quoted string }

// NewCSV returns a CSV that writes the columns to w. The header is written with
// the first flush; call [CSV.Close] to write the rest.
func NewCSV(w io.Writer, columns []DayColumn) *CSV {
	c := &CSV{w: w, columns: columns, last: make([]lastText, len(columns)), buf: make([]byte, 0, flushAt+4096)}
	c.buf = appendHeader(c.buf, headings(columns))
	return c
}

// Write appends the days of a sheet. It fails if a value is not finite or the
// writer fails; after a failure it writes nothing more.
func (c *CSV) Write(s *replay.Sheet) error {
	if c.err != nil {
		return c.err
	}
	c.day.Sheet = s
	for i := range s.Days() {
		c.day.Row, c.day.Index = s.Row(i), i
		if c.append(); c.err != nil {
			break
		}
		if len(c.buf) >= flushAt {
			if c.flush(); c.err != nil {
				break
			}
		}
	}
	c.day.Sheet = nil
	return c.err
}

// append appends the whole line of the current day, or nothing.
func (c *CSV) append() {
	b, d := c.buf, &c.day
	for i := range c.columns {
		column := &c.columns[i]
		switch column.kind {
		case kindFloat, kindFloatOrNone:
			v := column.Float(d)
			if v != v && column.kind == kindFloatOrNone {
				break
			}
			if v-v != 0 { // not finite
				c.err = noNumber(column, d)
				return
			}
			b = appendFixed(b, v)
		case kindInt:
			b = strconv.AppendInt(b, int64(column.int(d)), 10)
		case kindBool:
			if column.bool(d) {
				b = append(b, '1')
			} else {
				b = append(b, '0')
			}
		case kindText:
			last := &c.last[i]
			if text := column.text(d); text != last.text {
				*last = lastText{text, quoted(text)}
			}
			b = append(b, last.quoted...)
		case kindDate:
			b = c.appendDate(b, cal.Date(column.int(d)))
		}
		b = append(b, ',')
	}
	b[len(b)-1] = '\n'
	c.buf = b
}

func (c *CSV) appendDate(b []byte, date cal.Date) []byte {
	y, m, d := date.YMD()
	if y != c.year || c.years == "" {
		c.year, c.years = y, pad4(y)
	}
	b = append(b, c.years...)
	return append(b, '-', byte('0'+m/10), byte('0'+m%10), '-', byte('0'+d/10), byte('0'+d%10))
}

func (c *CSV) flush() {
	if c.err == nil {
		_, c.err = c.w.Write(c.buf)
	}
	c.buf = c.buf[:0]
}

// Close writes the buffered data. It does not close the underlying writer.
func (c *CSV) Close() error {
	c.flush()
	return c.err
}

func pad4(y int) string {
	s := strconv.Itoa(y)
	for len(s) < 4 {
		s = "0" + s
	}
	return s
}
