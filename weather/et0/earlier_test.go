package et0

import (
	"math"
	"reflect"
	"testing"

	"loamledger/weather"
)

// Days taken from an earlier call are those that would be computed, to the last
// bit, also where inputs, the station or the options have changed since.
func TestEarlierChangesNothing(t *testing.T) {
	s := weather.NewSeries(weather.Station{LatDeg: 40, LonDeg: math.NaN(), ElevM: 500, WindHeightM: 3}, 10957, 800, weather.Tmax,
		weather.Tmin, weather.Rs, weather.Wind, weather.Tdew)
	for i := range s.Days {
		f := float64(i)
		s.Set(weather.Tmax, i, 20+8*math.Sin(f/58), weather.Observed)
		s.Set(weather.Tmin, i, 9+7*math.Sin(f/58), weather.Observed)
		s.Set(weather.Rs, i, 15+6*math.Sin(f/58+0.3), weather.Observed)
		s.Set(weather.Wind, i, 2+math.Cos(f), weather.Observed)
		if i%7 != 0 {
			s.Set(weather.Tdew, i, 6+5*math.Sin(f/58), weather.Observed)
		}
	}
	_, kept, err := DailyKept(s, Options{IgnoreSupplied: true})
	if err != nil {
		t.Fatal(err)
	}
	if !kept.serves(s, Options{}) {
		t.Fatal("nothing is taken from the earlier call")
	}
	check := func(what string, o Options) {
		want, err := Daily(s, o)
		if err != nil {
			t.Fatal(err)
		}
		got, err := DailyAfter(s, o, kept)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: not what is computed afresh, error %v", what, err)
		}
	}
	check("as before", Options{})
	check("calibrated", Options{CalibrateHargreaves: true})
	check("another dew point", Options{TdewOffsetC: 2})
	s.Set(weather.Tmax, 100, 31, weather.Interpolated)
	s.Set(weather.Tdew, 7, 3, weather.Interpolated)
	s.Set(weather.Wind, 200, math.NaN(), weather.Missing)
	check("other inputs", Options{})
	s.Station.ElevM = 1500
	check("another elevation", Options{})
}
