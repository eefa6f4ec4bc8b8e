package cli_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/weather/cal"
)

// acre writes a scenario of one acre that gets an inch of water every day, and
// dry weather from one date to another, both included. It returns the name of the
// scenario.
func acre(t *testing.T, from, to cal.Date, latitude float64) string {
	t.Helper()
	dir := t.TempDir()
	var w strings.Builder
	w.WriteString("date,tmax_c,tmin_c,rain_mm,eto_mm\n")
	for d := from; d <= to; d++ {
		y, _, _ := d.YMD()
		fmt.Fprintf(&w, "%v,%d,%d,0,%d.%d\n", d, 22+d%7, 9+d%5, 3+y%3, d%8) // years differ
	}
	text := fmt.Sprintf(`site: {name: One Acre, latitude: %g, elevation: 1600 ft}
units: us
weather: {file: weather.csv, accept: [gauge-dead]}
zones:
  - name: field
    area: 43560 ft2
    plant: {k: 0.8, p: 0.4}
    soil: clay loam
    root_depth: 12 in
    sprinkler: {kind: spray, rate: 1 in/h, uniformity: 100%%, spray_loss: 0%%}
programs:
  - {name: daily, days: {every: 1 days, from: 2000-01-01}, starts: ["05:00"], minutes: {field: 60}}
strategies:
  - {name: an inch a day, programs: [daily]}
  - {name: half an inch, programs: [daily], monthly: [50, 50, 50, 50, 50, 50, 50, 50, 50, 50, 50, 50]}
`, latitude)
	name := filepath.Join(dir, "acre.yaml")
	err := errors.Join(os.WriteFile(name, []byte(text), 0o666), os.WriteFile(filepath.Join(dir, "weather.csv"), []byte(w.String()), 0o666))
	if err != nil {
		t.Fatal(err)
	}
	return name
}

// A basis is the part of every JSON that says what yearly figures cover.
type basis struct {
	Per        string
	Years      []int
	FirstMonth int `json:"first_month"`
	Days       int
}

// acreInch is an inch over an acre in gallons: 43,560 ft² · 144 in²/ft² · 1 in /
// 231 in³/gal = 27,154.2857 gal, told as 27,154.3.
const acreInch = 43560.0 * 144 / 231

// TestAnAcreInchADay follows gallons from the weather to every print by hand: May
// to September 2006 has 153 days, so 153 · 27,154.2857 = 4,154,605.7 gal and half
// of that, 2,077,302.9; a year of 365 days has 9,911,314.3. Prints have three
// significant digits, JSON has all.
func TestAnAcreInchADay(t *testing.T) {
	if math.Round(10*acreInch) != 271543 {
		t.Fatalf("%g", acreInch)
	}
	for _, tt := range []struct {
		name     string
		from, to cal.Date
		latitude float64
		gal      float64 // a year, or in the days of the record
		want     basis
		prints   []string // on the terminal
	}{
		{"May to September 2006", cal.Of(2006, 5, 1), cal.Of(2006, 9, 30), 39, 153 * acreInch, basis{"days", []int{}, 1, 153},
			[]string{"4,150,000", "2,080,000", "in these", "153 days", "figures are for these 153 days, not for a year", "no spin-up"}},
		{"a single day", cal.Of(2006, 5, 1), cal.Of(2006, 5, 1), 39, acreInch, basis{"days", []int{}, 1, 1},
			[]string{"27,200", "on this", "13,600"}},
		{"one whole year and parts of two", cal.Of(2005, 7, 1), cal.Of(2007, 9, 30), 39, 365 * acreInch, basis{"year", []int{2006}, 1, 365},
			[]string{"9,910,000", "a year", "only whole year, 2006. The other 457 days of the record are replayed but not counted"}},
		// January to June 2005 and July to September 2007 are outside: 181 + 92 days.
		{"two years in the south", cal.Of(2005, 1, 1), cal.Of(2007, 9, 30), -34, 365 * acreInch, basis{"year", []int{2005, 2006}, 7, 730},
			[]string{"9,910,000", "2 whole years: 2005/06, 2006/07. A year runs from July to June. The other 273 days"}},
	} {
		name := acre(t, tt.from, tt.to, tt.latitude)
		out := filepath.Join(filepath.Dir(name), "out")
		text := done(t, "replay", name, "--out", out)
		for _, want := range tt.prints {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the comparison lacks %q:\n%s", tt.name, want, text)
			}
		}
		var summary struct {
			Basis      basis
			Strategies []map[string]any
		}
		if err := json.Unmarshal(runOut(t, "replay", name, "--json"), &summary); err != nil {
			t.Fatal(err)
		}
		if fmt.Sprint(summary.Basis) != fmt.Sprint(tt.want) {
			t.Errorf("%s: basis %+v, by hand %+v", tt.name, summary.Basis, tt.want)
		}
		for i, share := range []float64{1, 0.5} {
			m3, _ := summary.Strategies[i]["volume_m3_per_year"].(float64)
			if gal := m3 * 1000 / 3.785411784; math.Abs(gal-share*tt.gal) > 1e-6*tt.gal {
				t.Errorf("%s: %.4f gal, by hand %.4f", tt.name, gal, share*tt.gal)
			}
		}
		var record struct {
			Start   struct{ How string }
			Results struct{ Basis basis }
		}
		run, err1 := os.ReadFile(filepath.Join(out, "run.json"))
		page, err2 := os.ReadFile(filepath.Join(out, "report.html"))
		if err := errors.Join(err1, err2, json.Unmarshal(run, &record)); err != nil {
			t.Fatal(err)
		}
		short := tt.to-tt.from+1 < 365
		if fmt.Sprint(record.Results.Basis) != fmt.Sprint(tt.want) || strings.HasPrefix(record.Start.How, "full root zone") != short {
			t.Errorf("%s: run.json has %+v", tt.name, record)
		}
		if strings.Contains(string(page), "full root zone; no spin-up") != short ||
			tt.want.Per == "days" && strings.Contains(string(page), "/yr]") {
			t.Errorf("%s: the page does not say how the record begins, or has a yearly unit", tt.name)
		}
		var curve struct{ Basis basis }
		if err := json.Unmarshal(runOut(t, "tradeoff", name, "--strategy", "an inch a day", "--json"), &curve); err != nil {
			t.Fatal(err)
		}
		if fmt.Sprint(curve.Basis) != fmt.Sprint(tt.want) {
			t.Errorf("%s: the curve has %+v", tt.name, curve.Basis)
		}
		words := map[string]string{"days": " day", "year": "a year"}[tt.want.Per]
		if sheet := done(t, "settings", name, "--strategy", "an inch a day"); !strings.Contains(sheet, words) {
			t.Errorf("%s: the sheet lacks %q:\n%s", tt.name, words, sheet)
		}
	}
}

