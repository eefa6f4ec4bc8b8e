package csvfile

import (
	"bytes"
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
)

const knmiSource = "KNMI, preamble of the daily file (read in a real file)"

var (
	knmiTrace = traceRain.from(knmiSource)
	knmiSun   = kind{weather.CodeTraceSun, "sunshine below 0.05 h, written as -1", "counted as 0", knmiSource}
)

func knmiLayout() Layout {
	return Layout{
		Name:  "knmi",
		Title: "KNMI daily values (Netherlands)",
		Doc: "A preamble in Dutch and English that explains every column, then a header that begins with STN,YYYYMMDD (with or " +
			"without a leading #) and rows with commas and blanks. TX, TN, RH (rain), Q (radiation), SQ (sunshine), FG (mean wind), UX, " +
			"UN and UG (humidity) are read. EV24, Makkink evaporation, differs from FAO-56 reference ET (about 17% lower at De Bilt) " +
			"and is not read as ETo. Rain -1 is a trace, sunshine -1 less than 0.05 h.",
		Units:      "fixed, stated in the preamble: tenths of °C, mm, h and m/s; J/cm²; %",
		Missing:    "an empty cell",
		WindHeight: "10 m, KNMI's standard height (from memory, not verified)",
		Source:     knmiSource,
		match: func(h *lead, n int) bool {
			cells := h.cells(n)
			return len(cells) > 3 && knmiName(cells[0]) == "STN" && strings.EqualFold(cells[1], "YYYYMMDD")
		},
		read: readKNMI,
	}
}

func knmiName(cell string) string { return strings.TrimSpace(strings.TrimPrefix(cell, "#")) }

func readKNMI(r *reading) error {
	places := map[string]knmiPlace{}
	for r.scan.line < r.header-1 {
		line, ok := r.line()
		if !ok {
			break
		}
		if id, p, ok := knmiStation(line); ok && len(places) < 1000 {
			places[id] = p
		}
	}
	w := r.table(',', knmiSource)
	if w.at("HH") >= 0 {
		return r.fatal(diag.WrongReport, r.header, 0, "download the daily values (etmgeg), not the hourly ones (uurgeg)",
			"the file has hourly values: column HH")
	}
	w.dated(1, "20120630", compactDate)
	w.station = func(row []field) ([]byte, []byte) { return row[0].text, nil }
	w.begin = func(row []field) {
		if p, ok := places[string(row[0].text)]; ok {
			r.cur.name, r.cur.st.LatDeg, r.cur.st.LonDeg, r.cur.st.ElevM = p.name, p.lat, p.lon, p.elev
		}
	}
	w.bind("TX", bind{col: weather.Tmax, to: tenths})
	w.bind("TN", bind{col: weather.Tmin, to: tenths})
	w.bind("RH", bind{col: weather.Rain, to: tenths, check: func(c *cell) {
		if c.v == -0.1 {
			c.v, c.mark = 0, weather.Trace
			c.note(knmiTrace, 0)
		}
	}})
	w.bind("UX", bind{col: weather.RHmax})
	w.bind("UN", bind{col: weather.RHmin})
	w.bind("UG", bind{col: weather.RHmean})
	w.bind("Q", bind{col: weather.Rs, to: joulesPerCM2})
	w.bind("SQ", bind{col: weather.Sun, to: tenths, check: func(c *cell) {
		if c.v == -0.1 {
			c.v = 0
			c.note(knmiSun, 0)
		}
	}})
	w.bind("FG", bind{col: weather.Wind, to: tenths})
	if len(w.binds) == 0 {
		return r.fatal(diag.MissingColumn, r.header, 0, "download TX, TN, RH, Q, FG, UX and UN",
			"the file has none of the columns that can be read")
	}
	if w.at("EV24") >= 0 {
		r.other("EV24", "it is Makkink evaporation, not FAO-56 reference ET")
		r.assume("EV24 is Makkink evaporation, not FAO-56 reference ET: not read as ETo")
	}
	r.proto.WindHeightM = 10
	r.assume("units in tenths, radiation in J/cm², as the preamble states; anemometer height 10 m, KNMI's standard, not in the file")
	r.wide(w)
	return nil
}

type knmiPlace struct {
	name           string
	lat, lon, elev float64
}

// knmiStation reads a preamble line "# 260: 5.180 52.100 1.90 De Bilt" of newer
// files: longitude, latitude, height and name.
func knmiStation(line []byte) (id string, p knmiPlace, ok bool) {
	if len(line) < 2 || line[0] != '#' {
		return "", p, false
	}
	row := splitBlank(nil, line[1:])
	if len(row) < 5 {
		return "", p, false
	}
	idText := bytes.TrimSuffix(row[0].text, []byte(":"))
	_, ok0 := natural(idText)
	var ok1, ok2, ok3 bool
	p.lon, ok1 = number(row[1].text)
	p.lat, ok2 = number(row[2].text)
	p.elev, ok3 = number(row[3].text)
	var words []string
	for _, f := range row[4:] {
		words = append(words, string(f.text))
	}
	p.name = strings.ToValidUTF8(strings.Join(words, " "), "?")
	return string(idText), p, ok0 && ok1 && ok2 && ok3
}
