package csvfile

import (
	"bytes"
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

const powerSource = "NASA POWER daily CSV: preambles and rows read in real files; MJ of the agroclimatology community from " +
	"memory, not verified"

func nasaPowerLayout() Layout {
	return Layout{
		Name:  "nasa-power",
		Title: "NASA POWER, daily point data",
		Doc: "A preamble between -BEGIN HEADER- and -END HEADER- of any length, with latitude, longitude, the cell's elevation and " +
			"one line per parameter with its unit; then YEAR,MO,DY or YEAR,DOY and the parameters. T2M_MAX, T2M_MIN, RH2M, T2MDEW, " +
			"PRECTOTCORR (or PRECTOT), ALLSKY_SFC_SW_DWN and WS2M (or WS10M if that is missing) are read. The values are means over a " +
			"half-degree grid cell.",
		Units:      "in the parameter lines; without a preamble, radiation in kWh or MJ is inferred from its values or an error",
		Missing:    "the code stated in the preamble, usually -999",
		WindHeight: "2 m for WS2M and 10 m for WS10M, from their names",
		Source:     powerSource,
		match: func(h *lead, n int) bool {
			if !h.starts(n, "YEAR", "MO", "DY") && !h.starts(n, "YEAR", "DOY") {
				return false
			}
			for _, p := range powerParameters() {
				if h.has(n, p.name) {
					return true
				}
			}
			return false
		},
		read: readPower,
	}
}

type powerParameter struct {
	name  string
	col   weather.Column
	windM float64
}

// powerParameters are the parameters that are read, the better one first if two
// give the same column.
func powerParameters() []powerParameter {
	return []powerParameter{
		{"T2M_MAX", weather.Tmax, 0}, {"T2M_MIN", weather.Tmin, 0}, {"RH2M", weather.RHmean, 0}, {"T2MDEW", weather.Tdew, 0},
		{"PRECTOTCORR", weather.Rain, 0}, {"PRECTOT", weather.Rain, 0}, {"ALLSKY_SFC_SW_DWN", weather.Rs, 0},
		{"WS2M", weather.Wind, 2}, {"WS10M", weather.Wind, 10},
	}
}

func readPower(r *reading) error {
	units := map[string]string{}
	codes := []float64{-999}
	clock := ""
	for r.scan.line < r.header-1 {
		line, ok := r.line()
		if !ok {
			break
		}
		low := lowerASCII(line)
		switch {
		case bytes.Contains(low, []byte("latitude ")) && bytes.Contains(low, []byte("longitude ")):
			fact(&r.proto.LatDeg, line, "latitude")
			fact(&r.proto.LonDeg, line, "longitude")
		case bytes.HasPrefix(low, []byte("elevation")):
			fact(&r.proto.ElevM, line, "region")
		case bytes.Contains(low, []byte("missing source data")):
			if v, ok := numberAfter(line, "availability range"); ok {
				codes = append(codes, v)
			}
		case bytes.HasPrefix(low, []byte("dates")):
			if i := bytes.LastIndex(low, []byte(" in ")); i >= 0 {
				clock = strings.ToUpper(string(bytes.TrimSpace(low[i+4:])))
			}
		default:
			if name, rest, ok := strings.Cut(string(line), " "); ok {
				if _, unit := headed(strings.TrimSpace(rest)); unit != "" {
					units[name] = unit
				}
			}
		}
	}
	if clock == "" {
		for _, c := range []string{"LST", "UTC"} {
			if strings.Contains(strings.ToUpper(r.scan.name), "_"+c) {
				clock = c + " (from the file name)"
			}
		}
	}
	if clock == "" {
		clock = "an unstated time zone (LST or UTC)"
	}
	r.assume("days run from midnight to midnight of %s", clock)
	r.assume("values are means over a half-degree grid cell, not a station: rain is too even and mountain temperatures are off")
	w, err := r.powerTable(units, codes)
	if err != nil {
		return err
	}
	r.wide(w)
	return nil
}

func (r *reading) powerTable(units map[string]string, codes []float64) (*wideTable, error) {
	line := r.skipTo(r.header)
	row, _ := split(nil, line, ',')
	w := &wideTable{names: cellNames(row), source: powerSource}
	if place(w.names, "DOY") == 1 {
		w.dateAt, w.form = []int{0, 1}, "year and day of the year"
		w.date = func(row []field) (cal.Date, bool) { return yearAndDay(row[0].text, row[1].text) }
	} else {
		w.dateAt, w.form = []int{0, 1, 2}, "year, month and day"
		w.date = func(row []field) (cal.Date, bool) { return yearMonthDay(row[0].text, row[1].text, row[2].text) }
	}
	var taken [weather.Columns]string
	for _, p := range powerParameters() {
		at := place(w.names, p.name)
		if at < 0 {
			continue
		}
		if first := taken[p.col]; first != "" {
			r.assume("%s is read from %s, not from %s", p.col.Label(), first, p.name)
			continue
		}
		taken[p.col] = p.name
		b := bind{at: at, col: p.col, codes: codes}
		unit, stated := units[p.name]
		switch to, ok := toColumn(p.col, unit); {
		case stated && !ok:
			return nil, r.fatal(diag.UnknownUnit, r.header, row[at].col, "download the parameter in another unit",
				"%s has the unit %q, which is unknown for %s", p.name, unit, p.col.Label())
		case stated:
			b.to = to
		case p.col == weather.Rs:
			w.begin = func([]field) { r.cur.settle = r.settlePowerRadiation }
		default:
			r.assume("%s is in %s: the parameter's line is missing from the preamble", p.name, p.col.Unit())
		}
		if p.windM > 0 {
			r.proto.WindHeightM = p.windM
		}
		w.binds = append(w.binds, b)
	}
	return w, nil
}

// settlePowerRadiation distinguishes kWh from MJ without a preamble. The
// maximum at the top of the atmosphere is 45 MJ/m² or 12.6 kWh/m² a day.
func (r *reading) settlePowerRadiation(b *builder) error {
	all := b.sorted(weather.Rs)
	n := len(all)
	if n == 0 {
		return nil
	}
	_, _, high := bulk(all)
	switch {
	case high > 12.6:
		b.assumed = append(b.assumed, fmt.Sprintf("radiation in MJ/m², inferred from the values: the brightest days have %g, "+
			"impossible in kWh/m²", high))
	case n >= aSeasonDays:
		b.assumed = append(b.assumed, fmt.Sprintf("radiation in kWh/m², inferred from the values: the brightest 2%% of %d days, %g, would "+
			"be dark in MJ/m²", n, high))
		b.apply(weather.Rs, kilowattHours)
	default:
		return r.fatal(diag.UnitsUnclear, r.header, 0, "keep the preamble, whose parameter lines state the unit",
			"ALLSKY_SFC_SW_DWN could be in kWh/m² or MJ/m²")
	}
	b.oddCells()
	return nil
}

// yearAndDay and yearMonthDay make dates from cells that may be written 2000.0.
func yearAndDay(y, doy []byte) (cal.Date, bool) {
	yy, ok1 := whole(y)
	dd, ok2 := whole(doy)
	if !ok1 || !ok2 {
		return 0, false
	}
	return yearDay(yy, dd)
}

func yearMonthDay(y, m, d []byte) (cal.Date, bool) {
	yy, ok1 := whole(y)
	mm, ok2 := whole(m)
	dd, ok3 := whole(d)
	if !ok1 || !ok2 || !ok3 {
		return 0, false
	}
	return ymd(yy, mm, dd)
}
