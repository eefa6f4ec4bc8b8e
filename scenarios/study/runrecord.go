package study

import (
	"math"
	"strconv"

	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// A RunRecord is run.json: what it takes to repeat the run, and what came out.
type RunRecord struct {
	Program    string          `json:"program"`
	Version    string          `json:"version"`
	Scenario   string          `json:"scenario"`
	Site       SiteRecord      `json:"site"`
	Files      []InputFile     `json:"files"`
	Weather    WeatherRecord   `json:"weather"`
	Zones      []ZoneRecord    `json:"zones"`
	Strategies []string        `json:"strategies"`
	Start      string          `json:"start"`
	Inputs     []InputRecord   `json:"inputs"`
	Defaults   int             `json:"defaults"` // how many of the inputs were not given
	Results    Summary         `json:"results"`
	Warnings   []WarningRecord `json:"warnings"`
}

// A SiteRecord is the place; what is not known is nil.
type SiteRecord struct {
	Name      string   `json:"name"`
	Latitude  *float64 `json:"latitude_deg"`
	Longitude *float64 `json:"longitude_deg"`
	Elevation *float64 `json:"elevation_m"`
	Units     string   `json:"units"`
}

// A WeatherRecord is what is known of the weather of a run.
type WeatherRecord struct {
	File        string          `json:"file"`
	Layout      string          `json:"layout"`
	From        string          `json:"from"`
	To          string          `json:"to"`
	Days        int             `json:"days"`
	FilledDays  int             `json:"filled_days"`
	ETo         []MethodRecord  `json:"eto_methods"`
	Compared    string          `json:"eto_computed_against_supplied,omitempty"`
	Assumptions []string        `json:"assumptions"`
	Findings    []FindingRecord `json:"findings"`
	moreOnWeather
}

// A MethodRecord is on how many days a method gave reference ET.
type MethodRecord struct {
	Method string `json:"method"`
	Days   int    `json:"days"`
}

// A FindingRecord is something found in the weather, and what was done about it.
type FindingRecord struct {
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

// A ZoneRecord is a zone as it was replayed.
type ZoneRecord struct {
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

// An InputRecord is a value the replay used, and where it is from.
type InputRecord struct {
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

// A Summary is the comparison, in SI.
type Summary struct {
	MedianYear int         `json:"median_year,omitempty"`
	DryYear    int         `json:"dry_year,omitempty"`
	Label      string      `json:"label"`
	Strategies []ResultRow `json:"strategies"`
}

// A ResultRow is what one strategy came to.
type ResultRow struct {
	Strategy         string   `json:"strategy"`
	Reference        bool     `json:"reference,omitempty"`
	M3PerYear        float64  `json:"volume_m3_per_year"`
	Change           *float64 `json:"change_against_first"`
	StressMedian     *float64 `json:"stress_days_median_year"`
	StressDry        *float64 `json:"stress_days_dry_year"`
	LongestStreak    int      `json:"longest_streak_days"`
	StreakZone       string   `json:"longest_streak_zone,omitempty"`
	RunoffEvents     float64  `json:"runoff_events_per_year"`
	PercMMPerYear    float64  `json:"percolation_mm_per_year"`
	Adequacy         float64  `json:"adequacy"`
	Excess           float64  `json:"excess"`
	ApplicationRatio *float64 `json:"application_ratio"`
	Severity         float64  `json:"stress_severity_days_per_year"`
}

// Number returns nil for a value that is not known.
func Number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// Summary returns the comparison for scripts.
func (l *Study) Summary(t *tally.Table) Summary {
	ranked := t.RankYears()
	out := Summary{MedianYear: ranked.Median, DryYear: ranked.Dry, Label: "estimated (ex-ante)"}
	for i, r := range t.Compare() {
		out.Strategies = append(out.Strategies, ResultRow{
			Strategy: r.Strategy, Reference: i >= t.NoWaterIndex(), M3PerYear: r.M3PerYear, Change: Number(r.Change), StressMedian: Number(r.StressMedian), StressDry: Number(r.StressDry),
			LongestStreak: r.LongestStreak, StreakZone: r.StreakZone, RunoffEvents: r.RunoffEvents, PercMMPerYear: r.PercMMPerYear, Adequacy: r.Adequacy, Excess: r.Excess,
			ApplicationRatio: Number(r.ApplicationRatio), Severity: r.SeverityPerYear,
		})
	}
	return out
}

// RunRecord returns what goes into run.json. Nothing in it depends on when or
// where the run was made.
func (l *Study) RunRecord(t *tally.Table) RunRecord {
	sc := l.Scenario
	units := "si"
	if sc.Units == quantity.US {
		units = "us"
	}
	out := RunRecord{
		Program: "loamledger", Version: l.Program, Scenario: base(sc.File),
		Site:     SiteRecord{sc.Site.Name, Number(sc.Site.LatDeg), Number(sc.Site.LonDeg), Number(sc.Site.ElevM), units},
		Weather:  l.bareWeather(),
		Start:    "spin-up over the first 365 days from a full root zone",
		Defaults: len(sc.Defaults()), Results: l.Summary(t), Warnings: l.Warnings(t), Strategies: t.Strategies,
	}
	for _, f := range l.Files {
		f.Name = base(f.Name)
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
		out.Zones = append(out.Zones, ZoneRecord{z.Name, z.AreaM2, z.Plant, z.Coefficients, z.Soil, z.Sprinkler, z.TAWMM, z.P, !z.PConstant, z.K, z.PRMMH, z.LossShare, z.DULQ, z.Strips,
			z.IntakeMMH, z.SurfaceStorageMM, method, z.Rain.CN, z.Rain.EffectiveShare})
	}
	for _, in := range sc.Inputs {
		j := InputRecord{Key: in.Key, Text: in.Text, Value: Number(in.Value), Unit: in.Unit, Default: in.Defaulted, Range: in.Range, Source: in.Source}
		if in.Defaulted {
			j.Grade = in.Grade.String()
		} else {
			pos := in.Pos
			pos.File = base(pos.File)
			j.Place = pos.String()
		}
		out.Inputs = append(out.Inputs, j)
	}
	return out
}

// WeatherRecord returns what is known of the weather.
func (l *Study) WeatherRecord() WeatherRecord {
	rec := l.Weather
	out := WeatherRecord{
		File: rec.File, Layout: rec.Layout, From: rec.Start.String(), To: rec.End().String(), Days: rec.Days, FilledDays: rec.FilledDays,
		Assumptions: rec.Assumptions, Findings: findingsJSON(rec.Findings), moreOnWeather: l.moreWeather(),
	}
	if rec.ET.Compare.N > 0 {
		out.Compared = rec.ET.Compare.String()
	}
	for _, c := range rec.ET.Counts {
		out.ETo = append(out.ETo, MethodRecord{c.Method.String(), c.Days})
	}
	return out
}

func findingsJSON(list []weather.Finding) []FindingRecord {
	out := make([]FindingRecord, 0, len(list))
	for _, f := range list {
		out = append(out, FindingRecord{string(f.Code), string(f.Code.Outcome()), string(f.Suspect), f.What, f.Column, f.Count, f.Worst.String(), f.Detail, f.Action, f.Source})
	}
	return out
}

// bareWeather is WeatherRecord without the folders that files were read from.
func (l *Study) bareWeather() WeatherRecord {
	out, facts := l.WeatherRecord(), l.weatherFacts()
	out.File, out.Assumptions, out.Findings = facts.File, facts.Assumptions, findingsJSON(facts.Findings)
	return out
}

// Metadata goes into the footer of the Parquet ledger.
func (l *Study) Metadata() map[string]string {
	m := map[string]string{"program": "loamledger", "version": l.Program, "site": l.Scenario.Site.Name, "units": "SI; see column.* for each column"}
	if n := l.Weather.InventedDays; n > 0 {
		m["weather.invented_days"] = strconv.Itoa(n)
	}
	for _, f := range l.Files {
		m["sha256."+base(f.Name)] = f.SHA256
	}
	return m
}
