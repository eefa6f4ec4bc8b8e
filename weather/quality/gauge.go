package quality

import (
	"fmt"
	"math"
	"slices"

	"loamledger/weather"
	"loamledger/weather/portable"
)

// Tests of counts report only what chance does once in a million records.
const chance = 1e-6

const (
	totalPairs   = 30  // days after a wet day needed to see a running total
	totalShare   = 0.8 // share of them on which rain does not fall; in weather it is 0.3 to 0.5
	summedDays   = 40  // wet days needed to see sums of several days
	summedShare  = 0.5 // wet days in a row, of those expected by chance; in weather it is above 1
	deadDays     = 200 // days without rain of a dead gauge
	deadSpells   = 12  // wet spells expected in that time; the chance of none is e⁻¹²
	spellDays    = 3   // wet days of a spell
	noRainDays   = 730 // days of a record without any rain
	presumedMost = 0.5
	weekdayShare = 0.8  // share of wet days on one weekday
	weekdayBias  = 0.25 // deviation of a weekday's wet days from the mean that is worth reporting
	minWeekday   = 10   // wet days per weekday needed for the comparison
	loneMM       = 60
	loneRatio    = 1.5
	loneGap      = 5.0 // gap to the next day, in mean excesses over the wettest tenth; by chance e⁻⁵
)

// runningTotal reports rain that is summed over the month or year to date:
// after a wet day it hardly ever falls.
func (k *checker) runningTotal() bool {
	rain := k.s.Data[weather.Rain]
	n, up, monthStarts, falls := 0, 0, 0, 0
	first := -1
	for i := 1; i < len(rain); i++ {
		if !(rain[i-1] > 0) || !known(rain[i]) {
			continue
		}
		n++
		if rain[i] >= rain[i-1] {
			if up++; first < 0 {
				first = i
			}
			continue
		}
		falls++
		if k.days.month[i] != k.days.month[i-1] {
			monthStarts++
		}
	}
	if n < totalPairs || float64(up) < totalShare*float64(n) {
		return false
	}
	t := tally{rule: rule{code: weather.CodeRainRunningTotal, column: weather.Rain, action: kept + ": take differences from day to day",
		what: fmt.Sprintf("on %g%% or more of the days after a wet day rain is not below the day before: it is a total to date",
			100*totalShare),
		source: ownThreshold}}
	t.hit(first, 0)
	t.n = up
	t.detail = fmt.Sprintf("%d of %d days", up, n)
	if falls > 0 && 2*monthStarts > falls {
		t.detail += ", and it falls at the turn of a month"
	}
	k.tell(&t)
	return true
}

// accumulated reports a gauge that is read every few days: a wet day follows a
// wet day less often than by chance, while in weather it does so more often.
func (k *checker) accumulated() {
	rain := k.s.Data[weather.Rain]
	days, wet, after, both, first := 0, 0, 0, 0, -1
	for i, v := range rain {
		if !known(v) {
			continue
		}
		days++
		if v > 0 {
			if wet++; first < 0 {
				first = i
			}
		}
		if i > 0 && rain[i-1] > 0 {
			after++
			if v > 0 {
				both++
			}
		}
	}
	if wet < summedDays {
		return
	}
	p := float64(wet) / float64(days)
	expected := p * float64(after)
	if float64(both) >= summedShare*expected || portable.BinomialCDF(float64(both), float64(after), p) > chance {
		return
	}
	t := tally{rule: rule{code: weather.CodeRainAccumulated, column: weather.Rain, action: kept, source: ownThreshold,
		what: "a wet day follows a wet day at least as often as by chance; if not, rain of several days is recorded on one"}}
	t.hit(first, 0)
	t.n = wet
	t.detail = fmt.Sprintf("%d wet days follow a wet day, where chance alone gives %.0f", both, expected)
	k.tell(&t)
}

// deadGauge reports a gauge without rain for so long that it must be dead.
func (k *checker) gaugeDead() {
	rain := k.s.Data[weather.Rain]
	var wet, days [13]int
	allWet, allDays := 0, 0
	for i, v := range rain {
		if known(v) {
			m := k.days.month[i]
			days[m]++
			allDays++
			if v >= wetMM {
				wet[m]++
				allWet++
			}
		}
	}
	t := tally{rule: rule{code: weather.CodeGaugeDead, column: weather.Rain, action: kept, source: ownThreshold,
		what: fmt.Sprintf("no rain for %d days or more when the rest of the record has %d wet spells in such a time: the gauge is dead", deadDays,
			deadSpells)}}
	if allWet == 0 && allDays >= noRainDays {
		t.hit(0, 0)
		t.n, t.detail = allDays, "the record has no rain at all"
		k.tell(&t)
		return
	}
	k.runsOf(func(i int) bool { return rain[i] == 0 }, deadDays, func(from, to int) {
		var own [13]int
		for i := from; i < to; i++ {
			own[k.days.month[i]]++
		}
		others := allDays - (to - from)
		expected := 0.0
		for m, n := range own {
			switch rest := days[m] - n; {
			case rest >= 20:
				expected += float64(n) * float64(wet[m]) / float64(rest)
			case others > 0:
				expected += float64(n) * float64(allWet) / float64(others)
			}
		}
		if expected/spellDays < deadSpells {
			return
		}
		if t.hit(from, expected) {
			t.detail = fmt.Sprintf("%d days from this one on; %.0f wet days expected", to-from, expected)
		}
		t.n += to - from - 1
	})
	if t.n > 0 {
		k.seen[weather.CodeGaugeDry] = true // the same days, said more strongly
	}
	k.tell(&t)
}

