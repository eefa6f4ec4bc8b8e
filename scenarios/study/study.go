package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/prepare"
)

// A Study is one scenario with its weather, ready for a replay.
type Study struct {
	// Scenario is the scenario, with the warnings about its weather added.
	Scenario *scenarios.Scenario
	Weather  *prepare.Ready
	Job      replay.Job
	Forecast *Forecasts // nil if the scenario has none
	money    *siteMoney // nil without rates; see [Study.Price]
	// changedFrom is the first day after dated changes, from which yearly figures count;
	// 0 without such changes.
	changedFrom cal.Date
	Measures    []tally.Measure // measures that compare strategies; nil for [tally.Measures]

	// checks are those of [Study.Recheck], kept for notes, report and record; nil
	// for none.
	checks *checks

	// Ranges are what draws say of the replay, kept for report and record; nil for none.
	Ranges *plots.Ranges

	// Known only to the caller; all may be empty.
	Files   []InputFile // files read for the study, for the record of the run
	Sources []InputFile // input files of the original run, for a repeated run; nil for Files
	Layout  string      // description of the layout of the weather file
	Program string      // version of loamledger, for the record of the run
	Live    bool        // for a page on which the reader changes numbers; see [plots.Study]
}

// An InputFile is an input file of a study. Bytes is its size.
type InputFile struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
	Bytes  int64  `json:"bytes"`
}

// New sets up a scenario on weather prepared for it, or for another scenario
// with the same weather rules, and on forecasts, nil for none. It changes
// neither scenario nor weather. If a strategy needs forecasts that are missing,
// or no whole year follows the start
// of limits, the error is a [*diag.Error]; if strategies need temperatures that
// the record lacks, or the weather has findings that stop a study and the scenario
// does not accept, it is a [*diag.Errors].
func New(sc *scenarios.Scenario, w *Weather, f *Forecasts) (*Study, error) {
	if err := lackTmin(sc, w); err != nil {
		return nil, err
	}
	l := OfWeather(sc, w)
	if err := l.refuseDoubtful(); err != nil {
		return nil, err
	}
	l.Job = replay.Job{
		Zones: sc.SimZones(), Weather: w.columns, Strategies: slices.Clone(sc.Strategies), Limits: sc.Limits, Wiring: sc.Wiring(),
		NoSpinUp: sc.NoSpinUp, StartShare: sc.StartShare, South: l.south(), ExcludeYears: sc.Weather.ExcludeYears,
	}
	warnOfNoTemperatures(l.Scenario, &l.Job)
	before, err := yearsBefore(sc, l.Weather.Start, l.Weather.End(), l.south())
	if err != nil {
		return nil, err
	}
	if before != nil {
		l.Job.ExcludeYears = slices.Concat(sc.Weather.ExcludeYears, before)
	}
	l.excludeChanging()
	if f != nil {
		if err := l.addForecasts(f); err != nil {
			return nil, err
		}
	}
	l.warnOfOverdraws()
	l.warnOfTimer()
	addCut(&l.Job, sc.Baseline)
	return l, nil
}

// addForecasts adds the forecasts; see [New].
func (l *Study) addForecasts(f *Forecasts) error {
	sc := l.Scenario
	l.Forecast = f
	l.Weather.Findings = append(l.Weather.Findings, f.found...)
	l.Job.Forecast = f.known
	names := sc.UseSiteForecast()
	if len(names) > 0 && !f.inside {
		l.Scenario.Warn(scenarios.Warning{Code: scenarios.NoPastForecast, Pos: sc.Forecast.Pos},
			"no forecast is for a day of the record, so over the record the forecast hold has no effect in %s", strings.Join(names, ", "))
	} else if len(names) > 0 && f.days == 0 {
		return &diag.Error{Code: diag.NoForecast, Pos: sc.Forecast.Pos,
			Msg: fmt.Sprintf("no rain forecast is for a day of the record, %v to %v, and strategies need it: %s",
				l.Weather.Start, l.Weather.End(), strings.Join(names, ", ")),
			Fix: "give rain_mm in forecasts issued before days of the record, or remove hold: {forecast: ...}"}
	}
	return nil
}

// OfWeather sets up a study that covers only the weather: it has no job.
func OfWeather(sc *scenarios.Scenario, w *Weather) *Study {
	own := *sc
	own.Warnings = slices.Clip(sc.Warnings)
	l := &Study{Scenario: &own, Weather: w.at(sc.Site)}
	warnOfPlace(&own, w.stated)
	warnOfDates(&own, w.first, w.last)
	warnOfSeasons(&own, l.Weather.Record)
	warnOfTimeZone(&own, w.stated)
	warnOfFindings(&own, l.Weather.Record)
	return l
}

// at returns the weather as a study of the given site sees it, with its own
// copies of the lists that a study adds to.
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

// seenFrom gives the position of the station relative to the site.
func seenFrom(far string) string {
	return "from the site, the station is" + strings.TrimPrefix(far, ",")
}

// sources lists the input files of the results, without folders.
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

// measures lists the measures that compare strategies.
func (l *Study) measures() []tally.Measure {
	if l.Measures == nil {
		return tally.Measures()
	}
	return l.Measures
}

// ScenarioName is the name of the scenario file without folders.
func (l *Study) ScenarioName() string { return l.bare(l.Scenario.File) }

// StrategyNames lists the strategies in order, without the references.
func (l *Study) StrategyNames() []string {
	var names []string
	for i := range l.Job.Strategies {
		names = append(names, l.Job.Strategies[i].Name)
	}
	return names
}

// ZoneNames lists the zones in order.
func (l *Study) ZoneNames() []string {
	var names []string
	for i := range l.Scenario.Zones {
		names = append(names, l.Scenario.Zones[i].Name)
	}
	return names
}
