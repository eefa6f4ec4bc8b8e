package csvfile

import (
	"fmt"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

const openMeteoSource = "Open-Meteo CSV: metadata, header and NaN read in a real file; several locations and blocks from " +
	"memory, not verified"

var openMeteoWind = kind{weather.CodeWindIsMaximum, "days whose only wind value is the daily maximum, not the mean", "not read as wind",
	openMeteoSource}

func openMeteoLayout() Layout {
	return Layout{
		Name:  "open-meteo",
		Title: "Open-Meteo, daily",
		Doc: "A table of locations (latitude, longitude, elevation, UTC offset), an empty line, then time and the variables with " +
			"their units in parentheses; with several locations, a first column location_id. An hourly block in the same file is " +
			"ignored. Wind is read only from wind_speed_10m_mean: the default set has the maximum wind of the day.",
		Units:      "in the column names",
		Missing:    "NaN or an empty cell",
		WindHeight: "10 m, from the variable's name",
		Source:     openMeteoSource,
		match: func(h *lead, n int) bool {
			return h.starts(n, "latitude", "longitude", "elevation", "utc_offset_seconds") ||
				h.starts(n, "location_id", "latitude", "longitude", "elevation") ||
				openMeteoDaily(h.cells(n))
		},
		read: readOpenMeteo,
	}
}

// openMeteoColumn returns the column for a daily variable.
func openMeteoColumn(name string) (weather.Column, bool) {
	switch name {
	case "temperature_2m_max":
		return weather.Tmax, true
	case "temperature_2m_min":
		return weather.Tmin, true
	case "precipitation_sum":
		return weather.Rain, true
	case "relative_humidity_2m_max", "relativehumidity_2m_max":
		return weather.RHmax, true
	case "relative_humidity_2m_min", "relativehumidity_2m_min":
		return weather.RHmin, true
	case "relative_humidity_2m_mean", "relativehumidity_2m_mean":
		return weather.RHmean, true
	case "dew_point_2m_mean", "dewpoint_2m_mean":
		return weather.Tdew, true
	case "shortwave_radiation_sum":
		return weather.Rs, true
	case "sunshine_duration":
		return weather.Sun, true
	case "wind_speed_10m_mean", "windspeed_10m_mean":
		return weather.Wind, true
	case "et0_fao_evapotranspiration", "et0_fao_evapotranspiration_sum":
		return weather.ETo, true
	}
	return 0, false
}

// openMeteoDaily recognizes the header of the daily block.
func openMeteoDaily(cells []string) bool {
	if !openMeteoHeader(cells) {
		return false
	}
	for _, c := range cells {
		name, _ := headed(c)
		if _, ok := openMeteoColumn(name); ok {
			return true
		}
	}
	return false
}

// openMeteoHeader recognizes the header of any block.
func openMeteoHeader(cells []string) bool {
	return len(cells) > 1 && (cells[0] == "time" || cells[0] == "location_id" && cells[1] == "time")
}

type openMeteoPlace struct {
	lat, lon, elev float64
	offsetH        float64 // from UTC [h]
	clock          string
}

func readOpenMeteo(r *reading) error {
	places := map[string]openMeteoPlace{}
	meta := []string(nil)
	found := false
	for more := r.fields(','); more; {
		cells := cellNames(r.row)
		switch {
		case place(cells, "latitude") >= 0 && place(cells, "longitude") >= 0:
			meta = cells
		case openMeteoDaily(cells):
			found, meta = true, nil
			w, err := r.openMeteoTable(cells, places)
			if err != nil {
				return err
			}
			r.wide(w)
			more = openMeteoHeader(cellNames(r.row)) && w.stopped
			continue
		case openMeteoHeader(cells):
			meta = nil
		case meta != nil:
			id, p := openMeteoMeta(meta, r.row)
			places[id] = p
			if len(places) > 10_000 {
				return r.fatal(diag.TooLarge, r.scan.line, 1, "split the download", "too many locations: more than 10,000")
			}
		}
		more = r.fields(',')
	}
	if !found {
		return r.fatal(diag.DamagedFile, r.scan.line, 0, "download daily variables such as temperature_2m_max", "the file has no daily block")
	}
	return nil
}

// openMeteoMeta reads a row of the table of locations.
func openMeteoMeta(meta []string, row []field) (id string, p openMeteoPlace) {
	p = openMeteoPlace{nan, nan, nan, nan, ""}
	num := func(name string) float64 {
		if k := place(meta, name); k >= 0 && k < len(row) {
			if v, ok := number(row[k].text); ok {
				return v
			}
		}
		return nan
	}
	p.lat, p.lon, p.elev = num("latitude"), num("longitude"), num("elevation")
	if s := num("utc_offset_seconds"); s == s {
		p.offsetH = s / 3600
		p.clock = fmt.Sprintf("UTC%+g h", s/3600)
	}
	if k := place(meta, "location_id"); k >= 0 && k < len(row) {
		id = string(row[k].text)
	}
	return id, p
}

func (r *reading) openMeteoTable(cells []string, places map[string]openMeteoPlace) (*wideTable, error) {
	row := append([]field(nil), r.row...)
	w := &wideTable{names: cells, form: "2012-06-30", source: openMeteoSource}
	dateAt := place(cells, "time")
	w.dateAt = []int{dateAt}
	w.date = func(row []field) (cal.Date, bool) { return isoDate(row[dateAt].text) }
	w.stop = func(row []field) bool { return string(row[0].text) == "time" || string(row[0].text) == "location_id" }
	w.station = func(row []field) (id, name []byte) {
		if dateAt == 1 {
			return row[0].text, nil
		}
		return nil, nil
	}
	var taken [weather.Columns]bool
	maximum := -1
	for i, cell := range cells {
		name, unit := headed(cell)
		if name == "wind_speed_10m_max" || name == "windspeed_10m_max" {
			maximum = i
		}
		col, ok := openMeteoColumn(name)
		if !ok || taken[col] {
			continue
		}
		to, ok := toColumn(col, unit)
		if !ok {
			return nil, r.fatal(diag.UnknownUnit, r.scan.line, row[i].col, "download the variable in another unit", "%s has the unknown unit %q",
				name, unit)
		}
		taken[col] = true
		w.binds = append(w.binds, bind{at: i, col: col, to: to})
	}
	w.begin = func(row []field) {
		id := ""
		if dateAt == 1 {
			id = string(row[0].text)
		}
		b := r.cur
		p, ok := places[id]
		if ok {
			b.st.LatDeg, b.st.LonDeg, b.st.ElevM, b.st.UTCOffsetH = p.lat, p.lon, p.elev, p.offsetH
		}
		b.st.WindHeightM = 10
		if p.clock == "" {
			p.clock = "an unstated time zone"
		}
		b.assumed = append(b.assumed, "days run from midnight to midnight at "+p.clock+", the offset on the day of download, all year")
		b.assumed = append(b.assumed, "values are for a model grid point, not a station, and the last days may be a forecast")
	}
	if maximum >= 0 && !taken[weather.Wind] {
		w.after = func(c *cell) {
			if v, ok := number(c.row[maximum].text); ok {
				c.r.cur.note(openMeteoWind, weather.Wind, hit{c.date, c.line, v, c.row[maximum].text})
			}
		}
	}
	return w, nil
}
