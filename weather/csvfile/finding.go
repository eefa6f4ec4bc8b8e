package csvfile

import (
	"fmt"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// A kind is what is the same in every finding of one sort.
type kind struct {
	code   weather.Code
	what   string // the rule in words
	action string // what is done about it
	source string // where the rule is from
}

const noSource = "common practice, no source"

// Findings that any layout may meet.
var (
	missingDays   = kind{weather.CodeMissingDays, "dates between the first and the last that have no row", "kept as days without values", noSource}
	missingValues = kind{weather.CodeMissingValues, "days that have a row but no value here", "kept as missing", noSource}
	missingCode   = kind{weather.CodeMissingCode, "cells that hold the layout's code for a missing value", "read as missing", ""}
	emptyColumn   = kind{weather.CodeEmptyColumn, "a column without a single value", "column left out", noSource}
	emptyRows     = kind{weather.CodeEmptyRows, "rows that hold a date and no value", "kept as days without values", noSource}
	doubleRows    = kind{weather.CodeDuplicateRows, "a date that stands twice with the same values", "one of the two dropped", noSource}
	unsortedRows  = kind{weather.CodeDatesOutOfOrder, "rows whose date is before that of an earlier row", "sorted", noSource}
	failedQuality = kind{weather.CodeQualityFlag, "values that the archive's own quality check failed", "value dropped", ""}
	traceRain     = kind{weather.CodeTraceRain, "rain or snow too small to measure", "booked as 0 and marked as trace", ""}
	presumedZero  = kind{weather.CodePresumedZero, "rain reported as missing and presumed zero by the archive", "booked as 0 and marked as presumed", ""}
	multiDayRain  = kind{weather.CodeMultiDayRain, "a total of several days booked on one date", "left as missing on that date", ""}
)

// from returns the kind with its source, for kinds that every layout words alike.
func (k kind) from(source string) kind {
	k.source = source
	return k
}

// A tally counts one kind of finding in one column of one station.
type tally struct {
	kind   kind
	column weather.Column
	whole  bool // concerns whole days, not one column
	count  int
	worst  float64
	date   cal.Date
	line   int
	found  string
}

// A hit is one case of a finding.
type hit struct {
	date  cal.Date
	line  int
	worth float64 // how bad it is: the highest is shown, the first among equals
	found []byte  // what stood there
}

// note counts one case of k in column c.
func (b *builder) note(k kind, c weather.Column, h hit) { b.count(k, c, false, h) }

// noteDay counts one case of k that concerns the whole day.
func (b *builder) noteDay(k kind, h hit) { b.count(k, 0, true, h) }

func (b *builder) count(k kind, c weather.Column, whole bool, h hit) {
	if b.mute {
		return
	}
	for _, t := range b.tallies {
		if t.column == c && t.whole == whole && t.kind.code == k.code {
			t.count++
			if h.worth > t.worst {
				t.worst, t.date, t.line, t.found = h.worth, h.date, h.line, string(h.found)
			}
			return
		}
	}
	b.tallies = append(b.tallies, &tally{k, c, whole, 1, h.worth, h.date, h.line, string(h.found)})
}

func (t *tally) finding() weather.Finding {
	f := weather.Finding{Code: t.kind.code, What: t.kind.what, Action: t.kind.action, Source: t.kind.source, Count: t.count, Worst: t.date}
	if !t.whole {
		f.Column = t.column.Key()
	}
	switch {
	case t.found != "" && t.line > 0:
		f.Detail = fmt.Sprintf("%s (line %d)", t.found, t.line)
	case t.found != "":
		f.Detail = t.found
	case t.line > 0:
		f.Detail = fmt.Sprintf("line %d", t.line)
	}
	return f
}
