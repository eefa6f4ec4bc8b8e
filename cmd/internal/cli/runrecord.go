package cli

import (
	"math"
	"path/filepath"
	"strconv"

	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// A runRecord is run.json: what it takes to repeat the run, and what came out.
type runRecord struct {
	Program    string        `json:"program"`
	Version    string        `json:"version"`
	Scenario   string        `json:"scenario"`
	Site       siteRecord    `json:"site"`
	Files      []inputFile   `json:"files"`
	Weather    wxRecord      `json:"weather"`
	Zones      []zoneJSON    `json:"zones"`
	Strategies []string      `json:"strategies"`
	Start      string        `json:"start"`
	Inputs     []inputJSON   `json:"inputs"`
	Defaults   int           `json:"defaults"` // how many of the inputs were not given
	Results    summaryJSON   `json:"results"`
	Warnings   []warningJSON `json:"warnings"`
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

type zoneJSON struct {
	Name             string      `json:"name"`
	AreaM2           float64     `json:"area_m2"`
	Plant            string      `json:"plant"`
	Coefficients     string      `json:"coefficients"`
	Soil             string      `json:"soil"`
	Sprinkler        string      `json:"sprinkler"`
	TAWMM            float64     `json:"taw_mm"`
	P                float64     `json:"p"`
	PAdjusted        bool        `json:"p_adjusted"`
	K                [12]float64 `json:"k"`
	PRMMH            float64     `json:"precipitation_rate_mm_h"`
	LossShare        float64     `json:"spray_loss_share"`
	DULQ             float64     `json:"du_lq"`
	Strips           int         `json:"strips"`
	IntakeMMH        float64     `json:"intake_rate_mm_h"`
	SurfaceStorageMM float64     `json:"surface_storage_mm"`
	RainMethod       string      `json:"rain_method"`
	CurveNumber      float64     `json:"curve_number,omitempty"`
	EffectiveShare   float64     `json:"effective_rain_share,omitempty"`
}

type inputJSON struct {
	Key     string   `json:"key"`
	Text    string   `json:"text"`
	Value   *float64 `json:"value,omitempty"`
	Unit    string   `json:"unit,omitempty"`
	Place   string   `json:"place,omitempty"`
	Default bool     `json:"default,omitempty"`
	Range   string   `json:"range,omitempty"`
	Source  string   `json:"source,omitempty"`
	Grade   string   `json:"grade,omitempty"`
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
		Program: "loamledger", Version: Version, Scenario: filepath.Base(sc.File),
		Site:     siteRecord{sc.Site.Name, number(sc.Site.LatDeg), number(sc.Site.LonDeg), number(sc.Site.ElevM), units},
		Weather:  w.bareWeather(),
		Start:    "spin-up over the first 365 days from a full root zone",
		Defaults: len(sc.Defaults()), Results: summary(t, tally.Measures()), Warnings: w.warnings(t), Strategies: t.Strategies,
	}
	for _, f := range w.Files {
		f.Name = filepath.Base(f.Name)
		out.Files = append(out.Files, f)
	}
	if sc.NoSpinUp {
		out.Start = "depletion of " + quantity.Format(sc.StartShare, quantity.Fraction, quantity.SI) + " of TAW"
	}
	for i := range sc.Zones {
		z := &sc.Zones[i]
		method := "curve number"
		if z.Rain.EffectiveShare > 0 {
			method = "share"
		}
		out.Zones = append(out.Zones, zoneJSON{z.Name, z.AreaM2, z.Plant, z.Coefficients, z.Soil, z.Sprinkler, z.TAWMM, z.P, !z.PConstant, z.K, z.PRMMH, z.LossShare, z.DULQ, z.Strips,
			z.IntakeMMH, z.SurfaceStorageMM, method, z.Rain.CN, z.Rain.EffectiveShare})
	}
	for _, in := range sc.Inputs {
		j := inputJSON{Key: in.Key, Text: in.Text, Value: number(in.Value), Unit: in.Unit, Default: in.Defaulted, Range: in.Range, Source: in.Source}
		if in.Defaulted {
			j.Grade = in.Grade.String()
		} else {
			pos := in.Pos
			pos.File = filepath.Base(pos.File)
			j.Place = pos.String()
		}
		out.Inputs = append(out.Inputs, j)
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
	for _, f := range w.Files {
		m["sha256."+filepath.Base(f.Name)] = f.SHA256
	}
	return m
}
