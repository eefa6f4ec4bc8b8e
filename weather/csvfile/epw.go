package csvfile

import (
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

const epwSource = "EnergyPlus weather format: two real files read"

var epwRain = kind{weather.CodeRainUnusable, "hourly rain (liquid precipitation depth) that is impossible in mm", "column omitted",
	epwSource}

// epwCells are the positions of an hour's quantities in a row, with the lowest
// missing-value code of each.
var epwCells = [hourQuantities]struct {
	at      int
	name    string
	missing float64
}{
	hourTemperature: {6, "dry bulb", 99.9},
	hourDewPoint:    {7, "dew point", 99.9},
	hourHumidity:    {8, "relative humidity", 999},
	hourRadiation:   {13, "global horizontal radiation", 9999},
	hourWind:        {21, "wind speed", 999},
	hourRain:        {33, "liquid precipitation", 999},
}

func epwLayout() Layout {
	return Layout{
		Name:  "epw",
		Title: "EPW, hourly weather for buildings",
		Doc: "A line LOCATION with the site, its latitude, longitude, time zone and elevation, further lines that begin with " +
			"capitalized words (some may be absent), and rows without a header: year, month, day, hour ending 1 to 24, minute, flags " +
			"and the quantities in fixed positions. If the months are from different years, they are combined into one common year. " +
			"Tmax and Tmin are the extremes of the 24 hours, Rs the sum of global horizontal radiation, the others means. Rain is " +
			"nearly always missing or wrong, and is then omitted.",
		Units:      "fixed: °C, %, Wh/m², m/s, mm",
		Missing:    "99.9 for temperatures, 999 for humidity, wind and rain, 9999 or more for radiation; rows may end early",
		WindHeight: "not stated: 10 m assumed, the standard height of weather-service anemometers",
		Source:     epwSource,
		asksUnits:  true,
		match: func(h *lead, n int) bool {
			cells := h.cells(n)
			return n == 1 && len(cells) >= 10 && cells[0] == "LOCATION"
		},
		read: readEPW,
	}
}

func readEPW(r *reading) error {
	line := r.skipTo(r.header)
	r.row, _ = split(r.row, line, ',')
	r.proto.Name = strings.ToValidUTF8(string(r.row[1].text), "?")
	r.proto.ID = string(r.row[5].text)
	stationFact(&r.proto.LatDeg, r.row, 6)
	stationFact(&r.proto.LonDeg, r.row, 7)
	stationFact(&r.proto.UTCOffsetH, r.row, 8)
	stationFact(&r.proto.ElevM, r.row, 9)
	r.assume("source of the hourly values, according to the file: %s", strings.ToValidUTF8(string(r.row[4].text), "?"))
	hs := r.newHours()
	if hs == nil {
		return nil
	}
	for r.fields(',') {
		if len(r.row) < 4 || len(r.row[0].text) != 4 || r.row[0].text[0]-'0' > 9 {
			if len(hs.list) == 0 { // a header line
				if string(r.row[0].text) == "DATA PERIODS" && len(r.row) > 2 && string(r.row[2].text) != "1" {
					return r.fatal(diag.WrongReport, r.scan.line, r.row[2].col, "download one row per hour", "the file has %s rows per hour",
						clip(r.row[2].text))
				}
				continue
			}
			r.fault(diag.DamagedFile, r.scan.line, 1, "delete the line, or download the file again", "%q does not begin an hourly row",
				clip(r.row[0].text))
			continue
		}
		r.epwRow(hs)
	}
	hs.book(epwRain)
	return nil
}

func (r *reading) epwRow(hs *hours) {
	if len(r.row) < 22 {
		r.fault(diag.RowLength, r.scan.line, 1, "compare the row with its neighbors", "the row has %d cells; an hourly row has at least 22",
			len(r.row))
		return
	}
	var date cal.Date
	y, ok1 := natural(r.row[0].text)
	m, ok2 := natural(r.row[1].text)
	d, ok3 := natural(r.row[2].text)
	n, ok4 := natural(r.row[3].text)
	if ok1 && ok2 && ok3 {
		date, ok1 = ymd(y, m, d)
	}
	if !ok1 || !ok2 || !ok3 {
		r.badDate([]int{0, 1, 2}, "year, month and day in three cells")
		return
	}
	if !ok4 {
		r.badNumber(r.row[3], "hour")
		return
	}
	var v [hourQuantities]float64
	for k := range v {
		c := &epwCells[k]
		v[k] = nan
		if c.at < len(r.row) {
			v[k] = hs.value(k, date, c.at, c.name, func(x float64) bool { return x >= c.missing })
		}
	}
	hs.add(date, n, v)
}
