package csvfile

import (
	"bytes"
	"fmt"

	"loamledger/weather"
	"loamledger/weather/diag"
)

// originName is the column of the own layout that says which values of a day
// were not observed.
const originName = "origin"

// The words in that column. "filled" may be followed by the keys of the filled
// columns; alone it applies to the whole row.
const (
	originObserved  = "observed"
	originFilled    = "filled"
	originSynthetic = "synthetic"
)

var (
	syntheticDays = kind{weather.CodeSyntheticDays, "days of synthetic weather from a random generator, not observed", "marked as synthetic",
		"the file's “origin” column"}
	filledEarlier = kind{weather.CodeFilledEarlier, "values filled by an earlier run", "marked as filled", "the file's “origin” column"}
)

// hasOrigin reports whether any value of s was not observed.
func hasOrigin(s *weather.Series) bool {
	for c := range weather.Columns {
		for _, m := range s.Mark[c] {
			if m.Filled() {
				return true
			}
		}
	}
	return false
}

// appendOrigin appends the origin of day i. A day with any synthetic value is
// synthetic.
func appendOrigin(buf []byte, s *weather.Series, i int) []byte {
	start := len(buf)
	for c := range weather.Columns {
		switch {
		case !s.Has(c) || !s.Mark[c][i].Filled():
		case s.Mark[c][i] == weather.Synthetic:
			return append(buf[:start], originSynthetic...)
		default:
			if len(buf) == start {
				buf = append(buf, originFilled...)
			}
			buf = append(append(buf, ' '), c.Key()...)
		}
	}
	if len(buf) == start {
		buf = append(buf, originObserved...)
	}
	return buf
}

// origin marks the values of the current row as stated in cell at.
func (c *cell) origin(at int) {
	f, b := c.row[at], c.r.cur
	word, rest, _ := bytes.Cut(bytes.TrimSpace(f.text), []byte(" "))
	i := int(c.date - b.base)
	mark := func(col weather.Column, m weather.Mark) bool {
		if b.data[col] == nil || b.mark[col][i] == weather.Missing {
			return false
		}
		b.mark[col][i] = m
		return true
	}
	switch string(word) {
	case "", originObserved:
		if len(rest) == 0 {
			return
		}
	case originSynthetic:
		if len(rest) > 0 {
			break
		}
		for col := range weather.Columns {
			mark(col, weather.Synthetic)
		}
		b.noteDay(syntheticDays, hit{date: c.date, line: c.line})
		return
	case originFilled:
		var cols []weather.Column
		for _, key := range bytes.Fields(rest) {
			col, ok := weather.ColumnByKey(string(key))
			if !ok {
				c.r.fault(diag.UnknownName, c.line, f.col, "after filled, name columns of the file, such as: filled tmin_c rain_mm",
					"origin names the unknown column %q", clip(key))
				return
			}
			cols = append(cols, col)
		}
		if len(cols) == 0 {
			for col := range weather.Columns {
				cols = append(cols, col)
			}
		}
		for _, col := range cols {
			if mark(col, weather.Earlier) {
				b.note(filledEarlier, col, hit{date: c.date, line: c.line})
			}
		}
		return
	}
	c.r.fault(diag.UnknownName, c.line, f.col, fmt.Sprintf("write %s, %s or %s", originObserved, originFilled, originSynthetic),
		"unknown origin %q", clip(f.text))
}
