package forecast

import (
	"cmp"
	"fmt"
	"iter"
	"math"
	"slices"
	"sort"

	"loamledger/weather/cal"
)

// A Forecast is one day's forecast of one day. Unknown values are NaN.
type Forecast struct {
	Issued, Valid  cal.Date
	RainMM         float64 // expected rain of the valid day [mm], 0 and up
	ProbabilityPct float64 // chance of rain as its source defines it [%], 0 to 100
	TmaxC, TminC   float64 // highest and lowest temperature [°C]
	EToMM          float64 // short reference ET [mm]
}

// LeadDays returns the days from issue to the valid day.
func (f Forecast) LeadDays() int { return int(f.Valid - f.Issued) }

// Unknown returns a Forecast whose values are all unknown.
func Unknown(issued, valid cal.Date) Forecast {
	nan := math.NaN()
	return Forecast{Issued: issued, Valid: valid, RainMM: nan, ProbabilityPct: nan, TmaxC: nan, TminC: nan, EToMM: nan}
}

// An Archive stores forecasts by valid day and issue day. A nil or zero Archive
// is empty. An Archive is immutable and safe to share.
type Archive struct {
	list []Forecast // by valid day, then by issue day
}

// NewArchive returns an archive of the given forecasts, in any order. Two
// forecasts with the same issue and valid day, or a forecast of a day before
// its issue, are an error.
func NewArchive(list []Forecast) (*Archive, error) {
	a := &Archive{list: slices.Clone(list)}
	sort.SliceStable(a.list, func(i, j int) bool { return compare(a.list[i], a.list[j]) < 0 })
	for i, f := range a.list {
		if f.Valid < f.Issued {
			return nil, fmt.Errorf("a forecast issued on %v for %v: the day has already passed", f.Issued, f.Valid)
		}
		if i > 0 && compare(a.list[i-1], f) == 0 {
			return nil, fmt.Errorf("two forecasts issued on %v for %v", f.Issued, f.Valid)
		}
	}
	return a, nil
}

func compare(a, b Forecast) int {
	return cmp.Or(cmp.Compare(a.Valid, b.Valid), cmp.Compare(a.Issued, b.Issued))
}

// Len returns the number of forecasts.
func (a *Archive) Len() int {
	if a == nil {
		return 0
	}
	return len(a.list)
}

// All yields the forecasts ordered by valid day, then by issue day.
func (a *Archive) All() iter.Seq[Forecast] {
	return func(yield func(Forecast) bool) {
		for i := range a.Len() {
			if !yield(a.list[i]) {
				return
			}
		}
	}
}

// Known returns the newest forecast for the valid day that was issued by the
// evening before morning. ok is false if there is none.
func (a *Archive) Known(morning, valid cal.Date) (f Forecast, ok bool) {
	return a.newest(morning-1, valid)
}

// newest returns the newest forecast for a valid day issued on or before by.
func (a *Archive) newest(by, valid cal.Date) (f Forecast, ok bool) {
	if a == nil {
		return f, false
	}
	// The position of a forecast issued the day after.
	i, _ := slices.BinarySearchFunc(a.list, Forecast{Issued: by + 1, Valid: valid}, compare)
	if i == 0 || a.list[i-1].Valid != valid {
		return f, false
	}
	return a.list[i-1], true
}

// A Value names a quantity in a forecast.
type Value uint8

// The quantities in a forecast.
const (
	Rain Value = iota
	Probability
	Tmax
	Tmin
	ETo
)

// Get returns quantity v of f, or NaN if unknown.
func (f Forecast) Get(v Value) float64 {
	switch v {
	case Rain:
		return f.RainMM
	case Probability:
		return f.ProbabilityPct
	case Tmax:
		return f.TmaxC
	case Tmin:
		return f.TminC
	case ETo:
		return f.EToMM
	}
	panic("forecast: unknown quantity")
}

// Ahead returns, for each morning of the days from start, what was known about
// the day that is ahead days later; 0 is the day itself. Unknown values are
// NaN.
func (a *Archive) Ahead(v Value, start cal.Date, days, ahead int) []float64 {
	out := make([]float64, days)
	for i := range out {
		morning := start + cal.Date(i)
		out[i] = math.NaN()
		if f, ok := a.Known(morning, morning+cal.Date(ahead)); ok {
			out[i] = f.Get(v)
		}
	}
	return out
}
