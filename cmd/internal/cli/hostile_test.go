package cli_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"loamledger/weather/cal"
)

// evil is text that colors a terminal, rings it, moves its cursor and turns the
// direction of writing, in seven and eight bits.
const evil = "\x1b[31m\x07\r\x7f\u009b31m\u202e"

// Nothing in a file steers a terminal or a page, whatever is wrong with the file or
// right with it.
func TestHostileFiles(t *testing.T) {
	yard, err := os.ReadFile("testdata/yard.yaml")
	if err != nil {
		t.Fatal(err)
	}
	good := string(synthetic(cal.Of(2013, 1, 1), 730))
	quoted := `\e[31m\a\r\x7f\x9b31m\u202e`
	places := map[string][2]string{ // scenario, weather
		"header":        {string(yard), strings.Replace(good, "rain_mm", "rain_mm,"+evil, 1)},
		"cell":          {string(yard), strings.Replace(good, ",14,", ","+evil+",", 1)},
		"date":          {string(yard), strings.Replace(good, "\n", "\n"+evil, 1)},
		"other file":    {string(yard), "date," + evil + ",prcp\n2013-01-01,3,4\n"},
		"comment":       {string(yard), "# station: " + evil + "\n" + good},
		"scenario text": {strings.Replace(string(yard), "area: 2400 ft2", `area: "2400 `+quoted+`"`, 1), good},
		"scenario name": {strings.Replace(string(yard), "Thistle Corner", `"T `+quoted+`"`, 1), good},
		"scenario key":  {strings.Replace(string(yard), "area: 2400 ft2", `"area`+quoted+`": 2400 ft2`, 1), good},
		"plant":         {strings.Replace(string(yard), "cool-season turf", `"cool `+quoted+`"`, 1), good},
		"file":          {strings.Replace(string(yard), "file: weather.csv", `file: "w`+quoted+`.csv"`, 1), good},
		"layout":        {strings.Replace(string(yard), "file: weather.csv", `file: weather.csv, layout: "`+quoted+`"`, 1), good},
		"station":       {strings.Replace(string(yard), "file: weather.csv", `file: weather.csv, station: "`+quoted+`"`, 1), good},
		"accept":        {strings.Replace(string(yard), "file: weather.csv", `file: weather.csv, accept: "`+quoted+`"`, 1), good},
		"raw":           {string(yard) + "# " + evil + "\n" + evil + ": 3\n", good},
		"good":          {string(yard), good},
	}
	for what, files := range places {
		dir := t.TempDir()
		name, data := filepath.Join(dir, "yard"+evil+".yaml"), filepath.Join(dir, "weather.csv")
		err := errors.Join(os.WriteFile(name, []byte(files[0]), 0o666), os.WriteFile(data, []byte(files[1]), 0o666))
		if err != nil {
			t.Fatal(err)
		}
		out, sheet := filepath.Join(dir, "out"), filepath.Join(dir, "sheet.html")
		for _, args := range [][]string{{"check", name}, {"check", name, "--json"}, {"weather", data}, {"weather", data, "--json"},
			{"replay", name, "--out", out}, {"settings", name, "--strategy", "as found", "--out", sheet},
			{"settings", name, "--strategy", evil}} {
			code, stdout, stderr := run(t.Context(), args...)
			if code == 1 {
				t.Errorf("%s: %q: a system error: %s", what, args, stderr)
			}
			calm(t, what+" on the output", stdout)
			calm(t, what+" on the error output", stderr)
		}
		for _, page := range []string{filepath.Join(out, "report.html"), sheet} {
			text, err := os.ReadFile(page)
			if err != nil && what == "good" {
				t.Error(err)
			}
			calm(t, what+" on "+filepath.Base(page), string(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))))
		}
	}
}

// calm checks that a text has no character that steers anything.
func calm(t *testing.T, what, text string) {
	t.Helper()
	i := strings.IndexFunc(text, func(r rune) bool {
		return r != '\n' && r != '\t' && (unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r))
	})
	if i >= 0 {
		t.Errorf("%s: %q", what, text[max(0, i-40):min(len(text), i+40)])
	}
}
