package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
	"loamledger/weather/quality"
)

// Doubts are the findings of a weather record that no scenario uses, as far as
// they are more than a note.
type Doubts struct {
	Lines   []string // in full, with what was accepted
	Records []FindingRecord
}

// JudgeRecord checks a record for a command without a scenario, and drops
// impossible values as [quality.Check] does. It refuses a record with findings
// that would stop a study, unless accept has their codes. Only findings on the
// columns in uses, or on no column, count; without uses, all do. The error is a
// [*diag.Errors].
func JudgeRecord(rec *weather.Record, accept []string, uses ...weather.Column) (Doubts, error) {
	var out Doubts
	var faults diag.List
	var waiting []weather.Finding
	idle := map[string]bool{}
	for _, code := range accept {
		idle[code] = true
	}
	rec.Findings = append(rec.Findings, quality.Check(rec)...)
	for i := range rec.Findings {
		f := &rec.Findings[i]
		delete(idle, string(f.Code))
		if f.Code.Weight() == weather.Note || !concerns(f, uses) {
			continue
		}
		stop, accepted := stops(&rec.Series, f), slices.Contains(accept, string(f.Code))
		text := "Weather: " + findingText(f)
		switch {
		case stop && accepted:
			text += "; accepted"
		case stop:
			waiting = append(waiting, *f)
		}
		out.Lines = append(out.Lines, text)
		out.Records = append(out.Records, findingRecord(f, stop && accepted))
	}
	for i := range waiting {
		f := &waiting[i]
		faults.Add(diag.DoubtfulWeather, diag.Pos{File: orElse(f.File, rec.File), Line: f.Line},
			"look at the file; if it is right, accept what was found: --accept "+strings.Join(codesOf(waiting), ","), "%s", findingText(f))
	}
	for _, code := range accept {
		if idle[code] {
			out.Lines = append(out.Lines, fmt.Sprintf("Warning: --accept: the weather has no finding %s.", code))
		}
	}
	return out, faults.Err()
}

// concerns reports whether f is about one of the columns, or about no column.
func concerns(f *weather.Finding, uses []weather.Column) bool {
	c, ok := weather.ColumnByKey(f.Column)
	return len(uses) == 0 || !ok || slices.Contains(uses, c)
}

// UnknownCode returns the first code that no finding can have, and a fix; empty
// texts if there is none.
func UnknownCode(codes []string) (code, fix string) {
	for _, code := range codes {
		if !isCode(code) {
			return code, codeFix(code)
		}
	}
	return "", ""
}
