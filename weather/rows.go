package weather

import (
	"fmt"

	"loamledger/weather/cal"
)

// Rows are the lines of one file that the days of a record come from.
type Rows struct {
	File  string
	Start cal.Date // date of the first line
	Line  []int32  // line of each day from Start on; 0 if it has none
}

// Row returns the file and line of a date, the first file that has it; line 0
// if none is known.
func (r *Record) Row(d cal.Date) (file string, line int) {
	for _, rows := range r.Rows {
		if i := int(d - rows.Start); i >= 0 && i < len(rows.Line) && rows.Line[i] != 0 {
			return rows.File, int(rows.Line[i])
		}
	}
	return "", 0
}

// Where names the line of a date in words, with its file if the record has
// several; empty if it is unknown.
func (r *Record) Where(d cal.Date) string {
	file, line := r.Row(d)
	switch {
	case line == 0:
		return ""
	case len(r.Rows) > 1:
		return fmt.Sprintf("%s line %d", file, line)
	}
	return fmt.Sprintf("line %d", line)
}
