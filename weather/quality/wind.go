package quality

import (
	"fmt"

	"loamledger/weather"
)

const (
	calmMS   = 0.5
	calmDays = 10
)

// wind reports long periods without wind.
func (k *checker) wind() {
	if !k.s.Has(weather.Wind) {
		return
	}
	t := tally{rule: rule{code: weather.CodeWindCalm, column: weather.Wind,
		what: fmt.Sprintf("wind below %g m/s for %d days or more: the anemometer may be stuck", calmMS, calmDays), action: kept,
		source: annex5 + "; " + ownThreshold}}
	k.runsOf(func(i int) bool { return k.s.Data[weather.Wind][i] < calmMS }, calmDays, func(from, to int) {
		if t.hit(from, float64(to-from)) {
			t.detail = fmt.Sprintf("%d days from this one on", to-from)
		}
		t.n += to - from - 1
	})
	k.tell(&t)
}

// runsOf calls f for each run of at least least days on which is returns true;
// to is the day after it.
func (k *checker) runsOf(is func(i int) bool, least int, f func(from, to int)) {
	for i := 0; i < k.s.Days; i++ {
		if !is(i) {
			continue
		}
		from := i
		for i < k.s.Days && is(i) {
			i++
		}
		if i-from >= least {
			f(from, i)
		}
	}
}
