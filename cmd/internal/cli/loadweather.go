package cli

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/weatherfile"
	"loamledger/sim"
	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
	"loamledger/weather/et0"
	"loamledger/weather/fill"
	"loamledger/weather/prepare"
)

// readWeather reads the files a scenario names and makes them ready.
func (l *loaded) readWeather(name string, sc *scenarios.Scenario) (*prepare.Ready, error) {
	w := &sc.Weather
	var errs []error
	read := func(f scenarios.File, o csvfile.Options) *weather.Record {
		rec, err := l.readRecord(beside(name, f.Name), f.Pos, o)
		if err != nil {
			errs = append(errs, err)
			return nil
		}
		return rec
	}
	main := csvfile.Options{Layout: w.Layout, Units: w.Units, Station: w.Station}
	if w.Declared != nil {
		var err error
		if main.Declared, err = l.readDeclared(beside(name, w.Declared.Name), w.Declared.Pos); err != nil {
			return nil, err
		}
	}
	if !math.IsNaN(w.WindHeightM) {
		main.WindHeightM = &w.WindHeightM
	}
	if !math.IsNaN(sc.Site.ElevM) {
		main.SiteElevM = &sc.Site.ElevM
	}
	var parts []*weather.Record
	for _, f := range w.Files {
		if rec := read(f, main); rec != nil {
			parts = append(parts, rec)
		}
	}
	var gauge *weather.Record
	var donors []*weather.Record
	if w.RainFile != nil {
		gauge = read(*w.RainFile, csvfile.Options{Units: w.Units})
	}
	for _, f := range w.FillFiles {
		if rec := read(f, csvfile.Options{Units: w.Units}); rec != nil {
			donors = append(donors, rec)
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	rec, err := prepare.Join(parts)
	if err != nil {
		return nil, err
	}
	note := func(format string, args ...any) {
		rec.Assumptions = append(rec.Assumptions, fmt.Sprintf(format, args...))
	}
	if far := weather.Between(siteStation(sc.Site), rec.Station); far != "" {
		note("seen from the site the station is%s", strings.TrimPrefix(far, ","))
	}
	warnOfPlace(sc, rec.Station)
	warnOfDates(sc, rec)
	placeStation(&rec.Station, sc.Site)
	for i, donor := range donors {
		if i == 0 {
			note("gaps are filled from the second station %s%s", stationName(donor), distance(rec.Station, donor.Station))
		} else {
			note("what that station lacks is taken from %s%s", stationName(donor), distance(rec.Station, donor.Station))
		}
	}
	if gauge != nil {
		note("rain is that of the gauge %s%s", stationName(gauge), distance(rec.Station, gauge.Station))
	}
	if outside := outsideYears(rec, w.ExcludeYears); len(outside) > 0 {
		return nil, &diag.Error{Code: diag.NoDaysLeft, Pos: w.Pos, Msg: fmt.Sprintf("%s are to be left out, and the record runs from %v to %v", joinYears(outside), rec.Start, rec.End()), Fix: "name years of the record"}
	}
	if len(w.ExcludeYears) > 0 {
		note("%s are replayed, so that the balance steps through them, and count in no ranking, sum or mean", joinYears(w.ExcludeYears))
	}
	o := prepare.Options{Dates: w.Dates, Gauge: gauge, Donors: donors, Fill: fillOptions(&w.WeatherRules), ET: etOptions(&w.WeatherRules), SelfTest: l.SelfTest}
	ready, err := prepare.Record(rec, o)
	if err == nil {
		warnOfFindings(sc, ready.Record)
	}
	return ready, err
}

// readDeclared reads the declaration of a layout, named at the given place.
func (in *inputs) readDeclared(name string, at diag.Pos) (*csvfile.Declared, error) {
	f, err := in.openAt(name, at)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return weatherfile.ReadDeclared(f, name)
}

func fillOptions(w *scenarios.WeatherRules) fill.Options {
	return fill.Options{MaxDaysInYear: w.MaxFillDays, MaxRunDays: w.MaxFillRun, Exclude: w.ExcludeYears}
}

func etOptions(w *scenarios.WeatherRules) et0.Options {
	o := et0.Options{TdewOffsetC: w.DewPointBelowC, DefaultWindMS: w.UsualWindMS, IgnoreSupplied: w.ComputeETo, CalibrateHargreaves: w.Calibrate}
	if w.Coast {
		o.KRs = et0.KRsCoast
	}
	return o
}

// outsideYears returns those of the years that the record does not touch.
func outsideYears(rec *weather.Record, years []int) []int {
	var out []int
	for _, y := range years {
		if y < rec.Start.Year() || y > rec.End().Year() {
			out = append(out, y)
		}
	}
	return out
}

// joinYears lists years as the subject of a sentence in the plural.
func joinYears(years []int) string {
	years = slices.Sorted(slices.Values(years))
	words := make([]string, len(years))
	for i, y := range years {
		words[i] = fmt.Sprint(y)
	}
	return "the days of " + strings.Join(words, ", ")
}

func stationName(rec *weather.Record) string {
	for _, name := range []string{rec.Station.Name, rec.Station.ID} {
		if name != "" {
			return name + " (" + rec.File + ")"
		}
	}
	return rec.File
}

// distance says how far b lies from a, or that nothing is known of it.
func distance(a, b weather.Station) string {
	if text := weather.Between(a, b); text != "" {
		return text
	}
	return "; its distance is not known, as a file states no coordinates"
}

// siteStation returns the site as a place to measure from.
func siteStation(site scenarios.Site) weather.Station {
	st := weather.UnknownStation()
	st.LatDeg, st.LonDeg, st.ElevM = site.LatDeg, site.LonDeg, site.ElevM
	return st
}

// placeStation puts the site's position where the station's file states none.
func placeStation(st *weather.Station, site scenarios.Site) {
	set := func(v *float64, to float64) {
		if math.IsNaN(*v) {
			*v = to
		}
	}
	set(&st.LatDeg, site.LatDeg)
	set(&st.LonDeg, site.LonDeg)
	set(&st.ElevM, site.ElevM)
}

// simWeather returns the columns that a replay needs.
func simWeather(r *prepare.Ready) sim.Weather {
	return sim.Weather{Start: r.Start, RainMM: r.Data[weather.Rain], EToMM: r.ET.EToMM, TminC: r.Data[weather.Tmin], WindMS: windAt2M(&r.Series), Filled: filledDays(r)}
}

// filledDays marks the days on which a value that drives the replay was put in
// or invented; nil where there is none.
func filledDays(r *prepare.Ready) []bool {
	var out []bool
	for _, c := range []weather.Column{weather.Tmax, weather.Tmin, weather.Rain, weather.ETo, weather.Rs, weather.Wind, weather.Tdew} {
		if !r.Has(c) {
			continue
		}
		for i, m := range r.Mark[c] {
			if m.Filled() {
				if out == nil {
					out = make([]bool, r.Days)
				}
				out[i] = true
			}
		}
	}
	return out
}

// windAt2M returns the wind at 2 m [m/s], NaN where unknown; nil where the
// record has none. A gauge of unknown height is taken to stand at 2 m, as it is
// for reference ET.
func windAt2M(s *weather.Series) []float64 {
	if !s.Has(weather.Wind) {
		return nil
	}
	factor := 1.0
	if h := s.Station.WindHeightM; h > 0 {
		factor = et0.WindFactor(h)
	}
	out := make([]float64, s.Days)
	for i, v := range s.Data[weather.Wind] {
		out[i] = v * factor
	}
	return out
}
