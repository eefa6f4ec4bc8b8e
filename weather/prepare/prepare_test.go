package prepare_test

import (
	"math"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/et0"
	"loamledger/weather/fill"
	"loamledger/weather/prepare"
)

// record is two years of a plain place, without values on the given days.
func record(missing ...int) *weather.Record {
	st := weather.UnknownStation()
	st.LatDeg, st.ElevM = 40, 100
	rec := &weather.Record{File: "f.csv", Series: *weather.NewSeries(st, cal.Of(2031, 1, 1), 730, weather.Tmax, weather.Tmin, weather.Rain)}
	for i := range rec.Days {
		rec.Set(weather.Tmax, i, 20+float64(i%3), weather.Observed)
		rec.Set(weather.Tmin, i, float64(i)/100, weather.Observed)
		rec.Set(weather.Rain, i, float64(i%9/8*4), weather.Observed)
	}
	for _, i := range missing {
		rec.Set(weather.Tmax, i, math.NaN(), weather.Missing)
	}
	return rec
}

// Days without a value are counted before they are filled, and the days that
// were filled after.
func TestReadyCountsWhatWasMissingAndFilled(t *testing.T) {
	r, err := prepare.Record(record(100, 101, 400), prepare.Options{SelfTest: true})
	if err != nil {
		t.Fatal(err)
	}
	if r.Missing[weather.Tmax] != 3 || r.Missing[weather.Tmin] != 0 || r.FilledDays != 3 || r.SyntheticDays != 0 ||
		r.CountMissing(weather.Tmax) != 0 {
		t.Errorf("missing %v, filled %d, invented %d", r.Missing, r.FilledDays, r.SyntheticDays)
	}
	if len(r.SelfTest) == 0 || r.SelfTest[0].Mark != weather.Interpolated || r.SelfTest[0].Days == 0 {
		t.Errorf("self-test %+v", r.SelfTest)
	}
	// Tmin rises by the same every day: drawn between its neighbors it is right.
	for _, e := range r.SelfTest {
		if e.Column == weather.Tmin && e.Mark == weather.Interpolated && e.MeanAbs > 1e-9 {
			t.Errorf("a straight line is filled with an error: %v", e)
		}
	}
	if plain, err := prepare.Record(record(), prepare.Options{}); err != nil || plain.SelfTest != nil {
		t.Errorf("a self-test that nobody asked for: %v, %v", plain.SelfTest, err)
	}
}

func TestReadyCountsInventedDays(t *testing.T) {
	rec := record()
	for i := range 10 {
		rec.Mark[weather.Rain][i] = weather.Synthetic
	}
	r, err := prepare.Record(rec, prepare.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if r.SyntheticDays != 10 || r.FilledDays != 0 {
		t.Errorf("invented %d, filled %d, want 10 and 0", r.SyntheticDays, r.FilledDays)
	}
}

// Years that are left out are filled without limit.
func TestExcludedYearsAreFilledWithoutLimit(t *testing.T) {
	var gap []int
	for i := 400; i < 460; i++ {
		gap = append(gap, i)
	}
	donor := record().Series
	_, err := prepare.Record(record(gap...), prepare.Options{Donors: []*weather.Record{{Series: donor}}})
	if err == nil || !strings.Contains(err.Error(), "2032") {
		t.Errorf("60 days in a row were filled: %v", err)
	}
	if _, err := prepare.Record(record(gap...), prepare.Options{Donors: []*weather.Record{{Series: donor}},
		Fill: fill.Options{Exclude: []int{2032}}}); err != nil {
		t.Errorf("the year that is left out is refused: %v", err)
	}
}

// Temperatures are needed only where ETo is not supplied on every day.
func TestSuppliedEToNeedsNoTemperatures(t *testing.T) {
	bare := func() *weather.Record {
		rec := record()
		rec.Data[weather.Tmax], rec.Mark[weather.Tmax] = nil, nil
		rec.Data[weather.Tmin], rec.Mark[weather.Tmin] = nil, nil
		rec.Add(weather.ETo)
		for i := range rec.Days {
			rec.Set(weather.ETo, i, 4, weather.Observed)
		}
		rec.Set(weather.ETo, 9, 5, weather.Observed)
		return rec
	}
	empty := bare() // the columns exist, without any value
	empty.Add(weather.Tmax)
	empty.Add(weather.Tmin)
	for name, rec := range map[string]*weather.Record{"no columns": bare(), "empty columns": empty} {
		// A second station with temperatures is for gaps of rain only.
		o := prepare.Options{SelfTest: true, Donors: []*weather.Record{{Series: record().Series}}}
		rec.Set(weather.Rain, 50, math.NaN(), weather.Missing)
		r, err := prepare.Record(rec, o)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if r.Has(weather.Tmax) || r.Has(weather.Tmin) || r.ET.EToMM[8] != 4 || r.ET.EToMM[9] != 5 || r.FilledDays != 1 {
			t.Errorf("%s: Tmax %v, Tmin %v, ETo %g and %g, %d days filled", name, r.Has(weather.Tmax), r.Has(weather.Tmin),
				r.ET.EToMM[8], r.ET.EToMM[9], r.FilledDays)
		}
	}
	part := bare()
	part.Set(weather.ETo, 20, math.NaN(), weather.Missing)
	if _, err := prepare.Record(part, prepare.Options{}); err == nil || !strings.Contains(err.Error(), "tmin_c") ||
		!strings.Contains(err.Error(), "eto_mm on every day, which is missing on 1 day") {
		t.Errorf("ETo of all days but one and no temperatures: %v", err)
	}
	if _, err := prepare.Record(bare(), prepare.Options{ET: et0.Options{IgnoreSupplied: true}}); err == nil ||
		!strings.Contains(err.Error(), "tmin_c") {
		t.Errorf("ETo is to be computed without temperatures: %v", err)
	}
}
