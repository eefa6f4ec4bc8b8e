package portfolio

import (
	"cmp"
	"slices"
)

// A Months adds up the months of all accounts, in any order.
type Months struct {
	sums map[monthKey]float64
	of   map[string]bool // weather
}

type monthKey struct {
	weather, measure string
	year, month      int
}

// NewMonths returns an empty sum.
func NewMonths() *Months { return &Months{map[monthKey]float64{}, map[string]bool{}} }

// Add takes one month. Months of median and dry years are added up by month alone, since
// those years differ between accounts.
func (s *Months) Add(m *Month) {
	k := monthKey{m.Weather, m.Measure, 0, int(m.Month)}
	if m.Weather == AllYears {
		k.year = int(m.Year)
	}
	s.sums[k] += m.VolumeM3
	s.of[m.Weather] = true
}

// A Peak is the month of highest demand of all accounts together as found, and what a
// measure makes of it.
type Peak struct {
	Weather     string // of [Month.Weather]; the years of dry and median weather differ between accounts
	Year, Month int    // Year is 0 unless Weather is [AllYears]
	FoundM3     float64
	MeasureM3   float64 // in the same month
	OwnMonth    int     // the month of highest demand under the measure
	OwnM3       float64
}

// Peaks returns the highest month for each weather that was added: the dry and the
// median year, or the highest month of all years.
func (s *Months) Peaks(reference, measure string) (out []Peak) {
	for _, w := range []string{MedianYear, DryYear, AllYears} {
		if !s.of[w] {
			continue
		}
		found, own := s.highest(w, reference), s.highest(w, measure)
		p := Peak{Weather: w, Year: found.year, Month: found.month, FoundM3: s.sums[found], OwnMonth: own.month, OwnM3: s.sums[own]}
		found.measure = measure
		p.MeasureM3 = s.sums[found]
		out = append(out, p)
	}
	return out
}

// highest returns the month with the most water, the earliest of equal ones.
func (s *Months) highest(weather, measure string) (best monthKey) {
	var keys []monthKey
	for k := range s.sums {
		if k.weather == weather && k.measure == measure {
			keys = append(keys, k)
		}
	}
	slices.SortFunc(keys, func(a, b monthKey) int { return cmp.Or(cmp.Compare(a.year, b.year), cmp.Compare(a.month, b.month)) })
	best = monthKey{weather: weather, measure: measure}
	for _, k := range keys {
		if best.month == 0 || s.sums[k] > s.sums[best] {
			best = k
		}
	}
	return best
}

// PeakDays returns the sum over accounts of each account's own highest day, a mean over
// years [m³]: as found and under measure m. Accounts do not peak on the same day, so it
// is the most that the peak day of all can be.
func (t *Table) PeakDays(m int) (found, measure float64) {
	for a := range t.Accounts {
		years := float64(t.use(0, a).years)
		found += t.use(0, a).peakDayM3 / years
		measure += t.use(m, a).peakDayM3 / years
	}
	return found, measure
}
