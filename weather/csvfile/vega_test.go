package csvfile

import (
	"bytes"
	"testing"

	"loamledger/weather"
)

func TestVega(t *testing.T) {
	check(t, "vega", fixture(t, "vega.csv"), Options{}, 3, []want{
		{"2031-05-01", weather.Tmax, 18.5}, {"2031-05-02", weather.Rain, 2.4}, {"2031-05-02", weather.Wind, 4.1},
		{"2031-05-03", weather.Tmin, na},
	}, map[string]int{"missing-values tmin_c": 1})
	places := fixture(t, "vega_places.csv")
	checkFault(t, places, Options{}, "2 stations: Quiet Flats, Still Pond")
	check(t, "place", places, Options{Station: "Still Pond"}, 1, []want{{"2031-05-01", weather.Tmax, 21.5}}, nil)
	hot := "date,precipitation,temp_max,temp_min,wind\n2031-07-01,0.1,95.0,59.0,10\n"
	rec := check(t, "us", hot, Options{}, 1, []want{{"2031-07-01", weather.Tmax, 35}, {"2031-07-01", weather.Rain, 2.54},
		{"2031-07-01", weather.Wind, 4.4704}}, nil)
	checkAssumed(t, rec, "units °F, inches, mph, inferred from the values")
}

func TestVegaShared(t *testing.T) {
	rec := readShared(t, "vega-seattle.csv", "vega", Options{}, 1461, []want{
		{"2012-01-01", weather.Tmax, 12.8}, {"2012-01-02", weather.Rain, 10.9}, {"2015-12-31", weather.Tmin, -2.1},
		{"2015-12-31", weather.Wind, 3.5},
	}, nil)
	checkAssumed(t, rec, "weather is a word derived", "units °C, mm, m/s, inferred from the values")
	// The same station and days from the archive's own export: equal but for one wind, which is missing there.
	other, err := Read(bytes.NewReader(sharedFile(t, "cdo-tenths-seattle-tacoma.csv")), "cdo", Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []weather.Column{weather.Tmax, weather.Tmin, weather.Rain, weather.Wind} {
		for i := range other.Days {
			if a, b := rec.At(c, i), other.At(c, i); a != b && !(c == weather.Wind && other.Date(i).String() == "2015-09-01" && b != b) {
				t.Errorf("%s on %v: %v here and %v in the archive's file", c.Key(), other.Date(i), a, b)
			}
		}
	}
}

func FuzzReadVega(f *testing.F) {
	fuzzLayout(f, "vega", fixture(f, "vega.csv"), fixture(f, "vega_places.csv"))
}
