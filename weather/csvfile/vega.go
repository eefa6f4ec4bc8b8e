package csvfile

import (
	"bytes"

	"loamledger/weather"
	"loamledger/weather/cal"
)

const vegaSource = "a teaching data set of daily weather in two forms, read; units by comparison with the archive's own file for the " +
	"same station"

func vegaLayout() Layout {
	return Layout{
		Name:  "vega",
		Title: "Beginners' daily table",
		Doc: "date,precipitation,temp_max,temp_min,wind and possibly weather, as in teaching data sets and many homemade files; " +
			"dates as 2012-01-31 or 2012/01/31. A column location or station allows several stations. The column weather is a word " +
			"added by the file's author, not an observation, and is ignored.",
		Units:      "not in the file: °C, mm and m/s unless the values contradict that; or us, si or tenths if given",
		Missing:    "an empty cell",
		WindHeight: "not stated; set wind_height, or pass --wind-height",
		Source:     vegaSource,
		asksUnits:  true,
		match:      func(h *lead, n int) bool { return h.has(n, "date", "precipitation", "temp_max", "temp_min") },
		read:       readVega,
	}
}

func readVega(r *reading) error {
	w := r.table(',', vegaSource)
	w.dated(w.at("date"), "2012-01-31 or 2012/01/31", func(b []byte) (cal.Date, bool) {
		if d, ok := isoDate(b); ok {
			return d, true
		}
		return compactDate(b)
	})
	if at := max(w.at("location"), w.at("station")); at >= 0 {
		w.station = func(row []field) ([]byte, []byte) { return row[at].text, nil }
	}
	decimals := func(c *cell) {
		if c.v == c.v && bytes.IndexByte(c.text, '.') >= 0 {
			r.cur.decimals[c.col]++
		}
	}
	w.bind("temp_max", bind{col: weather.Tmax, check: decimals})
	w.bind("temp_min", bind{col: weather.Tmin, check: decimals})
	w.bind("precipitation", bind{col: weather.Rain, check: decimals})
	w.bind("wind", bind{col: weather.Wind, check: decimals})
	w.begin = func([]field) { r.cur.settle = func(b *builder) error { return r.settleUnits(b, unitsSI) } }
	if w.at("weather") >= 0 {
		r.assume("the column weather is a word derived from the other columns, not an observation: not read")
	}
	r.wide(w)
	return nil
}
