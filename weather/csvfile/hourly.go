package csvfile

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"sort"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// typicalYear is the common year used for months from different years. It
// begins on a Monday and has no February 29.
const typicalYear = 2001

// The quantities of an hour, in storage order.
const (
	hourTemperature = iota // °C
	hourDewPoint           // °C
	hourHumidity           // %
	hourRadiation          // Wh/m² in the hour
	hourWind               // m/s
	hourRain               // mm in the hour
	hourQuantities
)

// hourColumns are the columns under which missing hours are counted.
var hourColumns = [hourQuantities]weather.Column{weather.Tmax, weather.Tdew, weather.RHmean, weather.Rs, weather.Wind, weather.Rain}

// An hourSum accumulates one quantity's hours of a day.
type hourSum struct {
	n         int
	sum       float64
	low, high float64
}

func (s *hourSum) add(v float64) {
	if v != v {
		return
	}
	if s.n == 0 || v < s.low {
		s.low = v
	}
	if s.n == 0 || v > s.high {
		s.high = v
	}
	s.n++
	s.sum += v
}

// An hourDay collects the hours of one day.
type hourDay struct {
	date cal.Date // as in the file
	line int
	seen uint32 // one bit per hour with a row
	of   [hourQuantities]hourSum
}

// hours collects an hourly file.
type hours struct {
	r    *reading
	days map[cal.Date]*hourDay
	list []*hourDay // in file order
}

// newHours starts the one station of an hourly file, once r.proto is known. It
// returns nil if the station is not selected.
func (r *reading) newHours() *hours {
	r.proto.WindHeightM = 10
	r.assume("anemometer height 10 m: not in the file; the standard height of weather-service anemometers")
	if !r.at([]byte(r.proto.ID), []byte(r.proto.Name)) {
		return nil
	}
	return &hours{r: r, days: map[cal.Date]*hourDay{}}
}

// value reads quantity k of the current hour from cell at of the row; missing
// recognizes its codes.
func (hs *hours) value(k int, date cal.Date, at int, name string, missing func(float64) bool) float64 {
	r, f := hs.r, hs.r.row[at]
	v, ok := number(f.text)
	switch {
	case !ok && noValue(f.text):
		return nan
	case !ok:
		r.badNumber(f, name)
		return nan
	case missing(v):
		r.cur.note(hourMissing, hourColumns[k], hit{date, r.scan.line, 0, f.text})
		return nan
	}
	return v
}

// The limits of annual rain; outside them the column is something else.
const (
	leastYearMM = 1    // about as much as at the world's driest stations: common practice, no source
	mostYearMM  = 5000 // few inhabited places have more: common practice, no source
)

var (
	hourMissing = kind{weather.CodeMissingHours, "hours with the layout's missing-value code", "read as missing", noSource}
	hourPartial = kind{weather.CodePartialDay, "days with missing hours: extremes and sums need all 24", "value dropped", noSource}
	hourLeapDay = kind{weather.CodeLeapDayDropped, "February 29 of one of the years in a typical year", "omitted", noSource}
	typicalRain = kind{weather.CodeTypicalYearRain, "rain of a typical year, whose months were selected by sun and temperature, not by rain",
		"kept; not the rain of any real year", "NREL, Users manual for TMY3 data sets (from memory, not verified)"}
)

// add stores the hour ending at n, 1 to 24. A repeated hour is an error.
func (hs *hours) add(date cal.Date, n int, v [hourQuantities]float64) {
	r := hs.r
	if n < 1 || n > 24 {
		r.fault(diag.DamagedFile, r.scan.line, 0, "number hours 1 to 24 by their end", "invalid hour %d on %v", n, date)
		return
	}
	d := hs.days[date]
	if d == nil {
		d = &hourDay{date: date, line: r.scan.line}
		hs.days[date] = d
		hs.list = append(hs.list, d)
	}
	if d.seen&(1<<n) != 0 {
		r.fault(diag.Duplicate, r.scan.line, 0, "keep one of the two rows", "duplicate hour %d on %v", n, date)
		return
	}
	d.seen |= 1 << n
	for k := range d.of {
		d.of[k].add(v[k])
	}
}

// typical reports whether the months are from different years, with each
// calendar day once. A record that continues across New Year is not typical.
func (hs *hours) typical() bool {
	const jump = 60 // days; a longer step, or a step back, is a change of year
	seen := map[int]bool{}
	jumps := 0
	for i, d := range hs.list {
		_, m, day := d.date.YMD()
		if seen[100*m+day] {
			return false
		}
		seen[100*m+day] = true
		if i > 0 && (d.date < hs.list[i-1].date || d.date > hs.list[i-1].date+jump) {
			jumps++
		}
	}
	return jumps > 0
}

