package csvfile

import (
	"strings"

	"loamledger/weather"
)

const uscrnSource = "NOAA NCEI, US Climate Reference Network, daily01 product: header and rows read in a real file"

// uscrnNames are the columns of the daily product in their fixed order.
const uscrnNames = "WBANNO LST_DATE CRX_VN LONGITUDE LATITUDE T_DAILY_MAX T_DAILY_MIN T_DAILY_MEAN T_DAILY_AVG P_DAILY_CALC " +
	"SOLARAD_DAILY SUR_TEMP_DAILY_TYPE " +
	"SUR_TEMP_DAILY_MAX SUR_TEMP_DAILY_MIN SUR_TEMP_DAILY_AVG RH_DAILY_MAX RH_DAILY_MIN RH_DAILY_AVG SOIL_MOISTURE_5_DAILY " +
	"SOIL_MOISTURE_10_DAILY " +
	"SOIL_MOISTURE_20_DAILY SOIL_MOISTURE_50_DAILY SOIL_MOISTURE_100_DAILY SOIL_TEMP_5_DAILY SOIL_TEMP_10_DAILY SOIL_TEMP_20_DAILY " +
	"SOIL_TEMP_50_DAILY SOIL_TEMP_100_DAILY"

func uscrnLayout() Layout {
	return Layout{
		Name:  "uscrn",
		Title: "US Climate Reference Network, daily",
		Doc: "As published: 28 blank-separated columns without a header, WBANNO and LST_DATE (20140912) first. If saved with the " +
			"header WBANNO,LST_DATE,CRX_VN,... it is read by name, separated by commas or blanks. T_DAILY_MAX, T_DAILY_MIN, " +
			"P_DAILY_CALC, SOLARAD_DAILY and RH_DAILY_MAX, _MIN and _AVG are read. Humidity begins about 2009. The daily product has no " +
			"wind. The day is midnight to midnight local standard time.",
		Units:      "fixed: °C, mm, MJ/m², %",
		Missing:    "-9999 (soil columns, which are not read, also use -99)",
		WindHeight: "no wind in the file",
		Source:     uscrnSource,
		match: func(h *lead, n int) bool {
			if h.has(n, "WBANNO", "LST_DATE", "T_DAILY_MAX") {
				return true
			}
			_, ok := uscrnBlank(h.text(n))
			return ok
		},
		read: readUSCRN,
	}
}

// uscrnBlank recognizes the blank-separated forms: a header, or a first row.
func uscrnBlank(line string) (header, ok bool) {
	if len(line) > 1000 {
		return false, false
	}
	row := splitBlank(nil, []byte(line))
	if len(row) > 5 && string(row[0].text) == "WBANNO" && string(row[1].text) == "LST_DATE" {
		return true, true
	}
	if len(row) != 28 || len(row[11].text) != 1 || len(row[0].text) > 6 {
		return false, false
	}
	_, ok1 := natural(row[0].text)
	_, ok2 := compactDate(row[1].text)
	_, ok3 := number(row[5].text)
	return false, ok1 && ok2 && ok3
}

func readUSCRN(r *reading) error {
	// The header, or the first row without one, is inspected before it is consumed.
	first := newLead(r.scan).text(r.header)
	header, blanks := uscrnBlank(first)
	var w *wideTable
	switch {
	case blanks && !header:
		if r.header > 1 {
			r.skipTo(r.header - 1)
		}
		w = &wideTable{sep: ' ', names: strings.Fields(uscrnNames), source: uscrnSource}
	case blanks:
		w = r.table(' ', uscrnSource)
	default:
		w = r.table(',', uscrnSource)
	}
	w.dated(w.at("LST_DATE"), "20140912", ghcnDate)
	id := w.at("WBANNO")
	w.station = func(row []field) ([]byte, []byte) { return row[id].text, nil }
	lat, lon := w.at("LATITUDE"), w.at("LONGITUDE")
	w.begin = func(row []field) {
		stationFact(&r.cur.st.LatDeg, row, lat)
		stationFact(&r.cur.st.LonDeg, row, lon)
	}
	codes := []float64{-9999, -99}
	w.bind("T_DAILY_MAX", bind{col: weather.Tmax, codes: codes})
	w.bind("T_DAILY_MIN", bind{col: weather.Tmin, codes: codes})
	w.bind("P_DAILY_CALC", bind{col: weather.Rain, codes: codes})
	w.bind("SOLARAD_DAILY", bind{col: weather.Rs, codes: codes})
	w.bind("RH_DAILY_MAX", bind{col: weather.RHmax, codes: codes})
	w.bind("RH_DAILY_MIN", bind{col: weather.RHmin, codes: codes})
	w.bind("RH_DAILY_AVG", bind{col: weather.RHmean, codes: codes})
	r.assume("units °C, mm, MJ/m² and %%, as the layout defines; the day follows local standard time")
	r.assume("the file has no wind and no elevation")
	r.wide(w)
	return nil
}
