package prepare

import (
	"errors"
	"math"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/fill"
)

// record makes an invented record of whole years from 2030 with temperatures
// and rain, none missing.
func record(years int) *weather.Record {
	start := cal.Of(2030, 1, 1)
	n := int(cal.Of(2030+years, 1, 1) - start)
	st := weather.UnknownStation()
	st.ID, st.LatDeg, st.LonDeg, st.ElevM = "quiet", 40, -100, 300
	s := weather.NewSeries(st, start, n, weather.Tmax, weather.Tmin, weather.Rain)
	for i := range n {
		season := math.Cos(2 * math.Pi * float64(i-200) / 365.25)
		wobble := float64(i*7919%13) / 4
		s.Set(weather.Tmax, i, 18+12*season+wobble, weather.Observed)
		s.Set(weather.Tmin, i, 6+10*season-wobble, weather.Observed)
		s.Set(weather.Rain, i, float64((i*31%7)/6*(4+i%5)), weather.Observed)
	}
	return &weather.Record{Series: *s, File: "quiet.csv", Layout: "own"}
}

func lose(r *weather.Record, from, to cal.Date, cols ...weather.Column) {
	for d := from; d <= to; d++ {
		for _, c := range cols {
			r.Set(c, int(d-r.Start), math.NaN(), weather.Missing)
		}
	}
}

func codes(list []weather.Finding) map[string]int {
	m := map[string]int{}
	for _, f := range list {
		m[string(f.Code)] += f.Count
	}
	return m
}

