package cli_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"loamledger/cmd/internal/cli"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
)

// run runs a command and returns its exit code and what it printed.
func run(ctx context.Context, args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = cli.Main(ctx, args, cli.Streams{Out: &out, Err: &err})
	return code, out.String(), err.String()
}

// done runs a command that must succeed and returns what it printed.
func done(t *testing.T, args ...string) string {
	t.Helper()
	code, out, errs := run(t.Context(), args...)
	if code != 0 || errs != "" {
		t.Fatalf("%q: exit code %d\n%s", args, code, errs)
	}
	return out
}

// yard writes the scenario of the scripts and years of weather to a temporary
// folder, and returns the name of the scenario.
func yard(t *testing.T, years int) string {
	t.Helper()
	dir := t.TempDir()
	text, err := os.ReadFile("testdata/yard.yaml")
	if years > 2 { // rain on every fifth day of winter is as regular as if it was read every fifth day
		text = bytes.Replace(text, []byte("file: weather.csv"), []byte("file: weather.csv, accept: [rain-accumulated]"), 1)
	}
	name := filepath.Join(dir, "yard.yaml")
	days := int(cal.Of(2001+years, 1, 1) - cal.Of(2001, 1, 1))
	err = errors.Join(err, os.WriteFile(name, text, 0o666),
		os.WriteFile(filepath.Join(dir, "weather.csv"), synthetic(cal.Of(2001, 1, 1), days), 0o666))
	if err != nil {
		t.Fatal(err)
	}
	return name
}

