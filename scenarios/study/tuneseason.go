package study

import (
	"math"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
	"loamledger/weather"
)

// A tuneSeason is the dates within which a search may water.
type tuneSeason struct {
	// stated is the season of the scenario, and of the strategy that states it: the
	// baseline or, if that has none, the first that has. Stated is nil if none has.
	stated *strategy.Season
	of     string
	// used is what the settings found have. It is nil for the whole year.
	used *strategy.Season
	// frost is the frost hold of a strategy of the scenario, which shows that the
	// site has a freeze sensor; nil if none has one.
	frost   *strategy.FrostHold
	frostOf string
	// cold says that the dates exclude more than the scenario does, to avoid
	// watering on freezing days and in months in which the plants are dormant.
	cold bool
}

// parts returns the season as a part of each setting tried.
func (s *tuneSeason) parts() []strategy.Part {
	var parts []strategy.Part
	if s.used != nil {
		parts = append(parts, *s.used)
	}
	if s.frost != nil {
		parts = append(parts, *s.frost)
	}
	return parts
}

// same reports whether two seasons water on the same days.
func (s *tuneSeason) same(o *tuneSeason) bool {
	return s.cold == o.cold && (s.used == nil) == (o.used == nil) && (s.used == nil || *s.used == *o.used)
}

// frostOf returns the frost hold of a strategy, nil if it has none.
func frostOf(st *strategy.Strategy) *strategy.FrostHold {
	for _, p := range st.Parts {
		switch p := p.(type) {
		case strategy.FrostHold:
			return &p
		case *strategy.FrostHold:
			own := *p
			return &own
		}
	}
	return nil
}

// seasonOf returns the season of a strategy, nil if it has none.
func seasonOf(st *strategy.Strategy) *strategy.Season {
	for _, p := range st.Parts {
		switch p := p.(type) {
		case strategy.Season:
			return &p
		case *strategy.Season:
			own := *p
			return &own
		}
	}
	return nil
}

// coldMost are the shares of the season's days, or of its ETo, that may be freezing,
// or in a month in which the plants are dormant, one after another, as long as
// what is found raises an alarm; above 1 for any.
var coldMost = [...]float64{2, leastColdShare, leastColdShare / 2, leastColdShare / 5}

// tuneSeason chooses the season for a kind with at most the given share of cold days.
func (l *Study) tuneSeason(kind tune.Kind, most float64) tuneSeason {
	out := tuneSeason{}
	order := []int{}
	if len(l.Job.Strategies) > 0 {
		order = append(order, l.Scenario.Baseline)
		for i := range l.Scenario.Strategies {
			order = append(order, i)
		}
	}
	for _, i := range order {
		if s := seasonOf(&l.Job.Strategies[i]); s != nil {
			out.stated, out.of = s, l.Job.Strategies[i].Name
			used := *s
			out.used = &used
			break
		}
	}
	halves, any := l.coldHalves(kind == tune.Fixed, nil)
	if !any {
		return out
	}
	for _, i := range order {
		if f := frostOf(&l.Job.Strategies[i]); f != nil {
			out.frost, out.frostOf = f, l.Job.Strategies[i].Name
			halves, _ = l.coldHalves(kind == tune.Fixed, f)
			break
		}
	}
	for h := range halves {
		halves[h].out = out.stated != nil && !halfWithin(out.stated, h)
	}
	first, last, cut := warm(halves, most)
	if !cut {
		return out
	}
	used := strategy.Season{FrostC: -100, FrostFreeDays: 21}
	if out.stated != nil {
		used = *out.stated
	}
	start, end := halfStart(first), halfEnd(last)
	if out.stated == nil || !sameHalf(used.Start, start) {
		used.Start = start
	}
	if out.stated == nil || !sameHalf(used.End, end) {
		used.End = end
	}
	out.used, out.cold = &used, true
	return out
}

