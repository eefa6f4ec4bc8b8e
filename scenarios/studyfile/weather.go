package studyfile

import (
	"bufio"
	"errors"
	"math"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/scenarios/weatherfile"
	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
	"loamledger/weather/forecastfile"
)

// Records reads the weather files that a scenario names. All errors in them are
// reported together.
func (f *Files) Records(sc *scenarios.Scenario) (out study.Records, err error) {
	w := &sc.Weather
	var errs []error
	read := func(of scenarios.File, o csvfile.Options) *weather.Record {
		rec, err := f.record(f.Path(of.Name), of.Pos, o)
		if err != nil {
			errs = append(errs, orGenerate(err))
			return nil
		}
		return rec
	}
	main := csvfile.Options{Layout: w.Layout, Units: w.Units, Station: w.Station}
	if w.Declared != nil {
		if main.Declared, err = f.Declared(f.Path(w.Declared.Name), w.Declared.Pos); err != nil {
			return out, err
		}
	}
	if !math.IsNaN(w.WindHeightM) {
		main.WindHeightM = &w.WindHeightM
	}
	if !math.IsNaN(sc.Site.ElevM) {
		main.SiteElevM = &sc.Site.ElevM
	}
	for _, part := range w.Files {
		if rec := read(part, main); rec != nil {
			out.Parts = append(out.Parts, rec)
		}
	}
	if w.RainFile != nil {
		out.Gauge = read(*w.RainFile, csvfile.Options{Units: w.Units})
	}
	for _, donor := range w.FillFiles {
		if rec := read(donor, csvfile.Options{Units: w.Units}); rec != nil {
			out.Donors = append(out.Donors, rec)
		}
	}
	return out, errors.Join(errs...)
}

// orGenerate adds to the error that a weather file does not exist what helps someone
// who has none.
func orGenerate(err error) error {
	var e *diag.Error
	if errors.As(err, &e) && e.Code == diag.NoSuchFile {
		with := *e
		with.Fix += "; without a weather file, make synthetic weather with: loamledger generate"
		return &with
	}
	return err
}

// record reads one station's record.
func (f *Files) record(path string, at diag.Pos, o csvfile.Options) (*weather.Record, error) {
	r, err := f.Open(path, at)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	return csvfile.Read(r, path, o)
}

// Declared reads a layout file.
func (f *Files) Declared(path string, at diag.Pos) (*csvfile.Declared, error) {
	r, err := f.Open(path, at)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	return weatherfile.ReadDeclared(r, path)
}

// Forecast reads the forecast file that a scenario names, nil if none: an archive, or a
// daily weather file in any layout.
func (f *Files) Forecast(sc *scenarios.Scenario) (*study.ForecastFile, error) {
	of := sc.Forecast
	if of == nil || of.File == nil {
		return nil, nil
	}
	r, err := f.Open(f.Path(of.File.Name), of.File.Pos)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	text := bufio.NewReaderSize(r, 1<<12)
	start, _ := text.Peek(1 << 12) // an error comes again when the file is read
	out := &study.ForecastFile{Name: diag.Base(of.File.Name)}
	if of.Layout == "" && of.Declared == nil && forecastfile.IsArchive(start) {
		out.Archive, err = forecastfile.Read(text, of.File.Name)
		return out, err
	}
	o := csvfile.Options{Layout: of.Layout, Units: of.Units}
	if of.Declared != nil {
		if o.Declared, err = f.Declared(f.Path(of.Declared.Name), of.Declared.Pos); err != nil {
			return nil, err
		}
	}
	if !math.IsNaN(sc.Weather.WindHeightM) {
		o.WindHeightM = &sc.Weather.WindHeightM
	}
	if !math.IsNaN(sc.Site.ElevM) {
		o.SiteElevM = &sc.Site.ElevM
	}
	if out.Daily, err = csvfile.Read(text, of.File.Name, o); err != nil {
		return nil, err
	}
	out.Layout = LayoutTitle(out.Daily.Layout)
	return out, nil
}

// LayoutTitle replaces the names of layouts by their titles.
func LayoutTitle(names string) string {
	parts := strings.Split(names, ", ")
	for i, name := range parts {
		for _, l := range csvfile.Layouts() {
			if l.Name == name {
				parts[i] = l.Title
			}
		}
	}
	return strings.Join(parts, ", ")
}
