package quality_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/quality"
)

// place is a location that some files do not state but their publishers do.
type place struct{ lat, elevM float64 }

// Real records from networks that check their own data: few values are dropped,
// and known problems are reported.
func TestRealRecords(t *testing.T) {
	dir := filepath.Join("..", "..", "..", "shared", "weather")
	if _, err := os.Stat(dir); err != nil {
		t.Skip("shared reference data not present")
	}
	tests := []struct {
		file    string
		at      *place       // nil: the file states it
		mostOut int          // values that may be dropped from the whole record
		told    weather.Code // a finding that must be there, "" for none
		count   int          // of it, 0 for any
		worst   cal.Date
	}{
		{"azmet-tucson.csv", &place{32.28, 713}, 0, "humidity-below-2", 26, cal.Of(2018, 4, 16)},
		{"azmet-payson.csv", &place{34.23, 1480}, 0, "dew-point-above-tmin", 0, cal.Of(2022, 2, 24)},
		{"agrimet-fallon-nv.csv", &place{39.4575, 1208.5}, 0, "arid-site", 364, cal.Of(2015, 1, 1)},
		{"knmi-debilt.txt", &place{52.1, 2}, 2, "radiation-none", 2, cal.Of(2005, 11, 25)},
		{"daymet-oak-ridge-tn.csv", nil, 0, "day-366-absent", 3, cal.Of(2000, 12, 31)},
		{"nasapower-chakwal-pk.csv", nil, 0, "arid-site", 0, cal.Of(2000, 1, 1)},
		{"openmeteo-torino.csv", nil, 0, "", 0, 0},
		{"siar-valle-guerra.csv", &place{28.5, 300}, 0, "gauge-dry", 192, cal.Of(2017, 6, 2)},
		{"uscrn-manhattan-ks.csv", nil, 1, "radiation-above-air", 1, cal.Of(2004, 1, 27)},
	}
	for _, tt := range tests {
		f, err := os.Open(filepath.Join(dir, tt.file))
		if err != nil {
			t.Fatal(err)
		}
		o := csvfile.Options{}
		if tt.at != nil {
			o.LatDeg, o.ElevM = &tt.at.lat, &tt.at.elevM
		}
		rec, err := csvfile.Read(f, tt.file, o)
		f.Close()
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		before := missing(rec)
		list := quality.Check(rec)
		if out := missing(rec) - before; out > tt.mostOut {
			t.Errorf("%s: %d values dropped; at most %d: %+v", tt.file, out, tt.mostOut, list)
		}
		k := slices.IndexFunc(list, func(f weather.Finding) bool { return f.Code == tt.told })
		switch {
		case tt.told == "":
		case k < 0:
			t.Errorf("%s: %s not told", tt.file, tt.told)
		case tt.count > 0 && list[k].Count != tt.count, list[k].Worst != tt.worst:
			t.Errorf("%s: %+v; want %d, worst on %v", tt.file, list[k], tt.count, tt.worst)
		}
	}
}

func missing(rec *weather.Record) (n int) {
	for c := range weather.Columns {
		n += rec.CountMissing(c)
	}
	return n
}
