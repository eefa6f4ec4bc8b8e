package cli

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/plots"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// study gathers what the charts are drawn from.
func (w *writer) study(t *tally.Table, s *season) *plots.Study {
	units := plots.SI
	if w.Scenario.Units == quantity.US {
		units = plots.US
	}
	return &plots.Study{Site: w.Scenario.Site.Name, Station: w.stationName(), From: w.Weather.Start, To: w.Weather.End(), Units: units, Table: t, Traces: s.traces}
}

// stationName is the station, or the file where it has no name, and says so
// where its weather is invented: it stands in every chart and on the page.
func (l *loaded) stationName() string {
	switch n := l.Weather.InventedDays; {
	case n == 0:
		return l.plainStationName()
	case n < l.Weather.Days:
		return l.plainStationName() + " (in part invented weather)"
	}
	return l.plainStationName() + " (invented weather)"
}

func (l *loaded) plainStationName() string {
	if name := l.Weather.Station.Name; name != "" {
		return name
	}
	if id := l.Weather.Station.ID; id != "" {
		return "station " + id
	}
	return l.Weather.File
}

// facts gathers what the report tells of the inputs.
func (w *writer) facts(t *tally.Table) *plots.Facts {
	f := &plots.Facts{Version: Version, RunDate: w.date, Seed: "none beyond those of the scenario", Weather: w.weatherFacts()}
	if sentences := w.compliance(t); len(sentences) > 0 {
		f.Legal = strings.Join(sentences, ". ") + ". Only the limits written in the scenario were checked: ask the water supplier for those in force."
	}
	for _, in := range w.Scenario.Defaults() {
		where, key := owner(w.Scenario, in.Key)
		f.Defaults = append(f.Defaults, plots.Default{Where: where, Key: key, Value: in.Text, Range: in.Range, Source: in.Source, Grade: in.Grade.String()})
	}
	for _, file := range w.Files {
		f.Files = append(f.Files, plots.InputFile{Name: file.Name, SHA256: file.SHA256})
	}
	return f
}

func (l *loaded) weatherFacts() plots.WeatherFacts {
	rec := l.Weather
	f := plots.WeatherFacts{File: rec.File, Layout: rec.Layout, Days: rec.Days, FilledDays: rec.FilledDays, Assumptions: rec.Assumptions, Findings: rec.Findings}
	if line := l.forecastLine(); line != "" {
		f.Assumptions = append(slices.Clip(f.Assumptions), strings.TrimSpace(line))
	}
	var methods []string
	for _, c := range rec.ET.Counts {
		methods = append(methods, fmt.Sprintf("%v on %s", c.Method, countOf(c.Days, "day", "days")))
	}
	f.EToMethod = strings.Join(methods, "; ")
	for c := range weather.Columns {
		if !rec.Has(c) {
			continue
		}
		for m := range weather.Marks {
			if n := rec.CountMark(c, m); m.Filled() && n > 0 {
				f.Fills = append(f.Fills, plots.Fill{Column: c.Label(), How: m.String(), Count: n})
			}
		}
	}
	return f
}
