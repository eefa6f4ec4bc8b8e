package csvfile

import (
	"bytes"
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
)

const siloSource = "SILO (Queensland, Australia): responses as quoted in public code; columns not quoted there from memory, not verified"

var siloEstimate = kind{weather.CodeArchiveEstimate,
	"values estimated by the archive (source code not 0): from a neighbor, interpolated or a long-term mean", "kept", siloSource}

func siloLayout() Layout {
	return Layout{
		Name:  "silo",
		Title: "SILO climate data (Australia)",
		Doc: "CSV with a date column called YYYY-MM-DD, station or latitude and longitude, then daily_rain, max_temp, min_temp, vp, " +
			"radiation, et_short_crop, et_tall_crop, each followed by a column _source, and a column metadata whose first cells have " +
			"name, latitude and elevation; rows without a date have more metadata and are not days. Or the standard text form, " +
			"blank-separated, with the header Date Day Date2 T.Max Smx and a line of units below it. Rain is for the 24 h to 9 am of " +
			"its date. There is no wind.",
		Units:      "fixed: °C, mm, hPa, MJ/m²",
		Missing:    "an empty cell or -99.9; the archive fills gaps itself and says so in the source columns",
		WindHeight: "no wind in the file",
		Source:     siloSource,
		match: func(h *lead, n int) bool {
			return siloCSV(h.cells(n)) || siloStandard(h.text(n))
		},
		read: readSILO,
	}
}

func siloCSV(cells []string) bool {
	return place(cells, "YYYY-MM-DD") >= 0 && (place(cells, "daily_rain") >= 0 || place(cells, "max_temp") >= 0 ||
		place(cells, "min_temp") >= 0)
}

func siloStandard(line string) bool {
	if len(line) > 1000 {
		return false
	}
	f := strings.Fields(line)
	return len(f) > 5 && f[0] == "Date" && f[1] == "Day" && f[2] == "Date2" && f[3] == "T.Max"
}

// siloNames are the names of a column and its source in the two forms.
var siloNames = []struct {
	csv, text, source string
	col               weather.Column
	to                func(float64) float64
}{
	{"max_temp", "T.Max", "Smx", weather.Tmax, nil},
	{"min_temp", "T.Min", "Smn", weather.Tmin, nil},
	{"daily_rain", "Rain", "Srn", weather.Rain, nil},
	{"vp", "VP", "Svp", weather.Ea, hectopascals},
	{"radiation", "Radn", "Ssl", weather.Rs, nil},
	{"et_short_crop", "FAO56", "", weather.ETo, nil},
	{"et_tall_crop", "ASCEPM", "", weather.ETr, nil},
}

func readSILO(r *reading) error {
	start := newLead(r.scan)
	standard := siloStandard(start.text(r.header))
	var w *wideTable
	if standard {
		w = r.table(' ', siloSource)
		w.dated(0, "20010131", compactDate)
		if strings.HasPrefix(start.text(r.header+1), "(") {
			r.skipTo(r.header + 1) // the line of units
		}
	} else {
		w = r.table(',', siloSource)
		date := w.at("YYYY-MM-DD")
		w.dated(date, "2001-01-31", isoDate)
		r.siloCSV(w, date)
	}
	for _, q := range siloNames {
		name, source := q.csv, w.at(q.csv+"_source")
		if standard {
			name, source = q.text, w.at(q.source)
		}
		check := func(c *cell) {
			if source >= 0 && len(c.row[source].text) > 0 {
				if _, ok := natural(c.row[source].text); !ok {
					r.fault(diag.DamagedFile, c.line, c.row[source].col, "compare the row with those above", "%q is in the place of a source code: "+
						"the cells of the row have moved", clip(c.row[source].text))
				}
			}
			if source >= 0 && c.v == c.v && !bytes.Equal(c.row[source].text, []byte("0")) && len(c.row[source].text) > 0 {
				c.text = append([]byte("source code "), c.row[source].text...)
				c.note(siloEstimate, 0)
			}
		}
		w.bind(name, bind{col: q.col, to: q.to, codes: []float64{-99.9, -999}, check: check})
	}
	r.assume("units °C, mm, hPa and MJ/m², as the layout defines; the file has no wind")
	r.assume("rain is for the 24 h to 9 am of its date")
	r.wide(w)
	return nil
}

// siloCSV handles what only the CSV form has: stations in the rows, and their
// facts in a column called metadata.
func (r *reading) siloCSV(w *wideTable, date int) {
	station, lat, lon, meta := w.at("station"), w.at("latitude"), w.at("longitude"), w.at("metadata")
	var id []byte
	w.station = func(row []field) ([]byte, []byte) {
		if station >= 0 {
			return row[station].text, nil
		}
		if lat >= 0 && lon >= 0 {
			id = append(append(append(id[:0], row[lat].text...), ' '), row[lon].text...)
		}
		return id, nil
	}
	learn := func(row []field) {
		if r.cur == nil || meta < 0 || len(row[meta].text) == 0 {
			return
		}
		key, value, ok := strings.Cut(string(row[meta].text), "=")
		if !ok {
			return
		}
		value = strings.ToValidUTF8(strings.TrimSpace(value), "?")
		first, _, _ := strings.Cut(value, " ")
		v, good := number([]byte(first))
		switch strings.ToLower(strings.TrimSpace(key)) {
		case "name":
			r.cur.name = value
		case "latitude":
			if good {
				r.cur.st.LatDeg = v
			}
		case "longitude":
			if good {
				r.cur.st.LonDeg = v
			}
		case "elevation":
			if good {
				r.cur.st.ElevM = v
			}
		}
	}
	w.begin = func(row []field) {
		stationFact(&r.cur.st.LatDeg, row, lat)
		stationFact(&r.cur.st.LonDeg, row, lon)
	}
	w.after = func(c *cell) { learn(c.row) }
	w.pass = func(row []field) bool {
		if len(row[date].text) > 0 {
			return false
		}
		learn(row)
		return true
	}
}
