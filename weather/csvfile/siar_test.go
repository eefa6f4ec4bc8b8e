package csvfile

import (
	"strings"
	"testing"

	"loamledger/weather"
)

func TestSIAR(t *testing.T) {
	for _, name := range []string{"siar.csv", "siar_latin1.csv"} {
		rec := check(t, name, fixture(t, name), Options{}, 4, []want{
			{"2032-12-29", weather.Tmax, 18.2}, {"2032-12-29", weather.Tmin, 7.1}, {"2032-12-29", weather.RHmean, 70.5},
			{"2032-12-29", weather.Wind, 1.21},
			{"2032-12-29", weather.Rs, 9.85}, {"2032-12-29", weather.ETo, 1.31}, {"2032-12-30", weather.Tmax, na}, {"2032-12-31", weather.ETo, na},
			{"2032-12-31", weather.Rain, 2.4},
			{"2033-01-01", weather.ETo, 0}, {"2033-01-01", weather.RHmean, na},
		}, map[string]int{
			"zero-eto-day-366 eto_mm": 1, "zero-eto eto_mm": 1, "empty-rows": 1, "missing-values tmax_c": 1, "missing-values tmin_c": 1,
			"missing-values rhmean_pct": 2,
			"missing-values wind_m_s":   1, "missing-values rs_mj_m2": 1, "missing-values rain_mm": 1, "missing-values eto_mm": 2,
		})
		if rec.Station.ID != "99-7" || rec.Station.WindHeightM != 2 {
			t.Errorf("%s: station %+v", name, rec.Station)
		}
	}
	text := fixture(t, "siar.csv")
	checkFault(t, strings.Replace(text, "2032,364", "2032,363", 1), Options{}, `f.csv:2:6: "29/12/2032" is not a calendar date`,
		"matching Año and Dia")
	checkFault(t, strings.Replace(text, "(m/s)", "(nudos)", 1), Options{}, `column "Velviento (nudos)" has the unknown unit "nudos"`)
}

func TestSIARShared(t *testing.T) {
	readShared(t, "siar-las-galletas.csv", "siar", Options{}, 3240, []want{
		{"2014-10-01", weather.Tmax, 26.25}, {"2014-10-01", weather.ETo, 2.46}, {"2016-12-31", weather.ETo, na},
		{"2023-08-14", weather.Wind, 0.59}, {"2021-06-11", weather.Tmax, na},
	}, map[string]int{"zero-eto-day-366 eto_mm": 2, "missing-days": 101, "missing-values rhmean_pct": 2, "missing-values rs_mj_m2": 5,
		"missing-values eto_mm": 3})
	rec := readShared(t, "siar-valle-guerra.csv", "siar", Options{}, 5604, []want{
		{"2008-04-11", weather.Tmin, na}, {"2008-04-13", weather.Tmin, 15.19}, {"2016-07-29", weather.Tmax, na}, {"2020-12-31", weather.ETo, na},
		{"2023-08-14", weather.ETo, 4.75},
	}, map[string]int{
		"zero-eto-day-366 eto_mm": 4, "missing-days": 42, "empty-rows": 15, "missing-values tmax_c": 16, "missing-values tmin_c": 21,
		"missing-values rain_mm":    18,
		"missing-values rhmean_pct": 29, "missing-values rs_mj_m2": 16, "missing-values wind_m_s": 15, "missing-values eto_mm": 32,
	})
	for _, f := range rec.Findings {
		if f.Code == "missing-days" && !strings.Contains(f.Detail, "gaps: 16;") {
			t.Errorf("gaps: %s", f.Detail)
		}
	}
}

func FuzzReadSIAR(f *testing.F) {
	fuzzLayout(f, "siar", fixture(f, "siar.csv"), fixture(f, "siar_latin1.csv"))
}

func BenchmarkReadSIAR(b *testing.B) {
	benchLayout(b, sharedFile(b, "siar-valle-guerra.csv"), Options{})
}
