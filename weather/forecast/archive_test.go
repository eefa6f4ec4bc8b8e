package forecast

import (
	"math"
	"math/rand/v2"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

func said(issued, valid cal.Date, rainMM float64) Forecast {
	f := Unknown(issued, valid)
	f.RainMM = rainMM
	return f
}

func archive(t *testing.T, list ...Forecast) *Archive {
	t.Helper()
	a, err := NewArchive(list)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func TestKnownIsTheNewestOfTheEveningBefore(t *testing.T) {
	a := archive(t, said(10, 12, 3), said(9, 12, 2), said(11, 12, 4), said(12, 12, 5), said(11, 13, 6))
	for _, c := range []struct {
		morning, valid cal.Date
		want           float64 // NaN: nothing known
	}{
		{9, 12, math.NaN()}, {10, 12, 2}, {11, 12, 3}, {12, 12, 4}, {13, 12, 5}, {20, 12, 5},
		{11, 13, math.NaN()}, {12, 13, 6}, {12, 14, math.NaN()}, {12, 11, math.NaN()},
	} {
		f, ok := a.Known(c.morning, c.valid)
		if ok == math.IsNaN(c.want) || ok && (f.RainMM != c.want || f.Valid != c.valid) {
			t.Errorf("morning of %d about %d: %v %v, want %g", c.morning, c.valid, f, ok, c.want)
		}
	}
	var none *Archive
	if _, ok := none.Known(1, 1); ok || none.Len() != 0 {
		t.Error("no archive knows something")
	}
}

// TestNoPeeking: on random archives nothing issued on the morning's day or
// later is returned, what is returned is the newest of the rest, and later
// issues change nothing.
func TestNoPeeking(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 300 {
		byKey := map[[2]cal.Date]Forecast{}
		for range 60 {
			valid := cal.Date(r.IntN(12))
			issued := valid - cal.Date(r.IntN(7))
			byKey[[2]cal.Date{issued, valid}] = said(issued, valid, r.Float64())
		}
		var all []Forecast
		for _, f := range byKey {
			all = append(all, f)
		}
		a := archive(t, all...)
		for morning := cal.Date(-8); morning < 14; morning++ {
			var early []Forecast
			for _, f := range all {
				if f.Issued < morning {
					early = append(early, f)
				}
			}
			before := archive(t, early...)
			for valid := cal.Date(-1); valid < 13; valid++ {
				var want Forecast
				found := false
				for _, f := range early {
					if f.Valid == valid && (!found || f.Issued > want.Issued) {
						want, found = f, true
					}
				}
				got, ok := a.Known(morning, valid)
				again, okAgain := before.Known(morning, valid)
				if ok != found || okAgain != found || found && (got.RainMM != want.RainMM || got.Issued != want.Issued || again.RainMM != want.RainMM) {
					t.Fatalf("morning of %d about %d: got %v, %v, want %v, %v", morning, valid, got, ok, want, found)
				}
			}
			for ahead := range 3 {
				v := a.Ahead(Rain, morning, 1, ahead)[0]
				if got, ok := before.Known(morning, morning+cal.Date(ahead)); ok && v != got.RainMM || !ok && !math.IsNaN(v) {
					t.Fatalf("morning of %d, %d days ahead: %g", morning, ahead, v)
				}
			}
		}
	}
}

func TestArchiveRefuses(t *testing.T) {
	if _, err := NewArchive([]Forecast{said(3, 2, 1)}); err == nil {
		t.Error("a forecast of yesterday was taken")
	}
	if _, err := NewArchive([]Forecast{said(1, 2, 1), said(1, 2, 1)}); err == nil {
		t.Error("one forecast was taken twice")
	}
}

func TestComing(t *testing.T) {
	last := cal.Of(2024, 6, 30)
	f := said(last, last+3, 7)
	f.TminC = 11
	a := archive(t, said(last-2, last, 9), said(last-1, last+1, 1), said(last, last+1, 2), f)
	c, ok := a.Coming(last, weather.UnknownStation())
	if !ok || c.Series.Days != 3 || c.Series.Start != last+1 || c.holes != 1 {
		t.Fatalf("coming days: %+v, %v", c, ok)
	}
	for i, want := range []float64{2, math.NaN(), 7} {
		got := c.Series.At(weather.Rain, i)
		if got != want && !(math.IsNaN(got) && math.IsNaN(want)) {
			t.Errorf("day %d: rain %g, want %g", i, got, want)
		}
		if mark := c.Series.Mark[weather.Rain][i]; mark == weather.Observed || mark.Filled() == math.IsNaN(want) {
			t.Errorf("day %d is marked %v", i, mark)
		}
	}
	if c.Series.At(weather.Tmin, 2) != 11 || c.Series.Has(weather.ETo) || c.Issued[0] != last || c.Issued[1] != 0 {
		t.Errorf("coming days: Tmin %g, ETo %v, issued %v", c.Series.At(weather.Tmin, 2), c.Series.Has(weather.ETo), c.Issued)
	}
	if _, ok := a.Coming(last+3, weather.UnknownStation()); ok {
		t.Error("days past the last forecast are coming")
	}
}
