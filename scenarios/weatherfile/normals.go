package weatherfile

import (
	"fmt"
	"io"
	"math"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
	"loamledger/weather"
	"loamledger/weather/diag"
	"loamledger/weather/generate"
	"loamledger/weather/quantity"
)

// NormalsExample is a file of monthly figures to start from, for a fictional
// place.
const NormalsExample = `# Monthly figures of a place, starting with January, as published in a yearbook. The key
# has the unit: rain_mm or rain_in, tmax_c or tmax_f, wind_m_s or wind_mph.
name: Juniper Flat
latitude: 38.9
elevation: 490 m
wind_height: 2 m
rain_mm:  [52, 46, 44, 32, 26, 12, 9, 11, 16, 28, 44, 56]
wet_days: [9, 8, 8, 6, 4.5, 2.2, 1.3, 1.6, 2.6, 4.5, 7.5, 9.5]  # days with at least wet_day of rain
wet_day:  0.25 mm
tmax_c:   [8.2, 10.8, 14.4, 18.6, 23.4, 28.8, 32.8, 32.0, 28.0, 21.4, 13.2, 8.4]
tmin_c:   [-2.8, -1.4, 0.8, 3.4, 7.4, 11.4, 14.6, 13.8, 10.0, 4.8, 0.2, -2.6]
# The rest is optional; loamledger lists substitutes.
rs_mj_m2: [8.6, 12.0, 16.6, 21.4, 25.2, 27.8, 28.0, 24.8, 20.0, 14.4, 9.6, 7.6]
wind_m_s: [1.8, 2.0, 2.3, 2.4, 2.2, 2.1, 1.9, 1.8, 1.7, 1.6, 1.6, 1.7]
tdew_c:   [-4.2, -3.2, -2.0, -0.4, 3.0, 5.6, 7.8, 7.4, 4.8, 1.6, -1.6, -3.8]
year_spread: 25%       # how much wet and dry years differ
`

// A monthly is a row of twelve figures: its key, its key in other units, and
// its valid range.
type monthly struct {
	key, other string
	to         func(float64) float64 // from the other unit
	low, high  float64
}

func inches(v float64) float64     { return v * quantity.InchMM }
func fahrenheit(v float64) float64 { return (v - 32) * 5 / 9 }
func fahrenheits(v float64) float64 {
	return v * 5 / 9 // a difference
}
func mph(v float64) float64 { return v * 0.44704 }

var (
	rainRow   = monthly{"rain_mm", "rain_in", inches, 0, 5000}
	wetRow    = monthly{key: "wet_days", high: 31}
	tmaxRow   = monthly{"tmax_c", "tmax_f", fahrenheit, -70, 60}
	tminRow   = monthly{"tmin_c", "tmin_f", fahrenheit, -80, 50}
	tmaxSDRow = monthly{"tmax_sd_c", "tmax_sd_f", fahrenheits, 0, 20}
	tminSDRow = monthly{"tmin_sd_c", "tmin_sd_f", fahrenheits, 0, 20}
	rsRow     = monthly{key: "rs_mj_m2", high: 45}
	windRow   = monthly{"wind_m_s", "wind_mph", mph, 0.05, 25}
	dewRow    = monthly{"tdew_c", "tdew_f", fahrenheit, -80, 40}
	shapeRow  = monthly{key: "gamma_shape", low: 0.2, high: 5}
)

var normalsKeys = append([]string{"name", "latitude", "longitude", "elevation", "wind_height", "wet_day", "wet_cooler", "wet_sun",
	"year_spread"}, rowKeys()...)

func rowKeys() (keys []string) {
	for _, m := range []monthly{rainRow, wetRow, tmaxRow, tminRow, tmaxSDRow, tminSDRow, rsRow, windRow, dewRow, shapeRow} {
		keys = append(keys, m.key)
		if m.other != "" {
			keys = append(keys, m.other)
		}
	}
	return keys
}

