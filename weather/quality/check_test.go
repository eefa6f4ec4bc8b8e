package quality

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/et0"
)

// clean returns years of synthetic weather in which no rule is broken: a
// watered site at 40° N with dew on most nights, some clear days in every
// stretch, rain on three days in ten, and an ETo that is the computed one.
func clean(year, years int) *weather.Record {
	r := rand.New(rand.NewPCG(3, 4))
	start := cal.Of(year, 1, 1)
	n := int(cal.Of(year+years, 1, 1) - start)
	st := weather.Station{LatDeg: 40, LonDeg: -100, ElevM: 300, WindHeightM: 2}
	s := weather.NewSeries(st, start, n, weather.Tmax, weather.Tmin, weather.Rain, weather.RHmax, weather.RHmin, weather.RHmean, weather.Tdew,
		weather.Ea, weather.Rs, weather.Wind)
	sun := et0.NewSunYear(st.LatDeg)
	for i := range n {
		doy := s.Date(i).YearDay()
		mean := 13 - 12*math.Cos(2*math.Pi*float64(doy-20)/365) + 3*r.NormFloat64()
		half := 3 + 4*r.Float64()
		tdew := mean - half - 0.5*r.Float64()
		ea := et0.SaturationVaporPressure(tdew)
		hi, lo := et0.RelativeHumidity(ea, mean-half), et0.RelativeHumidity(ea, mean+half)
		rain := 0.0
		if r.Float64() < 0.3 {
			rain = 6 * r.ExpFloat64()
		}
		for c, v := range map[weather.Column]float64{
			weather.Tmax: mean + half, weather.Tmin: mean - half, weather.Rain: rain, weather.RHmax: hi, weather.RHmin: lo,
			weather.RHmean: (hi + lo) / 2,
			weather.Tdew:   tdew, weather.Ea: ea, weather.Wind: 1 + 3*r.Float64(),
			weather.Rs: et0.ClearSkyRadiation(sun.RaMJ[doy], st.ElevM) * min(1, 0.4+0.8*r.Float64()) * (0.985 + 0.03*r.Float64()),
		} {
			s.Set(c, i, v, weather.Observed)
		}
	}
	computed, err := et0.Daily(s, et0.Options{})
	if err != nil {
		panic("quality: the invented record cannot be computed")
	}
	s.Add(weather.ETo)
	s.Add(weather.ETr)
	for i, v := range computed.EToMM {
		s.Set(weather.ETo, i, v, weather.Observed)
		s.Set(weather.ETr, i, 1.25*v, weather.Observed)
	}
	return &weather.Record{Series: *s}
}

func TestCleanRecordHasNoFindings(t *testing.T) {
	rec := clean(2000, 9)
	want := clean(2000, 9)
	for _, f := range Check(rec) {
		t.Errorf("%+v", f)
	}
	for c := range weather.Columns {
		if !slices.Equal(rec.Data[c], want.Data[c]) {
			t.Errorf("%s was changed", c.Label())
		}
	}
}

