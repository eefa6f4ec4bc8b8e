package et0

import (
	"math"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"pgregory.net/rapid"
)

// anything draws a value that a broken file may hold.
func anything(t *rapid.T) float64 {
	switch rapid.IntRange(0, 5).Draw(t, "kind") {
	case 0:
		return math.NaN()
	case 1:
		return rapid.SampledFrom([]float64{0, -999, -9999, 9999, math.Inf(1), math.Inf(-1)}).Draw(t, "code")
	}
	return rapid.Float64Range(-60, 120).Draw(t, "value")
}

// Whatever a record holds: a day has a number that is not negative, or the
// method none; the counts add up; the record is not changed.
func TestDailyLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		st := weather.Station{LatDeg: rapid.Float64Range(-90, 90).Draw(t, "lat"), ElevM: rapid.Float64Range(-100, 4000).Draw(t, "elev"),
			WindHeightM: rapid.SampledFrom([]float64{math.NaN(), 2, 3, 10}).Draw(t, "height")}
		s := weather.NewSeries(st, cal.Of(2011, 12, 20), rapid.IntRange(0, 40).Draw(t, "days"), weather.Tmax, weather.Tmin)
		for c := range weather.Columns {
			if c > weather.Tmin && !rapid.Bool().Draw(t, "has") {
				continue
			}
			s.Add(c)
			for i := range s.Days {
				s.Set(c, i, anything(t), weather.Observed)
			}
		}
		var before [weather.Columns][]float64
		for c := range before {
			before[c] = append(before[c], s.Data[c]...)
		}
		o := Options{CalibrateHargreaves: true, IgnoreSupplied: rapid.Bool().Draw(t, "ignore")}
		r, err := Daily(s, o)
		if err != nil {
			t.Fatal(err)
		}
		total, none := 0, 0
		for _, c := range r.Counts {
			total += c.Days
			if c.Method.Way == NoETo {
				none += c.Days
			}
		}
		if total != s.Days || none != r.Missing {
			t.Fatalf("%d days counted of %d; %d without, %d told", total, s.Days, none, r.Missing)
		}
		for i, v := range r.EToMM {
			if math.IsNaN(v) != (r.Methods[i].Way == NoETo) || v < 0 {
				t.Fatalf("%v: %g mm by %v", s.Date(i), v, r.Methods[i])
			}
		}
		for c := range before {
			for i, v := range before[c] {
				if got := s.Data[c][i]; got != v && !(math.IsNaN(got) && math.IsNaN(v)) {
					t.Fatalf("%v: %s changed from %g to %g", s.Date(i), weather.Column(c).Label(), v, got)
				}
			}
		}
	})
}

// A record with a year of full days tells the error of its guesses on itself,
// one without on two stations.
func TestExpectedError(t *testing.T) {
	s := invented(2011, 2, 45)
	for i := 365; i < s.Days; i++ {
		s.Set(weather.Wind, i, math.NaN(), weather.Missing)
	}
	r, err := Daily(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Expected) != 1 || r.Expected[0].Guess != GuessWind || r.Expected[0].Days != 366 || r.Expected[0].FullDays != 365 ||
		!strings.Contains(r.Expected[0].Where, "this record") {
		t.Errorf("expected %+v", r.Expected)
	}
	s.Data[weather.Wind], s.Mark[weather.Wind] = nil, nil
	if r, err = Daily(s, Options{}); err != nil {
		t.Fatal(err)
	}
	// −0.36 / 0.52 and +0.39 / 0.60 mm are what the assumed wind costs at the two
	// stations, worked out apart from this package from the same published inputs.
	if len(r.Expected) != 2 || r.Expected[0].BiasMM != -0.36 || r.Expected[0].MeanAbsMM != 0.52 || r.Expected[1].BiasMM != 0.39 ||
		r.Expected[1].MeanAbsMM != 0.60 {
		t.Errorf("expected %+v", r.Expected)
	}
	for _, x := range r.Expected {
		if !strings.HasPrefix(x.String(), "assumed wind (731 days): bias ") {
			t.Errorf("%v", x)
		}
	}
}
