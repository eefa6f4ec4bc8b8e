package csvfile

import (
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
)

const meteostatSource = "Meteostat daily data: column list read in public programs, units from memory, not verified"

func meteostatLayout() Layout {
	return Layout{
		Name:  "meteostat",
		Title: "Meteostat daily",
		Doc: "The export with the header date,tavg,tmin,tmax,prcp,snow,wdir,wspd,wpgt,pres,tsun, with tmin before tmax, or the bulk " +
			"file with the same eleven columns without a header, detected by its cell count and by tmin, tavg and tmax in ascending " +
			"order. tmax, tmin, prcp, wspd and tsun are read. There is no humidity or radiation.",
		Units:      "not in the file: °C, mm, km/h and minutes, checked against possible values; or us (°F, inches, mph) if given",
		Missing:    "an empty cell",
		WindHeight: "not stated: 10 m assumed, the standard height of weather-service anemometers",
		Source:     meteostatSource,
		asksUnits:  true,
		match: func(h *lead, n int) bool {
			return h.has(n, "date", "tavg", "tmin", "tmax", "prcp", "wspd") || n == 1 && meteostatBulk(h)
		},
		read: readMeteostat,
	}
}

const meteostatNames = "date,tavg,tmin,tmax,prcp,snow,wdir,wspd,wpgt,pres,tsun"

// meteostatBulk recognizes the rows of a file without a header.
func meteostatBulk(h *lead) bool {
	ordered := 0
	for n := 1; n <= min(len(h.lines), 60); n++ {
		cells := h.cells(n)
		if len(cells) != 11 {
			return false
		}
		if _, ok := isoDate([]byte(cells[0])); !ok {
			return false
		}
		var v [4]float64
		full := true
		for i := 1; i < 11; i++ {
			x, ok := number([]byte(cells[i]))
			if !ok && cells[i] != "" {
				return false
			}
			if i < 4 {
				v[i] = x
				full = full && ok
			}
		}
		if !full {
			continue
		}
		if v[2] > v[1] || v[1] > v[3] {
			return false
		}
		if v[2] < v[1] && v[1] < v[3] {
			ordered++
		}
	}
	return ordered > 0
}

func readMeteostat(r *reading) error {
	var w *wideTable
	if first := newLead(r.scan); place(first.cells(r.header), "date") >= 0 {
		w = r.table(',', meteostatSource)
	} else {
		w = &wideTable{names: strings.Split(meteostatNames, ","), source: meteostatSource}
		r.assume("the file has no header; its eleven columns are read in the layout's order, which puts tmin, tavg and tmax in ascending order")
	}
	w.dated(w.at("date"), "2024-01-31", isoDate)
	wind := kmh
	switch r.o.Units {
	case unitsUS:
		wind = mph
	case unitsTenths:
		return r.fatal(diag.WrongUnits, r.header, 0, "use si or us", "this layout is never in tenths")
	}
	w.bind("tmax", bind{col: weather.Tmax})
	w.bind("tmin", bind{col: weather.Tmin})
	w.bind("prcp", bind{col: weather.Rain})
	w.bind("wspd", bind{col: weather.Wind, to: wind})
	w.bind("tsun", bind{col: weather.Sun, to: minutes})
	w.begin = func([]field) {
		r.cur.settle = func(b *builder) error {
			defer b.oddCells()
			return r.settlePlain(b, "°C, mm and km/h")
		}
	}
	r.proto.WindHeightM = 10
	r.assume("anemometer height 10 m: not in the file; the standard height of weather-service anemometers")
	r.wide(w)
	return nil
}
