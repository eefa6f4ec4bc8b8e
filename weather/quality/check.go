package quality

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/et0"
)

const (
	ownThreshold = "own threshold"
	noSource     = "common practice, no source"
	limitSource  = "customary hard limits of agricultural weather networks; FAO-56 annex 5"
	annex5       = "FAO-56 annex 5"
	annex6       = "FAO-56 annex 6"
)

// The actions for a finding.
const (
	kept    = "kept"
	dropped = "value dropped"
	held    = "limited to 100"
)

// Check applies the rules to rec and drops impossible values. It returns its
// findings in the order of the rules; the caller adds them to rec.Findings,
// which Check reads but does not change.
func Check(rec *weather.Record) []weather.Finding {
	found, _ := CheckKept(rec)
	return found
}

// CheckKept is [Check] and hands on the reference ET that it worked out.
func CheckKept(rec *weather.Record) ([]weather.Finding, *et0.Earlier) {
	k := newChecker(rec)
	// Before values that reveal the unit are dropped.
	k.units()
	k.columnUnits()
	k.unitBreaks()
	k.dates()
	k.limits()
	k.oddValues() // of what is possible
	k.temperatures()
	k.radiation()
	k.humidity()
	k.dewPoint()
	k.wind()
	k.streaks()
	k.rain()
	k.leapDays()
	k.steps()
	k.levelJumps()
	k.rainEnvelopes()
	k.supplied()
	return k.findings, k.computed
}

// checker checks one record.
type checker struct {
	rec      *weather.Record
	s        *weather.Series
	days     days
	seen     map[weather.Code]bool // codes already reported by the reader
	findings []weather.Finding
	computed *et0.Earlier // reference ET
	sunYear  *et0.SunYear // see sun
}

func newChecker(rec *weather.Record) *checker {
	k := &checker{rec: rec, s: &rec.Series, days: newDays(&rec.Series), seen: map[weather.Code]bool{}}
	for _, f := range rec.Findings {
		k.seen[f.Code] = true
	}
	return k
}

// days caches the calendar values of each day.
type days struct {
	year  []int16
	month []int8
	doy   []int16
}

func newDays(s *weather.Series) days {
	d := days{make([]int16, s.Days), make([]int8, s.Days), make([]int16, s.Days)}
	for i := 0; i < s.Days; {
		y, m, day := s.Date(i).YMD()
		doy := s.Date(i).YearDay()
		for n := cal.DaysIn(y, m) - day + 1; n > 0 && i < s.Days; n-- {
			d.year[i], d.month[i], d.doy[i] = int16(y), int8(m), int16(doy)
			i, doy = i+1, doy+1
		}
	}
	return d
}

// A rule is what all cases of a finding share.
type rule struct {
	code   weather.Code
	column weather.Column
	whole  bool // concerns whole days, not one column
	what   string
	action string
	source string
}

// tally counts the cases of one rule and keeps the worst.
type tally struct {
	rule
	n       int
	worst   float64
	at      int
	detail  string
	suspect weather.Suspicion
}

// hit counts a case on day i and reports whether it is the worst so far; if so,
// the caller sets detail.
func (t *tally) hit(i int, badness float64) bool {
	t.n++
	if t.n > 1 && !(badness > t.worst) {
		return false
	}
	t.worst, t.at = badness, i
	return true
}

// tell adds the finding, if there was a case.
func (k *checker) tell(t *tally) {
	if t.n == 0 || k.seen[t.code] {
		return
	}
	f := weather.Finding{Code: t.code, What: t.what, Count: t.n, Worst: k.s.Date(t.at), Detail: t.detail, Suspect: t.suspect, Action: t.action,
		Source: t.source}
	if !t.whole {
		f.Column = t.column.Key()
	}
	if where := k.rec.Where(f.Worst); where != "" {
		k.place(&f)
		f.Detail += ", " + where
	}
	k.findings = append(k.findings, f)
}

// column adds a finding about a whole column of n values, seen from its first
// value on.
func (k *checker) column(code weather.Code, c weather.Column, n int, suspect weather.Suspicion, source, what, format string, args ...any) {
	f := weather.Finding{Code: code, Column: c.Key(), Count: n, Worst: k.s.Start, What: what, Detail: fmt.Sprintf(format, args...),
		Suspect: suspect, Action: kept, Source: source}
	for i, v := range k.s.Data[c] {
		if known(v) {
			f.Worst = k.s.Date(i)
			k.place(&f)
			break
		}
	}
	k.findings = append(k.findings, f)
}

// place adds the line of the worst case, and its file if the record is of several.
func (k *checker) place(f *weather.Finding) {
	file := ""
	if file, f.Line = k.rec.Row(f.Worst); file != k.rec.File {
		f.File = file
	}
}

// drop removes a value.
func (k *checker) drop(c weather.Column, i int) { k.s.Set(c, i, math.NaN(), weather.Missing) }

// known reports whether a station value is known.
func known(v float64) bool { return !math.IsNaN(v) }

// value formats a value with its unit.
func value(c weather.Column, v float64) string { return fmt.Sprintf("%.4g %s", v, c.Unit()) }
