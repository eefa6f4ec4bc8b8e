package cli

import (
	"math"
	"path/filepath"
	"strconv"

	"loamledger/scenarios/runfile"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// A runRecord is run.json: what it takes to repeat the run, and what came out.
// The replay command reads it again, by package runfile.
type runRecord struct {
	Program      string      `json:"program"`
	Version      string      `json:"version"`
	ScenarioFile string      `json:"scenario_file"`
	Site         siteRecord  `json:"site"`
	Files        []inputFile `json:"files"`
	Weather      wxRecord    `json:"weather"`
	Start        startRecord `json:"start"`
	runfile.Record
	Results  summaryJSON   `json:"results"`
	Warnings []warningJSON `json:"warnings"`
}

// startRecord tells how the first day's depletion comes about: stated, or from a
// pass over the first days.
type startRecord struct {
	How       string   `json:"how"`
	Depletion *float64 `json:"depletion_share_of_taw,omitempty"`
}

type siteRecord struct {
	Name      string   `json:"name"`
	Latitude  *float64 `json:"latitude_deg"`
	Longitude *float64 `json:"longitude_deg"`
	Elevation *float64 `json:"elevation_m"`
	Units     string   `json:"units"`
}

type wxRecord struct {
	File        string        `json:"file"`
	Layout      string        `json:"layout"`
	From        string        `json:"from"`
	To          string        `json:"to"`
	Days        int           `json:"days"`
	FilledDays  int           `json:"filled_days"`
	ETo         []methodJSON  `json:"eto_methods"`
	Compared    string        `json:"eto_computed_against_supplied,omitempty"`
	Assumptions []string      `json:"assumptions"`
	Findings    []findingJSON `json:"findings"`
	wxMore
}

type methodJSON struct {
	Method string `json:"method"`
	Days   int    `json:"days"`
}

type findingJSON struct {
	Code    string `json:"code"`
	Outcome string `json:"outcome"`
	Suspect string `json:"suspect,omitempty"`
	What    string `json:"what"`
	Column  string `json:"column,omitempty"`
	Count   int    `json:"count"`
	Worst   string `json:"worst"`
	Detail  string `json:"detail,omitempty"`
	Action  string `json:"action"`
	Source  string `json:"source"`
}

// number returns nil for a value that is not known.
func number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// runRecord returns what goes into run.json. Nothing in it depends on when or
// where the run was made.
func (w *writer) runRecord(t *tally.Table) runRecord {
	sc := w.Scenario
	units := "si"
	if sc.Units == quantity.US {
		units = "us"
	}
	out := runRecord{
		Program: "loamledger", Version: Version, ScenarioFile: filepath.Base(sc.File),
		Site:    siteRecord{sc.Site.Name, number(sc.Site.LatDeg), number(sc.Site.LonDeg), number(sc.Site.ElevM), units},
		Weather: w.bareWeather(),
		Start:   startRecord{How: "spin-up over the first 365 days from a full root zone"},
		Files:   w.sources(), Record: runfile.New(sc), Results: summary(t, tally.Measures()), Warnings: w.warnings(t),
	}
	if w.repeats() {
		out.ScenarioFile = w.repeated.Name
	}
	if sc.NoSpinUp {
		how := "depletion of " + quantity.Format(sc.StartShare, quantity.Fraction, quantity.SI) + " of TAW"
		out.Start = startRecord{how, &sc.StartShare}
	}
	return out
}

// weatherRecord returns what is known of the weather.
func (l *loaded) weatherRecord() wxRecord {
	rec := l.Weather
	out := wxRecord{
		File: rec.File, Layout: rec.Layout, From: rec.Start.String(), To: rec.End().String(), Days: rec.Days, FilledDays: rec.FilledDays,
		Assumptions: rec.Assumptions, Findings: findingsJSON(rec.Findings), wxMore: l.moreWeather(),
	}
	if rec.ET.Compare.N > 0 {
		out.Compared = rec.ET.Compare.String()
	}
	for _, c := range rec.ET.Counts {
		out.ETo = append(out.ETo, methodJSON{c.Method.String(), c.Days})
	}
	return out
}

func findingsJSON(list []weather.Finding) []findingJSON {
	out := make([]findingJSON, 0, len(list))
	for _, f := range list {
		out = append(out, findingJSON{string(f.Code), string(f.Code.Outcome()), string(f.Suspect), f.What, f.Column, f.Count, f.Worst.String(), f.Detail, f.Action, f.Source})
	}
	return out
}

// bareWeather is weatherRecord without the folders that files were read from.
func (w *writer) bareWeather() wxRecord {
	out, facts := w.weatherRecord(), w.weatherFacts()
	out.File, out.Assumptions, out.Findings = facts.File, facts.Assumptions, findingsJSON(facts.Findings)
	return out
}

// metadata goes into the footer of the Parquet ledger.
func (w *writer) metadata() map[string]string {
	m := map[string]string{"program": "loamledger", "version": Version, "site": w.Scenario.Site.Name, "units": "SI; see column.* for each column"}
	if n := w.Weather.InventedDays; n > 0 {
		m["weather.invented_days"] = strconv.Itoa(n)
	}
	for _, f := range w.sources() {
		m["sha256."+f.Name] = f.SHA256
	}
	return m
}
