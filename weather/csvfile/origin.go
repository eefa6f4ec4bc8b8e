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
// columns; alone it applies to the whole row. "presumed", "trace" and "computed"
// are always followed by keys. A semicolon separates several words.
const (
	originObserved  = "observed"
	originFilled    = "filled"
	originSynthetic = "synthetic"
	originPresumed  = "presumed"
	originTrace     = "trace"
	originComputed  = "computed"
)

// originMarks are the marks that are written with the keys of columns, and their
// words, in the order in which they are written.
var originMarks = [...]struct {
	word string
	is   func(weather.Mark) bool
	mark weather.Mark // as read back
}{
	{originFilled, func(m weather.Mark) bool { return m.Filled() && m != weather.Synthetic }, weather.Earlier},
	{originPresumed, func(m weather.Mark) bool { return m == weather.Presumed }, weather.Presumed},
	{originTrace, func(m weather.Mark) bool { return m == weather.Trace }, weather.Trace},
	{originComputed, func(m weather.Mark) bool { return m == weather.Computed }, weather.Computed},
}

var (
	syntheticDays = kind{weather.CodeSyntheticDays, "days of synthetic weather from a random generator, not observed", "marked as synthetic",
		"the file's “origin” column"}
	computedEarlier = kind{weather.CodeEToComputedEarlier, "reference ET that loamledger computed when it wrote the file, not an observation",
		"not read: computed again", "the file's “origin” column"}
	filledEarlier = kind{weather.CodeFilledEarlier, "values filled by an earlier run", "marked as filled", "the file's “origin” column"}
)

// hasOrigin reports whether any value of s has an origin to write.
func hasOrigin(s *weather.Series) bool {
	for c := range weather.Columns {
		for _, m := range s.Mark[c] {
			if m > weather.Missing {
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
		if s.Has(c) && s.Mark[c][i] == weather.Synthetic {
			return append(buf, originSynthetic...)
		}
	}
	for _, o := range originMarks {
		begun := false
		for c := range weather.Columns {
			if !s.Has(c) || !o.is(s.Mark[c][i]) {
				continue
			}
			if !begun {
				if begun = true; len(buf) > start {
					buf = append(buf, "; "...)
				}
				buf = append(buf, o.word...)
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
	f := c.row[at]
	for part := range bytes.SplitSeq(f.text, []byte(";")) {
		if !c.originPart(f, bytes.TrimSpace(part)) {
			return
		}
	}
}

// originPart reads one word with its columns; false after an error.
func (c *cell) originPart(f field, text []byte) bool {
	b := c.r.cur
	word, rest, _ := bytes.Cut(text, []byte(" "))
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
			return true
		}
	case originSynthetic:
		if len(rest) > 0 {
			break
		}
		for col := range weather.Columns {
			mark(col, weather.Synthetic)
		}
		b.noteDay(syntheticDays, hit{date: c.date, line: c.line})
		return true
	}
	for _, o := range originMarks {
		if string(word) != o.word {
			continue
		}
		cols, ok := c.originColumns(f, rest, o.word)
		if !ok {
			return false
		}
		for _, col := range cols {
			if !mark(col, o.mark) {
				continue
			}
			h := hit{date: c.date, line: c.line}
			switch o.mark {
			case weather.Earlier:
				b.note(filledEarlier, col, h)
			case weather.Presumed:
				b.note(presumedZero.from(filledEarlier.source), col, h)
			case weather.Trace:
				b.note(traceRain.from(filledEarlier.source), col, h)
			case weather.Computed:
				b.note(computedEarlier, col, h)
				b.set(col, i, nan, weather.Missing)
			}
		}
		return true
	}
	c.r.fault(diag.UnknownName, c.line, f.col, fmt.Sprintf("write %s, %s or %s", originObserved, originFilled, originSynthetic),
		"unknown origin %q", clip(f.text))
	return false
}

// originColumns returns the columns named after a word, all if there are none.
func (c *cell) originColumns(f field, keys []byte, word string) ([]weather.Column, bool) {
	var cols []weather.Column
	for _, key := range bytes.Fields(keys) {
		col, ok := weather.ColumnByKey(string(key))
		if !ok {
			c.r.fault(diag.UnknownName, c.line, f.col, "after "+word+", name columns of the file, such as: "+word+" tmin_c rain_mm",
				"origin names the unknown column %q", clip(key))
			return nil, false
		}
		cols = append(cols, col)
	}
	if len(cols) == 0 {
		for col := range weather.Columns {
			cols = append(cols, col)
		}
	}
	return cols, true
}