// Every kind of error, inserted at a known place, is reported there and nowhere else.
func TestInjectedFaults(t *testing.T) {
	const whole = 1 << 20 // all days of the record
	at := func(rec *weather.Record, y, m, d int) int { return int(cal.Of(y, m, d) - rec.Start) }
	put := func(c weather.Column, v float64, n int) func(*weather.Record, int) {
		return func(rec *weather.Record, i int) {
			for j := i; j < i+n; j++ {
				rec.Data[c][j] = v
			}
		}
	}
	scale := func(c weather.Column, factor float64, n int) func(*weather.Record, int) {
		return func(rec *weather.Record, i int) {
			if n == whole {
				i = 0
			}
			for j := i; j < min(i+n, rec.Days); j++ {
				rec.Data[c][j] *= factor
			}
		}
	}
	tests := []struct {
		name    string
		code    weather.Code
		column  weather.Column
		inject  func(*weather.Record, int)
		count   int // 0: any
		dropped int // values of the column dropped
		also    []weather.Code
	}{
		{"Tmax of 75 °C", "past-limits", weather.Tmax, put(weather.Tmax, 75, 1), 1, 1, nil},
		{"rain of 700 mm", "past-limits", weather.Rain, put(weather.Rain, 700, 2), 2, 2, nil},
		{"negative rain", "past-limits", weather.Rain, put(weather.Rain, -1, 1), 1, 1, nil},
		{"RHmin printed as 0", "past-limits", weather.RHmin, put(weather.RHmin, 0, 3), 3, 3, nil},
		{"RHmin of 1.5%", "humidity-below-2", weather.RHmin, put(weather.RHmin, 1.5, 1), 1, 0,
			[]weather.Code{"rhmean-outside", "vapour-against-humidity"}},
		{"wind of 60 m/s", "past-limits", weather.Wind, put(weather.Wind, 60, 1), 1, 1, nil},
		{"negative radiation", "past-limits", weather.Rs, put(weather.Rs, -5, 1), 1, 1, nil},
		{"vapor pressure in mbar", "past-limits", weather.Ea, scale(weather.Ea, 10, whole), 0, -1,
			[]weather.Code{"vapour-above-saturation", "vapour-against-humidity"}},
		{"Tmax below Tmin", "tmax-below-tmin", weather.Tmax, func(rec *weather.Record, i int) {
			rec.Data[weather.Tmax][i], rec.Data[weather.Tmin][i] = rec.Data[weather.Tmin][i], rec.Data[weather.Tmax][i]
		}, 1, 1, nil},
		{"Tmax equal to Tmin", "tmax-equals-tmin", weather.Tmax, func(rec *weather.Record,
			i int) {
			rec.Data[weather.Tmax][i] = rec.Data[weather.Tmin][i]
		}, 1, 0, nil},
		{"a range of 42 °C", "temperature-range", weather.Tmax, func(rec *weather.Record,
			i int) {
			rec.Data[weather.Tmax][i] = rec.Data[weather.Tmin][i] + 42
		}, 1, 0, []weather.Code{"supplied-eto-far", "vapour-against-humidity", "odd-value"}},
		{"°F read as °C", "temperature-unit", weather.Tmax, func(rec *weather.Record, _ int) {
			for j := range rec.Days {
				rec.Data[weather.Tmax][j] = rec.Data[weather.Tmax][j]*1.8 + 32
			}
		}, 0, -1, []weather.Code{"past-limits", "temperature-range", "supplied-eto-far", "arid-site", "supplied-eto-zero",
			"vapour-against-humidity", "eto-column-mislabelled"}},
		{"radiation above the air", "radiation-above-air", weather.Rs, put(weather.Rs, 50, 1), 1, 1, nil},
		{"radiation 8% over a clear sky", "radiation-over-clear-sky", weather.Rs, func(rec *weather.Record, i int) {
			rec.Data[weather.Rs][i] = 1.08 * et0.ClearSkyRadiation(et0.Ra(40, rec.Date(i).YearDay()), 300)
		}, 1, 0, nil},
		{"no radiation in summer", "radiation-none", weather.Rs, put(weather.Rs, 0.01, 1), 1, 1, nil},
		{"a tenth of a clear sky", "radiation-dark", weather.Rs, put(weather.Rs, 3, 1), 1, 0, []weather.Code{"supplied-eto-far"}},
		{"a sensor 10% high", "radiation-envelope-high", weather.Rs, scale(weather.Rs, 1.1, whole), 0, 0,
			[]weather.Code{"radiation-over-clear-sky"}},
		{"a sensor 15% low", "radiation-envelope-low", weather.Rs, scale(weather.Rs, 0.85, whole), 0, 0, nil},
		{"kWh read as MJ", "radiation-unit", weather.Rs, scale(weather.Rs, 1/3.6, whole), 0, -1,
			[]weather.Code{"radiation-envelope-far", "radiation-dark", "radiation-envelope-low", "eto-column-mislabelled", "supplied-eto-far"}},
		{"RHmax of 104%", "humidity-above-100", weather.RHmax, put(weather.RHmax, 104, 2), 2, 0, nil},
		{"RHmax below RHmin", "rhmax-below-rhmin", weather.RHmax, put(weather.RHmax, 5, 1), 1, 1, []weather.Code{"rhmean-outside"}},
		{"RHmean outside", "rhmean-outside", weather.RHmean, put(weather.RHmean, 5, 1), 1, 0, nil},
		{"RHmax that stops at 88%", "rhmax-never-100", weather.RHmax, func(rec *weather.Record, _ int) {
			for j, v := range rec.Data[weather.RHmax] {
				rec.Data[weather.RHmax][j] = v * 0.88
			}
		}, 9, 0, []weather.Code{"dry-site", "rhmean-outside", "rhmax-below-rhmin"}},
		{"dew point above Tmax", "dew-point-above-tmax", weather.Tdew, func(rec *weather.Record,
			i int) {
			rec.Data[weather.Tdew][i] = rec.Data[weather.Tmax][i] + 2
		}, 1, 1, nil},
		{"dew point above Tmin", "dew-point-above-tmin", weather.Tdew, func(rec *weather.Record,
			i int) {
			rec.Data[weather.Tdew][i] = rec.Data[weather.Tmin][i] + 3
		}, 1, 0, nil},
		{"vapor pressure above saturation", "vapour-above-saturation", weather.Ea, put(weather.Ea, 7.5, 1), 1, 1, nil},
		{"vapor pressure against humidity", "vapour-against-humidity", weather.Ea, scale(weather.Ea, 0.6, 1), 1, 0, nil},
		{"a stuck anemometer", "wind-calm", weather.Wind, put(weather.Wind, 0.1, 12), 12, 0, nil},
		{"wind standing still", "flat-line", weather.Wind, put(weather.Wind, 2.2, 8), 8, 0, nil},
		{"Tmin standing still", "flat-line-long", weather.Tmin, put(weather.Tmin, -20, 25), 25, 25,
			[]weather.Code{"temperature-range", "dew-point-above-tmin", "vapour-against-humidity", "supplied-eto-far", "dew-point-above-tmax",
				"vapour-above-saturation"}},
		{"equal rain day after day", "flat-line", weather.Rain, put(weather.Rain, 4.2, 6), 6, 0, nil},
		{"a blocked gauge", "gauge-dry", weather.Rain, put(weather.Rain, 0, 100), 0, 0, nil},
		{"a gauge read on working days", "gauge-weekday", weather.Rain, func(rec *weather.Record, _ int) {
			for j := range rec.Days {
				if rec.Date(j).Weekday()%6 == 0 {
					rec.Data[weather.Rain][j] = 0
				}
			}
		}, 0, 0, nil},
		{"a total after missing days", "rain-after-gap", weather.Rain, func(rec *weather.Record, i int) {
			rec.Data[weather.Rain][i-1] = math.NaN()
			rec.Data[weather.Rain][i] = 90
		}, 1, 1, []weather.Code{"rain-lone-day"}},
		{"trace", "trace-rain", weather.Rain, func(rec *weather.Record, i int) { rec.Set(weather.Rain, i, 0, weather.Trace) }, 1, 0, nil},
		{"presumed zero", "presumed-zero", weather.Rain, func(rec *weather.Record, i int) { rec.Set(weather.Rain, i, 0, weather.Presumed) }, 1, 0,
			nil},
		{"a station moved uphill", "level-change", weather.Tmin, func(rec *weather.Record, i int) {
			for j := at(rec, 2005, 1, 1); j < rec.Days; j++ {
				for _, c := range []weather.Column{weather.Tmin, weather.Tmax, weather.Tdew} {
					rec.Data[c][j] -= 3
				}
			}
		}, 1, 0, []weather.Code{"vapour-against-humidity", "vapour-above-saturation", "arid-site", "temperature-range"}},
		{"an anemometer raised", "level-change", weather.Wind, func(rec *weather.Record,
			_ int) {
			scale(weather.Wind, 1.6, 4*365)(rec, at(rec, 2005, 1, 1))
		}, 1, 0, nil},
		{"ETo of 0 in summer", "supplied-eto-zero", weather.ETo, put(weather.ETo, 0, 1), 1, 1, nil},
		{"ETo 5 mm off", "supplied-eto-far", weather.ETo, put(weather.ETo, 14, 1), 1, 0, nil},
		{"ETo in inches", "eto-column-mislabelled", weather.ETo, scale(weather.ETo, 1/25.4, whole), 0, -1, []weather.Code{"etr-below-eto"}},
		{"heat units in the place of ETo", "eto-column-mislabelled", weather.ETo, func(rec *weather.Record, _ int) {
			for j := range rec.Days {
				rec.Data[weather.ETo][j] = max(0, (rec.Data[weather.Tmax][j]+rec.Data[weather.Tmin][j])/2-13)
			}
		}, 0, -1, []weather.Code{"flat-line", "flat-line-long", "past-limits"}},
		{"ETo and ETr swapped", "etr-below-eto", weather.ETr, func(rec *weather.Record, _ int) {
			rec.Data[weather.ETo], rec.Data[weather.ETr] = rec.Data[weather.ETr], rec.Data[weather.ETo]
		}, 0, 0, []weather.Code{"supplied-eto-far"}},
	}
	for _, tt := range tests {
		rec := clean(2000, 9)
		i := at(rec, 2004, 6, 15)
		tt.inject(rec, i)
		before := rec.CountMissing(tt.column)
		list := Check(rec)
		k := slices.IndexFunc(list, func(f weather.Finding) bool { return f.Code == tt.code && f.Column == tt.column.Key() })
		if k < 0 {
			t.Errorf("%s: not told; findings %+v", tt.name, list)
			continue
		}
		f := list[k]
		if tt.count > 0 && f.Count != tt.count {
			t.Errorf("%s: count %d; %d were put in (%+v)", tt.name, f.Count, tt.count, f)
		}
		if tt.count > 0 && tt.code != "level-change" && tt.code != "rhmax-never-100" && f.Worst != rec.Date(i) {
			t.Errorf("%s: told on %v; put in on %v", tt.name, f.Worst, rec.Date(i))
		}
		if gone := rec.CountMissing(tt.column) - before; tt.dropped >= 0 && gone != tt.dropped && tt.code != "rain-after-gap" {
			t.Errorf("%s: %d values gone; want %d", tt.name, gone, tt.dropped)
		}
		if out := tt.code.Outcome(); (tt.dropped > 0) != (out == weather.Dropped) && tt.dropped >= 0 && tt.code != weather.CodeRainAfterGap {
			t.Errorf("%s: %d values are dropped, and the list says %s", tt.name, tt.dropped, out)
		}
		for _, f := range list {
			if f.Code != tt.code && !slices.Contains(tt.also, f.Code) {
				t.Errorf("%s: also told: %+v", tt.name, f)
			}
			if f.What == "" || f.Detail == "" || f.Action == "" || f.Source == "" || f.Count < 1 {
				t.Errorf("%s: a finding with a part missing: %+v", tt.name, f)
			}
		}
	}
}

