package csvfile

import (
	"cmp"
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/portable"
)

const gridmetSource = "gridMET point exports: a real file read; native units from memory, not verified"

var gridmetDark = kind{weather.CodeDarkDay, "radiation below 0.1 MJ/m², which is impossible at the latitudes of the grid (25 to 53°)",
	"value dropped", gridmetSource}

func gridmetLayout() Layout {
	return Layout{
		Name:  "gridmet",
		Title: "gridMET point export",
		Doc: "A header with tmmx and tmmn and any of pr, rmax, rmin, srad, vs, eto, etr, with or without units in parentheses, the " +
			"date in timestamp, date or yyyy-mm-dd, and possibly longitude and latitude, which distinguish points. Some exports are " +
			"native (K, W/m²), others converted (°C, MJ/m²): without a unit in the header, the range of the values decides and is " +
			"reported. Radiation near 0 is dropped. sph (kg/kg) is converted to vapor pressure if the elevation is known. vpd and the " +
			"fire indices are not read.",
		Units:      "in the header; or, for temperature and radiation, inferred from the values (K above 150; W/m² above 45); mm, %, m/s fixed",
		Missing:    "an empty cell, NaN, -9999 or 32767",
		WindHeight: "not in the file: 10 m, the grid's height",
		Source:     gridmetSource,
		asksUnits:  true,
		match: func(h *lead, n int) bool {
			w := gridmetNames(h.cells(n))
			return place(w, "tmmx") >= 0 && place(w, "tmmn") >= 0 && gridmetDate(w) >= 0
		},
		read: readGridmet,
	}
}

// gridmetNames returns the header without its units.
func gridmetNames(cells []string) []string {
	names := make([]string, len(cells))
	for i, c := range cells {
		names[i], _ = headed(c)
	}
	return names
}

func gridmetDate(names []string) int {
	return max(place(names, "timestamp"), place(names, "date"), place(names, "yyyy-mm-dd"))
}

func readGridmet(r *reading) error {
	w := r.table(',', gridmetSource)
	bare := gridmetNames(w.names)
	w.dated(gridmetDate(bare), "1980-01-31", ghcnDate)
	lat, lon := max(place(bare, "latitude"), place(bare, "lat")), max(place(bare, "longitude"), place(bare, "lon"))
	if lat >= 0 && lon >= 0 {
		var id []byte
		w.station = func(row []field) ([]byte, []byte) {
			id = append(append(append(id[:0], row[lat].text...), ' '), row[lon].text...)
			return id, nil
		}
	}
	stated := map[weather.Column]bool{}
	for _, q := range []struct {
		name string
		col  weather.Column
	}{
		{"tmmx", weather.Tmax}, {"tmmn", weather.Tmin}, {"pr", weather.Rain}, {"rmax", weather.RHmax}, {"rmin", weather.RHmin},
		{"srad", weather.Rs}, {"vs", weather.Wind}, {"eto", weather.ETo}, {"etr", weather.ETr},
	} {
		at := place(bare, q.name)
		if at < 0 {
			continue
		}
		b := bind{at: at, col: q.col, codes: []float64{-9999, 32767}}
		if _, unit := headed(w.names[at]); unit != "" {
			unit = strings.Replace(unit, " m-2", "/m2", 1)
			var ok bool
			if b.to, ok = toColumn(q.col, unit); !ok {
				r.fault(diag.UnknownUnit, r.header, 0, "describe the layout, with its unit, in a layout file",
					"column %[2]q has the unknown unit %[1]q", unit, w.names[at])
			}
			stated[q.col] = true
		}
		w.binds = append(w.binds, b)
	}
	if at := place(bare, "sph"); at >= 0 {
		r.specific(w, at)
	}
	if r.faults.Len() > 0 {
		return nil
	}
	w.begin = func(row []field) {
		stationFact(&r.cur.st.LatDeg, row, lat)
		stationFact(&r.cur.st.LonDeg, row, lon)
		r.cur.settle = func(b *builder) error {
			for _, c := range []weather.Column{weather.Tmax, weather.Tmin} {
				if stated[c] {
					continue
				}
				if err := r.settleKelvin(b, c); err != nil {
					return err
				}
			}
			if r.o.Units == unitsSI {
				b.assumed = append(b.assumed, "radiation is in MJ/m² as given")
			} else if !stated[weather.Rs] {
				if err := r.settleRadiation(b); err != nil {
					return err
				}
			}
			b.oddCells()
			b.dropDark()
			return nil
		}
	}
	r.proto.WindHeightM = 10
	r.assume("anemometer height 10 m, the grid's height: not in the file; rain and ET are in mm and wind in m/s, as the layout defines, " +
		"unless the header says otherwise")
	r.assume("the point is a 4 km grid cell, not a station; its elevation is not in the file")
	r.wide(w)
	return nil
}

