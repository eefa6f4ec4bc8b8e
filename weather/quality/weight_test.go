package quality_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/quality"
)

// places are the locations that some files of the reference stations do not
// state but their publishers do.
func places() map[string]place {
	return map[string]place{
		"azmet-tucson.csv": {32.28, 713}, "azmet-payson.csv": {34.23, 1480}, "agrimet-fallon-nv.csv": {39.46, 1208},
		"ghcnd-greer-sc.dly": {34.9, 290}, "ghcnd-wideflags-san-francisco-oceanside.csv": {37.73, 5},
		"ghcnd-long-san-francisco-ap.csv": {37.62, 2}, "ghcnd-long-new-york-central-park.csv": {40.78, 40},
		"cdo-tenths-seattle-tacoma.csv": {47.44, 113}, "vega-seattle.csv": {47.44, 113}, "ncei-standard-death-valley.csv": {36.46, -59},
		"cimis-buntingville.csv": {40.3, 1220}, "knmi-debilt.txt": {52.1, 2}, "siar-las-galletas.csv": {28, 50},
		"siar-valle-guerra.csv": {28.5, 300},
	}
}

// real reads a reference station or an example, with its place.
func real(t *testing.T, name string) *weather.Record {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	o := csvfile.Options{}
	if p, ok := places()[filepath.Base(name)]; ok {
		o.LatDeg, o.ElevM = &p.lat, &p.elevM
	} else if strings.HasSuffix(name, "-weather.csv") {
		lat := 40.0
		if strings.Contains(name, "saltbush") {
			lat = -34
		}
		o.LatDeg = &lat
	}
	rec, err := csvfile.Read(f, filepath.Base(name), o)
	if err != nil {
		t.Fatal(err)
	}
	return rec
}

// stations lists the reference stations and the examples.
func stations(t *testing.T) []string {
	t.Helper()
	shared, _ := filepath.Glob(filepath.Join("..", "..", "..", "shared", "weather", "*.*"))
	shared = slices.DeleteFunc(shared, func(n string) bool { return strings.HasSuffix(n, ".md") })
	examples, _ := filepath.Glob(filepath.Join("..", "..", "scenarios", "examples", "*-weather.csv"))
	if len(examples) < 5 {
		t.Fatalf("%d examples", len(examples))
	}
	return append(shared, examples...)
}

// No reference station and no example gives a decisive finding, except for the
// known oddities of the files; the lighter ones are those listed here.
// One of the stations would stop a study, and deserves it: its gauge gives half a
// year of zeros.
func TestNoFalseDecisiveFindings(t *testing.T) {
	want := map[string][]string{
		"ghcnd-greer-sc.dly":                   {"notable rain-lone-day rain_mm"}, // a tropical storm, beside a next day of 120.7 mm
		"ghcnd-long-new-york-central-park.csv": {"notable rain-lone-day rain_mm"}, // 13 months with one flood
		"siar-valle-guerra.csv":                {"doubtful gauge-dry rain_mm"},    // half a year of zeros
		"tmy3-greensboro-nc.csv":               {"notable rain-unusable rain_mm"}, // known: most of its rain column is unusable
	}
	stopping, shared := 0, 0
	for _, name := range stations(t) {
		if strings.Contains(name, "shared") {
			shared++
		}
		rec := real(t, name)
		rec.Findings = append(rec.Findings, quality.Check(rec)...)
		var got []string
		for _, f := range rec.Findings {
			w := f.Code.Weight()
			if w.Stops() {
				stopping++
			}
			if w > weather.Note {
				got = append(got, w.String()+" "+string(f.Code)+" "+f.Column)
				t.Logf("%s: %s %v: %s", filepath.Base(name), got[len(got)-1], f.Worst, f.Detail)
			}
		}
		if file := filepath.Base(name); !slices.Equal(got, want[file]) {
			t.Errorf("%s: %q, want %q", file, got, want[file])
		}
	}
	if shared > 0 && stopping != 1 {
		t.Errorf("%d findings would stop a study of %d reference stations, want 1", stopping, shared)
	}
}