// weekdays compares the wet days of the weekdays by a χ² test of counts.
func (k *checker) weekdays() {
	var wet [7]float64
	total, first := 0.0, -1
	for i, v := range k.s.Data[weather.Rain] {
		if v > 0 {
			if first < 0 {
				first = i
			}
			wet[k.s.Date(i).Weekday()]++
			total++
		}
	}
	mean := total / 7
	low, high := slices.Min(wet[:]), slices.Max(wet[:])
	names := [...]string{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"}
	if total >= 20 && high >= weekdayShare*total {
		t := tally{rule: rule{code: weather.CodeRainOneWeekday, column: weather.Rain, action: kept, source: ownThreshold,
			what: fmt.Sprintf("%g%% or more of the wet days are on one weekday: the week's rain is recorded on it", 100*weekdayShare)}}
		t.hit(first, 0)
		t.n = int(total)
		t.detail = fmt.Sprintf("%.0f of %.0f wet days on %s", high, total, names[slices.Index(wet[:], high)])
		k.tell(&t)
		return
	}
	if mean < minWeekday || low > (1-weekdayBias)*mean && high < (1+weekdayBias)*mean {
		return
	}
	squares := 0.0
	for _, n := range wet {
		squares += float64((n - mean) * (n - mean) / mean)
	}
	p := portable.GammaTail(6.0/2, squares/2) // of χ² with 6 degrees of freedom
	if p > chance {
		return
	}
	at := slices.Index(wet[:], low)
	t := tally{rule: rule{code: weather.CodeGaugeWeekday, column: weather.Rain, action: kept, source: "χ² test of counts; " + ownThreshold,
		what: "rain is equally frequent on all weekdays; if not, several days' rain may be recorded on one"}}
	t.hit(first, 0)
	t.n = int(total)
	t.detail = fmt.Sprintf("%s has %.0f rainy days, the mean is %.0f; by chance once in %.0e records", names[at], low, mean, 1/max(p, 1e-300))
	k.tell(&t)
}

// loneDay reports a wettest day far above every other.
func (k *checker) loneDay() {
	wet := k.wetDays()
	n := len(wet)
	if n < unitWetDays {
		return
	}
	first, next := wet[n-1], wet[n-2]
	if first < loneMM || first < loneRatio*next {
		return
	}
	top := wet[n*9/10 : n-1]
	excess := portable.Mean(top) - top[0]
	if !(excess > 0) || (first-next)/excess < loneGap {
		return
	}
	t := tally{rule: rule{code: weather.CodeRainLoneDay, column: weather.Rain, action: kept,
		what:   fmt.Sprintf("a day with %g times the rain of any other and further from it than chance explains", loneRatio),
		source: "exponential excesses over a threshold; " + ownThreshold}}
	t.hit(slices.Index(k.s.Data[weather.Rain], first), 0)
	t.detail = fmt.Sprintf("%s; the next is %s", value(weather.Rain, first), value(weather.Rain, next))
	k.tell(&t)
}

// presumed reports rain that is mostly presumed zero.
func (k *checker) presumed() {
	n, all, first := 0, 0, -1
	for i, m := range k.s.Mark[weather.Rain] {
		if math.IsNaN(k.s.Data[weather.Rain][i]) {
			continue
		}
		all++
		if m == weather.Presumed {
			if n++; first < 0 {
				first = i
			}
		}
	}
	if n == 0 || float64(n) < presumedMost*float64(all) {
		return
	}
	t := tally{rule: rule{code: weather.CodeRainMostlyPresumed, column: weather.Rain, action: "counted as 0", source: ownThreshold,
		what: fmt.Sprintf("rain was not observed but presumed zero by the archive on %g%% or more of the days used", 100*presumedMost)}}
	t.hit(first, 0)
	t.n = n
	t.detail = fmt.Sprintf("%d of %d days, %.0f%%", n, all, 100*float64(n)/float64(all))
	k.tell(&t)
}