// A half is half a calendar month of all years: its weight, and how much of that is
// freezing or dormant.
type half struct {
	all, frozen, dormant float64
	out                  bool
}

// coldHalves weighs the 24 half months by days or by ETo, without days that a frost
// hold holds; any says whether one is cold. It has no figures for a record without
// temperatures.
func (l *Study) coldHalves(byDays bool, frost *strategy.FrostHold) (halves [24]half, any bool) {
	tmax, tmin := l.Weather.Data[weather.Tmax], l.Weather.Data[weather.Tmin]
	if tmax == nil || tmin == nil {
		return halves, false
	}
	area := 0.0
	for z := range l.Scenario.Zones {
		area += l.Scenario.Zones[z].AreaM2
	}
	c := sim.NewCalendar(l.Job.Weather.Start, l.Job.Weather.Days())
	for _, span := range c.Spans {
		mean := 0.0
		for i := span.From; i < span.To; i++ {
			mean += float64((tmax[i] + tmin[i]) / 2)
		}
		mean /= float64(span.To - span.From)
		asleep := 0.0
		for z := range l.Scenario.Zones {
			if mean < dormantBelowC(&l.Scenario.Zones[z]) {
				asleep += l.Scenario.Zones[z].AreaM2 / area
			}
		}
		for i := span.From; i < span.To; i++ {
			if frost != nil && i > 0 && tmin[i-1] < frost.BelowC {
				continue
			}
			w := 1.0
			if !byDays {
				w = l.Job.Weather.EToMM[i]
			}
			h := &halves[2*(span.Month-1)+min((int(c.Dom[i])-1)/15, 1)]
			h.all += w
			h.dormant += float64(w * asleep)
			if tmin[i] < 0 {
				h.frozen += w
			}
			any = any || asleep > 0 || tmin[i] < 0
		}
	}
	return halves, any
}

// warm narrows a season until no more than the given share of it is freezing, and of
// it dormant. It takes the worse end, half a month at a time, beginning with
// the coldest. cut reports whether it took any.
func warm(halves [24]half, most float64) (first, last int, cut bool) {
	cold := func(h int) float64 {
		if halves[h].all == 0 {
			return math.Inf(1)
		}
		return max(halves[h].frozen, halves[h].dormant) / halves[h].all
	}
	for {
		var sum half
		left := 0
		for h := range halves {
			if !halves[h].out {
				left++
				sum.all += halves[h].all
				sum.frozen += halves[h].frozen
				sum.dormant += halves[h].dormant
			}
		}
		if max(sum.frozen, sum.dormant) <= most*sum.all || left <= 1 {
			break
		}
		worst := -1
		for h := range halves {
			end := left == 24 || halves[(h+1)%24].out || halves[(h+23)%24].out
			if !halves[h].out && end && (worst < 0 || cold(h) > cold(worst)) {
				worst = h
			}
		}
		halves[worst].out, cut = true, true
	}
	for h := range halves {
		if !halves[h].out && halves[(h+23)%24].out {
			first = h
		}
		if !halves[h].out && halves[(h+1)%24].out {
			last = h
		}
	}
	return first, last, cut
}

// halfStart and halfEnd return the first and last day of half month h, as 100·month
// + day.
func halfStart(h int) int { return 100*(h/2+1) + 1 + 15*(h%2) }
func halfEnd(h int) int {
	if h%2 == 0 {
		return 100*(h/2+1) + 15
	}
	return 100*(h/2+1) + [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[h/2]
}

// halfWithin reports whether any day of half month h is within the dates of a
// season.
func halfWithin(s *strategy.Season, h int) bool {
	for day := halfStart(h); day <= halfEnd(h); day++ {
		if s.Within(day) {
			return true
		}
	}
	return false
}

// sameHalf reports whether a day of the year, 0 for none, is in the half month of
// another.
func sameHalf(day, other int) bool {
	return day != 0 && day/100 == other/100 && (day%100 > 15) == (other%100 > 15)
}
