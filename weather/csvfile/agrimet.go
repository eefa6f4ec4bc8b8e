package csvfile

import (
	"bytes"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

const agrimetSource = "US Bureau of Reclamation AgriMet: saved daily table read; the web response from memory, not verified"

func agrimetLayout() Layout {
	return Layout{
		Name:  "agrimet",
		Title: "AgriMet daily values (US Bureau of Reclamation)",
		Doc: "Either YEAR,MONTH,DAY and the parameter codes MN, MX, SR, YM, UA, TA, PP, WR, ETRS, ETOS as header, or the web " +
			"response: between lines BEGIN DATA and END DATA a header DateTime,ssss_mn,ssss_mx with the station before each code and " +
			"dates as 01/31/2015. ETOS is the short and ETRS the tall reference; both are in steps of 0.01 inch. ET, an older equation, " +
			"and PC, rain since October, are not read. Rain (PP) is in the file only if it was requested.",
		Units:      "fixed: °F, langleys a day, mph (UA) or miles a day (WR), inches",
		Missing:    "an empty cell, NO RECORD, MISSING or 998877",
		WindHeight: "not in the file: 3 m, with which FAO-56 ETo matches published ETo within 0.2% over one year (with 2 m: 2.9% off)",
		Source:     agrimetSource,
		match: func(h *lead, n int) bool {
			p := agrimetHead(h.cells(n))
			return p != nil
		},
		read: readAgrimet,
	}
}

// agrimetCodes are the parameters that are read.
var agrimetCodes = []struct {
	code string
	col  weather.Column
	to   func(float64) float64
}{
	{"mx", weather.Tmax, fahrenheit}, {"mn", weather.Tmin, fahrenheit}, {"pp", weather.Rain, inches}, {"ta", weather.RHmean, nil},
	{"ym", weather.Tdew, fahrenheit}, {"sr", weather.Rs, langleys}, {"ua", weather.Wind, mph}, {"wr", weather.Wind, milesPerDay},
	{"etos", weather.ETo, inches}, {"etrs", weather.ETr, inches},
}

// agrimetHead splits each header cell into station and code; the station is ""
// in the saved form. It returns nil if the cells are not a header of the
// layout.
func agrimetHead(cells []string) (parts [][2]string) {
	if len(cells) < 3 {
		return nil
	}
	web := strings.EqualFold(cells[0], "DateTime") || strings.EqualFold(cells[0], "DATE")
	if !web && (len(cells) < 6 || !strings.EqualFold(cells[0], "YEAR") || place(cells, "MONTH") < 0 || place(cells, "DAY") < 0) {
		return nil
	}
	known := 0
	for i, c := range cells {
		station, code := "", strings.ToLower(c)
		if web && i > 0 {
			k := strings.LastIndexAny(code, "_ ")
			if k < 1 {
				return nil
			}
			station, code = strings.TrimSpace(code[:k]), code[k+1:]
		}
		for _, a := range agrimetCodes {
			if code == a.code && (!web || i > 0) {
				known++
			}
		}
		parts = append(parts, [2]string{station, code})
	}
	if known < 2 {
		return nil
	}
	return parts
}

func readAgrimet(r *reading) error {
	w := r.table(',', agrimetSource)
	parts := agrimetHead(w.names)
	var stations []string
	for _, p := range parts {
		if p[0] != "" && place(stations, p[0]) < 0 {
			stations = append(stations, p[0])
		}
	}
	station := ""
	switch {
	case len(stations) == 1 && r.o.Station == "":
		station = stations[0]
	case len(stations) > 0:
		i := place(stations, r.o.Station)
		if i < 0 {
			return r.fatal(diag.SeveralStations, r.header, 0, "select one of them", "the file has stations %s side by side",
				strings.Join(stations, ", "))
		}
		station = stations[i]
	}
	if y := w.at("YEAR"); y >= 0 {
		w.datedYMD(y, w.at("MONTH"), w.at("DAY"))
	} else {
		w.dated(0, "01/31/2015", func(b []byte) (cal.Date, bool) {
			if d, ok := isoDate(b); ok {
				return d, true
			}
			return monthFirst(b)
		})
		id := []byte(station)
		w.station = func([]field) ([]byte, []byte) { return id, nil }
	}
	for _, p := range parts {
		if p[0] == station && p[1] == "et" {
			r.other("ET", "an older equation, not the ASCE short reference")
		}
	}
	taken := [weather.Columns]bool{}
	for _, a := range agrimetCodes {
		for i, p := range parts {
			if p[0] != station || p[1] != a.code || taken[a.col] {
				continue
			}
			taken[a.col] = true
			w.binds = append(w.binds, bind{at: i, col: a.col, to: a.to, codes: []float64{998877}, words: []string{"NO RECORD", "MISSING", "NO DATA"},
				check: agrimetWord})
		}
	}
	w.stop = func(row []field) bool { return len(row) == 1 && bytes.EqualFold(row[0].text, []byte("END DATA")) }
	r.proto.WindHeightM = 3
	r.assume("units °F, langleys, mph and inches, as the layout defines")
	r.assume("anemometer height 3 m: not in the file; over one year FAO-56 ETo matches published ETo within 0.2%% with 3 m and is 2.9%% " +
		"off with 2 m")
	if taken[weather.ETo] || taken[weather.ETr] {
		r.assume("published ETo and ETr are in steps of 0.01 inch (0.25 mm)")
	}
	r.wide(w)
	return nil
}

// agrimetWord counts cells that say in words that there is no value.
func agrimetWord(c *cell) {
	if c.v != c.v && len(c.text) > 0 && (c.text[0]|0x20 == 'n' || c.text[0]|0x20 == 'm') {
		c.note(missingCode.from(agrimetSource), 0)
	}
}
