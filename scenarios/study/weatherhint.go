package study

import (
	"fmt"
	"math"
	"path"
	"strconv"
	"strings"

	"loamledger/scenarios"
	"loamledger/weather/quantity"
)

// weatherCommand returns the command that shows the record as the scenario reads
// it, with a flag for each thing that the scenario states, so that it finds the same.
func (l *Study) weatherCommand() string {
	sc, w := l.Scenario, &l.Scenario.Weather
	beside := func(name string) string {
		if name = strings.ReplaceAll(name, `\`, "/"); path.IsAbs(name) || strings.Contains(name, ":/") {
			return name
		}
		return path.Join(path.Dir(strings.ReplaceAll(sc.File, `\`, "/")), name)
	}
	words := []string{"loamledger weather"}
	add := func(flag, value string) {
		if value == "" {
			return
		}
		if strings.ContainsAny(value, " \t'()&;*?$") {
			value = strconv.Quote(value)
		}
		if flag != "" {
			value = "--" + flag + " " + value
		}
		words = append(words, value)
	}
	set := func(flag string, on bool) {
		if on {
			words = append(words, "--"+flag)
		}
	}
	if len(w.Files) == 1 {
		add("", l.Weather.File)
	} else {
		for _, f := range w.Files {
			add("", beside(f.Name))
		}
	}
	number := func(v float64) string {
		if math.IsNaN(v) {
			return ""
		}
		return strconv.FormatFloat(v, 'g', 8, 64)
	}
	length := func(m float64) string {
		switch feet := m / 0.3048; {
		case math.IsNaN(m):
			return ""
		case sc.Units == quantity.US && math.Abs(feet-math.Round(feet)) < 1e-6:
			return number(math.Round(feet)) + " ft"
		}
		return number(m) + " m"
	}
	file := func(flag string, f *scenarios.File) {
		if f != nil {
			add(flag, beside(f.Name))
		}
	}
	add("layout", w.Layout)
	file("layout-file", w.Declared)
	add("units", w.Units)
	add("station", w.Station)
	add("latitude", number(sc.Site.LatDeg))
	add("elevation", length(sc.Site.ElevM))
	add("wind-height", length(w.WindHeightM))
	file("rain", w.RainFile)
	for i := range w.FillFiles {
		file("fill", &w.FillFiles[i])
	}
	if d, ok := w.Dates.First(); ok {
		add("from", d.String())
	}
	if d, ok := w.Dates.Last(); ok {
		add("to", d.String())
	}
	limit := func(flag string, days int) {
		if days != 0 {
			add(flag, strconv.Itoa(max(days, 0))) // below 0 is none
		}
	}
	limit("max-fill-days", w.MaxFillDays)
	limit("max-fill-run", w.MaxFillRun)
	for _, y := range w.ExcludeYears {
		add("exclude-year", strconv.Itoa(y))
	}
	if w.DewPointOffsetC != 0 {
		add("dew-point-offset", fmt.Sprintf("%g C", w.DewPointOffsetC))
	}
	if w.DefaultWindMS != 0 {
		add("default-wind", fmt.Sprintf("%g m/s", w.DefaultWindMS))
	}
	set("coastal", w.Coastal)
	set("calibrate", w.Calibrate)
	set("compute-eto", w.ComputeETo)
	return strings.Join(words, " ")
}
