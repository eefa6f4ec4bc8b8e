package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/diag"
	"loamledger/weather/prepare"
)

// A Study is one scenario on its weather, ready for a replay.
type Study struct {
	// Scenario is the scenario with the warnings that its weather gave besides.
	Scenario *scenarios.Scenario
	Weather  *prepare.Ready
	Job      replay.Job
	Forecast *Forecasts      // nil where the scenario has none
	Measures []tally.Measure // by which strategies are compared; nil for [tally.Measures]

	// What only the caller knows; all of it may be left empty.
	Files   []InputFile // what was read for the study, for the record of the run
	Sources []InputFile // the files behind the results, as a repeated run had them; nil for Files
	Layout  string      // in words, what the layout of the weather file is
	Program string      // version of the program, for the record of the run
}

// An InputFile is a file that a study was read from.
type InputFile struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
	Bytes  int64  `json:"bytes"`
}

// New sets up a scenario on weather that was made ready for it, or for another
// one of the same weather rules, and on what was forecast, nil for nothing.
// Neither scenario nor weather is changed. The fault of a strategy that skips
// by forecasts that are not there is a [*diag.Error].
func New(sc *scenarios.Scenario, w *Weather, f *Forecasts) (*Study, error) {
	l := OfWeather(sc, w)
	l.Job = replay.Job{
		Zones: sc.SimZones(), Weather: w.columns, Strategies: slices.Clone(sc.Strategies), Limits: sc.Limits,
		NoSpinUp: sc.NoSpinUp, StartShare: sc.StartShare, ExcludeYears: sc.Weather.ExcludeYears,
	}
	if f == nil {
		return l, nil
	}
	l.Forecast = f
	l.Weather.Findings = append(l.Weather.Findings, f.found...)
	l.Job.Forecast = f.known
	if names := sc.UseSiteForecast(); len(names) > 0 && f.Days == 0 {
		return nil, &diag.Error{Code: diag.NoForecast, Pos: sc.Forecast.Pos, Msg: fmt.Sprintf("no forecast amount of rain reaches any morning of the record, %v to %v, and strategies skip by it: %s", l.Weather.Start, l.Weather.End(), strings.Join(names, ", ")),
			Fix: "give rain_mm in forecasts issued before days of the record, or take hold: {forecast: ...} out"}
	}
	return l, nil
}

// OfWeather sets up a study that tells of the weather only: it has no job.
func OfWeather(sc *scenarios.Scenario, w *Weather) *Study {
	own := *sc
	own.Warnings = slices.Clip(sc.Warnings)
	l := &Study{Scenario: &own, Weather: w.at(sc.Site)}
	warnOfPlace(&own, w.stated)
	warnOfDates(&own, w.first, w.last)
	warnOfFindings(&own, l.Weather.Record)
	return l
}

// at returns the weather as a study of the given site tells of it; lists that
// a study adds to are its own.
func (w *Weather) at(site scenarios.Site) *prepare.Ready {
	ready, rec := *w.Ready, *w.Record
	ready.Record = &rec
	rec.Findings = slices.Clip(rec.Findings)
	rec.Assumptions = slices.Delete(slices.Clone(rec.Assumptions), w.seenAt, w.seenAt+w.seen)
	if far := weather.Between(siteStation(site), w.stated); far != "" {
		rec.Assumptions = slices.Insert(rec.Assumptions, w.seenAt, seenFrom(far))
	}
	return &ready
}

// seenFrom says how the station lies from the site.
func seenFrom(far string) string {
	return "seen from the site the station is" + strings.TrimPrefix(far, ",")
}

// sources lists the files behind the results, without folders.
func (l *Study) sources() []InputFile {
	files := l.Sources
	if files == nil {
		files = l.Files
	}
	files = slices.Clone(files)
	for i := range files {
		files[i].Name = base(files[i].Name)
	}
	return files
}

// measures lists the measures by which strategies are compared.
func (l *Study) measures() []tally.Measure {
	if l.Measures == nil {
		return tally.Measures()
	}
	return l.Measures
}

// ScenarioName is the scenario's file without folders that tell where a run was
// made.
func (l *Study) ScenarioName() string { return l.bare(l.Scenario.File) }

// StrategyNames lists the strategies in their order, without the references.
func (l *Study) StrategyNames() []string {
	var names []string
	for i := range l.Job.Strategies {
		names = append(names, l.Job.Strategies[i].Name)
	}
	return names
}

// ZoneNames lists the zones in their order.
func (l *Study) ZoneNames() []string {
	var names []string
	for i := range l.Scenario.Zones {
		names = append(names, l.Scenario.Zones[i].Name)
	}
	return names
}
