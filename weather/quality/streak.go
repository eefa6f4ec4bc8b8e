package quality

import (
	"fmt"

	"loamledger/weather"
)

// streak is how many equal values in a row are reported and how many are dropped.
type streak struct {
	column     weather.Column
	told, drop int
}

// streaks20 is from the quality control of a global daily archive, which flags
// 20 equal temperatures in a row.
const streaks20 = "Durre et al. (2010), J. Appl. Meteor. Climatol. 49, 1615: streaks of 20 (from memory); " + ownThreshold

var streakLimits = [...]streak{
	{weather.Tmax, 7, 20}, {weather.Tmin, 7, 20}, {weather.Tdew, 7, 20}, {weather.Ea, 7, 20},
	{weather.RHmax, 7, 20}, {weather.RHmin, 7, 20}, {weather.RHmean, 7, 20},
	{weather.Rs, 4, 10}, {weather.Wind, 7, 20}, {weather.Rain, 5, 20},
}

// streaks finds stuck sensors and gauges.
func (k *checker) streaks() {
	for _, s := range streakLimits {
		if !k.s.Has(s.column) {
			continue
		}
		told := tally{rule: rule{code: weather.CodeFlatLine, column: s.column,
			what: fmt.Sprintf("the same value on %d days in a row or more", s.told), action: kept, source: streaks20}}
		gone := tally{rule: rule{code: weather.CodeFlatLineLong, column: s.column,
			what: fmt.Sprintf("the same value on %d days in a row or more", s.drop), action: dropped, source: streaks20}}
		v := k.s.Data[s.column]
		for from := 0; from < len(v); {
			to := from + 1
			for to < len(v) && v[to] == v[from] {
				to++
			}
			if n := to - from; n >= s.told && !mayStandStill(s.column, v[from]) {
				t := &told
				if n >= s.drop {
					t = &gone
				}
				if t.hit(from, float64(n)) {
					t.detail = fmt.Sprintf("%s on %d days from this one on", value(s.column, v[from]), n)
				}
				t.n += n - 1
				for i := from; i < to && t == &gone; i++ {
					k.drop(s.column, i)
				}
			}
			from = to
		}
		k.tell(&told)
		k.tell(&gone)
	}
}

// mayStandStill reports whether v can plausibly repeat for days in a column.
func mayStandStill(c weather.Column, v float64) bool {
	switch c {
	case weather.Rain, weather.Rs: // Dry spells, polar nights.
		return v <= 0.1
	case weather.RHmax: // Saturated air every night.
		return v >= 95
	case weather.Wind: // Checked by the calm rule.
		return v < calmMS
	}
	return false
}