func TestRecordFromTemperatures(t *testing.T) {
	r, err := Record(record(2), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if r.FilledDays != 0 || len(r.ET.EToMM) != r.Days || r.ET.Missing != 0 {
		t.Errorf("%d days filled, %d of %d days with ETo", r.FilledDays, len(r.ET.EToMM), r.Days)
	}
	sum := 0.0
	for _, v := range r.ET.EToMM {
		sum += v
	}
	// A temperate place at 40° N has some 900 to 1400 mm a year: FAO-56 table 2
	// gives 2 to 4 mm/d for temperate arid and 4 to 7 for warm summers.
	if year := sum / 2; year < 700 || year > 1500 {
		t.Errorf("ETo of %.0f mm a year", year)
	}
}

func TestRecordCutsToDatesAndEmptyEnds(t *testing.T) {
	rec := record(2)
	lose(rec, cal.Of(2031, 12, 30), cal.Of(2031, 12, 31), weather.Tmax, weather.Tmin, weather.Rain)
	r, err := Record(rec, Options{Dates: cal.Period{}.From(cal.Of(2030, 3, 1))})
	if err != nil {
		t.Fatal(err)
	}
	if r.Start != cal.Of(2030, 3, 1) || r.End() != cal.Of(2031, 12, 29) {
		t.Errorf("from %v to %v", r.Start, r.End())
	}
	if codes(r.Findings)["empty-ends"] != 2 {
		t.Errorf("findings %v, want two empty days told", codes(r.Findings))
	}
}

func TestRecordFillsAndCounts(t *testing.T) {
	rec := record(2)
	lose(rec, cal.Of(2030, 5, 10), cal.Of(2030, 5, 11), weather.Tmax)
	r, err := Record(rec, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if r.FilledDays != 2 || r.CountMark(weather.Tmax, weather.Interpolated) != 2 {
		t.Errorf("%d days filled, %d interpolated, want 2 and 2", r.FilledDays, r.CountMark(weather.Tmax, weather.Interpolated))
	}
}

// Every fault of a record is told at once, with what was learned besides.
func TestRecordTellsAllFaults(t *testing.T) {
	rec := record(3)
	rec.Station.LatDeg = math.NaN()
	lose(rec, cal.Of(2031, 5, 1), cal.Of(2031, 7, 31), weather.Rain)
	r, err := Record(rec, Options{})
	if err == nil || !diag.IsInput(err) {
		t.Fatalf("error %v, want a fault of the input", err)
	}
	// 2032 is a leap year, and so the longer of the two that are whole.
	for _, want := range []string{"2031 (92 days, 92 in a row from 2031-05-01)", "latitude", "use the record from 2032-01-01 to 2032-12-31"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not in\n%v", want, err)
		}
	}
	if r == nil || r.Days == 0 {
		t.Error("what was learned is not returned")
	}
}

func TestRecordRefusesNoDays(t *testing.T) {
	if _, err := Record(record(1), Options{Dates: cal.Period{}.From(cal.Of(2040, 1, 1))}); err == nil ||
		!strings.Contains(err.Error(), "2030-01-01 to 2030-12-31") {
		t.Errorf("error %v, want the record's dates", err)
	}
	rec := record(1)
	lose(rec, rec.Start, rec.End(), weather.Tmax, weather.Tmin, weather.Rain)
	if _, err := Record(rec, Options{}); err == nil || !strings.Contains(err.Error(), "no day has") {
		t.Errorf("error %v", err)
	}
}

func TestGaugeReplacesRainOnly(t *testing.T) {
	rec, gauge := record(1), record(1)
	gauge.File = "gauge.csv"
	gauge.Station.LatDeg += 0.1
	for i := range gauge.Days {
		gauge.Set(weather.Rain, i, 1+float64(i*17%23)/4, weather.Observed)
	}
	lose(gauge, cal.Of(2030, 2, 1), cal.Of(2030, 2, 3), weather.Rain)
	before := record(1)
	r, err := Record(rec, Options{Gauge: gauge})
	if err != nil {
		t.Fatal(err)
	}
	for i := range r.Days {
		want := 1 + float64(i*17%23)/4
		if d := r.Date(i); d >= cal.Of(2030, 2, 1) && d <= cal.Of(2030, 2, 3) {
			want = before.Data[weather.Rain][i]
		}
		if r.Data[weather.Rain][i] != want || r.Data[weather.Tmax][i] != before.Data[weather.Tmax][i] {
			t.Fatalf("%v: rain %g, want %g; Tmax %g, was %g", r.Date(i), r.Data[weather.Rain][i], want, r.Data[weather.Tmax][i],
				before.Data[weather.Tmax][i])
		}
	}
	if got := codes(r.Findings); got["nearer-rain-gauge"] != 362 || got["gauge-gaps"] != 3 {
		t.Errorf("findings %v", got)
	}
}

func TestJoin(t *testing.T) {
	whole := record(2)
	first, second := record(2), record(2)
	first.Series, second.Series = slice(&whole.Series, 0, 365), slice(&whole.Series, 365, whole.Days)
	second.File = "second.csv"
	got, err := Join([]*weather.Record{first, second})
	if err != nil {
		t.Fatal(err)
	}
	if got.Start != whole.Start || got.Days != whole.Days || got.File != "quiet.csv, second.csv" {
		t.Fatalf("%v, %d days, %q", got.Start, got.Days, got.File)
	}
	for i := range whole.Days {
		if got.Data[weather.Rain][i] != whole.Data[weather.Rain][i] {
			t.Fatalf("%v: rain %g, want %g", got.Date(i), got.Data[weather.Rain][i], whole.Data[weather.Rain][i])
		}
	}
	second.Set(weather.Tmax, 0, 1, weather.Observed)
	if got, err = Join([]*weather.Record{whole, second}); err != nil || codes(got.Findings)["files-differ"] != 1 ||
		got.Data[weather.Tmax][365] == 1 {
		t.Errorf("%v, findings %v", err, codes(got.Findings))
	}
	second.Station.ID = "other"
	if _, err = Join([]*weather.Record{whole, second}); err == nil || !strings.Contains(err.Error(), "other") {
		t.Errorf("two stations joined: %v", err)
	}
}

func TestLongestWhole(t *testing.T) {
	rec := record(5)
	from, to, ok := longestWhole(rec, &fill.YearsError{Years: []fill.YearGap{{Year: 2031}}})
	if !ok || from != cal.Of(2032, 1, 1) || to != cal.Of(2034, 12, 31) {
		t.Errorf("%v to %v, %v", from, to, ok)
	}
	if _, _, ok := longestWhole(record(1), &fill.YearsError{Years: []fill.YearGap{{Year: 2030}}}); ok {
		t.Error("a record of one refused year has a whole stretch")
	}
}

func TestInFileKeepsEveryFault(t *testing.T) {
	rec := record(1)
	err := inFile(rec, errors.Join(&fill.GapError{Column: weather.Rain, From: rec.Start, To: rec.Start, Days: 1, Why: "so it is"},
		errors.New("plain")))
	var many *diag.Errors
	if !errors.As(err, &many) || len(many.List) != 2 {
		t.Errorf("%v", err)
	}
}

// A gauge and a second station are held against the same rules as the record.
func TestOtherStationsAreChecked(t *testing.T) {
	rec, gauge := record(1), record(1)
	gauge.File = "gauge.csv"
	gauge.Set(weather.Rain, 100, 900, weather.Observed) // more than falls in a day anywhere
	r, err := Record(rec, Options{Gauge: gauge})
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Data[weather.Rain][100]; got > 600 {
		t.Errorf("rain of %g mm went in unchecked", got)
	}
	told := false
	for _, f := range r.Findings {
		told = told || strings.HasPrefix(f.Detail, "gauge.csv") && f.Action == "value dropped"
	}
	if !told {
		t.Errorf("the dropped value is not told with its file: %+v", r.Findings)
	}
}

func TestAllYearsExcluded(t *testing.T) {
	if _, err := Record(record(2), Options{Fill: fill.Options{Exclude: []int{2030, 2031}}}); err == nil || !diag.IsInput(err) ||
		!strings.Contains(err.Error(), "2030 to 2031") {
		t.Errorf("error %v", err)
	}
}

// A gap that the first second station shares is filled from the next one.
func TestGapsAreFilledFromSeveralStations(t *testing.T) {
	rec, near, far := record(3), record(3), record(3)
	near.File, far.File = "near.csv", "far.csv"
	lose(rec, cal.Of(2031, 4, 1), cal.Of(2031, 4, 8), weather.Tmax)
	lose(near, cal.Of(2031, 4, 5), cal.Of(2031, 4, 20), weather.Tmax)
	whole := record(3)
	r, err := Record(rec, Options{Donors: []*weather.Record{near, far}})
	if err != nil {
		t.Fatal(err)
	}
	for d := cal.Of(2031, 4, 1); d <= cal.Of(2031, 4, 8); d++ {
		i := int(d - r.Start)
		// The stations are alike, so that the adjustment is nothing.
		if math.Abs(r.Data[weather.Tmax][i]-whole.Data[weather.Tmax][i]) > 1e-9 || r.Mark[weather.Tmax][i] != weather.Donated {
			t.Errorf("%v: %g, %v, want %g from a second station", d, r.Data[weather.Tmax][i], r.Mark[weather.Tmax][i], whole.Data[weather.Tmax][i])
		}
	}
}
