package csvfile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/et0"
	"loamledger/weather/portable"
)

// The limits of evidence. World records are single values; everything else is
// a quantile, a median or a mean, which one wrong cell cannot move.
const (
	hottestC    = 56.7  // °C, 1913-07-10, World Meteorological Organization, archive of extremes
	coldestC    = -89.2 // °C, 1983-07-21, the same
	wettestMM   = 1825  // mm in 24 h, 1966-01, the same
	wettestYear = 12000 // mm; the wettest places have a mean of about 11,900 (from memory)
	noSummerC   = 15    // °C; a site whose hottest days are below this has no garden: common practice, no source
	desertC     = 45    // °C; hotter only in deserts, so a cool site in °F is not mistaken for one: common practice, no source
	aSeasonDays = 300   // days with values that must include a summer
	manyValues  = 50    // values from which a tail quantile outlasts a wrong cell; below, the median counts
	tail        = 0.02  // share of days in a tail
	someWetDays = 20    // wet days for the wettest tenth to mean something
	formShare   = 0.02  // share of values with decimals that shows how a file writes them

	// The 17 stations of the tests with rain have 8 to 30 mm for the wettest
	// tenth, those with temperatures a range of 6 to 19 °C, those with wind 0.7
	// to 4.1 m/s; the limits leave room beyond.
	leastTenthMM, mostTenthMM = 3.5, 70
	leastRangeC, mostRangeC   = 3, 22
	leastWindMS, mostWindMS   = 0.25, 9

	// Supplied ETo and Hargreaves ETo differ by less than this factor.
	hargreavesFactor = 2.2

	// The mean temperature at sea level falls from the equator to the poles as
	// equatorC − poleC sin²(latitude), within spreadC, and by lapseC per km:
	// our choice, 5 °C wider than the hottest desert of the tests.
	equatorC, poleC, spreadC = 27, 40, 18
	lapseC, highestKM        = 6.5, 4
)

// A verdict is the evidence for and against one system of units.
type verdict struct {
	unitSystem
	votes []weather.Evidence
}

func (v *verdict) vote(code weather.EvidenceCode, fits bool, format string, args ...any) {
	v.votes = append(v.votes, weather.Evidence{Code: code, Units: v.name, Fits: fits, Detail: fmt.Sprintf(format, args...)})
}

func (v *verdict) fits() bool {
	return !slices.ContainsFunc(v.votes, func(e weather.Evidence) bool { return !e.Fits })
}

// against lists the evidence against the system.
func (v *verdict) against() string {
	var out []string
	for _, e := range v.votes {
		if !e.Fits {
			out = append(out, e.Detail)
		}
	}
	return strings.Join(out, ", ")
}

// brief is the first evidence against the system and how much more there is. All
// of it is in the record.
func (v *verdict) brief() string {
	var first string
	more := -1
	for _, e := range v.votes {
		if e.Fits {
			continue
		}
		if more++; more == 0 {
			first = e.Detail
		}
	}
	if more > 0 {
		first += fmt.Sprintf(" (and %d more)", more)
	}
	return first
}

// odds counts the evidence for the system.
func (v *verdict) odds() string {
	n := 0
	for _, e := range v.votes {
		if e.Fits {
			n++
		}
	}
	return fmt.Sprintf("evidence %d for, %d against", n, len(v.votes)-n)
}

// judge collects the evidence on one system of units.
func (b *builder) judge(u unitSystem) verdict {
	v := verdict{unitSystem: u}
	if u.name == unitsTenths {
		b.voteForm(&v)
	}
	b.voteTemperatures(&v)
	b.voteRain(&v)
	if w := b.sorted(weather.Wind); len(w) >= manyValues {
		m := u.wind(quantile(0.5, w))
		v.vote(weather.EvidenceWind, m >= leastWindMS && m <= mostWindMS, "the median wind would be %.2g m/s", m)
	}
	b.voteYearMean(&v)
	b.voteHargreaves(&v)
	return v
}

