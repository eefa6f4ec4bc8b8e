package prepare

import (
	"errors"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// refusal returns the faults of a record that cannot be made ready.
func refusal(t *testing.T, rec *weather.Record, o Options) []*diag.Error {
	t.Helper()
	_, err := Record(rec, o)
	var many *diag.Errors
	if !errors.As(err, &many) {
		t.Fatalf("error %v, want faults of the input", err)
	}
	return many.List
}

// only returns an invented record that has only the columns given.
func only(columns ...weather.Column) *weather.Record {
	rec := record(2)
	s := weather.NewSeries(rec.Station, rec.Start, rec.Days, columns...)
	for _, c := range columns {
		copy(s.Data[c], rec.Data[c])
		copy(s.Mark[c], rec.Mark[c])
	}
	rec.Series = *s
	return rec
}

// A column that is not there is told once, with the file that could supply it.
func TestLackingColumn(t *testing.T) {
	noRain := "the record has no usable value of rain (rain_mm), which a replay requires; it has tmax_c, tmin_c"
	gauge := only(weather.Rain)
	gauge.File, gauge.Start = "gauge.csv", gauge.Start+20*365
	empty := record(2)
	lose(empty, empty.Start, empty.End(), weather.Rain)
	donor := only(weather.Tmax, weather.Tmin)
	donor.File = "second.csv"
	tests := []struct {
		name     string
		rec      *weather.Record
		o        Options
		msg, fix string
	}{
		{"no rain", only(weather.Tmax, weather.Tmin), Options{}, noRain, "rain_file; --rain"},
		{"rain without any value", empty, Options{}, noRain, "rain_file; --rain"},
		{"a gauge of other days", only(weather.Tmax, weather.Tmin), Options{Gauge: gauge},
			noRain + "; the rain file gauge.csv has none on its days", "rain_file; --rain"},
		{"a second station without rain", only(weather.Tmax, weather.Tmin), Options{Donors: []*weather.Record{donor}},
			noRain + "; nor does the second station second.csv", "rain_file; --rain"},
		{"no lowest temperature", only(weather.Tmax, weather.Rain), Options{},
			"the record has no usable value of lowest temperature (tmin_c), which a replay requires; it has tmax_c, rain_mm", "fill_files; --fill"},
		{"no temperature", only(weather.Rain), Options{},
			"the record has no usable value of highest temperature (tmax_c), lowest temperature (tmin_c), which a replay requires; it has rain_mm",
			"file: [a.csv, b.csv]"},
	}
	for _, tt := range tests {
		list := refusal(t, tt.rec, tt.o)
		if len(list) != 1 || list[0].Msg != tt.msg || !strings.Contains(list[0].Fix, tt.fix) {
			t.Errorf("%s: %v\nwant one fault %q with %q", tt.name, list, tt.msg, tt.fix)
		}
	}
}

// What was dropped as impossible is told with the refusal that follows from it.
func TestRefusalTellsWhatWasDropped(t *testing.T) {
	fahrenheit := record(3)
	for i := range fahrenheit.Days {
		for _, c := range []weather.Column{weather.Tmax, weather.Tmin} {
			fahrenheit.Data[c][i] = fahrenheit.Data[c][i]*9/5 + 32
		}
	}
	over := 0
	for _, v := range fahrenheit.Data[weather.Tmax] {
		if v > 60 {
			over++
		}
	}
	swapped := record(2)
	swapped.Data[weather.Tmax], swapped.Data[weather.Tmin] = swapped.Data[weather.Tmin], swapped.Data[weather.Tmax]
	tests := []struct {
		name     string
		rec      *weather.Record
		msg, fix string
	}{
		{"Fahrenheit", fahrenheit, quantity.Whole(over) +
			" values of tmax_c were dropped as impossible: highest temperature outside -50 to 60 °C is impossible",
			"unit: F in a layout file (layout_file: map.yaml; --layout-file map.yaml)"},
		{"Fahrenheit, the unit", fahrenheit, ", as if °F were read as °C", ""},
		{"swapped", swapped, "730 values of tmax_c were dropped as impossible: Tmax below Tmin", "swap the names of the two temperature columns"},
	}
	for _, tt := range tests {
		copied := *tt.rec
		copied.Series = slice(&tt.rec.Series, 0, tt.rec.Days)
		list := refusal(t, &copied, Options{})
		if !strings.Contains(list[0].Msg, tt.msg) || !strings.Contains(list[0].Fix, tt.fix) {
			t.Errorf("%s: %v\nwant %q with %q", tt.name, list, tt.msg, tt.fix)
		}
		for _, e := range list[1:] {
			if strings.Contains(e.Msg, "dropped") {
				t.Errorf("%s: told twice: %v", tt.name, e)
			}
		}
	}
}
