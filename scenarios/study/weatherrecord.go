package study

import (
	"loamledger/weather"
	"loamledger/weather/et0"
	"loamledger/weather/forecast"
	"loamledger/weather/prepare"
)

// moreOnWeather is what run.json has on the weather in addition to file and
// findings.
type moreOnWeather struct {
	SyntheticDays int            `json:"synthetic_days"`
	ExcludedYears []int          `json:"excluded_years,omitempty"`
	Filling       []fillingJSON  `json:"missing_and_filled"`
	Limits        limitsJSON     `json:"fill_limits"`
	SelfTest      []selfTestJSON `json:"filling_tried_on_known_days,omitempty"`
	ETOptions     etOptionsJSON  `json:"eto_options"`
	Calibration   string         `json:"eto_calibration,omitempty"`
	Expected      []expectedJSON `json:"eto_likely_errors,omitempty"`
	Forecast      *forecastJSON  `json:"forecast,omitempty"`
	Snow          *snowJSON      `json:"snow,omitempty"`
}

// snowJSON is the rain that probably fell as snow, which a replay lets enter the soil
// on the day it falls.
type snowJSON struct {
	Days    int     `json:"days"`
	PerYear float64 `json:"days_per_year"`
	DepthMM float64 `json:"depth_mm_per_year"`
	Share   float64 `json:"share_of_rain"`
}

type fillingJSON struct {
	Column  string         `json:"column"`
	Missing int            `json:"missing_days"`
	Filled  map[string]int `json:"filled_days_by_rule,omitempty"`
	Left    int            `json:"left_empty_days,omitempty"`
}

type limitsJSON struct {
	DaysInYear int `json:"max_days_in_a_year"`
	DaysInARow int `json:"max_days_in_a_row"`
}

type selfTestJSON struct {
	Column  string   `json:"column"`
	Rule    string   `json:"rule"`
	Days    int      `json:"days"`
	Bias    float64  `json:"bias"`
	MeanAbs float64  `json:"mean_absolute_error"`
	Ratio   *float64 `json:"filled_over_true,omitempty"`
	Unit    string   `json:"unit"`
}

// etOptionsJSON are the options for reference ET, including defaults.
type etOptionsJSON struct {
	DewPointOffsetC float64 `json:"dew_point_offset_c"`
	KRs             float64 `json:"krs"`
	DefaultWindMS   float64 `json:"default_wind_m_s"`
	Calibrate       bool    `json:"calibrate"`
	ComputeETo      bool    `json:"compute_eto"`
}

type expectedJSON struct {
	Guess     string  `json:"guess"`
	Days      int     `json:"days"`
	BiasMM    float64 `json:"bias_mm"`
	MeanAbsMM float64 `json:"mean_absolute_error_mm"`
	WorstMM   float64 `json:"worst_day_mm"`
	Measured  string  `json:"measured_on"`
}

type forecastJSON struct {
	Source string `json:"source"`
	Count  int    `json:"forecasts"`
	Days   int    `json:"days_of_the_record_with_one_for_the_day_itself"`
	// Verified is the score by days ahead against the record's rain.
	RainMM   float64     `json:"verified_from_mm"`
	Verified []LeadScore `json:"verified_against_the_record"`
}

// moreWeather collects what run.json has on filling, reference ET and
// forecasts.
func (l *Study) moreWeather() moreOnWeather {
	r, rules := l.Weather, &l.Scenario.Weather.WeatherRules
	out := moreOnWeather{SyntheticDays: r.SyntheticDays, ExcludedYears: rules.ExcludeYears,
		Limits: limitsJSON{effective(rules.MaxFillDays, 30), effective(rules.MaxFillRun, 10)}}
	o := etOptions(rules)
	out.ETOptions = etOptionsJSON{o.TdewOffsetC, et0.KRsInterior, 2, o.CalibrateHargreaves, o.IgnoreSupplied}
	if o.KRs != 0 {
		out.ETOptions.KRs = o.KRs
	}
	if o.DefaultWindMS != 0 {
		out.ETOptions.DefaultWindMS = o.DefaultWindMS
	}
	if o.CalibrateHargreaves {
		out.Calibration = r.ET.Calibration.String()
	}
	for c := range weather.Columns {
		fills := fillsOf(r, c)
		if r.Missing[c] == 0 && len(fills) == 0 {
			continue
		}
		f := fillingJSON{Column: c.Key(), Missing: r.Missing[c], Left: r.CountMissing(c)}
		for _, m := range fills {
			if f.Filled == nil {
				f.Filled = map[string]int{}
			}
			f.Filled[m.Mark.String()] = m.Days
		}
		out.Filling = append(out.Filling, f)
	}
	for _, e := range r.SelfTest {
		out.SelfTest = append(out.SelfTest, selfTestJSON{e.Column.Key(), e.Mark.String(), e.Days, e.Bias, e.MeanAbs, Number(e.Ratio),
			e.Column.Unit()})
	}
	for _, e := range r.ET.Expected {
		out.Expected = append(out.Expected, expectedJSON{e.Guess.String(), e.Days, e.BiasMM, e.MeanAbsMM, e.WorstMM, e.Where})
	}
	if s := &r.Snow; s.Days > 0 {
		out.Snow = &snowJSON{s.Days, s.DaysPerYear(), s.MMPerYear(), s.Share()}
	}
	if f := l.Forecast; f != nil {
		out.Forecast = f.record(&r.Series)
	}
	return out
}

// record describes the forecasts and scores them against the rain in the
// record.
func (f *Forecasts) record(s *weather.Series) *forecastJSON {
	out := &forecastJSON{Source: f.source, Count: f.archive.Len(), Days: f.days, RainMM: f.thresholdMM}
	scores, err := forecast.Verify(f.archive, s, forecast.Rule{RainMM: f.thresholdMM})
	if err != nil {
		return out // the rule cannot be invalid
	}
	for _, sc := range scores {
		out.Verified = append(out.Verified, ScoreOf(sc))
	}
	return out
}

// effective returns the limit in force: 0 is the default, negative is none.
func effective(v, standard int) int {
	if v == 0 {
		return standard
	}
	return max(v, 0)
}

// A markCount is the number of days with one mark of filled values in a column.
type markCount struct {
	Mark weather.Mark
	Days int
}

// fillsOf counts the filled values of column c, by rule; synthetic values are
// counted by day elsewhere.
func fillsOf(r *prepare.Ready, c weather.Column) []markCount {
	if !r.Has(c) {
		return nil
	}
	var out []markCount
	for m := range weather.Marks {
		if n := r.CountMark(c, m); m.Filled() && m != weather.Synthetic && n > 0 {
			out = append(out, markCount{m, n})
		}
	}
	return out
}