// voteForm looks at decimals, which tenths never have.
func (b *builder) voteForm(v *verdict) {
	for _, c := range [...]weather.Column{weather.Tmax, weather.Tmin, weather.Rain, weather.Wind} {
		n := len(b.sorted(c))
		if n == 0 {
			continue
		}
		with := b.decimals[c]
		most := formShare * float64(n)
		if n < manyValues {
			most = float64(n) / 2
		}
		few := float64(with) <= most
		v.vote(weather.EvidenceForm, few, "%s is written with decimals, which tenths never are, on %d of %d days", c.Label(), with, n)
	}
}

// voteTemperatures looks at the hottest and coldest days and the daily range.
func (b *builder) voteTemperatures(v *verdict) {
	hot, cold := b.sorted(weather.Tmax), b.sorted(weather.Tmin)
	if n := len(hot); n > 0 {
		raw, of := top(hot)
		c := v.temperature(raw)
		fits := c <= hottestC+0.05 && c >= coldestC && (n < aSeasonDays || c >= noSummerC || v.name == unitsUS && raw > desertC)
		v.vote(weather.EvidenceHottest, fits, "%s of %d days, %g, would be %.1f °C", of, n, raw, c)
	}
	if n := len(cold); n > 0 {
		// Of few values, the middle one nearer to what is possible: of two, one wrong cell decides nothing.
		raw, warm, of := quantile(tail, cold), quantile(0.5, cold), "the coldest 2%"
		if n < manyValues {
			raw, of = cold[n/2], "the median"
		}
		tooCold, tooWarm := v.temperature(raw) < coldestC-0.05, v.temperature(warm) > hottestC
		if tooWarm {
			raw = warm
		}
		v.vote(weather.EvidenceColdest, !tooCold && !tooWarm, "Tmin: %s of %d nights, %g, would be %.1f °C", of, n, raw, v.temperature(raw))
	}
	if d := b.ranges(); len(d) >= manyValues {
		m := quantile(0.5, d)
		c := v.temperature(m) - v.temperature(0)
		v.vote(weather.EvidenceRange, c >= leastRangeC && c <= mostRangeC, "the median daily range would be %.1f °C", c)
	}
}

func top(sorted []float64) (v float64, of string) {
	if len(sorted) < manyValues {
		return quantile(0.5, sorted), "the median"
	}
	return quantile(1-tail, sorted), "the hottest 2%"
}

// voteRain looks at the wettest tenth of wet days and the mean year.
func (b *builder) voteRain(v *verdict) {
	wet := b.sorted(weather.Rain)
	days := len(wet)
	wet = wet[sortedFrom(wet, 0):]
	if len(wet) == 0 {
		return
	}
	if m := v.rain(quantile(0.5, wet)); len(wet) >= 3 && m > wettestMM {
		v.vote(weather.EvidenceWetDays, false, "the median wet day would be %.0f mm", m)
	}
	if len(wet) < someWetDays {
		return
	}
	ninth := quantile(0.9, wet)
	mm := v.rain(ninth)
	v.vote(weather.EvidenceWetDays, mm >= leastTenthMM && mm <= mostTenthMM, "the wettest tenth of %d wet days begins at %.3g mm",
		len(wet), mm)
	if days < aSeasonDays {
		return
	}
	sum, most := 0.0, v.rain(quantile(1-tail, wet)) // the heaviest days are limited, so that one cell does not count
	for _, w := range wet {
		sum += min(v.rain(w), most)
	}
	year := sum / float64(days) * 365.25
	v.vote(weather.EvidenceYearRain, year <= wettestYear, "%.0f mm of rain a year", year)
}

