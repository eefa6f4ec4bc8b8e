package csvfile

import (
	"strings"
	"testing"

	"loamledger/weather"
)

func TestAzmet(t *testing.T) {
	cells := []want{
		{"2032-12-29", weather.Tmax, 16.4}, {"2032-12-29", weather.ETo, 1.8}, {"2032-12-30", weather.Tmax, na}, {"2032-12-30", weather.Rs, 8.82},
		{"2032-12-30", weather.ETo, na}, {"2032-12-31", weather.Tdew, -4}, {"2033-01-01", weather.Ea, 0.48},
	}
	findings := map[string]int{
		"swapped-eto-column eto_mm": 3, "eto-without-inputs eto_mm": 1, "duplicate-rows": 1, "missing-values eto_mm": 1,
	}
	for _, c := range []string{"tmax_c", "tmin_c", "rhmax_pct", "rhmin_pct", "rhmean_pct", "tdew_c", "ea_kpa"} {
		findings["missing-code "+c], findings["missing-values "+c] = 1, 1
	}
	for _, name := range []string{"azmet.csv", "azmet_bare.txt"} {
		rec := check(t, name, fixture(t, name), Options{}, 4, cells, findings)
		if rec.Station.ID != "90" || rec.Station.WindHeightM != 3 {
			t.Errorf("%s: station %+v", name, rec.Station)
		}
		for _, f := range rec.Findings {
			// Distances of eto_azmet in 2032: 1.1, 0.5 and 1.3 mm.
			if f.Code == "swapped-eto-column" && (f.Worst.String() != "2032-12-31" ||
				!strings.Contains(f.Detail, "off by 1.3 mm; years 2032 to 2032")) {
				t.Errorf("%s: worst swap %v: %s", name, f.Worst, f.Detail)
			}
		}
	}
	rec := check(t, "api", fixture(t, "azmet_api.csv"), Options{Station: "quiet flats"}, 2, []want{
		{"2033-05-01", weather.ETo, 6.7}, {"2033-05-02", weather.ETo, na}, {"2033-05-02", weather.Wind, na},
	}, map[string]int{"eto-without-inputs eto_mm": 1, "missing-values eto_mm": 1, "missing-values wind_m_s": 1})
	if rec.Station.ID != "az90" || rec.Station.Name != "Quiet Flats" {
		t.Errorf("station %+v", rec.Station)
	}
	checkFault(t, strings.Replace(fixture(t, "azmet.csv"), "2033,1,90,20.1", "2033,0,90,20.x", 1), Options{},
		`f.csv:6:1: "2033 0" is not a calendar date`)
}

func TestAzmetShared(t *testing.T) {
	// The raw files: 999 in temperature and humidity on days 14 and 15 of 2015, one date twice.
	findings := map[string]int{"duplicate-rows": 1, "swapped-eto-column eto_mm": 6575, "eto-without-inputs eto_mm": 2,
		"missing-values eto_mm": 2}
	for _, c := range []string{"tmax_c", "tmin_c", "rhmax_pct", "rhmin_pct", "rhmean_pct", "tdew_c", "ea_kpa"} {
		findings["missing-code "+c], findings["missing-values "+c] = 2, 2
	}
	findings["missing-code tmax_c"], findings["missing-values tmax_c"] = 1, 1 // the highest temperature on day 14 alone
	readShared(t, "azmet-tucson.csv", "azmet", Options{}, 6575, []want{
		{"2003-01-01", weather.Tmax, 16.4}, {"2003-01-01", weather.ETo, 1.8}, {"2015-01-14", weather.Tmax, na}, {"2015-01-14", weather.Rs, 8.82},
		{"2006-12-31", weather.Tmax, 17.8}, {"2020-12-31", weather.Wind, 1.3},
	}, findings)
	readShared(t, "azmet-payson.csv", "azmet", Options{}, 6994, []want{
		{"2003-11-08", weather.ETo, 1.7}, {"2022-07-28", weather.ETo, na}, {"2022-12-31", weather.Tdew, 5},
	}, map[string]int{
		// 6,264 days before 2021; wind is NA on five days.
		"swapped-eto-column eto_mm": 6264, "eto-without-inputs eto_mm": 5, "missing-values eto_mm": 5, "missing-values wind_m_s": 5,
	})
}

func FuzzReadAzmet(f *testing.F) {
	fuzzLayout(f, "azmet", fixture(f, "azmet.csv"), fixture(f, "azmet_bare.txt"), fixture(f, "azmet_api.csv"))
}

func BenchmarkReadAzmet(b *testing.B) { benchLayout(b, sharedFile(b, "azmet-tucson.csv"), Options{}) }