// settleKelvin decides between °C and K by the range of the values.
func (r *reading) settleKelvin(b *builder, c weather.Column) error {
	low, high, n := b.extent(c)
	if n == 0 {
		return nil
	}
	from, to := low.v, high.v
	plausible := low.v > 150 && kelvin(high.v) <= hottestC || low.v >= coldestC && high.v <= hottestC
	if n >= manyValues && !plausible { // sorting only if a value is odd
		from, _, to = bulk(b.sorted(c))
	}
	switch {
	case from > 150 && kelvin(to) <= hottestC:
		b.assumed = append(b.assumed, fmt.Sprintf("%s is in K: %g to %g", strings.ToLower(c.Label()), low.v, high.v))
		b.apply(c, kelvin)
	case from >= coldestC && to <= hottestC:
		b.assumed = append(b.assumed, fmt.Sprintf("%s is in °C: %g to %g", strings.ToLower(c.Label()), low.v, high.v))
	default:
		return r.fatal(diag.UnitsUnclear, int(b.lines[low.date-b.base]), 0, "add the unit to the header, such as tmmx (K)",
			"%s ranges from %g on %v to %g on %v, which is neither °C nor K throughout", c.Label(), low.v, low.date, high.v, high.date)
	}
	return nil
}

func (b *builder) dropDark() {
	for i, v := range b.data[weather.Rs] {
		if v < 0.1 {
			b.note(gridmetDark, weather.Rs, hit{b.base + cal.Date(i), int(b.lines[i]), -v, fmt.Appendf(nil, "%.3g MJ/m²", v)})
			b.set(weather.Rs, i, nan, weather.Missing)
		}
	}
}

// specific reads column at as specific humidity, which requires the air
// pressure and so the elevation.
func (r *reading) specific(w *wideTable, at int) {
	elev := cmp.Or(r.o.ElevM, r.o.SiteElevM)
	if elev == nil {
		r.assume("column %s (specific humidity) is not read because the elevation is unknown; set the elevation to get vapor pressure",
			w.names[at])
		return
	}
	if _, unit := headed(w.names[at]); unit != "" && plainUnit(unit) != "kg/kg" && unit != "1" {
		r.fault(diag.UnknownUnit, r.header, 0, "describe the layout, with its unit, in a layout file", "the unit %q of column %q is not kg/kg",
			unit, w.names[at])
		return
	}
	p := pressure(*elev)
	w.binds = append(w.binds, bind{at: at, col: weather.Ea, codes: []float64{-9999, 32767},
		to: func(q float64) float64 { return vaporPressure(q, p) }})
	r.assume("vapor pressure from specific humidity at %.2f kPa, the air pressure at %.0f m", p, *elev)
}

// pressure returns the air pressure [kPa] at elevation elevM [m].
//
//	P = 101.3 ((293 − 0.0065 z) / 293)^5.26
//
// Source: FAO-56 eq. 7.
func pressure(elevM float64) float64 {
	return 101.3 * portable.Pow((293-float64(0.0065*elevM))/293, 5.26)
}

// vaporPressure returns ea [kPa] from specific humidity q [kg/kg] at air
// pressure p [kPa].
//
//	ea = q P / (0.622 + 0.378 q)
//
// It follows from q = 0.622 ea / (P − 0.378 ea), the definition with 0.622 for
// the ratio of the molar masses of water and dry air.
func vaporPressure(q, p float64) float64 { return q * p / (0.622 + float64(0.378*q)) }
