package et0

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// A Result is the daily reference ET of a record and the method used on each day.
type Result struct {
	// EToMM drives the water balance [mm/d]: supplied if the record has it,
	// otherwise computed; never below 0. NaN if neither exists.
	EToMM []float64
	// ComputedMM is the computed value on every day [mm/d], as the equation
	// gives it, even below 0.
	ComputedMM []float64
	Methods    []Method // by day
	Counts     []Count  // most days first
	Missing    int      // days of NaN in EToMM
	Filled     int      // computed days whose Tmax or Tmin was filled

	Compare     Comparison  // computed compared with supplied
	Calibration Calibration // of the temperature-only equation
	Expected    []Expected  // likely error of each set of estimates in use
	Findings    []weather.Finding
}

// Daily returns the short-grass reference ET of every day of s. Each day uses
// the best method its data allow: see [Method].
//
// ETo supplied with the record has priority unless o.IgnoreSupplied is set, and
// is compared with computed ETo; tall reference ET is never used. Latitude must
// be known, and so must elevation for all but the temperature-only equation. If
// one is unknown, Daily returns a [*NeedError], unless supplied ETo covers
// every day. Daily does not change s.
func Daily(s *weather.Series, o Options) (Result, error) { return DailyAfter(s, o, nil) }

// DailyAfter is [Daily] and takes from an earlier call, if k is not nil, the
// days that it would compute again.
func DailyAfter(s *weather.Series, o Options, k *Earlier) (Result, error) {
	o = o.withDefaults()
	r := Result{EToMM: make([]float64, s.Days), ComputedMM: make([]float64, s.Days), Methods: make([]Method, s.Days)}
	supplied := s.Data[weather.ETo]
	if o.IgnoreSupplied {
		supplied = nil
	}
	if err := check(s, o); err != nil {
		if supplied == nil || s.CountMissing(weather.ETo) > 0 {
			return Result{}, err
		}
		for i := range r.ComputedMM {
			r.ComputedMM[i] = math.NaN()
		}
		r.find(weather.Finding{Code: weather.CodeSuppliedEToUnchecked, Column: weather.ETo.Key(), Count: s.Days, Worst: s.Start,
			What: "supplied ETo is compared with computed ETo", Detail: need(err), Action: "kept, not compared",
			Source: "common practice, no source"})
	} else {
		e := newEngine(s.Station, Short(), o)
		c := columnsOf(s)
		doys := yearDays(s)
		if !k.serves(s, o) {
			k = nil
		}
		e.run(c, doys, r.ComputedMM, r.Methods, k)
		if o.CalibrateHargreaves {
			r.Calibration = e.calibrate(s, c, doys, r.Methods, r.ComputedMM)
		}
		r.Expected = e.expected(s, c, doys, r.Methods, r.ComputedMM)
		if s.Has(weather.ETo) {
			r.Compare = compare(s.Data[weather.ETo], r.ComputedMM, r.Methods)
		}
	}
	r.choose(s, supplied)
	r.count(s)
	r.findings(s, o, supplied != nil)
	return r, nil
}

// need says what is missing, without the remedy.
func need(err error) string {
	var e *NeedError
	if errors.As(err, &e) {
		return e.Msg
	}
	return err.Error()
}

// run fills out and methods for every day, from k, if it is not nil, where it
// can.
func (e *engine) run(c *columns, doys []int16, out []float64, methods []Method, k *Earlier) {
	for i := range out {
		d := c.day(i, int(doys[i]))
		if k != nil && d.same(&k.days[i]) {
			out[i], methods[i] = k.computed[i], k.methods[i]
			continue
		}
		out[i], methods[i] = e.day(d)
	}
}

// yearDays returns the day of the year of every day. It counts up, since
// calendar lookups take longer than the equations.
func yearDays(s *weather.Series) []int16 {
	doys := make([]int16, s.Days)
	year, doy := s.Start.Year(), s.Start.YearDay()
	length := yearLength(year)
	for i := range doys {
		doys[i] = int16(doy)
		if doy++; doy > length {
			year, doy = year+1, 1
			length = yearLength(year)
		}
	}
	return doys
}

func yearLength(year int) int {
	if cal.IsLeap(year) {
		return 366
	}
	return 365
}

// choose prefers the supplied value to the computed one and limits both to 0 or more.
func (r *Result) choose(s *weather.Series, supplied []float64) {
	below, worst := 0, 0
	for i, v := range r.ComputedMM {
		if supplied != nil && !math.IsNaN(supplied[i]) {
			v = supplied[i]
			r.Methods[i] = Method{Way: SuppliedByInput}
		}
		if v < 0 {
			if below == 0 || v < r.EToMM[worst] {
				worst = i
			}
			below++
		}
		r.EToMM[i] = v
	}
	if below == 0 {
		return
	}
	low := r.EToMM[worst]
	for i, v := range r.EToMM {
		if v < 0 {
			r.EToMM[i] = 0
		}
	}
	r.find(weather.Finding{Code: weather.CodeEToBelowZero, Column: weather.ETo.Key(), Count: below, Worst: s.Date(worst),
		What: "reference ET below 0 is dew, which the water balance does not count", Detail: fmt.Sprintf("%.2f mm", low),
		Action: "set to 0", Source: "common practice, no source"})
}

func (r *Result) count(s *weather.Series) {
	days := make(map[Method]int)
	run, in := 0, Method{} // Days with the same method are consecutive: one lookup per run.
	filled := func(c weather.Column, i int) bool { return s.Has(c) && s.Mark[c][i].Filled() }
	for i, m := range r.Methods {
		if m != in {
			days[in] += run
			run, in = 0, m
		}
		run++
		if m.Way == NoETo {
			r.Missing++
		}
		if m.Way != NoETo && m.Way != SuppliedByInput && (filled(weather.Tmax, i) || filled(weather.Tmin, i)) {
			r.Filled++
		}
	}
	days[in] += run
	for m, n := range days {
		if n > 0 {
			r.Counts = append(r.Counts, Count{m, n})
		}
	}
	sort.SliceStable(r.Counts, func(i, j int) bool {
		a, b := r.Counts[i], r.Counts[j]
		return a.Days > b.Days || a.Days == b.Days && a.Method.key() < b.Method.key()
	})
}

// key orders methods that were used on the same number of days.
func (m Method) key() uint32 {
	return uint32(m.Way)<<24 | uint32(m.Humidity)<<16 | uint32(m.Radiation)<<8 | uint32(m.Wind)
}

func (r *Result) find(f weather.Finding) { r.Findings = append(r.Findings, f) }
