package quality

import (
	"math"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"pgregory.net/rapid"
)

// For any record: a value is kept, is dropped with mark Missing, or was a
// humidity limited to 100; no value outside the hard limits remains; and every
// drop has a finding.
func TestCheckLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		st := weather.Station{LatDeg: rapid.Float64Range(-90, 90).Draw(t, "lat"), ElevM: 100, WindHeightM: 2}
		s := weather.NewSeries(st, cal.Of(2011, 12, 1), rapid.IntRange(1, 70).Draw(t, "days"))
		for c := range weather.Columns {
			if !rapid.Bool().Draw(t, "has") {
				continue
			}
			s.Add(c)
			level := rapid.Float64Range(-20, 120).Draw(t, "level")
			for i := range s.Days {
				v := level + rapid.Float64Range(-15, 15).Draw(t, "v")
				if rapid.IntRange(0, 9).Draw(t, "odd") == 0 {
					v = rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), -999, 0, 100}).Draw(t, "code")
				}
				if !math.IsNaN(v) {
					s.Set(c, i, v, weather.Observed)
				}
			}
		}
		var before [weather.Columns][]float64
		for c := range before {
			before[c] = append(before[c], s.Data[c]...)
		}
		rec := &weather.Record{Series: *s}
		list := Check(rec)
		gone := 0
		for c := range weather.Columns {
			if rec.Data[c] == nil && before[c] != nil && c != weather.ETo {
				t.Fatalf("%s was set aside", c.Label())
			}
			for i, v := range rec.Data[c] {
				was := before[c][i]
				humid := c == weather.RHmax || c == weather.RHmin || c == weather.RHmean
				switch {
				case math.IsNaN(v):
					if rec.Mark[c][i] != weather.Missing {
						t.Fatalf("%s on %v: dropped with mark %v", c.Label(), rec.Date(i), rec.Mark[c][i])
					}
					if !math.IsNaN(was) {
						gone++
					}
				case v != was && !(humid && v == 100 && was > 100):
					t.Fatalf("%s on %v: %g became %g", c.Label(), rec.Date(i), was, v)
				}
			}
		}
		for _, l := range hardLimits {
			for i, v := range rec.Data[l.column] {
				if v < l.low || v > l.high {
					t.Fatalf("%s on %v: %g is left", l.column.Label(), rec.Date(i), v)
				}
			}
		}
		told := 0
		for _, f := range list {
			switch f.Action {
			case dropped, "values of those days dropped":
				told += f.Count
			case "both values dropped":
				told += 2 * f.Count
			}
		}
		if told != gone {
			t.Fatalf("%d values dropped, %d told: %+v", gone, told, list)
		}
	})
}
