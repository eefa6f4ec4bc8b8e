package ledgerfile

import (
	"io"
	"strconv"

	"loamledger/sim/replay"
	"loamledger/weather/cal"
)

// flushAt is the fill of the buffer at which it goes out [bytes].
const flushAt = 64 << 10

// A CSV writes the ledger as CSV, one line a day. It is not for use by several
// goroutines at once.
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

// lastText is the last text of a column and how it was written: most texts are
// those of the day before.
type lastText struct{ text, quoted string }

// NewCSV returns a CSV of the columns on w. The header goes out with the first
// flush; call [CSV.Close] to write what is left.
func NewCSV(w io.Writer, columns []DayColumn) *CSV {
	c := &CSV{w: w, columns: columns, last: make([]lastText, len(columns)), buf: make([]byte, 0, flushAt+4096)}
	c.buf = appendHeader(c.buf, Headings(columns))
	return c
}

// Write appends the days of a sheet. It fails on a value that is no number and
// on a failing writer; after a failure nothing more is written.
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

// append appends the line of the day at hand, whole or not at all.
func (c *CSV) append() {
	b, d := c.buf, &c.day
	for i := range c.columns {
		column := &c.columns[i]
		switch column.Kind {
		case Float:
			v := column.Float(d)
			if v-v != 0 { // no number
				c.err = noNumber(column, d)
				return
			}
			b = appendFixed(b, v)
		case Int:
			b = strconv.AppendInt(b, int64(column.Int(d)), 10)
		case Bool:
			if column.Bool(d) {
				b = append(b, '1')
			} else {
				b = append(b, '0')
			}
		case Text:
			last := &c.last[i]
			if text := column.Text(d); text != last.text {
				*last = lastText{text, quoted(text)}
			}
			b = append(b, last.quoted...)
		case Date:
			b = c.appendDate(b, cal.Date(column.Int(d)))
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

// Close writes what is buffered. It does not close the writer beneath.
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
