package csvfile

import (
	"fmt"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// A kind is what all findings of one sort share.
type kind struct {
	code   weather.Code
	what   string // the rule in words
	action string // what is done about it
	source string // source of the rule
}

const noSource = "common practice, no source"

// Findings that any layout can have.
var (
	missingDays   = kind{weather.CodeMissingDays, "dates inside the record without a row", "kept as days without values", noSource}
	missingValues = kind{weather.CodeMissingValues, "days with a row but no value here", "kept as missing", noSource}
	missingCode   = kind{weather.CodeMissingCode, "cells with the layout's missing-value code", "read as missing", ""}
	emptyColumn   = kind{weather.CodeEmptyColumn, "a column without any value", "column omitted", noSource}
	emptyRows     = kind{weather.CodeEmptyRows, "rows with a date but no values", "kept as days without values", noSource}
	doubleRows    = kind{weather.CodeDuplicateRows, "duplicate rows with the same date and values", "one of the two dropped", noSource}
	unsortedRows  = kind{weather.CodeDatesOutOfOrder, "rows dated before an earlier row", "sorted", noSource}
	failedQuality = kind{weather.CodeQualityFlag, "values that failed the archive's own quality check", "value dropped", ""}
	traceRain     = kind{weather.CodeTraceRain, "rain or snow too small to measure", "counted as 0 and marked as trace", ""}
	presumedZero  = kind{weather.CodePresumedZero, "rain reported as missing and presumed zero by the archive",
		"counted as 0 and marked as presumed zero", ""}
	multiDayRain = kind{weather.CodeMultiDayRain, "a multi-day total recorded on one date", "left as missing on that date", ""}
)

// from returns the kind with its source, for kinds shared by all layouts.
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
	worth float64 // severity: the highest is shown, the first among equals
	found []byte  // the text found
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
	f := weather.Finding{Code: t.kind.code, What: t.kind.what, Action: t.kind.action, Source: t.kind.source, Count: t.count,
		Worst: t.date, Line: t.line}
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
