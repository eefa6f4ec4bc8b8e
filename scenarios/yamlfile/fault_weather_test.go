package yamlfile_test

import (
	"strings"
	"testing"

	"loamledger/scenarios/yamlfile"
)

// Errors in forecasts and fill rules, each with its position.
func TestWeatherAndForecastFaults(t *testing.T) {
	const weather = "weather: {file: weather.csv, wind_height: 2 m}"
	tests := []struct{ name, old, new, want string }{
		{"no source of forecasts", weather, weather + "\nforecast: {}", "neither file nor synthetic is given"},
		{"two sources", weather, weather + "\nforecast: {file: a.csv, synthetic: {seed: 1}}",
			"yard.yaml:4:36: forecast: file and synthetic are both given"},
		{"a share above 1", weather, weather + "\nforecast: {synthetic: {seed: 1, leads: [{pod: 130 %, far: 10 %}]}}",
			"lead 1: pod 130 % is outside 0% to 100%"},
		{"a lead without far", weather, weather + "\nforecast: {synthetic: {seed: 1, leads: [{pod: 60 %}]}}", "lead 1: far is missing"},
		{"a lead that is a number", weather, weather + "\nforecast: {synthetic: {seed: 1, leads: [0.6]}}",
			`lead 1 is the value "0.6", not a group of keys`},
		{"half a seed", weather, weather + "\nforecast: {synthetic: {seed: 1.5}}", "seed 1.5 is not a whole number"},
		{"years that are none", "wind_height: 2 m", "exclude_years: [last]", "exclude_years"},
		{"a limit without unit", "wind_height: 2 m", "max_fill_days: 20", "max_fill_days 20 has no unit"},
		{"too long a limit", "wind_height: 2 m", "max_fill_run: 400 days", "max_fill_run 400 days is outside"},
		{"a temperature for a difference", "wind_height: 2 m", "dew_point_offset: 36 F", "dew_point_offset 36 F is outside 0 to 6 °C"},
		{"a word for a flag", "wind_height: 2 m", "coastal: near", `coastal is the value "near", not true or false`},
		{"two declarations", "wind_height: 2 m", "layout_file: [a.yaml, b.yaml]", "layout_file names 2 files"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if strings.Count(base, tt.old) != 1 {
				t.Fatalf("%q is not once in the base", tt.old)
			}
			_, err := yamlfile.Read(strings.NewReader(strings.Replace(base, tt.old, tt.new, 1)), "yard.yaml", nil)
			if err == nil || !strings.Contains(err.Error(), tt.want) || !strings.Contains(err.Error(), "fix: ") {
				t.Errorf("got\n%v\nwant a fault with %q and a fix", err, tt.want)
			}
		})
	}
}

// The values given are the values read: 0 days of filling means none, not the
// default.
func TestWeatherRulesAndForecastAreRead(t *testing.T) {
	text := strings.Replace(base, "wind_height: 2 m",
		"max_fill_days: 20 days, max_fill_run: 0 days, exclude_years: [2011, 2014], dew_point_offset: 3.6 F, "+
			"coastal: true, default_wind: 3 m/s, calibrate: true, compute_eto: true", 1) +
		"forecast: {synthetic: {seed: 7, threshold: 0.2 in, leads: [{pod: 65 %, far: 38 %}]}}\n"
	sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", nil)
	if err != nil {
		t.Fatal(err)
	}
	w := sc.Weather.WeatherRules
	if w.MaxFillDays != 20 || w.MaxFillRun != -1 || len(w.ExcludeYears) != 2 || w.ExcludeYears[1] != 2014 || w.DewPointOffsetC < 1.999 ||
		w.DewPointOffsetC > 2.001 || !w.Coastal || w.DefaultWindMS != 3 || !w.Calibrate || !w.ComputeETo {
		t.Errorf("rules %+v", w)
	}
	s := sc.Forecast.Synthetic
	if s.Seed != 7 || s.ThresholdMM != 5.08 || len(s.Leads) != 1 || s.Leads[0].POD != 0.65 || s.Leads[0].FAR != 0.38 {
		t.Errorf("forecast %+v", s)
	}
}
