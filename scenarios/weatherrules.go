package scenarios

import (
	"strings"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// WeatherRules say how gaps in a record are filled and how its reference ET is
// computed where inputs are missing. The zero value uses the published defaults.
type WeatherRules struct {
	Declared     *File // layout file that describes an unknown layout; nil for none
	MaxFillDays  int   // maximum days to fill in a year; 0 is the default, below 0 none
	MaxFillRun   int   // maximum days to fill in a row; 0 is the default, below 0 none
	ExcludeYears []int // years excluded from rankings and means
	// DewPointOffsetC is how far below the day's lowest temperature the dew
	// point is assumed to be if humidity is unknown [°C].
	DewPointOffsetC float64
	Coastal         bool    // estimate radiation from temperatures as on a coast
	DefaultWindMS   float64 // wind at 2 m if it is unknown [m/s]; 0 is the default
	Calibrate       bool    // scale ET from temperatures alone to the record's full days
	ComputeETo      bool    // compute ETo even if the record has it
	// Accept lists the findings that do not stop a study.
	Accept []Accepted
}

// The limits of what a scenario may set.
const (
	maxFillDays  = 366
	maxDewPointC = 6
)

func (g group) weatherRules(w *WeatherRules) {
	if files := g.files("layout_file"); len(files) == 1 {
		w.Declared = &files[0]
	} else if len(files) > 1 {
		g.fault(diag.WrongShape, files[1].Pos, "name one file", "weather: layout_file names %d files", len(files))
	}
	w.Accept = g.accepted()
	w.MaxFillDays = g.fillDays("max_fill_days")
	w.MaxFillRun = g.fillDays("max_fill_run")
	if n := g.has("exclude_years"); n != nil {
		for _, item := range g.items(n) {
			y, ok := g.parse(item, want{key: "exclude_years", shape: shape{bare: true}, min: 1700, max: 2200, whole: true,
				fix: "write whole years, such as 2011"})
			if ok {
				w.ExcludeYears = append(w.ExcludeYears, int(y))
			}
		}
		g.givenList(g.path("exclude_years"), n, g.items(n))
	}
	if n := g.has("dew_point_offset"); n != nil {
		v, ok := DegreesApart(n.Text)
		switch {
		case isRange(n):
			g.refuse(n, want{key: "dew_point_offset"})
		case n.Kind != Scalar || !ok:
			g.fault(diag.WrongShape, n.Pos, "write degrees with a unit, such as 2 C in dry places or 0 C in humid ones",
				"%s: dew_point_offset is %s, not a number of degrees", g.where, n.what())
		case v < 0 || v > maxDewPointC:
			g.fault(diag.OutOfRange, n.Pos, "write 0 C in humid places and 2 C in dry ones", "%s: dew_point_offset %s is outside 0 to %d °C",
				g.where, n.Text, maxDewPointC)
		default:
			w.DewPointOffsetC = v
			g.given(g.path("dew_point_offset"), v, shape{dim: quantity.Temperature}, n)
		}
	}
	w.DefaultWindMS, _ = g.number(want{key: "default_wind", shape: shape{dim: quantity.Speed}, min: 0.1, max: 15, quiet: true})
	if !(w.DefaultWindMS > 0) {
		w.DefaultWindMS = 0
	}
	for _, f := range []struct {
		key string
		to  *bool
	}{{"coastal", &w.Coastal}, {"calibrate", &w.Calibrate}, {"compute_eto", &w.ComputeETo}} {
		if n := g.has(f.key); n != nil {
			*f.to, _ = g.flag(n, f.key)
			g.givenWord(g.path(f.key), n)
		}
	}
}

// fillDays reads a limit on filling. In [WeatherRules] a value below 0 means no
// filling, since 0 is the default.
func (g group) fillDays(key string) int {
	v, ok := g.number(want{key: key, shape: shape{dim: quantity.Days}, max: maxFillDays, whole: true, quiet: true})
	switch {
	case !ok:
		return 0
	case v == 0:
		return -1
	}
	return int(v)
}

// DegreesApart reads a temperature difference with its unit, such as "2 C"
// or "4 F", in °C.
func DegreesApart(text string) (float64, bool) {
	_, unit := quantity.Cut(text)
	v, err := quantity.Parse(text, quantity.Temperature)
	zero, errZero := quantity.Parse("0 "+strings.TrimSpace(unit), quantity.Temperature)
	return v - zero, err == nil && errZero == nil
}
