package study

import (
	"math"
	"strconv"

	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// A RunRecord is what run.json has on a run in addition to the scenario: its
// inputs and its results.
type RunRecord struct {
	Program      string        `json:"program"`
	Version      string        `json:"version"`
	ScenarioFile string        `json:"scenario_file"`
	Site         SiteRecord    `json:"site"`
	Files        []InputFile   `json:"files"`
	Weather      WeatherRecord `json:"weather"`
	Start        StartRecord   `json:"start"`
	Results      Summary       `json:"results"`
	ChecksRecord
	Warnings []WarningRecord `json:"warnings"`
}

// A StartRecord says how the depletion on the first day was found: stated, or
// by a pass over the first days.
type StartRecord struct {
	How       string   `json:"how"`
	Depletion *float64 `json:"depletion_share_of_taw,omitempty"`
}

// A SiteRecord is the location; unknown values are nil.
type SiteRecord struct {
	Name      string   `json:"name"`
	Latitude  *float64 `json:"latitude_deg"`
	Longitude *float64 `json:"longitude_deg"`
	Elevation *float64 `json:"elevation_m"`
	Units     string   `json:"units"`
}

// A WeatherRecord describes the weather of a run.
type WeatherRecord struct {
	File        string           `json:"file"`
	Layout      string           `json:"layout"`
	From        string           `json:"from"`
	To          string           `json:"to"`
	Days        int              `json:"days"`
	FilledDays  int              `json:"filled_days"`
	YearETo     string           `json:"eto_in_a_year,omitempty"`
	OtherETo    string           `json:"other_eto,omitempty"`
	ETo         []MethodRecord   `json:"eto_methods"`
	Compared    string           `json:"eto_computed_against_supplied,omitempty"`
	Assumptions []string         `json:"assumptions"`
	Evidence    []EvidenceRecord `json:"unit_evidence,omitempty"`
	Findings    []FindingRecord  `json:"findings"`
	moreOnWeather
}

// An EvidenceRecord is one observation for or against a system of units, of a
// file that states none.
type EvidenceRecord struct {
	Code   string `json:"code"`
	Units  string `json:"units"`
	Fits   bool   `json:"fits"`
	Detail string `json:"detail"`
}

// A MethodRecord is the number of days whose reference ET is from one method.
type MethodRecord struct {
	Method string `json:"method"`
	Days   int    `json:"days"`
}

// A FindingRecord is a finding in the weather, and the action taken.
type FindingRecord struct {
	Code    string `json:"code"`
	Weight  string `json:"weight"`
	Accept  bool   `json:"accepted,omitempty"` // it would have stopped the run
	Outcome string `json:"outcome"`
	Suspect string `json:"suspect,omitempty"`
	What    string `json:"what"`
	Column  string `json:"column,omitempty"`
	Count   int    `json:"count"`
	Worst   string `json:"worst"`
	File    string `json:"file,omitempty"` // if it is another station's
	Line    int    `json:"line,omitempty"`
	Detail  string `json:"detail,omitempty"`
	Action  string `json:"action"`
	Source  string `json:"source"`
}

// Number returns nil for an unknown value.
func Number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// RunRecord returns the contents of run.json in addition to the scenario. They
// do not depend on when or where the run was made.
func (l *Study) RunRecord(t *tally.Table) RunRecord {
	sc := l.Scenario
	units := "si"
	if sc.Units == quantity.US {
		units = "us"
	}
	out := RunRecord{
		Program: "loamledger", Version: l.Program, ScenarioFile: base(sc.File),
		Site:    SiteRecord{sc.Site.Name, Number(sc.Site.LatDeg), Number(sc.Site.LonDeg), Number(sc.Site.ElevM), units},
		Weather: l.bareWeather(),
		Start:   StartRecord{How: l.startText()},
		Results: l.Summary(t), ChecksRecord: l.ChecksRecord(t), Warnings: l.Warnings(t),
	}
	out.Files = l.sources()
	if sc.NoSpinUp {
		out.Start.Depletion = &sc.StartShare
	}
	return out
}

// WeatherRecord returns the record of the weather.
func (l *Study) WeatherRecord() WeatherRecord {
	rec := l.Weather
	out := WeatherRecord{
		File: rec.File, Layout: rec.Layout, From: rec.Start.String(), To: rec.End().String(), Days: rec.Days, FilledDays: rec.FilledDays,
		YearETo: l.yearETo(), OtherETo: l.otherETo(),
		Assumptions: rec.Assumptions, Findings: l.findingsJSON(rec.Findings), moreOnWeather: l.moreWeather(),
	}
	if rec.ET.Compare.N > 0 {
		out.Compared = rec.ET.Compare.String()
	}
	for _, e := range rec.Evidence {
		out.Evidence = append(out.Evidence, EvidenceRecord{string(e.Code), e.Units, e.Fits, e.Detail})
	}
	for _, c := range rec.ET.Counts {
		out.ETo = append(out.ETo, MethodRecord{c.Method.String(), c.Days})
	}
	return out
}

func (l *Study) findingsJSON(list []weather.Finding) []FindingRecord {
	out := make([]FindingRecord, 0, len(list))
	for i := range list {
		f := &list[i]
		out = append(out, findingRecord(f, l.stops(f) && l.accepts(f.Code)))
	}
	return out
}

func findingRecord(f *weather.Finding, accepted bool) FindingRecord {
	return FindingRecord{string(f.Code), f.Code.Weight().String(), accepted, string(f.Code.Outcome()),
		string(f.Suspect), f.What, f.Column, f.Count, f.Worst.String(), f.File, f.Line, f.Detail, f.Action, f.Source}
}

// bareWeather is WeatherRecord without the folders of input files.
func (l *Study) bareWeather() WeatherRecord {
	out, facts := l.WeatherRecord(), l.weatherFacts()
	out.File, out.Assumptions, out.Findings = facts.File, facts.Assumptions, l.findingsJSON(facts.Findings)
	return out
}

// Metadata returns the footer of the Parquet ledger.
func (l *Study) Metadata() map[string]string {
	m := map[string]string{"program": "loamledger", "version": l.Program, "site": l.Scenario.Site.Name,
		"units": "SI; see column.* for each column"}
	if n := l.Weather.SyntheticDays; n > 0 {
		m["weather.synthetic_days"] = strconv.Itoa(n)
	}
	for _, f := range l.sources() {
		m["sha256."+f.Name] = f.SHA256
	}
	return m
}
