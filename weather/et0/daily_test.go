package et0

import (
	"errors"
	"math"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"pgregory.net/rapid"
)

// Table C-3 of ASCE-EWRI 2005, through [Daily] and [DailyTall].
func TestGreeley(t *testing.T) {
	groups, rows := dailyGroups(t, "../../testdata/published/ref-et-asce-greeley.csv")
	if rows != 10 {
		t.Fatalf("%d rows; the table has 10 days", rows)
	}
	s := groups["GREELEY"][0]
	r, err := Daily(s, Options{IgnoreSupplied: true})
	if err != nil {
		t.Fatal(err)
	}
	tr, err := DailyTall(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for i := range s.Days {
		if want := s.At(weather.ETo, i); math.Abs(r.EToMM[i]-want) > 0.03 {
			t.Errorf("%v: ETo %.3f mm; table C-3 prints %.2f", s.Date(i), r.EToMM[i], want)
		}
		if want := s.At(weather.ETr, i); math.Abs(tr.ETrMM[i]-want) > 0.03 {
			t.Errorf("%v: ETr %.3f mm; table C-3 prints %.2f", s.Date(i), tr.ETrMM[i], want)
		}
	}
	want := Method{FullEquation, HumidityEa, RadiationMeasured, WindMeasured}
	if len(r.Counts) != 1 || r.Counts[0] != (Count{want, 10}) {
		t.Errorf("counts %v; want 10 days of %v", r.Counts, want)
	}
}

// day returns a one-day series at a station of known place, with the columns
// given.
func day(date cal.Date, st weather.Station, values map[weather.Column]float64) *weather.Series {
	s := weather.NewSeries(st, date, 1)
	for c, v := range values {
		s.Add(c)
		s.Set(c, 0, v, weather.Observed)
	}
	return s
}

// FAO-56 example 18 (Brussels, 6 July), through [Daily]: 3.88 mm, printed as
// 3.9. Inputs as printed: 50°48'N, 100 m, 10 km/h at 10 m, RH 84 and 63%,
// 9.25 h of sunshine.
func TestFAOExample18ThroughDaily(t *testing.T) {
	st := weather.Station{LatDeg: 50.8, ElevM: 100, WindHeightM: 10}
	s := day(cal.Of(2001, 7, 6), st, map[weather.Column]float64{weather.Tmax: 21.5, weather.Tmin: 12.3, weather.RHmax: 84, weather.RHmin: 63,
		weather.Wind: 10 / 3.6, weather.Sun: 9.25})
	r, err := Daily(s, Options{Standard: FAO1998})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(r.EToMM[0]-3.88) > 0.005 {
		t.Errorf("ETo %.4f mm; FAO-56 example 18 prints 3.88", r.EToMM[0])
	}
	if want := (Method{FullEquation, HumidityRHboth, RadiationSunshine, WindMeasured}); r.Methods[0] != want {
		t.Errorf("method %v; want %v", r.Methods[0], want)
	}
}

// FAO-56 example 17 (Bangkok, April) prints 5.72 mm from the month's means,
// with G of 0.14 MJ: 13°44'N, 2 m, 34.8 and 25.6 °C, ea 2.85 kPa, 2 m/s, 8.5 h.
func TestFAOExample17(t *testing.T) {
	doy := 105
	ra := Ra(13.0+44.0/60, doy)
	n := NewSunYear(13.0 + 44.0/60).DaylightH[doy]
	rs := RadiationFromSunshine(8.5, n, ra, AngstromA, AngstromB)
	net := NetRadiation(NetShortwave(rs), NetLongwave(34.8, 25.6, 2.85, CloudTerm(RelativeShortwave(rs, ClearSkyRadiation(ra, 2))), SigmaFAO))
	tmean := MeanTemperature(34.8, 25.6)
	g := SoilHeatFromPreviousMonth(29.2, 30.2) // The example's 0.14, from the means of March and April.
	got := Short().ReferenceET(Slope(tmean), PsychrometricConstant(Pressure(2)), net, g, tmean, 2,
		MeanSaturationVaporPressure(34.8, 25.6)-2.85)
	if math.Abs(g-0.14) > 0.005 || math.Abs(got-5.72) > 0.005 {
		t.Errorf("G %.3f MJ, ETo %.4f mm; FAO-56 example 17 prints 0.14 and 5.72", g, got)
	}
}

// The method depends on the day's data, in the order of ASCE-EWRI 2005 table 3.
func TestMethodByDay(t *testing.T) {
	st := weather.Station{LatDeg: 40, ElevM: 200, WindHeightM: 2}
	base := map[weather.Column]float64{weather.Tmax: 30, weather.Tmin: 16}
	tests := []struct {
		extra map[weather.Column]float64
		want  Method
	}{
		{nil, Method{Way: HargreavesOnly}},
		{map[weather.Column]float64{weather.Rs: 25, weather.Wind: 2, weather.Tdew: 14},
			Method{FullEquation, HumidityTdew, RadiationMeasured, WindMeasured}},
		{map[weather.Column]float64{weather.Rs: 25, weather.Wind: 2, weather.Tdew: 14, weather.Ea: 1.6},
			Method{FullEquation, HumidityEa, RadiationMeasured, WindMeasured}},
		{map[weather.Column]float64{weather.Rs: 25, weather.RHmax: 90}, Method{WithEstimates, HumidityRHmax, RadiationMeasured, WindDefault}},
		{map[weather.Column]float64{weather.Sun: 9, weather.RHmin: 40, weather.RHmean: 70},
			Method{WithEstimates, HumidityRHmin, RadiationSunshine, WindDefault}},
		{map[weather.Column]float64{weather.Wind: 2, weather.RHmean: 70}, Method{WithEstimates, HumidityRHmean, RadiationRange, WindMeasured}},
		{map[weather.Column]float64{weather.Wind: 2}, Method{WithEstimates, HumidityTmin, RadiationRange, WindMeasured}},
		{map[weather.Column]float64{weather.Tmax: 10}, Method{}}, // below Tmin
	}
	for _, tt := range tests {
		values := map[weather.Column]float64{}
		for _, m := range []map[weather.Column]float64{base, tt.extra} {
			for c, v := range m {
				values[c] = v
			}
		}
		r, err := Daily(day(cal.Of(2012, 7, 1), st, values), Options{})
		if err != nil {
			t.Fatal(err)
		}
		if r.Methods[0] != tt.want {
			t.Errorf("%v: method %v; want %v", tt.extra, r.Methods[0], tt.want)
		}
		if math.IsNaN(r.EToMM[0]) != (tt.want.Way == NoETo) {
			t.Errorf("%v: ETo %v", tt.extra, r.EToMM[0])
		}
	}
}

func TestWhatIsLackingIsNamed(t *testing.T) {
	nan := math.NaN()
	known := weather.Station{LatDeg: 40, ElevM: 200, WindHeightM: 2}
	full := map[weather.Column]float64{weather.Tmax: 30, weather.Tmin: 16, weather.Rs: 25}
	tests := []struct {
		name   string
		st     weather.Station
		values map[weather.Column]float64
		fix    string // in the error; "" means none
	}{
		{"all known", known, full, ""},
		{"no latitude", weather.Station{LatDeg: nan, ElevM: 200}, full, "latitude"},
		{"no elevation", weather.Station{LatDeg: 40, ElevM: nan, WindHeightM: nan}, full, "elevation"},
		{"no elevation, temperatures only", weather.Station{LatDeg: 40, ElevM: nan, WindHeightM: nan},
			map[weather.Column]float64{weather.Tmax: 30, weather.Tmin: 16}, ""},
		{"elevation in feet", weather.Station{LatDeg: 40, ElevM: 7200, WindHeightM: nan}, full, "feet"},
		{"no Tmin", known, map[weather.Column]float64{weather.Tmax: 30}, "tmin_c"},
		{"no latitude but ETo", weather.UnknownStation(), map[weather.Column]float64{weather.Tmax: 30, weather.Tmin: 16, weather.ETo: 5}, ""},
	}
	for _, tt := range tests {
		_, err := Daily(day(cal.Of(2012, 7, 1), tt.st, tt.values), Options{})
		var need *NeedError
		switch {
		case tt.fix == "" && err != nil:
			t.Errorf("%s: %v", tt.name, err)
		case tt.fix != "" && (!errors.As(err, &need) || !strings.Contains(need.Fix, tt.fix)):
			t.Errorf("%s: error %v; want a fix that names %q", tt.name, err, tt.fix)
		}
	}
}

// Wind read at 3 m counts 0.921 of its value: ASCE-EWRI 2005 table C-2.
func TestWindHeight(t *testing.T) {
	values := func(wind float64) map[weather.Column]float64 {
		return map[weather.Column]float64{weather.Tmax: 30, weather.Tmin: 16, weather.Rs: 25, weather.Tdew: 12, weather.Wind: wind}
	}
	at := func(heightM, windMS float64) Result {
		r, err := Daily(day(cal.Of(2012, 7, 1), weather.Station{LatDeg: 40, ElevM: 200, WindHeightM: heightM}, values(windMS)), Options{})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	if a, b := at(3, 5).EToMM[0], at(2, 5*0.921).EToMM[0]; math.Abs(a-b) > 0.001 {
		t.Errorf("5 m/s at 3 m gives %.4f mm, 4.605 m/s at 2 m %.4f", a, b)
	}
	if unknown := at(math.NaN(), 5); unknown.EToMM[0] != at(2, 5).EToMM[0] || !hasFinding(unknown.Findings, "wind-height-unknown") {
		t.Errorf("an unknown height must be taken as 2 m and told: %+v", unknown.Findings)
	}
}

func hasFinding(list []weather.Finding, code string) bool {
	for _, f := range list {
		if string(f.Code) == code {
			return true
		}
	}
	return false
}

// Supplied ETo drives the water balance; its gaps are computed and counted, and a
// supplied column that differs from the computed one is reported.
func TestSuppliedComesFirst(t *testing.T) {
	s := invented(2011, 2, 45)
	r, err := Daily(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	s.Add(weather.ETo)
	for i, v := range r.EToMM {
		s.Set(weather.ETo, i, v*1.02, weather.Observed)
	}
	s.Set(weather.ETo, 200, math.NaN(), weather.Missing)
	got, err := Daily(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if got.EToMM[10] != r.EToMM[10]*1.02 || got.EToMM[200] != r.EToMM[200] || got.Methods[10].Way != SuppliedByInput ||
		got.Methods[200].Way != FullEquation {
		t.Errorf("supplied day %v %v, its gap %v %v", got.EToMM[10], got.Methods[10], got.EToMM[200], got.Methods[200])
	}
	if math.Abs(got.Compare.Ratio-1/1.02) > 1e-9 || got.Compare.Parts() || !hasFinding(got.Findings, "supplied-eto-gaps") {
		t.Errorf("comparison %v, findings %+v", got.Compare, got.Findings)
	}
	for i := range s.Days { // An alfalfa column labeled as grass.
		s.Data[weather.ETo][i] = r.EToMM[i] * 1.3
	}
	if got, _ = Daily(s, Options{}); !hasFinding(got.Findings, "supplied-eto-parts") {
		t.Error("a column 30% high was not told")
	}
}

func TestCalibrationTakesTheBiasAway(t *testing.T) {
	s := invented(2011, 2, 45)
	for i := range s.Days { // A windy place, where Hargreaves is too low.
		s.Data[weather.Wind][i] *= 2.5
	}
	full, err := Daily(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for i := 365; i < s.Days; i++ { // The second year has temperatures alone.
		for _, c := range []weather.Column{weather.Rs, weather.Wind, weather.Tdew} {
			s.Set(c, i, math.NaN(), weather.Missing)
		}
	}
	bias := func(o Options) float64 {
		r, err := Daily(s, o)
		if err != nil {
			t.Fatal(err)
		}
		if r.Methods[400].Way != HargreavesOnly {
			t.Fatalf("method %v", r.Methods[400])
		}
		sum := 0.0
		for i := 365; i < s.Days; i++ {
			sum += r.ComputedMM[i] - full.ComputedMM[i]
		}
		return sum / float64(s.Days-365)
	}
	plain, calibrated := bias(Options{}), bias(Options{CalibrateHargreaves: true})
	if math.Abs(calibrated) > math.Abs(plain)/4 {
		t.Errorf("bias %.3f mm/d calibrated, %.3f plain; the invented years are alike, so it should all but go", calibrated, plain)
	}
}

// Polar day and night, and the last day of a leap year, give numbers.
func TestHighLatitudesAndLeapYears(t *testing.T) {
	for _, lat := range []float64{-90, -78, -66.5, 0, 66.5, 71, 90} {
		s := invented(2012, 1, lat)
		if s.Days != 366 {
			t.Fatalf("%d days", s.Days)
		}
		r, err := Daily(s, Options{})
		if err != nil {
			t.Fatal(err)
		}
		s.Data[weather.Rs], s.Mark[weather.Rs] = nil, nil
		s.Add(weather.Sun)
		for i := range s.Days {
			s.Set(weather.Sun, i, 3, weather.Observed)
		}
		sun, err := Daily(s, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for i := range s.Days {
			if !(r.EToMM[i] >= 0) || !(sun.EToMM[i] >= 0) || math.IsInf(r.EToMM[i]+sun.EToMM[i], 0) {
				t.Fatalf("latitude %g, %v: %g mm, from sunshine %g", lat, s.Date(i), r.EToMM[i], sun.EToMM[i])
			}
		}
	}
	// The divisor stays 365, so day 366 has the sun of day 1.
	if a, b := Ra(40, 366), Ra(40, 1); math.Abs(a-b) > 1e-9 {
		t.Errorf("Ra of day 366 is %g and of day 1 %g", a, b)
	}
}

// Both published forms of the day of the year agree with the calendar where
// they hold.
func TestDayOfYear(t *testing.T) {
	for d := cal.Of(1901, 1, 1); d <= cal.Of(2099, 12, 31); d++ {
		y, m, dd := d.YMD()
		if got := DayOfYear(y, m, dd); got != d.YearDay() {
			t.Fatalf("%v: table 2.5 form gives %d, the calendar %d", d, got, d.YearDay())
		}
		if got := DayOfYearASCE(y, m, dd); got != d.YearDay() {
			t.Fatalf("%v: ASCE eq. 25 gives %d, the calendar %d", d, got, d.YearDay())
		}
	}
}

// Laws that hold for any weather.
func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.Float64Range(-65, 65).Draw(t, "lat")
		tmin := rapid.Float64Range(-10, 28).Draw(t, "tmin")
		tmax := tmin + rapid.Float64Range(2, 22).Draw(t, "range")
		ea := SaturationVaporPressure(tmin - rapid.Float64Range(0, 10).Draw(t, "below"))
		e := newEngine(weather.Station{LatDeg: lat, ElevM: rapid.Float64Range(0, 3000).Draw(t, "elev"), WindHeightM: 2}, Short(),
			Options{}.withDefaults())
		doy := rapid.IntRange(1, 366).Draw(t, "doy")
		rso := e.clearShare * e.sun.RaMJ[doy]
		d := inputs{tmaxC: tmax, tminC: tmin, eaKPa: ea, windMS: rapid.Float64Range(0, 10).Draw(t, "wind"),
			rsMJ: rapid.Float64Range(0.31, 0.9).Draw(t, "share") * rso, doy: doy}
		base, m := e.day(d)
		if m.Way != FullEquation || math.IsNaN(base) {
			t.Fatalf("%v: %g", m, base)
		}
		// More sun is a gain of 0.77 of it, less what a clearer sky lets out.
		brighter := d
		brighter.rsMJ *= 1.05
		out := (Blackbody(tmax, SigmaASCE) + Blackbody(tmin, SigmaASCE)) / 2 * HumidityTerm(ea) * 1.35 / rso
		if out < 1-Albedo {
			if more, _ := e.day(brighter); more < base {
				t.Errorf("more radiation lowers ETo from %g to %g", base, more)
			}
		}
		// Air is no wetter than saturated here, so the wind's part is no loss, and
		// what is left is a share, below 1, of the energy that comes or goes.
		net := NetRadiation(NetShortwave(d.rsMJ), NetLongwave(tmax, tmin, ea, CloudTermASCE(RelativeShortwave(d.rsMJ, rso)), SigmaASCE))
		if base < Evaporation(min(net, 0))-1e-9 || base > 25 {
			t.Errorf("ETo %g mm from a net radiation of %g MJ/m²", base, net)
		}
		// ASCE and FAO agree to 0.01 mm where the cloud limit does not bite.
		f := newEngine(weather.Station{LatDeg: lat, ElevM: 100, WindHeightM: 2}, Short(), Options{Standard: FAO1998}.withDefaults())
		a := newEngine(weather.Station{LatDeg: lat, ElevM: 100, WindHeightM: 2}, Short(), Options{}.withDefaults())
		x, _ := f.day(d)
		y, _ := a.day(d)
		if d.rsMJ > 0.31*a.clearShare*a.sun.RaMJ[doy] && math.Abs(x-y) > 0.01 {
			t.Errorf("FAO %g, ASCE %g", x, y)
		}
	})
}
