package csvfile

import (
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

const siarSource = "SIAR (Spanish Ministry of Agriculture): three real files read"

var (
	siarLeapDay = kind{weather.CodeZeroEToDay366,
		"published ETo of exactly 0 on December 31 of a leap year, when SIAR records nothing: so on every such day since 2008", "value dropped",
		siarSource}
	siarZero = kind{weather.CodeZeroETo, "published ETo of exactly 0 on an ordinary day", "kept", siarSource}
)

func siarLayout() Layout {
	return Layout{
		Name:  "siar",
		Title: "SIAR daily values (Spain)",
		Doc: "IdProvincia,IdEstacion,Fecha, then the requested columns, in UTF-8 with or without a byte order mark or in Latin-1. " +
			"Fecha is 31/12/2016, checked against Año and Dia if present. Temp Max, Temp Mínima, Humedad Media (Max and Mínima if " +
			"present), Velviento, Radiación, Precipitación and EtPMon are read. An EtPMon of exactly 0 on day 366 is an artifact of the " +
			"archive and is dropped.",
		Units:      "in the header",
		Missing:    "an empty cell",
		WindHeight: "not in the file: 2 m, the network's mast height",
		Source:     siarSource,
		match:      func(h *lead, n int) bool { return h.starts(n, "IdProvincia", "IdEstacion", "Fecha") },
		read:       readSIAR,
	}
}

// asciiName reduces a header name to its ASCII letters in lower case, so that
// it is the same in UTF-8 and in Latin-1: "Temp Mínima" is "temp mnima".
func asciiName(name string) string {
	var b strings.Builder
	for _, c := range []byte(strings.ToLower(name)) {
		if c < 0x80 && c != '?' {
			b.WriteByte(c)
		}
	}
	return b.String()
}

func siarColumn(name string) (weather.Column, bool) {
	switch strings.TrimSpace(asciiName(name)) {
	case "temp max", "temp mxima", "temp maxima":
		return weather.Tmax, true
	case "temp min", "temp mnima", "temp minima":
		return weather.Tmin, true
	case "humedad max", "humedad mxima", "humedad maxima":
		return weather.RHmax, true
	case "humedad min", "humedad mnima", "humedad minima":
		return weather.RHmin, true
	case "humedad media":
		return weather.RHmean, true
	case "velviento":
		return weather.Wind, true
	case "radiacin", "radiacion":
		return weather.Rs, true
	case "precipitacin", "precipitacion":
		return weather.Rain, true
	case "etpmon":
		return weather.ETo, true
	}
	return 0, false
}

func readSIAR(r *reading) error {
	w := r.table(',', siarSource)
	yearAt, dayAt := -1, -1
	var seen [weather.Columns]bool
	for i, cell := range w.names {
		name, unit := headed(cell)
		switch asciiName(name) {
		case "ao", "ano", "anio":
			yearAt = i
		case "dia", "da":
			dayAt = i
		}
		col, ok := siarColumn(name)
		if !ok || seen[col] {
			continue
		}
		if col == weather.ETo && unit == "" {
			unit = "mm"
		}
		to, known := toColumn(col, strings.TrimPrefix(unit, "?"))
		if !known {
			r.fault(diag.UnknownUnit, r.header, 0, "download it in the units ºC, %, m/s, MJ/m2 and mm, or describe the layout in a layout file",
				"column %[2]q has the unknown unit %[1]q", unit, cell)
			continue
		}
		seen[col] = true
		b := bind{at: i, col: col, to: to}
		if col == weather.ETo {
			b.check = siarETo
		}
		w.binds = append(w.binds, b)
	}
	if r.faults.Len() > 0 {
		return nil
	}
	if len(w.binds) == 0 {
		return r.fatal(diag.MissingColumn, r.header, 0, "export at least Temp Max, Temp Mínima and Precipitación",
			"the file has none of the columns that can be read")
	}
	w.dateAt, w.form = []int{2}, "31/12/2016, matching Año and Dia"
	w.date = func(row []field) (cal.Date, bool) {
		d, ok := dayFirst(row[2].text)
		if !ok {
			return 0, false
		}
		if yearAt >= 0 && dayAt >= 0 {
			y, ok1 := natural(row[yearAt].text)
			doy, ok2 := natural(row[dayAt].text)
			if ok1 && ok2 && (y != d.Year() || doy != d.YearDay()) {
				return 0, false
			}
		}
		return d, true
	}
	var id []byte
	w.station = func(row []field) ([]byte, []byte) {
		id = append(append(append(id[:0], row[0].text...), '-'), row[1].text...)
		return id, nil
	}
	r.proto.WindHeightM = 2
	r.assume("anemometer height 2 m, the network's mast height: not in the file")
	r.wide(w)
	return nil
}

func siarETo(c *cell) {
	if c.v != 0 {
		return
	}
	if c.date.YearDay() == 366 {
		c.drop(siarLeapDay, 0)
		return
	}
	c.note(siarZero, 0)
}
