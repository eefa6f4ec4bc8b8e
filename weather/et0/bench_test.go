package et0

import (
	"math"
	"math/rand/v2"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// invented returns whole years of plausible synthetic weather with all columns
// of the full equation, from a fixed seed.
func invented(year, years int, latDeg float64) *weather.Series {
	r := rand.New(rand.NewPCG(1, 2))
	start := cal.Of(year, 1, 1)
	n := int(cal.Of(year+years, 1, 1) - start)
	s := weather.NewSeries(weather.Station{LatDeg: latDeg, ElevM: 300, WindHeightM: 3}, start, n, weather.Tmax, weather.Tmin, weather.Tdew,
		weather.Rs, weather.Wind)
	sun := NewSunYear(latDeg)
	for i := range n {
		doy := s.Date(i).YearDay()
		mean := 12 - 12*math.Cos(2*math.Pi*float64(doy-20)/365) + 3*r.NormFloat64()
		half := 4 + 3*r.Float64()
		s.Set(weather.Tmax, i, mean+half, weather.Observed)
		s.Set(weather.Tmin, i, mean-half, weather.Observed)
		s.Set(weather.Tdew, i, mean-half-4*r.Float64(), weather.Observed)
		s.Set(weather.Rs, i, sun.RaMJ[doy]*(0.25+0.5*r.Float64()), weather.Observed)
		s.Set(weather.Wind, i, 1+3*r.Float64(), weather.Observed)
	}
	return s
}

func BenchmarkDaily40Years(b *testing.B) {
	s := invented(1980, 40, 40)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Daily(s, Options{}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)*float64(s.Days)/b.Elapsed().Seconds(), "days/s")
}