// ReadNormals reads monthly figures and the place they are from.
func ReadNormals(in io.Reader, name string) (generate.Normals, weather.Station, error) {
	r := &yamlfile.Reader{Name: name}
	st := weather.UnknownStation()
	var n generate.Normals
	root, err := r.Open(in, normalsKeys)
	if err != nil {
		return n, st, err
	}
	st.Name = r.Text(root, "name")
	put(&st.LatDeg, r.Number(root, "latitude", -90, 90))
	put(&st.LonDeg, r.Number(root, "longitude", -180, 180))
	put(&st.ElevM, r.Quantity(root, "elevation", quantity.Length))
	put(&st.WindHeightM, r.Quantity(root, "wind_height", quantity.Length))
	for _, must := range []struct {
		row monthly
		to  *[12]float64
	}{{rainRow, &n.RainMM}, {wetRow, &n.WetDays}, {tmaxRow, &n.TmaxC}, {tminRow, &n.TminC}} {
		if v := row(r, root, must.row); v != nil {
			*must.to = *v
		} else if root.Get(must.row.key) == nil && (must.row.other == "" || root.Get(must.row.other) == nil) {
			r.Faults.Add(diag.MissingKey, root.Pos, "add "+must.row.key+" with 12 figures, one for each month, starting with January",
				"%s is missing", must.row.key)
		}
	}
	n.TmaxSD, n.TminSD, n.RsMJ = row(r, root, tmaxSDRow), row(r, root, tminSDRow), row(r, root, rsRow)
	n.WindMS, n.DewC, n.Shape = row(r, root, windRow), row(r, root, dewRow), row(r, root, shapeRow)
	n.DewLag = generate.DefaultDewLag
	put(&n.WetMM, r.Quantity(root, "wet_day", quantity.Depth))
	put(&n.WetSun, r.Quantity(root, "wet_sun", quantity.Fraction))
	put(&n.YearSpread, r.Quantity(root, "year_spread", quantity.Fraction))
	if text := r.Text(root, "wet_cooler"); text != "" {
		v, ok := scenarios.DegreesApart(text)
		if !ok || v < 0 || v > 15 {
			r.Faults.Add(diag.OutOfRange, root.Get("wet_cooler").Pos, "write degrees with their unit, such as 3 C",
				"wet_cooler %q is not a difference of 0 to 15 °C", text)
		}
		n.WetCoolerC = v
	}
	return n, st, r.Faults.Err()
}

func put(to *float64, v *float64) {
	if v != nil {
		*to = *v
	}
}

// row reads twelve figures; nil if they are missing or have an error.
func row(r *yamlfile.Reader, root *scenarios.Node, m monthly) *[12]float64 {
	key, to := m.key, func(v float64) float64 { return v }
	n := root.Get(key)
	if o := root.Get(m.other); m.other != "" && o != nil {
		if n != nil {
			r.Faults.Add(diag.Conflict, o.Pos, "remove one", "%s and %s are both given", m.key, m.other)
			return nil
		}
		n, key, to = o, m.other, m.to
	}
	if n == nil {
		return nil
	}
	texts := r.Texts(root, key)
	if len(texts) != 12 {
		r.Faults.Add(diag.WrongShape, n.Pos, "write a list of 12 figures, one for each month, starting with January",
			"%s has %d figures, not twelve", key, len(texts))
		return nil
	}
	var out [12]float64
	for i, text := range texts {
		v, err := quantity.ParseNumber(strings.TrimSpace(text))
		if out[i] = to(v); err == nil && !(out[i] >= m.low-1e-9 && out[i] <= m.high+1e-9) {
			err = fmt.Errorf("%s is outside the range of any place", text)
		}
		if err != nil || math.IsNaN(v) {
			r.Faults.Add(diag.NotANumber, n.Items[i].Pos, "write a bare number; its unit is in the key", "%s of month %d: %v", key, i+1, err)
			return nil
		}
	}
	return &out
}
