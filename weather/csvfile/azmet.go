package csvfile

import (
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
)

const azmetSource = "AZMET daily files, read in real files; the anemometer height is inferred: wind at 3 m reproduces the network's " +
	"Penman-Monteith ETo within 0.03%"

var (
	azmetSwap = kind{weather.CodeSwappedEToColumn,
		"days in years when column heat_units_3413C, not eto_azmet, follows the Penman-Monteith ETo", "neither column read; ETo is eto_pen_mon",
		azmetSource}
	azmetBlind = kind{weather.CodeEToWithoutInputs,
		"days with published ETo but without the temperature, humidity, radiation or wind to compute it", "ETo dropped", azmetSource}
)

func azmetLayout() Layout {
	return Layout{
		Name:  "azmet",
		Title: "AZMET (Arizona), daily",
		Doc: "A header with the network's own names after date_year,date_doy,station_number or " +
			"meta_station_id,meta_station_name,datetime; or the first form without a header, 28 numbers per row. eto_pen_mon is read as " +
			"ETo. eto_azmet is an older method whose label is above degree days in many years; it is only compared.",
		Units:      "fixed: °C, %, kPa, MJ/m², mm, m/s",
		Missing:    "999 or NA",
		WindHeight: "3 m, inferred from the published ETo",
		Source:     azmetSource,
		match: func(h *lead, n int) bool {
			return h.has(n, "temp_air_maxC", "temp_air_minC") && (h.has(n, "date_year", "date_doy") || h.has(n, "datetime")) || n == 1 &&
				azmetBare(h.cells(n))
		},
		read: readAzmet,
	}
}

// azmetNames are the columns of the older files, which also exist without a header.
const azmetNames = "date_year,date_doy,station_number,temp_air_maxC,temp_air_minC,temp_air_meanC,relative_humidity_max," +
	"relative_humidity_min,relative_humidity_mean,vp_deficit_mean,sol_rad_total,precip_total_mm,temp_soil_10cm_maxC," +
	"temp_soil_10cm_minC,temp_soil_10cm_meanC,temp_soil_50cm_maxC,temp_soil_50cm_minC,temp_soil_50cm_meanC," +
	"wind_spd_mean_mps,wind_vector_magnitude,wind_vector_dir,wind_vector_dir_stand_dev,wind_spd_max_mps,eto_azmet," +
	"heat_units_3413C,eto_pen_mon,vp_actual_mean,dwpt_mean"

// azmetBare recognizes a first row of the older files without a header.
func azmetBare(cells []string) bool {
	if len(cells) != strings.Count(azmetNames, ",")+1 {
		return false
	}
	for _, c := range cells {
		if _, ok := number([]byte(c)); !ok {
			return false
		}
	}
	_, ok := yearAndDay([]byte(cells[0]), []byte(cells[1]))
	return ok && len(cells[0]) == 4
}

func readAzmet(r *reading) error {
	line := r.skipTo(r.header)
	r.row, _ = split(r.row, line, ',')
	w := &wideTable{source: azmetSource, names: cellNames(r.row)}
	if azmetBare(w.names) {
		w.held, w.names = true, strings.Split(azmetNames, ",")
		r.assume("columns in the order of the older files: the file has no header")
	}
	at := func(name string) int { return place(w.names, name) }
	if year, doy := at("date_year"), at("date_doy"); year >= 0 && doy >= 0 {
		w.dateAt, w.form = []int{year, doy}, "year and day of the year"
		w.date = func(row []field) (cal.Date, bool) { return yearAndDay(row[year].text, row[doy].text) }
	} else {
		day := at("datetime")
		w.dateAt, w.form = []int{day}, "2012-06-30"
		w.date = func(row []field) (cal.Date, bool) { return isoDate(row[day].text) }
	}
	if id, name := max(at("meta_station_id"), at("station_number")), at("meta_station_name"); id >= 0 {
		w.station = func(row []field) ([]byte, []byte) {
			if name < 0 {
				return row[id].text, nil
			}
			return row[id].text, row[name].text
		}
	}
	for _, q := range []struct {
		name string
		col  weather.Column
	}{
		{"temp_air_maxC", weather.Tmax}, {"temp_air_minC", weather.Tmin}, {"precip_total_mm", weather.Rain},
		{"relative_humidity_max", weather.RHmax},
		{"relative_humidity_min", weather.RHmin}, {"relative_humidity_mean", weather.RHmean}, {"dwpt_mean", weather.Tdew},
		{"vp_actual_mean", weather.Ea},
		{"sol_rad_total", weather.Rs}, {"wind_spd_mean_mps", weather.Wind}, {"eto_pen_mon", weather.ETo},
	} {
		if k := at(q.name); k >= 0 {
			w.binds = append(w.binds, bind{at: k, col: q.col, codes: []float64{999}})
		}
	}
	r.proto.WindHeightM = 3
	r.assume("wind at 3 m: inferred from the network's own ETo, which is 3%% lower than with wind at 2 m")
	r.assume("days run from midnight to midnight of Mountain Standard Time all year; common practice, no source")
	r.azmetChecks(w)
	r.wide(w)
	return nil
}

