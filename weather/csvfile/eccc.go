package csvfile

import (
	"bytes"
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
)

const ecccSource = "Environment and Climate Change Canada, daily bulk data: flags M, T and E read in a real file, the others from " +
	"memory of the legend"

var (
	ecccTrace     = traceRain.from(ecccSource)
	ecccAccum     = multiDayRain.from(ecccSource)
	ecccMissing   = kind{weather.CodeFlagMissing, "values that the archive flags as missing (M, N or Y)", "kept as missing", ecccSource}
	ecccEstimated = kind{weather.CodeFlagEstimated, "values that the archive estimated (flags E and B)", "kept", ecccSource}
	ecccUncertain = kind{weather.CodeRainUncertain, "rain recorded as 0 whose amount or occurrence is uncertain (flags C and L)",
		"value dropped", ecccSource}
	ecccUnknown = kind{weather.CodeFlagUnknown, "values with an unknown flag", "kept", ecccSource}
)

func ecccLayout() Layout {
	return Layout{
		Name:  "eccc",
		Title: "Environment and Climate Change Canada, daily",
		Doc: "The bulk download of a station and year: Longitude (x), Latitude (y), Station Name, Climate ID, Date/Time, Year, " +
			"Month, Day, then pairs of a column and its Flag; or the older download, quoted, with the station in lines above the " +
			"header. Max Temp, Min Temp and Total Precip (rain and melted snow) are read. Flag T means a trace, M missing, A and F a " +
			"multi-day total, C and L uncertain rain (dropped), E and B estimates (kept). Gusts are not mean wind and are ignored; " +
			"there is no humidity or radiation.",
		Units:      "in the header: °C, mm",
		Missing:    "an empty cell, with flag M",
		WindHeight: "no mean wind in the file",
		Source:     ecccSource,
		match: func(h *lead, n int) bool {
			if place(h.cells(n), "Date/Time") < 0 {
				return false
			}
			return ecccPlace(h.cells(n), "max temp") >= 0 || ecccPlace(h.cells(n), "total precip") >= 0
		},
		read: readECCC,
	}
}

// ecccPlace finds the cell whose name without its unit is the given one.
func ecccPlace(cells []string, name string) int {
	for i, c := range cells {
		if bare, unit := headed(c); unit != "" && strings.EqualFold(bare, name) {
			return i
		}
	}
	return -1
}

func readECCC(r *reading) error {
	var name, id string
	for r.scan.line < r.header-1 {
		line, ok := r.line()
		if !ok {
			break
		}
		row, bad := split(r.row, line, ',')
		if bad != nil || len(row) < 2 {
			continue
		}
		switch text := strings.ToValidUTF8(string(row[1].text), "?"); strings.TrimSuffix(string(row[0].text), ":") {
		case "Station Name":
			name = text
		case "Climate Identifier", "Climate ID":
			id = text
		case "Latitude":
			stationFact(&r.proto.LatDeg, row, 1)
		case "Longitude":
			stationFact(&r.proto.LonDeg, row, 1)
		case "Elevation":
			stationFact(&r.proto.ElevM, row, 1)
		}
	}
	w := r.table(',', ecccSource)
	w.dated(w.at("Date/Time"), "2022-01-31", isoDate)
	for _, q := range []struct {
		name string
		col  weather.Column
	}{{"max temp", weather.Tmax}, {"min temp", weather.Tmin}, {"total precip", weather.Rain}} {
		at := ecccPlace(w.names, q.name)
		if at < 0 {
			continue
		}
		_, unit := headed(w.names[at])
		to, ok := toColumn(q.col, strings.TrimPrefix(unit, "?"))
		if !ok {
			r.fault(diag.UnknownUnit, r.header, 0, "describe the layout, with its unit, in a layout file", "column %[2]q has the unknown unit %[1]q",
				unit, w.names[at])
			continue
		}
		flag := -1
		if at+1 < len(w.names) && strings.HasSuffix(strings.ToLower(w.names[at+1]), "flag") {
			flag = at + 1
		}
		w.binds = append(w.binds, bind{at: at, col: q.col, to: to, check: ecccCheck(flag)})
	}
	if r.faults.Len() > 0 {
		return nil
	}
	idAt, nameAt := w.at("Climate ID"), w.at("Station Name")
	w.station = func(row []field) ([]byte, []byte) {
		if idAt < 0 || nameAt < 0 {
			return []byte(id), []byte(name)
		}
		return row[idAt].text, row[nameAt].text
	}
	lat, lon := w.at("Latitude (y)"), w.at("Longitude (x)")
	w.begin = func(row []field) {
		stationFact(&r.cur.st.LatDeg, row, lat)
		stationFact(&r.cur.st.LonDeg, row, lon)
	}
	r.assume("rain is Total Precip: rain plus melted snow; gusts are not mean wind and are ignored")
	r.wide(w)
	return nil
}

// ecccCheck handles the flag in the cell after the value.
func ecccCheck(at int) func(*cell) {
	return func(c *cell) {
		if at < 0 {
			return
		}
		flag := bytes.TrimSpace(c.row[at].text)
		if len(flag) == 0 {
			return
		}
		rain := c.col == weather.Rain
		switch f := flag[0]; {
		case f == 'M' || f == 'N' || f == 'Y':
			c.drop(ecccMissing, 0)
		case c.v != c.v:
		case f == 'T' && rain && c.v == 0:
			c.note(ecccTrace, 0)
			c.mark = weather.Trace
		case (f == 'A' || f == 'F') && rain:
			c.drop(ecccAccum, c.v)
		case (f == 'C' || f == 'L') && rain:
			c.drop(ecccUncertain, c.v)
		case f == 'E' || f == 'B':
			c.note(ecccEstimated, 0)
		case f == 'S' || flag[0] >= 0x80: // more than one occurrence; a dagger marks preliminary data
		default:
			c.text = flag
			c.note(ecccUnknown, 0)
		}
	}
}
