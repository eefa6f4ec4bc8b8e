package examples

import (
	"bytes"
	"os"
	"testing"

	"loamledger/scenarios/weatherfile"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/generate"
)

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