// azmetChecks compares the two ETo columns of each row. After the last row it
// drops ETo published without inputs.
func (r *reading) azmetChecks(w *wideTable) {
	old, heat, pm := place(w.names, "eto_azmet"), place(w.names, "heat_units_3413C"), place(w.names, "eto_pen_mon")
	if old >= 0 {
		r.other("eto_azmet", "an older method, whose label is above degree days in many years")
	}
	both := old >= 0 && heat >= 0 && pm >= 0
	if old >= 0 && pm < 0 {
		r.assume("eto_azmet is not read: in many years that label is above degree days, and eto_pen_mon, needed to check it, is missing")
	}
	labels := map[*builder]*azmetLabels{}
	w.begin = func([]field) {
		labels[r.cur] = &azmetLabels{}
		r.cur.settle = func(b *builder) error {
			labels[b].note(b)
			delete(labels, b)
			dropBlindETo(b)
			return nil
		}
	}
	w.after = func(c *cell) {
		b := c.r.cur
		if both {
			_, blind := blindETo(b, int(c.date-b.base))
			labels[b].add(c.date, blind, c.row[old].text, c.row[heat].text, c.row[pm].text)
		}
	}
}

// blindETo names the input missing on day i to compute its ETo.
func blindETo(b *builder, i int) (weather.Column, bool) {
	for _, in := range []weather.Column{weather.Tmax, weather.Tmin, weather.RHmean, weather.Rs, weather.Wind} {
		if v := b.data[in]; v != nil && v[i] != v[i] {
			return in, true
		}
	}
	return 0, false
}

// dropBlindETo drops the ETo of days that lack its inputs.
func dropBlindETo(b *builder) {
	for i, eto := range b.data[weather.ETo] {
		if in, lacks := blindETo(b, i); lacks && eto == eto {
			b.note(azmetBlind, weather.ETo, hit{b.base + cal.Date(i), int(b.lines[i]), eto, fmt.Appendf(nil, "%.1f mm without %s", eto, in.Label())})
			b.set(weather.ETo, i, nan, weather.Missing)
		}
	}
}

// azmetLabels sums, year by year, how far the two doubtful columns are from the
// Penman-Monteith ETo.
type azmetLabels struct {
	years []azmetYear
}

type azmetYear struct {
	year, days int
	old, heat  float64 // sums of the distances [mm]
	worst      extreme
}

func (l *azmetLabels) add(d cal.Date, blind bool, old, heat, pm []byte) {
	a, ok1 := number(old)
	h, ok2 := number(heat)
	p, ok3 := number(pm)
	if !ok1 || !ok2 || !ok3 || a == 999 || h == 999 || p == 999 {
		return
	}
	year := d.Year()
	k := len(l.years) - 1
	for k >= 0 && l.years[k].year != year {
		k--
	}
	if k < 0 {
		l.years = append(l.years, azmetYear{year: year})
		k = len(l.years) - 1
	}
	y := &l.years[k]
	y.days++
	if blind {
		return // the Penman-Monteith ETo is not a reference on such a day
	}
	y.old += abs(a - p)
	y.heat += abs(h - p)
	if gap := abs(a - p); gap > y.worst.v {
		y.worst = extreme{gap, d}
	}
}

func (l *azmetLabels) note(b *builder) {
	t := &tally{kind: azmetSwap, column: weather.ETo}
	worst := extreme{}
	from, to := 0, 0
	for _, y := range l.years {
		if y.heat >= y.old {
			continue
		}
		if t.count == 0 {
			from = y.year
		}
		t.count += y.days
		from, to = min(from, y.year), max(to, y.year)
		if y.worst.v > worst.v {
			worst = y.worst
		}
	}
	if t.count > 0 {
		t.date, t.found = worst.date, fmt.Sprintf("eto_azmet is off by %.1f mm; years %d to %d", worst.v, from, to)
		b.tallies = append(b.tallies, t)
	}
}