// A 365-day archive: every 31 December of a leap year is missing.
func TestDay366Absent(t *testing.T) {
	rec := clean(2000, 9)
	for y := 2000; y < 2009; y += 4 {
		for c := range weather.Columns {
			if rec.Has(c) {
				rec.Set(c, int(cal.Of(y, 12, 31)-rec.Start), math.NaN(), weather.Missing)
			}
		}
	}
	list := Check(rec)
	if len(list) != 1 || list[0].Code != "day-366-absent" || list[0].Count != 3 || list[0].Worst != cal.Of(2000, 12, 31) {
		t.Errorf("findings %+v", list)
	}
}

// What a reader has already reported is not reported twice.
func TestReadersFindingsAreNotRepeated(t *testing.T) {
	rec := clean(2000, 2)
	rec.Set(weather.Rain, 100, 0, weather.Trace)
	rec.Findings = []weather.Finding{{Code: "trace-rain"}}
	if list := Check(rec); len(list) != 0 {
		t.Errorf("findings %+v", list)
	}
}

// Without a latitude radiation cannot be checked, and that is reported.
func TestUnknownPlace(t *testing.T) {
	rec := clean(2000, 2)
	rec.Station = weather.UnknownStation()
	list := Check(rec)
	if len(list) != 1 || list[0].Code != "radiation-unchecked" || !strings.Contains(list[0].Detail, "latitude") {
		t.Errorf("findings %+v", list)
	}
}

// Empty and wholly missing records give no findings and no panic.
func TestNothingToCheck(t *testing.T) {
	for n := range 3 {
		s := weather.NewSeries(weather.UnknownStation(), cal.Of(2004, 12, 31), n, weather.Tmax, weather.Tmin, weather.Rain, weather.Rs,
			weather.RHmax, weather.RHmin, weather.Wind, weather.Ea, weather.ETo, weather.ETr)
		s.Station.LatDeg, s.Station.ElevM = 80, 10
		if list := Check(&weather.Record{Series: *s}); len(list) != 0 {
			t.Errorf("%d days: %+v", n, list)
		}
	}
}

func BenchmarkCheck40Years(b *testing.B) {
	rec := clean(1980, 40)
	b.ReportAllocs()
	for b.Loop() {
		if list := Check(rec); len(list) != 0 {
			b.Fatalf("%+v", list)
		}
	}
	b.ReportMetric(float64(b.N)*float64(rec.Days)/b.Elapsed().Seconds(), "days/s")
}