// TestOneInTenNeedsTenYears: no command speaks of a 1-in-10 year for nine whole
// years, be they nine in all, nine besides an excluded one, or ten less a day.
func TestOneInTenNeedsTenYears(t *testing.T) {
	for _, tt := range []struct {
		name string
		to   cal.Date
		edit string
		ten  bool
	}{
		{"nine", cal.Of(2009, 12, 31), "", false},
		{"ten less a day", cal.Of(2010, 12, 30), "", false},
		{"ten with one excluded", cal.Of(2010, 12, 31), ", exclude_years: 2004", false},
		{"ten", cal.Of(2010, 12, 31), "", true},
	} {
		name := acre(t, cal.Of(2001, 1, 1), tt.to, 39)
		text, err := os.ReadFile(name)
		edited := strings.Replace(string(text), "file: weather.csv", "file: weather.csv"+tt.edit, 1)
		err = errors.Join(err, os.WriteFile(name, []byte(edited), 0o666))
		if err != nil {
			t.Fatal(err)
		}
		out := filepath.Join(filepath.Dir(name), "out")
		replayed := done(t, "replay", name, "--out", out)
		if want := map[bool]string{true: "1-in-10 dry year 20", false: "(driest of 9 years)"}[tt.ten]; !strings.Contains(replayed, want) {
			t.Errorf("%s: the comparison lacks %q:\n%s", tt.name, want, replayed)
		}
		told := map[string]string{
			"replay": replayed, "settings": done(t, "settings", name, "--strategy", "half an inch"),
			"tradeoff": done(t, "tradeoff", name, "--strategy", "half an inch"),
			"tune":     string(runOut(t, "tune", name, "--kind", "fixed", "--no-holdout")),
		}
		for _, file := range []string{"report.html", "run.json"} {
			b, err := os.ReadFile(filepath.Join(out, file))
			if err != nil {
				t.Fatal(err)
			}
			told[file] = string(b)
		}
		for _, command := range []string{"tune", "settings", "tradeoff"} {
			told[command+" --json"] = string(runOut(t, append([]string{command, name, "--json"}, map[string][]string{
				"settings": {"--strategy", "half an inch"}, "tradeoff": {"--strategy", "half an inch"},
				"tune": {"--kind", "fixed", "--no-holdout"}}[command]...)...))
		}
		for what, text := range told {
			has := strings.Contains(text, "1-in-10") || strings.Contains(text, "one year in ten")
			if has != tt.ten {
				t.Errorf("%s: %s speaks of 1 in 10: %t", tt.name, what, has)
			}
		}
	}
}
