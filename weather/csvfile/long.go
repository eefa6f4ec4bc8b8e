package csvfile

import (
	"fmt"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// dayRow records that a row has this day of the current station, even if none
// of its quantities is read, and returns its index.
func (r *reading) dayRow(date cal.Date) int {
	b := r.cur
	i := b.day(date)
	if b.lines[i] == 0 {
		b.lines[i] = int32(min(r.scan.line, 1<<31-1))
	}
	return i
}

// cell stores one quantity of one day, for tables with a row per quantity. A
// repeated quantity is an error if the values differ.
func (r *reading) cell(c *cell, col int) {
	b := r.cur
	i := r.dayRow(c.date)
	b.column(c.col)
	old := b.data[c.col][i]
	switch {
	case old != old:
		b.set(c.col, i, c.v, c.mark)
	case c.v != c.v:
	case old != c.v:
		r.fault(diag.Duplicate, r.scan.line, col, "keep the correct one of the two",
			"duplicate %s on %v with a different value (first on line %d or after it)", c.col.Label(), c.date, b.lines[i])
	default:
		b.note(doubleRows, c.col, hit{c.date, r.scan.line, 0, fmt.Appendf(nil, "%s", c.text)})
	}
}

// ghcnElement returns the column of a GHCN-Daily element and its conversion
// from the archive's own units.
func ghcnElement(name []byte) (col weather.Column, to func(float64) float64, ok bool) {
	switch string(name) {
	case "TMAX":
		return weather.Tmax, tenths, true
	case "TMIN":
		return weather.Tmin, tenths, true
	case "PRCP":
		return weather.Rain, tenths, true
	case "AWND":
		return weather.Wind, tenths, true
	case "TSUN":
		return weather.Sun, minutes, true
	}
	return 0, nil, false
}

const ghcnSource = "NOAA NCEI, GHCN-Daily file description (from memory, not verified; flags T and P and quality flags seen in real files)"

var (
	ghcnTrace    = traceRain.from(ghcnSource)
	ghcnPresumed = presumedZero.from(ghcnSource)
	ghcnFailed   = failedQuality.from(ghcnSource)
	ghcnMultiDay = multiDayRain.from(ghcnSource)
	ghcnDays     = "the day is the station's own: midnight to midnight at US airports, often morning to morning at volunteer stations"
)

// ghcnFlags handles the measurement and quality flags of a value; blank is 0 or ' '.
func ghcnFlags(c *cell, m, q byte) {
	if c.v != c.v {
		return
	}
	if q != 0 && q != ' ' {
		c.drop(ghcnFailed, abs(c.v))
		return
	}
	if c.col != weather.Rain {
		return
	}
	switch m {
	case 'T':
		c.note(ghcnTrace, 0)
		c.mark = weather.Trace
	case 'P':
		c.note(ghcnPresumed, 0)
		c.mark = weather.Presumed
	}
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}
