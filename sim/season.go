package sim

import (
	"fmt"
	"math"
)

// A Season is how a plant's coefficient and its activity follow the mean
// temperature of the last 30 days, T30.
type Season struct {
	Ka, Kd   float64 // plant coefficient in full growth and at rest, at least 0
	T0C, T1C float64 // T30 at which growth begins, and at which it is full; T1C is above T0C [°C]
	// ActivityOnly leaves the coefficient to Zone.K; only activity follows T30.
	ActivityOnly bool
}

// Activity returns the activity of the plant, 0 to 1, at a 30-day mean
// temperature [°C]:
//
//	a = (T30 − T0)/(T1 − T0), limited to 0..1
//
// Source: a choice of ours; package catalog gives the evidence for T0 and T1.
func (s *Season) Activity(t30C float64) float64 {
	return min(max((t30C-s.T0C)/(s.T1C-s.T0C), 0), 1)
}

// K returns the coefficient at activity a: K = Kd + a(Ka − Kd). At a = 1 it is
// Ka exactly.
func (s *Season) K(a float64) float64 { return float64(s.Kd*(1-a)) + float64(a*s.Ka) }

// Scaled returns the season with both coefficients multiplied by f; nil for nil.
func (s *Season) Scaled(f float64) *Season {
	if s == nil {
		return nil
	}
	scaled := *s
	scaled.Ka, scaled.Kd = s.Ka*f, s.Kd*f
	return &scaled
}

// An Overseed is a second plant that takes the place of the first for part of
// each year, such as ryegrass sown into dormant bermudagrass. Its fields mean
// what those of [Zone] do.
type Overseed struct {
	From, To    DayOfYear // the first and the last day; To may be in the next year
	K           [12]float64
	Season      *Season
	P           float64
	ToleranceR7 float64
	BrowningR7  float64
}

// A DayOfYear is a day of any year.
type DayOfYear struct{ Month, Day int }

// In reports whether a day of the year is within the dates of o, both included.
func (o *Overseed) In(month, day uint8) bool {
	from, to, at := 32*o.From.Month+o.From.Day, 32*o.To.Month+o.To.Day, 32*int(month)+int(day)
	if from <= to {
		return from <= at && at <= to
	}
	return at >= from || at <= to
}

// t30Days is the number of days in the mean temperature that seasons follow.
const t30Days = 30

// A Warmth is T30, the mean of (Tmax + Tmin)/2 over the 30 days before each day
// of a record [°C]. A station has one, which all zones share. The zero Warmth is
// that of a record without temperatures.
type Warmth struct {
	T30C []float64 // by day of the record
	// headC is T30 of the first days of the spin-up pass. They come after nothing,
	// while those of the record come after the pass.
	headC []float64
}

// Fill computes the warmth of a record whose first spin days are its spin-up
// pass. The first days of the record look back into the pass. The first days of
// the pass, and those of a record without one, use the days that there are; the
// very first uses its own temperature. Days without a temperature are left out of
// the mean, which stays as it was where none of the 30 has one. Without temperatures
// at the start, or at all, w becomes the zero Warmth.
func (w *Warmth) Fill(weather Weather, spin int) {
	n := weather.Days()
	w.T30C, w.headC = w.T30C[:0], w.headC[:0]
	if len(weather.TmaxC) < n || len(weather.TminC) < n || n == 0 {
		return
	}
	last := math.NaN()
	// before is the mean of up to 30 days before a day of the plan, which is the
	// pass and then the record.
	before := func(day int) float64 {
		from := max(day-t30Days, 0)
		sum, days := 0.0, 0
		for i := from; i < max(day, 1); i++ {
			k := i
			if i >= spin {
				k = i - spin
			}
			if v := weather.TmaxC[k] + weather.TminC[k]; v == v {
				sum += v
				days++
			}
		}
		if days > 0 {
			last = sum / float64(2*days)
		}
		return last
	}
	for i := range min(spin, t30Days) {
		w.headC = append(w.headC, before(i))
	}
	last = math.NaN()
	for i := range n {
		w.T30C = append(w.T30C, before(spin+i))
	}
	for _, list := range [][]float64{w.headC, w.T30C} {
		if len(list) > 0 && list[0] != list[0] {
			w.T30C, w.headC = w.T30C[:0], w.headC[:0]
			return
		}
	}
}

// Known reports whether there are temperatures.
func (w *Warmth) Known() bool { return w != nil && len(w.T30C) > 0 }

// kOf returns the coefficient that the calendar alone gives.
func (z *Zone) kOf(month, day uint8) float64 {
	if z.Overseed != nil && z.Overseed.In(month, day) {
		return z.Overseed.K[month-1]
	}
	return z.K[month-1]
}

// Seasonal reports whether the zone's coefficient follows temperature.
func (z *Zone) Seasonal() bool {
	return ramps(z.Season) || z.Overseed != nil && ramps(z.Overseed.Season)
}

func ramps(s *Season) bool { return s != nil && !s.ActivityOnly }

// ScaleK multiplies every coefficient of the zone by f, and shares nothing with
// the zone it was copied from.
func (z *Zone) ScaleK(f float64) {
	for m := range z.K {
		z.K[m] *= f
	}
	z.Season = z.Season.Scaled(f)
	if z.Overseed != nil {
		o := *z.Overseed
		for m := range o.K {
			o.K[m] *= f
		}
		o.Season = o.Season.Scaled(f)
		z.Overseed = &o
	}
}

// String returns the numbers of a season, "none" for nil.
func (s *Season) String() string {
	if s == nil {
		return "none"
	}
	return fmt.Sprintf("%+v", *s)
}

// String returns the numbers of an overseeding, "none" for nil.
func (o *Overseed) String() string {
	if o == nil {
		return "none"
	}
	return fmt.Sprintf("%+v", *o)
}
