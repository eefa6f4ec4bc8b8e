package csvfile

import (
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
)

const tmy3Source = "NREL, TMY3: a real file read; missing-value codes as seen there and at another station"

var tmy3Rain = kind{weather.CodeRainUnusable, "hourly rain (Lprecip depth) that is impossible in mm", "column omitted", tmy3Source}

func tmy3Layout() Layout {
	return Layout{
		Name:  "tmy3",
		Title: "TMY3, hourly typical year",
		Doc: "A line with the station, its state, time zone, latitude, longitude and elevation, then the header Date " +
			"(MM/DD/YYYY),Time (HH:MM) and 8,760 rows, hours ending from 01:00 to 24:00. Each month is from a different year: the days " +
			"are combined into one common year. Tmax and Tmin are the extremes of the 24 hours, Rs the sum of GHI, humidity, dew point " +
			"and wind are means. Rain is omitted if hours are missing or its sum is impossible: in many files the column is wrong.",
		Units:      "in the header: °C, %, W/m² over the hour, m/s, mm; rain that is really in tenths of a mm is read with the units tenths",
		Missing:    "-9900",
		WindHeight: "not stated: 10 m assumed, the standard height of weather-service anemometers",
		Source:     tmy3Source,
		asksUnits:  true,
		match: func(h *lead, n int) bool {
			return h.starts(n, "Date (MM/DD/YYYY)", "Time (HH:MM)") && h.has(n, "Dry-bulb (C)")
		},
		read: readTMY3,
	}
}

func readTMY3(r *reading) error {
	if r.header > 1 {
		r.row, _ = split(r.row, r.skipTo(r.header-1), ',')
		if len(r.row) >= 7 {
			r.proto.ID = string(r.row[0].text)
			r.proto.Name = strings.ToValidUTF8(string(r.row[1].text), "?")
			stationFact(&r.proto.UTCOffsetH, r.row, 3)
			stationFact(&r.proto.LatDeg, r.row, 4)
			stationFact(&r.proto.LonDeg, r.row, 5)
			stationFact(&r.proto.ElevM, r.row, 6)
		}
	}
	w := r.table(',', tmy3Source)
	places := [6]int{w.at("Dry-bulb (C)"), w.at("Dew-point (C)"), w.at("RHum (%)"), w.at("GHI (W/m^2)"), w.at("Wspd (m/s)"),
		w.at("Lprecip depth (mm)")}
	w.dateAt = []int{0}
	hs := r.newHours()
	if hs == nil {
		return nil
	}
	for r.fields(',') {
		if len(r.row) != len(w.names) && !r.squareUp(w) {
			continue
		}
		date, ok := monthFirst(r.row[0].text)
		if !ok {
			r.badDate(w.dateAt, "01/31/1988")
			continue
		}
		t := r.row[1].text
		n, ok := 0, len(t) == 5 && t[2] == ':'
		if ok {
			n, ok = natural(t[:2])
		}
		if !ok {
			r.fault(diag.NotATime, r.scan.line, r.row[1].col, "write the hour by its end, 01:00 to 24:00", "%q is not a valid time", clip(t))
			continue
		}
		var v [6]float64
		for k, at := range places {
			v[k] = nan
			if at >= 0 {
				v[k] = hs.value(k, date, at, w.names[at], func(x float64) bool { return x <= -9900 })
			}
		}
		hs.add(date, n, v)
	}
	hs.book(tmy3Rain)
	return nil
}
