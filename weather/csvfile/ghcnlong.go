package csvfile

import (
	"bytes"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

func ghcnLongLayout() Layout {
	return Layout{
		Name:  "ghcn-long",
		Title: "GHCN-Daily, a row per station, day and element",
		Doc: "The by-year and by-station files of NOAA's daily archive: station, date 20140101, element, value, measurement flag, " +
			"quality flag, source flag and time, with or without a header; or without the station, as date,attr,value and four flags. " +
			"TMAX, TMIN, PRCP, AWND and TSUN are read. A value with a quality flag is dropped; rain with flag T is a trace and with " +
			"flag P presumed zero; MDPR, a multi-day total, is reported and leaves its date without rain.",
		Units:      "fixed: tenths of °C, of mm and of m/s; TSUN in minutes",
		Missing:    "the row is absent, or -9999",
		WindHeight: "not stated; set wind_height, or pass --wind-height",
		Source:     ghcnSource,
		match:      func(h *lead, n int) bool { _, _, ok := ghcnLongHead(h.cells(n), n); return ok },
		read:       readGHCNLong,
	}
}

// ghcnPlaces are the positions of the cells; -1 means the file has none.
type ghcnPlaces struct{ station, date, element, value, mflag, qflag int }

// ghcnLongHead recognizes a header, or on line 1 a first row without a header.
func ghcnLongHead(cells []string, n int) (p ghcnPlaces, header, ok bool) {
	if len(cells) >= 7 && place(cells, "date") >= 0 && place(cells, "attr") >= 0 && place(cells, "value") >= 0 {
		v := place(cells, "value")
		return ghcnPlaces{-1, place(cells, "date"), place(cells, "attr"), v, v + 1, v + 2}, true, v+2 < len(cells)
	}
	if e := place(cells, "element"); e >= 0 && place(cells, "date") >= 0 {
		p = ghcnPlaces{max(place(cells, "id"), place(cells, "station")), place(cells, "date"), e,
			max(place(cells, "data_value"), place(cells, "value")), place(cells, "m_flag"), place(cells, "q_flag")}
		return p, true, p.station >= 0 && p.value >= 0 && p.mflag >= 0 && p.qflag >= 0
	}
	if n != 1 || len(cells) < 7 || len(cells) > 8 || len(cells[0]) != 11 || len(cells[2]) != 4 || cells[2] < "A" {
		return p, false, false
	}
	_, okDate := compactDate([]byte(cells[1]))
	_, okValue := number([]byte(cells[3]))
	return ghcnPlaces{0, 1, 2, 3, 4, 5}, false, okDate && okValue
}

func readGHCNLong(r *reading) error {
	line := r.skipTo(r.header)
	r.row, _ = split(r.row, line, ',')
	p, header, _ := ghcnLongHead(cellNames(r.row), r.header)
	r.assume("values are in tenths, as the layout defines; %s", ghcnDays)
	most := max(p.station, p.date, p.element, p.value, p.mflag, p.qflag)
	c := cell{r: r}
	cells := max(len(r.row), 8)
	for more := !header || r.fields(','); more; more = r.fields(',') {
		if len(r.row) <= most {
			r.squareUp(&wideTable{names: make([]string, most+1)})
			continue
		}
		if len(r.row) > cells {
			r.fault(diag.RowLength, r.scan.line, r.row[cells].col, "start a new line after each row", "the row has %d cells, of at most %d",
				len(r.row), cells)
			continue
		}
		var id []byte
		if p.station >= 0 {
			id = r.row[p.station].text
		}
		if r.at(id, nil) {
			r.ghcnRow(p, &c)
		}
	}
	return nil
}

func (r *reading) ghcnRow(p ghcnPlaces, c *cell) {
	date, ok := ghcnDate(r.row[p.date].text)
	if !ok {
		r.badDate([]int{p.date}, "20140630")
		return
	}
	r.dayRow(date)
	element, f := r.row[p.element].text, r.row[p.value]
	col, to, known := ghcnElement(element)
	multi := bytes.Equal(element, []byte("MDPR"))
	if !known && !multi {
		return
	}
	v, ok := number(f.text)
	if !ok {
		r.badNumber(f, string(element))
		return
	}
	if v == -9999 {
		return
	}
	c.date, c.line, c.text, c.row = date, r.scan.line, f.text, r.row
	if multi {
		r.cur.note(ghcnMultiDay, weather.Rain, hit{date, c.line, v, append([]byte("MDPR "), f.text...)})
		return
	}
	for _, k := range []int{p.mflag, p.qflag} {
		if flag := r.row[k]; isDigit(first(flag.text)) {
			r.fault(diag.DamagedFile, r.scan.line, flag.col, "write the value with a decimal point, or download the file again",
				"%q is in the place of a flag: the cells of the row have moved", clip(flag.text))
			return
		}
	}
	c.col, c.v, c.mark = col, to(v), weather.Observed
	ghcnFlags(c, first(r.row[p.mflag].text), first(r.row[p.qflag].text))
	r.cell(c, f.col)
}

// ghcnDate reads a date with or without hyphens.
func ghcnDate(b []byte) (cal.Date, bool) {
	if len(b) == 8 {
		return compactDate(b)
	}
	return isoDate(b)
}

// isDigit reports a digit. No measurement or quality flag of the archive is one.
func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// first returns the first byte, 0 if there is none.
func first(b []byte) byte {
	if len(b) == 0 {
		return 0
	}
	return b[0]
}
