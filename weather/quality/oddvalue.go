package quality

import (
	"fmt"
	"math"

	"loamledger/weather"
)

const (
	oddDays    = 300 // values a column needs
	oddGapC    = 6   // distance of the highest or lowest temperature from the next
	oddAlone   = 14  // distance from the days on both sides [°C]
	oddWind    = 2   // ratio of the strongest wind to the next
	oddSpread  = 7   // robust standard deviations from the season
	oddLeastC  = 2.5 // the least such deviation [°C]: coasts have heat waves of a day
	oddHalfWin = 10  // days on either side that make the season
	oddSeason  = 30  // days on either side that make the season of all years
	oddOthers  = 100 // values of that season that are needed
)

// oddValues reports single values far from all others, at their own day.
func (k *checker) oddValues() {
	for _, c := range [...]weather.Column{weather.Tmax, weather.Tmin, weather.Tdew, weather.Wind} {
		v := k.s.Data[c]
		if v == nil {
			continue
		}
		t := tally{rule: rule{code: weather.CodeOddValue, column: c, action: kept, source: ownThreshold,
			what: fmt.Sprintf("a single value far from all others: %d °C beyond the next (wind: twice the next), or %d °C from the days on "+
				"both sides and far from its season", oddGapC, oddAlone)}}
		low, high := ends(v)
		if high.n >= oddDays {
			if c == weather.Wind && high.first > oddWind*high.next && t.hit(high.at, high.first) ||
				c != weather.Wind && high.first-high.next > oddGapC && t.hit(high.at, high.first-high.next) {
				t.detail = fmt.Sprintf("%s; the next is %s", value(c, high.first), value(c, high.next))
			}
			if c != weather.Wind && low.next-low.first > oddGapC && t.hit(low.at, low.next-low.first) {
				t.detail = fmt.Sprintf("%s; the next is %s", value(c, low.first), value(c, low.next))
			}
		}
		if c != weather.Wind {
			k.lonely(c, &t, high.at, low.at)
		}
		k.tell(&t)
	}
}

// lonely reports values far from the days on both sides and from their season;
// those at days a and b are known already if t has a case.
func (k *checker) lonely(c weather.Column, t *tally, a, b int) {
	v := k.s.Data[c]
	var around []float64
	known := t.n > 0
	for i := 1; i+1 < len(v); i++ {
		d := min(math.Abs(v[i]-v[i-1]), math.Abs(v[i]-v[i+1]))
		if !(d > oddAlone) || (v[i] > v[i-1]) != (v[i] > v[i+1]) || known && (i == a || i == b) {
			continue
		}
		around = finite(around, v, i-oddHalfWin, i)
		around = append(around, finite(nil, v, i+1, i+1+oddHalfWin)...)
		if len(around) < oddHalfWin {
			continue
		}
		m := quantileOf(0.5, around)
		for j, x := range around {
			around[j] = math.Abs(x - m)
		}
		spread := max(oddLeastC, 1.4826*quantileOf(0.5, around)) // of a normal distribution with this median deviation
		far := math.Abs(v[i]-m)/spread > oddSpread
		if !far {
			low, high, n := k.season(v, i)
			far = n >= oddOthers && (v[i] > high+oddGapC || v[i] < low-oddGapC)
		}
		if far && t.hit(i, math.Abs(v[i]-m)) {
			t.detail = fmt.Sprintf("%s; the days around it have a median of %s", value(c, v[i]), value(c, m))
		}
	}
}

// season returns the lowest and highest value of all years in the season of day
// i, without that day, and how many there are.
func (k *checker) season(v []float64, i int) (low, high float64, n int) {
	low, high = math.Inf(1), math.Inf(-1)
	for j, x := range v {
		apart := int(k.days.doy[j]) - int(k.days.doy[i])
		if apart = max(apart, -apart); j == i || min(apart, 365-apart) > oddSeason || !known(x) {
			continue
		}
		low, high, n = min(low, x), max(high, x), n+1
	}
	return low, high, n
}

// An end is the highest or lowest value, the next one and how many there are.
type end struct {
	first, next float64
	at, n       int
}

func ends(v []float64) (low, high end) {
	low.first, low.next, high.first, high.next = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i, x := range v {
		if !known(x) {
			continue
		}
		high.n++
		if x > high.first {
			high.next, high.first, high.at = high.first, x, i
		} else if x > high.next {
			high.next = x
		}
		if x < low.first {
			low.next, low.first, low.at = low.first, x, i
		} else if x < low.next {
			low.next = x
		}
	}
	low.n = high.n
	return low, high
}