// nothingLeft checks that a folder has no output, complete or partial.
func nothingLeft(t *testing.T, dir string) {
	t.Helper()
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, e fs.DirEntry, err error) error {
		if base := filepath.Base(name); temporary(base) || base == "out" || base == "out.csv" {
			t.Errorf("%s is left behind", name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestInterrupted(t *testing.T) {
	scenario := yard(t, 2)
	dir := filepath.Dir(scenario)
	out := filepath.Join(dir, "out")
	check := func(t *testing.T, code int, stdout, stderr string) {
		t.Helper()
		if code != 130 || stdout != "" || stderr != "loamledger: interrupted; no partial output\n" {
			t.Errorf("exit code %d, printed %q and %q", code, stdout, stderr)
		}
		nothingLeft(t, dir)
	}
	t.Run("before the start", func(t *testing.T) {
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		code, stdout, stderr := run(ctx, "replay", scenario, "--out", out)
		check(t, code, stdout, stderr)
	})
	t.Run("while writing", func(t *testing.T) {
		long := yard(t, 40)
		dir, out := filepath.Dir(long), filepath.Join(filepath.Dir(long), "out")
		ctx, cancel := context.WithCancel(t.Context())
		go func() {
			defer cancel()
			// Wait for a file of the unfinished output.
			for ctx.Err() == nil {
				found, _ := filepath.Glob(filepath.Join(dir, ".loamledger-partial-*", "ledger.csv"))
				if len(found) > 0 {
					return
				}
				time.Sleep(time.Millisecond)
			}
		}()
		code, stdout, stderr := run(ctx, "replay", long, "--out", out)
		cancel()
		if code != 130 || stdout != "" || !strings.Contains(stderr, "interrupted; no partial output") {
			t.Errorf("exit code %d, printed %q and %q", code, stdout, stderr)
		}
		nothingLeft(t, dir)
	})
}

// The output of the weather command reads back to the same values, and to the
// same bytes when written again.
func TestWeatherReadsBack(t *testing.T) {
	dir := t.TempDir()
	raw, first, second := filepath.Join(dir, "raw.csv"), filepath.Join(dir, "first.csv"), filepath.Join(dir, "second.csv")
	// Made-up values; the second day lacks Tmax.
	const text = "date,tmax_c,tmin_c,rain_mm,tdew_c,rs_mj_m2,wind_m_s\n" +
		"2013-06-01,28.25,12.5,0,9.1,24.3,2.2\n2013-06-02,,13.1,4.75,10,19.9,3\n" +
		"2013-06-03,30.1,14.9,0.1,10.3,25.8,1.7\n2013-06-04,31,15.2,0,11,26.4,2.5\n"
	if err := os.WriteFile(raw, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	place := []string{"--latitude", "38.9", "--elevation", "500 m", "--wind-height", "2 m"}
	done(t, append([]string{"weather", raw, "-o", first}, place...)...)
	done(t, append([]string{"weather", first, "-o", second}, place...)...)
	a, b := read(t, first), read(t, second)
	if !bytes.Equal(a, b) {
		t.Errorf("written again, it differs:\n%s\n%s", a, b)
	}
	was, err := csvfile.Read(strings.NewReader(text), raw, csvfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	is, err := csvfile.Read(bytes.NewReader(a), first, csvfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if is.Start != was.Start || is.Days != was.Days || is.Has(weather.ETo) { // computed ETo is not supplied ETo
		t.Fatalf("the record runs from %v, %d days, ETo %v", is.Start, is.Days, is.Has(weather.ETo))
	}
	for c := range weather.Columns {
		for i := range was.Days {
			before, after := was.At(c, i), is.At(c, i)
			switch {
			case !was.Has(c):
			case c == weather.Tmax && i == 1:
				if !(after > 28.25 && after < 30.1) {
					t.Errorf("the gap in Tmax is filled with %v, not between its neighbors", after)
				}
			case before != after:
				t.Errorf("%s of %v: %v became %v", c.Key(), was.Date(i), before, after)
			}
		}
	}
	// The same as JSON.
	var got struct {
		Days       int    `json:"days"`
		FilledDays int    `json:"filled_days"`
		From       string `json:"from"`
		Methods    []struct {
			Days int `json:"days"`
		} `json:"eto_methods"`
		Findings []struct{ Code, Worst string } `json:"findings"`
	}
	decode(t, done(t, append([]string{"weather", raw, "--json"}, place...)...), &got)
	if got.Days != 4 || got.FilledDays != 1 || got.From != "2013-06-01" || len(got.Methods) == 0 || len(got.Findings) == 0 {
		t.Errorf("got %+v", got)
	}
}

// The comparison as JSON agrees with run.json and with the totals of tally.csv.
func TestComparisonForScripts(t *testing.T) {
	scenario := yard(t, 3)
	out := filepath.Join(filepath.Dir(scenario), "out")
	type comparison struct {
		Strategies []struct {
			Strategy  string
			Reference bool
			M3        float64  `json:"volume_m3_per_year"`
			Change    *float64 `json:"change_against_baseline"`
			NeedMet   float64  `json:"need_met"`
		}
	}
	var printed comparison
	decode(t, done(t, "replay", scenario, "--json", "--no-charts", "--out", out), &printed)
	var written struct {
		Files   []struct{ Name, SHA256 string }
		Inputs  []struct{ Key, Source, Grade, Place string }
		Results comparison
	}
	decode(t, string(read(t, filepath.Join(out, "run.json"))), &written)
	if len(printed.Strategies) != 4 || len(written.Results.Strategies) != 4 {
		t.Fatalf("%d strategies printed, %d written, want 2 and the 2 references", len(printed.Strategies), len(written.Results.Strategies))
	}
	if len(written.Files) != 2 || written.Files[0].Name != "yard.yaml" || len(written.Files[1].SHA256) != 64 {
		t.Errorf("input files %+v", written.Files)
	}
	for _, in := range written.Inputs {
		if in.Source == "" && in.Place == "" {
			t.Errorf("%s has neither a place in the scenario nor a source", in.Key)
		}
	}
	rows := readTally(t, filepath.Join(out, "tally.csv"))
	years := float64(3*365) / 365.25
	for i, s := range printed.Strategies {
		if w := written.Results.Strategies[i]; w.Strategy != s.Strategy || w.M3 != s.M3 {
			t.Errorf("printed %+v, written %+v", s, w)
		}
		sum := 0.0
		for _, r := range rows {
			if r.strategy == s.Strategy {
				sum += r.v["volume_m3"]
			}
		}
		if d := sum/years - s.M3; d > 1e-3*sum || -d > 1e-3*sum {
			t.Errorf("%s: %g m3 a year, the tally has %g", s.Strategy, s.M3, sum/years)
		}
	}
}

func TestCatalogForScripts(t *testing.T) {
	var c struct {
		Soils, Plants, Sprinklers, Covers []map[string]any
		Intervals                         []map[string]any `json:"watering_intervals"`
		Sensors                           map[string]any   `json:"rain_sensors"`
		Lawn                              map[string]any   `json:"lawn_intake"`
	}
	decode(t, done(t, "catalog", "--json"), &c)
	if len(c.Intervals) != 10 || c.Sensors["MissRate"] == nil || c.Lawn["High"] == nil {
		t.Errorf("%d intervals, sensors %v, lawns %v", len(c.Intervals), c.Sensors, c.Lawn)
	}
	if len(c.Soils) < 8 || len(c.Plants) < 5 || len(c.Sprinklers) < 4 || len(c.Covers) < 3 {
		t.Errorf("%d soils, %d plants, %d sprinklers, %d covers", len(c.Soils), len(c.Plants), len(c.Sprinklers), len(c.Covers))
	}
}

func decode(t *testing.T, text string, into any) {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(text))
	if err := d.Decode(into); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		t.Errorf("more than one JSON value: %v", err)
	}
}

func read(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
