package quality_test

import (
	"math"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/quality"
)

// By hand: of five days with 10, 20, 5, 7 and 8 mm and means of 1.0, 1.1, -3, unknown and
// 12 °C, the first and the third are snow: 15 of 50 mm. A cold day without rain is none.
func TestSnowIsCounted(t *testing.T) {
	nan := math.NaN()
	s := weather.NewSeries(weather.UnknownStation(), cal.Of(2020, 1, 1), 6, weather.Tmax, weather.Tmin, weather.Rain)
	s.Data[weather.Tmax] = []float64{4, 4.2, 0, nan, 20, 0}
	s.Data[weather.Tmin] = []float64{-2, -2, -6, -9, 4, -9}
	s.Data[weather.Rain] = []float64{10, 20, 5, 7, 8, 0}
	got, found := quality.SnowOf(s)
	if got.Days != 2 || got.DepthMM != 15 || got.RainMM != 50 || got.Share() != 0.3 {
		t.Errorf("got %+v", got)
	}
	if years := 6 / 365.25; math.Abs(got.DaysPerYear()-2/years) > 1e-9 || math.Abs(got.MMPerYear()-15/years) > 1e-9 {
		t.Errorf("%g days and %g mm a year", got.DaysPerYear(), got.MMPerYear())
	}
	if len(found) != 1 || found[0].Code != weather.CodeSnow || found[0].Count != 2 || found[0].Worst != cal.Of(2020, 1, 1) ||
		found[0].Code.Outcome() != weather.Kept {
		t.Errorf("found %+v", found)
	}
	for i, v := range s.Data[weather.Rain] {
		if want := []float64{10, 20, 5, 7, 8, 0}[i]; v != want {
			t.Errorf("the rain of day %d was changed to %g", i, v)
		}
	}
}

// A warm record, one without temperatures and one without rain have no snow.
func TestNoSnow(t *testing.T) {
	warm := weather.NewSeries(weather.UnknownStation(), cal.Of(2020, 1, 1), 1, weather.Tmax, weather.Tmin, weather.Rain)
	warm.Data[weather.Tmax], warm.Data[weather.Tmin], warm.Data[weather.Rain] = []float64{20}, []float64{9}, []float64{3}
	bare := weather.NewSeries(weather.UnknownStation(), cal.Of(2020, 1, 1), 1, weather.Rain)
	bare.Data[weather.Rain] = []float64{3}
	for _, s := range []*weather.Series{warm, bare, weather.NewSeries(weather.UnknownStation(), 0, 0)} {
		if got, found := quality.SnowOf(s); got.Days != 0 || len(found) != 0 || got.Share() != 0 {
			t.Errorf("%+v, %v", got, found)
		}
	}
}
