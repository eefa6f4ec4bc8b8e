package cli

import (
	"errors"
	"math"

	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/scenarios/weatherfile"
	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
)

// readRecords reads the weather files that a scenario names.
func (in *inputs) readRecords(name string, sc *scenarios.Scenario) (out study.Records, err error) {
	w := &sc.Weather
	var errs []error
	read := func(f scenarios.File, o csvfile.Options) *weather.Record {
		rec, err := in.readRecord(beside(name, f.Name), f.Pos, o)
		if err != nil {
			errs = append(errs, orGenerate(err))
			return nil
		}
		return rec
	}
	main := csvfile.Options{Layout: w.Layout, Units: w.Units, Station: w.Station}
	if w.Declared != nil {
		if main.Declared, err = in.readDeclared(beside(name, w.Declared.Name), w.Declared.Pos); err != nil {
			return out, err
		}
	}
	if !math.IsNaN(w.WindHeightM) {
		main.WindHeightM = &w.WindHeightM
	}
	if !math.IsNaN(sc.Site.ElevM) {
		main.SiteElevM = &sc.Site.ElevM
	}
	for _, f := range w.Files {
		if rec := read(f, main); rec != nil {
			out.Parts = append(out.Parts, rec)
		}
	}
	if w.RainFile != nil {
		out.Gauge = read(*w.RainFile, csvfile.Options{Units: w.Units})
	}
	for _, f := range w.FillFiles {
		if rec := read(f, csvfile.Options{Units: w.Units}); rec != nil {
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

// readDeclared reads a layout file that is named at the given position.
func (in *inputs) readDeclared(name string, at diag.Pos) (*csvfile.Declared, error) {
	f, err := in.openAt(name, at)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return weatherfile.ReadDeclared(f, name)
}
