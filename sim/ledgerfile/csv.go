package ledgerfile

import (
	"io"
	"strconv"

	"loamledger/sim/replay"
)

// flushAt is the fill of the buffer at which it goes out [bytes].
const flushAt = 64 << 10

// A CSV writes the ledger as CSV, one line a day. It is not for use by several
// goroutines at once.
type CSV struct {
	w   io.Writer
	buf []byte
	err error
}

// NewCSV returns a CSV on w. The header goes out with the first flush; call
// [CSV.Close] to write what is left.
func NewCSV(w io.Writer) *CSV {
	c := &CSV{w: w, buf: make([]byte, 0, flushAt+4096)}
	for i, key := range keys(Columns()) {
		if i > 0 {
			c.buf = append(c.buf, ',')
		}
		c.buf = append(c.buf, key...)
	}
	c.buf = append(c.buf, '\n')
	return c
}

// Write appends the days of a sheet. It fails on a value that is no number and
// on a failing writer; after a failure nothing more is written.
func (c *CSV) Write(s *replay.Sheet) error {
	if c.err != nil {
		return c.err
	}
	names := "," + quoted(s.Strategy) + "," + quoted(s.Zone.Name) + ","
	b := c.buf
	year, yearText := 0, ""
	var minutes, k, gross, spray, runoff, taw, overspray, broken, drained, leak memo
	for i := range s.Days() {
		r := s.Row(i)
		if c.err = check(&r); c.err != nil {
			break
		}
		y, m, d := r.Date.YMD()
		if y != year {
			year, yearText = y, pad4(y)
		}
		b = append(b, yearText...)
		b = append(b, '-', byte('0'+m/10), byte('0'+m%10), '-', byte('0'+d/10), byte('0'+d%10))
		b = append(b, names...)
		b = minutes.append(b, r.Minutes)
		b = append(b, ',')
		b = strconv.AppendInt(b, int64(r.Cycles), 10)
		b = append(b, ',')
		b = append(b, quoted(r.Reason.String())...)
		b = comma(b, r.EToMM)
		b = k.append(append(b, ','), r.K)
		etc := len(b)
		b = comma(b, r.ETcMM)
		etcEnd := len(b)
		b = comma(b, r.RainMM)
		b = gross.append(append(b, ','), r.GrossMM)
		b = spray.append(append(b, ','), r.SprayLossMM)
		b = runoff.append(append(b, ','), r.IrrRunoffMM)
		b = comma(b, r.RainRunoffMM)
		b = comma(b, r.RainEvapMM)
		b = comma(b, r.PercIrrMM)
		b = comma(b, r.PercRainMM)
		if r.ETaMM == r.ETcMM { // most days: nothing is short
			b = append(b, b[etc:etcEnd]...)
		} else {
			b = comma(b, r.ETaMM)
		}
		b = comma(b, r.DepletionMM)
		b = comma(b, r.LowQuarterMM)
		b = taw.append(append(b, ','), r.TAWMM)
		b = comma(b, r.RAWMM)
		b = comma(b, r.Ks)
		if r.Stress {
			b = append(b, ",1"...)
		} else {
			b = append(b, ",0"...)
		}
		b = overspray.append(append(b, ','), r.OversprayMM)
		b = broken.append(append(b, ','), r.BrokenMM)
		b = drained.append(append(b, ','), r.FillDrainMM)
		b = leak.append(append(b, ','), r.LeakMM)
		if r.Filled {
			b = append(b, ",1\n"...)
		} else {
			b = append(b, ",0\n"...)
		}
		if len(b) >= flushAt {
			c.buf = b
			if c.flush(); c.err != nil {
				return c.err
			}
			b = c.buf
		}
	}
	c.buf = b
	return c.err
}

func comma(b []byte, v float64) []byte { return appendFloat(append(b, ','), v) }

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
