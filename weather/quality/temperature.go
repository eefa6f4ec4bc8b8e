package quality

import (
	"fmt"

	"loamledger/weather"
)

// temperatures checks Tmax and Tmin together.
func (k *checker) temperatures() {
	if !k.s.Has(weather.Tmax) || !k.s.Has(weather.Tmin) {
		return
	}
	below := tally{rule: rule{code: weather.CodeTmaxBelowTmin, column: weather.Tmax, what: "Tmax below Tmin", action: "both values dropped",
		source: noSource}}
	equal := tally{rule: rule{code: weather.CodeTmaxEqualsTmin, column: weather.Tmax, what: "Tmax equal to Tmin", action: kept,
		source: ownThreshold}}
	wide := tally{rule: rule{code: weather.CodeTemperatureRange, column: weather.Tmax,
		what: fmt.Sprintf("a daily range above %d °C", maxRangeC), action: kept, source: ownThreshold}}
	tmax, tmin := k.s.Data[weather.Tmax], k.s.Data[weather.Tmin]
	both := 0
	for i := range tmax {
		r := tmax[i] - tmin[i]
		if !known(r) {
			continue
		}
		both++
		detail := func(t *tally) { t.detail = fmt.Sprintf("Tmax %.1f, Tmin %.1f °C", tmax[i], tmin[i]) }
		switch {
		case r < 0:
			if below.hit(i, -r) {
				detail(&below)
			}
			k.drop(weather.Tmax, i)
			k.drop(weather.Tmin, i)
		case r == 0:
			if equal.hit(i, 0) {
				detail(&equal)
			}
		case r > maxRangeC:
			if wide.hit(i, r) {
				detail(&wide)
			}
		}
	}
	if below.n >= 10 && 2*below.n > both {
		below.suspect = weather.ColumnsSwapped
		below.detail += "; on most days, as if the two columns were swapped"
	}
	k.tell(&below)
	k.tell(&equal)
	k.tell(&wide)
}

const maxRangeC = 40
