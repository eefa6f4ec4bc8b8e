package quality

import (
	"fmt"
	"slices"

	"loamledger/weather"
)

const (
	wetMM         = 1.0
	deadGaugeDays = 60 // a shorter dry spell is never reported
	deadGaugeWet  = 15 // wet days expected during a dry spell
	minRainYears  = 3
	minWet        = 100
)

// rain checks gauges and how they are read.
func (k *checker) rain() {
	if !k.s.Has(weather.Rain) {
		return
	}
	for _, m := range [...]struct {
		mark         weather.Mark
		code         weather.Code
		what         string
		source, told string
	}{
		{weather.Trace, weather.CodeTraceRain, "rain too small to measure", noSource, "counted as 0"},
		{weather.Presumed, weather.CodePresumedZero, "rain presumed zero by the archive", noSource, "counted as 0"},
	} {
		t := tally{rule: rule{code: m.code, column: weather.Rain, what: m.what, action: m.told, source: m.source}}
		for i, got := range k.s.Mark[weather.Rain] {
			if got == m.mark && t.hit(i, 0) {
				t.detail = "first such day"
			}
		}
		k.tell(&t)
	}
	k.presumed()
	k.gaugeDead()
	k.deadGauge()
	if !k.runningTotal() {
		k.accumulated()
	}
	k.weekdays()
	k.loneDay()
	k.afterGap()
}

// deadGauge reports dry spells that are unlikely given the rest of the record.
func (k *checker) deadGauge() {
	rain := k.s.Data[weather.Rain]
	var wet, days [13]int
	for i, v := range rain {
		if known(v) {
			days[k.days.month[i]]++
			if v >= wetMM {
				wet[k.days.month[i]]++
			}
		}
	}
	t := tally{rule: rule{code: weather.CodeGaugeDry, column: weather.Rain,
		what: fmt.Sprintf("no rain for %d days or more when other years suggest %d wet days: the gauge may be blocked", deadGaugeDays,
			deadGaugeWet), action: kept, source: ownThreshold}}
	k.runsOf(func(i int) bool { return rain[i] == 0 }, deadGaugeDays, func(from, to int) {
		var own [13]int
		for i := from; i < to; i++ {
			own[k.days.month[i]]++
		}
		expected := 0.0
		for m, n := range own {
			if others := days[m] - n; n > 0 {
				if others < minRainYears*20 {
					return // Too few other years to tell.
				}
				expected += float64(n) * float64(wet[m]) / float64(others)
			}
		}
		if expected < deadGaugeWet {
			return
		}
		if t.hit(from, expected) {
			t.detail = fmt.Sprintf("%d days from this one on; %.0f wet days expected", to-from, expected)
		}
		t.n += to - from - 1
	})
	k.tell(&t)
}

// afterGap reports heavy rain on the first day after missing days, which may be
// their total.
func (k *checker) afterGap() {
	rain := k.s.Data[weather.Rain]
	var wet []float64
	for _, v := range rain {
		if v > 0 {
			wet = append(wet, v)
		}
	}
	if len(wet) < minWet {
		return
	}
	slices.Sort(wet)
	heavy := wet[len(wet)*95/100]
	t := tally{rule: rule{code: weather.CodeRainAfterGap, column: weather.Rain,
		what: "rain heavier than on 95% of wet days, on the first day after missing days: it may be a multi-day total", action: kept,
		source: noSource + "; " + ownThreshold}}
	for i := 1; i < len(rain); i++ {
		if !known(rain[i-1]) && rain[i] > heavy && t.hit(i, rain[i]) {
			t.detail = value(weather.Rain, rain[i])
		}
	}
	k.tell(&t)
}