// book converts the hours to days of the current station; unusable is the
// finding for impossible rain.
func (hs *hours) book(unusable kind) {
	b := hs.r.cur
	if len(hs.list) == 0 {
		return
	}
	typical := hs.typical()
	if typical {
		hs.typicalWords()
	} else {
		sort.SliceStable(hs.list, func(a, b int) bool { return hs.list[a].date < hs.list[b].date })
	}
	factor := hs.rain(typical, unusable)
	for _, d := range hs.list {
		date := d.date
		if typical {
			_, m, day := date.YMD()
			if m == 2 && day == 29 {
				b.noteDay(hourLeapDay, hit{date: date, line: d.line})
				continue
			}
			date = cal.Of(typicalYear, m, day)
		}
		i := b.day(date)
		b.lines[i] = int32(min(d.line, 1<<31-1))
		put := func(c weather.Column, k int, v float64) {
			b.column(c)
			switch s := &d.of[k]; {
			case s.n == 24:
				b.set(c, i, v, weather.Observed)
			case s.n > 0:
				b.note(hourPartial, c, hit{date, d.line, float64(24 - s.n), fmt.Appendf(nil, "%d hours", s.n)})
			}
		}
		t, rh := &d.of[hourTemperature], &d.of[hourHumidity]
		put(weather.Tmax, hourTemperature, t.high)
		put(weather.Tmin, hourTemperature, t.low)
		put(weather.RHmax, hourHumidity, rh.high)
		put(weather.RHmin, hourHumidity, rh.low)
		put(weather.RHmean, hourHumidity, rh.sum/24)
		put(weather.Tdew, hourDewPoint, d.of[hourDewPoint].sum/24)
		put(weather.Rs, hourRadiation, d.of[hourRadiation].sum*0.0036)
		put(weather.Wind, hourWind, d.of[hourWind].sum/24)
		if !math.IsNaN(factor) {
			put(weather.Rain, hourRain, d.of[hourRain].sum*factor)
		}
	}
	if typical {
		for _, t := range b.tallies {
			_, m, day := t.date.YMD()
			t.date = cal.Of(typicalYear, m, day)
		}
	}
}

// rain checks the rain of the whole file: it returns the factor that converts
// it to mm, or NaN to omit it.
func (hs *hours) rain(typical bool, unusable kind) float64 {
	factor, words := 1.0, ""
	if hs.r.o.Units == unitsTenths {
		factor, words = 0.1, "rain in tenths of a mm as given, not in mm as the file states"
	}
	var all hourSum
	worst, hasHours := hs.list[0], 0
	for _, d := range hs.list {
		s := &d.of[hourRain]
		if s.n == 0 {
			continue
		}
		hasHours += s.n
		all.sum += s.sum
		if s.high > all.high {
			all.high, worst = s.high, d
		}
		all.low = min(all.low, s.low)
	}
	b := hs.r.cur
	if hasHours == 0 {
		return nan
	}
	year := all.sum * factor * 8760 / float64(hasHours)
	if hasHours >= 8000 && (year < leastYearMM || year > mostYearMM) || all.low < 0 || all.high*factor > wettestMM {
		text := fmt.Sprintf("%.0f mm in a year, %g mm in the wettest hour", year, all.high)
		if year > mostYearMM {
			text += fmt.Sprintf("; as tenths of a mm it would be %.0f mm: to read it so, set the units to tenths", year/10)
		}
		for range hs.list {
			b.note(unusable, weather.Rain, hit{date: worst.date, line: worst.line, found: []byte(text)})
		}
		return nan
	}
	if words != "" {
		b.assumed = append(b.assumed, words)
	}
	if typical {
		b.note(typicalRain, weather.Rain, hit{worst.date, worst.line, 0, fmt.Appendf(nil, "%.0f mm in a year", year)})
	}
	return factor
}

// typicalWords says which year each month is from.
func (hs *hours) typicalWords() {
	b := hs.r.cur
	var from [13]map[int]bool
	for _, d := range hs.list {
		y, m, _ := d.date.YMD()
		if from[m] == nil {
			from[m] = map[int]bool{}
		}
		from[m][y] = true
	}
	var months []string
	for m := 1; m <= 12; m++ {
		for _, y := range slices.Sorted(maps.Keys(from[m])) {
			months = append(months, fmt.Sprintf("%d-%02d", y, m))
		}
	}
	b.assumed = append(b.assumed, fmt.Sprintf("a typical year: its months are from different years (%s), combined into the common year %d",
		strings.Join(months, ", "), typicalYear))
}