// voteYearMean compares the mean temperature with the latitude, if it is known.
func (b *builder) voteYearMean(v *verdict) {
	lat, elev := b.place()
	hot, cold := b.sorted(weather.Tmax), b.sorted(weather.Tmin)
	if math.IsNaN(lat) || len(hot) < aSeasonDays || len(cold) < aSeasonDays {
		return
	}
	c := (v.temperature(quantile(0.5, hot)) + v.temperature(quantile(0.5, cold))) / 2
	s := portable.Sin(et0.Radians(lat))
	sea := equatorC - float64(poleC*s*s)
	low, high := sea-spreadC-lapseC*highestKM, sea+spreadC
	if !math.IsNaN(elev) {
		low, high = sea-spreadC-lapseC*elev/1000, high-lapseC*elev/1000
	}
	v.vote(weather.EvidenceYearMean, c >= low && c <= high, "the median temperature would be %.1f °C at latitude %.1f, where it is "+
		"%.0f to %.0f", c, lat, low, high)
}

// voteHargreaves compares supplied ETo with that of Hargreaves from the
// temperatures, if the latitude is known.
func (b *builder) voteHargreaves(v *verdict) {
	lat, _ := b.place()
	if math.IsNaN(lat) || b.data[weather.ETo] == nil || b.data[weather.Tmax] == nil || b.data[weather.Tmin] == nil {
		return
	}
	sun := et0.NewSunYear(lat)
	var ratio []float64
	for i := range b.lines {
		tmax, tmin := v.temperature(b.data[weather.Tmax][i]), v.temperature(b.data[weather.Tmin][i])
		h := et0.Hargreaves(tmax, tmin, et0.Evaporation(sun.RaMJ[(b.base+cal.Date(i)).YearDay()]))
		if q := v.rain(b.data[weather.ETo][i]) / h; h > 0.3 && q >= 0 {
			ratio = append(ratio, q)
		}
	}
	if len(ratio) < manyValues {
		return
	}
	slices.Sort(ratio)
	m := quantile(0.5, ratio)
	v.vote(weather.EvidenceHargreaves, m <= hargreavesFactor && m >= 1/hargreavesFactor, "supplied ETo would be %.2g times that "+
		"of Hargreaves", m)
}

// place returns the latitude and elevation, as given or as the file states them.
func (b *builder) place() (lat, elev float64) {
	lat, elev = b.st.LatDeg, b.st.ElevM
	if b.given.LatDeg != nil {
		lat = *b.given.LatDeg
	}
	if b.given.ElevM != nil {
		elev = *b.given.ElevM
	}
	if !(lat >= -90 && lat <= 90) {
		lat = math.NaN()
	}
	return lat, elev
}

// bulk returns the values between which nearly all of a column lie, and their
// median; of few values, it returns the median three times.
func bulk(sorted []float64) (low, mid, high float64) {
	mid = quantile(0.5, sorted)
	if len(sorted) < manyValues {
		return mid, mid, mid
	}
	return quantile(tail, sorted), mid, quantile(1-tail, sorted)
}

// sorted returns the values of c in order.
func (b *builder) sorted(c weather.Column) []float64 {
	if b.data[c] == nil {
		return nil
	}
	if b.order[c] == nil {
		b.order[c] = ordered(b.data[c][:len(b.lines)])
	}
	return b.order[c]
}

// ranges returns Tmax − Tmin in order.
func (b *builder) ranges() []float64 {
	high, low := b.data[weather.Tmax], b.data[weather.Tmin]
	if high == nil || low == nil {
		return nil
	}
	d := make([]float64, len(b.lines))
	for i := range d {
		d[i] = high[i] - low[i]
	}
	return ordered(d)
}

// ordered returns the known values of v in order.
func ordered(v []float64) []float64 {
	out := make([]float64, 0, len(v))
	for _, x := range v {
		if x == x {
			out = append(out, x)
		}
	}
	slices.Sort(out)
	return out
}

// sortedFrom returns the index of the first value above x.
func sortedFrom(sorted []float64, x float64) int {
	i, _ := slices.BinarySearchFunc(sorted, x, func(v, x float64) int {
		if v > x {
			return 1
		}
		return -1
	})
	return i
}

func quantile(p float64, sorted []float64) float64 {
	return portable.Quantile(p, sorted)
}
