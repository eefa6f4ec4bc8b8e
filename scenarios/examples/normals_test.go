package examples

import (
	"bytes"
	"os"
	"testing"

	"loamledger/scenarios/weatherfile"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/generate"
	"loamledger/weather/quality"
)

// desert generates four years of the place with summer rains, from 2020.
func desert(t *testing.T, seed uint64) *weather.Record {
	t.Helper()
	f, err := os.Open("testdata/ocotillo-rows-normals.yaml")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	n, st, err := weatherfile.ReadNormals(f, f.Name())
	if err != nil {
		t.Fatal(err)
	}
	p, err := n.Params()
	if err != nil {
		t.Fatal(err)
	}
	first := cal.Of(2020, 1, 1)
	rec, err := generate.Generate(p, st, first, int(cal.Of(2024, 1, 1)-first), seed)
	if err != nil {
		t.Fatal(err)
	}
	return rec
}

// tdewBreaks counts the changes of unit that the checks of weather see in the dew point.
func tdewBreaks(rec *weather.Record) (n int) {
	for _, f := range quality.Check(rec) {
		if f.Code == weather.CodeUnitBreak && f.Column == weather.Tdew.Key() {
			n += f.Count
		}
	}
	return n
}

// The summer rains of a desert, which raise the dew point within days as far as a change from
// °C to °F does, are not taken for one; a change to °F is found.
func TestSummerRainsAreNoChangeOfUnit(t *testing.T) {
	found, apart := 0, 0
	for seed := range uint64(20) {
		if n := tdewBreaks(desert(t, seed+1)); n != 0 {
			apart++
			t.Logf("seed %d: %d changes of unit", seed+1, n)
		}
		rec := desert(t, seed+1)
		from := int(cal.Of(2022, 2, 10) - rec.Start)
		for i := from; i < rec.Days; i++ {
			rec.Data[weather.Tdew][i] = 1.8*rec.Data[weather.Tdew][i] + 32
		}
		if tdewBreaks(rec) > 0 {
			found++
		}
	}
	// Golden: 17 of 20 are found with the rule on changes from day to day and without it; the
	// others have no step of 20 days that is sharp enough.
	if apart > 0 || found < 17 {
		t.Errorf("%d of 20 records without a change of unit show one; %d of 20 with one do", apart, found)
	}
}

// The weather of these places is generated from monthly normals of testdata, for four
// years from 2020. The files are golden: UPDATE=1 rewrites them.
func TestWeatherIsAsGeneratedFromNormals(t *testing.T) {
	for _, c := range []struct {
		name string
		seed uint64
	}{{"cholla-wash", 21}, {"fern-landing", 22}, {"ocotillo-rows", 29}} {
		f, err := os.Open("testdata/" + c.name + "-normals.yaml")
		if err != nil {
			t.Fatal(err)
		}
		n, st, err := weatherfile.ReadNormals(f, f.Name())
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		p, err := n.Params()
		if err != nil {
			t.Fatal(err)
		}
		first := cal.Of(2020, 1, 1)
		rec, err := generate.Generate(p, st, first, int(cal.Of(2024, 1, 1)-first), c.seed)
		if err != nil {
			t.Fatal(err)
		}
		var want bytes.Buffer
		if err := csvfile.WriteOwn(&want, &rec.Series); err != nil {
			t.Fatal(err)
		}
		file := c.name + "-weather.csv"
		if os.Getenv("UPDATE") == "1" {
			if err := os.WriteFile(file, want.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		got, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want.Bytes()) {
			t.Errorf("%s is not what its generator writes; UPDATE=1 writes it anew", file)
		}
	}
}
