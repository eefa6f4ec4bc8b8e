package fill

import (
	"math"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// Worked by hand: the first station ends after two years and lacks a week; the
// second is 3 °C warmer and has every day of three years. What the first gets
// is 3 °C cooler than the second's values.
func TestFromDonorChains(t *testing.T) {
	start := cal.Of(2030, 1, 1)
	temp := func(d cal.Date) float64 { return 15 + 8*math.Sin(float64(d)/58) }
	first := weather.NewSeries(weather.UnknownStation(), start, 730, weather.Tmax, weather.Tmin, weather.Rain)
	second := weather.NewSeries(weather.UnknownStation(), start, 1095, weather.Tmax, weather.Tmin, weather.Rain)
	for i := range second.Days {
		v := temp(second.Date(i))
		second.Set(weather.Tmax, i, v+13, weather.Observed)
		second.Set(weather.Tmin, i, v+3, weather.Observed)
		second.Set(weather.Rain, i, float64(i%4), weather.Observed)
		if i < first.Days && (i < 200 || i >= 207) {
			first.Set(weather.Tmax, i, v+10, weather.Observed)
			first.Set(weather.Tmin, i, v, weather.Observed)
			first.Set(weather.Rain, i, float64(i%4), weather.Observed)
		}
	}
	found := FromDonor(first, second)
	if first.Days != 1095 || len(found) != 3 {
		t.Fatalf("%d days, findings %+v", first.Days, found)
	}
	for i := range first.Days {
		v := temp(first.Date(i))
		if math.Abs(first.Data[weather.Tmax][i]-v-10) > 1e-9 || math.Abs(first.Data[weather.Tmin][i]-v) > 1e-9 ||
			math.Abs(first.Data[weather.Rain][i]-float64(i%4)) > 1e-9 {
			t.Fatalf("%v: %g, %g, %g", first.Date(i), first.Data[weather.Tmax][i], first.Data[weather.Tmin][i], first.Data[weather.Rain][i])
		}
	}
	if n := first.CountMark(weather.Tmax, weather.Donated); n != 7+365 {
		t.Errorf("%d days donated, want 372", n)
	}
}
