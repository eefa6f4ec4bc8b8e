package csvfile

import (
	"bufio"
	"io"
	"strconv"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// ownLayout is loamledger's own CSV: the keys of weather's columns as header.
func ownLayout() Layout {
	return Layout{
		Name:  "own",
		Title: "loamledger's own CSV",
		Doc: "A header with date and any other columns, in any order: date,tmax_c,tmin_c,rain_mm and any of rhmax_pct, rhmin_pct, " +
			"rhmean_pct, tdew_c, ea_kpa, rs_mj_m2, sun_h, wind_m_s, eto_mm, etr_mm. A column called station allows several stations. A " +
			"column called origin says for each day whether it is observed, filled (followed by the filled columns, such as: filled " +
			"tmin_c rain_mm) or synthetic; presumed rain_mm, trace rain_mm and computed eto_mm say the same of single values, after a " +
			"semicolon. Computed eto_mm is computed again. Dates are written 2012-06-30. A column with any other name is an error, so that a " +
			"typo does not lose data.",
		Units:      "in the column names",
		Missing:    "an empty cell, or NaN",
		WindHeight: "not stated; set wind_height, or pass --wind-height",
		Source:     "loamledger",
		match: func(h *lead, n int) bool {
			if place(h.cells(n), "date") < 0 {
				return false
			}
			for _, c := range h.cells(n) {
				if _, ok := weather.ColumnByKey(c); ok {
					return true
				}
			}
			return false
		},
		read: readOwn,
	}
}

func readOwn(r *reading) error {
	line := r.skipTo(r.header)
	row, _ := split(nil, line, ',')
	w := &wideTable{names: cellNames(row), form: "2012-06-30"}
	dateAt, stationAt, originAt := -1, -1, -1
	var seen [weather.Columns]bool
	for i, name := range w.names {
		c, known := weather.ColumnByKey(name)
		switch {
		case strings.EqualFold(name, "date") && dateAt < 0:
			dateAt = i
		case name == "station" && stationAt < 0:
			stationAt = i
		case name == originName && originAt < 0:
			originAt = i
		case !known:
			fix := ownFix(name)
			r.fault(diag.UnknownKey, r.header, row[i].col, fix, "unknown column %q", clip(row[i].text))
		case seen[c]:
			r.fault(diag.Duplicate, r.header, row[i].col, "keep one of the two", "duplicate column %s", name)
		default:
			seen[c] = true
			w.binds = append(w.binds, bind{at: i, col: c})
		}
	}
	if r.faults.Len() > 0 {
		return nil
	}
	if fault := r.foreignDates(w.names, dateAt); fault != nil {
		return fault
	}
	w.dateAt = []int{dateAt}
	w.date = func(row []field) (cal.Date, bool) { return isoDate(row[dateAt].text) }
	if stationAt >= 0 {
		w.station = func(row []field) (id, name []byte) { return row[stationAt].text, nil }
	}
	if originAt >= 0 {
		w.after = func(c *cell) { c.origin(originAt) }
	}
	r.wide(w)
	return nil
}

// ownFix suggests the intended name of an unknown column.
func ownFix(name string) string {
	keys := strings.Split(ownKeys(), ", ")
	for _, k := range keys {
		if strings.HasPrefix(k, strings.ToLower(name)+"_") {
			return "did you mean " + k + "?"
		}
	}
	if near := diag.Nearest(name, keys); near != "" {
		return "did you mean " + near + "?"
	}
	return "use " + ownKeys()
}

func ownKeys() string {
	var keys []string
	for c := range weather.Columns {
		keys = append(keys, c.Key())
	}
	return strings.Join(keys, ", ")
}

// WriteOwn writes s as loamledger's own CSV: a header, then one row per day
// with an empty cell for each missing value. If any value was not observed, a
// last column says which. Numbers are the shortest that read back as the same
// float64. Errors come from w.
func WriteOwn(w io.Writer, s *weather.Series) error {
	bw := bufio.NewWriter(w)
	buf := append(make([]byte, 0, 256), "date"...)
	for c := range weather.Columns {
		if s.Has(c) {
			buf = append(append(buf, ','), c.Key()...)
		}
	}
	origin := hasOrigin(s)
	if origin {
		buf = append(append(buf, ','), originName...)
	}
	buf = append(buf, '\n')
	for i := range s.Days {
		buf = append(buf, s.Date(i).String()...)
		for c := range weather.Columns {
			if !s.Has(c) {
				continue
			}
			buf = append(buf, ',')
			if v := s.Data[c][i]; v == v {
				buf = strconv.AppendFloat(buf, v, 'f', -1, 64)
			}
		}
		if origin {
			buf = appendOrigin(append(buf, ','), s, i)
		}
		buf = append(buf, '\n')
		if _, err := bw.Write(buf); err != nil {
			return err
		}
		buf = buf[:0]
	}
	if _, err := bw.Write(buf); err != nil {
		return err
	}
	return bw.Flush()
}
