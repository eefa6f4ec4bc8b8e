package tune

import (
	"math"
	"slices"
	"sort"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/weather/cal"
)

// A Cycle is a maximum run and the soak after it. The zero Cycle is a single run.
type Cycle struct{ CycleMin, SoakMin float64 }

// mostPrograms is the maximum number of programs of a search: common practice, no
// source.
const mostPrograms = 4

// A Space is the settings to try. Empty fields get defaults that a controller
// accepts and the zones call for.
type Space struct {
	Days         []strategy.DayRule // patterns of days; only those allowed at the site are used
	Cycles       []Cycle
	MaxMinutes   int           // maximum per zone and start, at least 1
	Timer        timer.Profile // what the sheet must fit; without programs, any timer with cycles and that step
	Exponents    []float64     // for Monthly: see [bend]
	Floors       []float64     // for Monthly
	Scales       []float64     // for Monthly
	MAD          []float64     // for Refill: triggers as shares of TAW
	Shares       []float64     // for Refill: factors on the run time of each zone
	AveragedDays []int         // for ETScaled: days over which reference ET is averaged
}

// filled returns the space with defaults in empty fields.
func (sp Space) filled(s *search) Space {
	if len(sp.Days) == 0 {
		sp.Days = defaultDays(s)
	}
	sp.Days = legalDays(s, sp.Days)
	if sp.Timer = stated(sp.Timer); len(s.clocks) > 1 {
		sp.Timer = strictest(s.clocks, sp.Timer)
	}
	if !sp.Timer.Cycle {
		sp.Cycles = []Cycle{{}}
	}
	if len(sp.Cycles) == 0 {
		sp.Cycles = defaultCycles(s.job.Zones)
	}
	if sp.MaxMinutes == 0 {
		sp.MaxMinutes = 600
	}
	if len(sp.Exponents) == 0 {
		sp.Exponents = []float64{0.5, 0.75, 1, 1.25, 1.5, 2}
	}
	if len(sp.Floors) == 0 {
		sp.Floors = []float64{0, 0.1, 0.2, 0.3}
	}
	if len(sp.Scales) == 0 {
		sp.Scales = []float64{1, 1.1, 1.2, 1.3, 1.5}
	}
	if len(sp.MAD) == 0 {
		for i := range 11 {
			sp.MAD = append(sp.MAD, float64(10+5*i)/100)
		}
	}
	if len(sp.Shares) == 0 {
		for i := range 21 {
			sp.Shares = append(sp.Shares, float64(50+10*i)/100)
		}
	}
	if len(sp.AveragedDays) == 0 {
		sp.AveragedDays = []int{3, 7, 14}
	}
	return sp
}

func week(days ...int) strategy.DayRule {
	r := strategy.DayRule{Kind: strategy.Weekdays}
	for _, d := range days {
		r.Weekdays[d] = true
	}
	return r
}

// basicDays lists patterns from every day to once a week.
func basicDays(start cal.Date) []strategy.DayRule {
	return []strategy.DayRule{
		{Kind: strategy.AnyDay}, week(1, 2, 4, 5, 6), week(1, 3, 5, 0), {Kind: strategy.OddDays}, week(1, 3, 5),
		{Kind: strategy.Interval, Every: 3, From: start}, week(1, 4), week(3),
	}
}

// defaultDays adds to these the patterns that the permanent rule suggests.
func defaultDays(s *search) []strategy.DayRule {
	list := basicDays(s.job.Weather.Start)
	if s.limits == nil {
		return list
	}
	rule := s.limits.Always.Days
	if rule.Kind == strategy.Weekdays {
		var allowed []int
		for d, on := range rule.Weekdays {
			if on {
				allowed = append(allowed, d)
			}
		}
		for n := 1; n < len(allowed); n++ {
			var some []int
			for i := range n {
				some = append(some, allowed[i*len(allowed)/n])
			}
			list = append(list, week(some...))
		}
	}
	return append(list, rule)
}

// legalDays returns the patterns allowed by the permanent rule, each once.
func legalDays(s *search, list []strategy.DayRule) []strategy.DayRule {
	c := sim.NewCalendar(s.job.Weather.Start, s.job.Weather.Days())
	var out []strategy.DayRule
	for _, r := range list {
		legal := true
		if s.limits != nil && r != s.limits.Always.Days {
			for i := 0; i < c.Days() && legal; i++ {
				legal = !r.Runs(c, i) || s.limits.Always.Days.Runs(c, i)
			}
		}
		if legal && !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	return out
}

// legalFor returns the patterns that zone z may use.
func (s *search) legalFor(z int, list []strategy.DayRule) []strategy.DayRule {
	if s.exempt(z) {
		return list
	}
	return legalDays(s, list)
}

// defaultCycles lists a single run, and for each zone the longest run without
// runoff from its wettest strip, twice that, and the longest run without runoff at
// the zone's mean rate, each with the soak that empties the surface.
func defaultCycles(zones []sim.Zone) []Cycle {
	var out []Cycle
	add := func(cycle, soak float64) {
		c := Cycle{max(math.Floor(cycle+1e-9), 1), min(5*math.Ceil(soak/5-1e-9), 240)}
		if c.CycleMin <= 120 && !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	for i := range zones {
		z := &zones[i]
		mean, soak := z.LongestCycle()
		shares := sim.Shares(z.Strips, z.DULQ)
		rate := float64(z.PRMMH * (1 - z.LossShare) * shares[len(shares)-1])
		if rate <= z.IntakeMMH {
			continue
		}
		wet := 60 * z.SurfaceStorageMM / (rate - z.IntakeMMH)
		soak = max(soak, 60*z.SurfaceStorageMM/z.IntakeMMH)
		add(wet, soak)
		add(2*wet, soak)
		if mean > 0 {
			add(mean, soak)
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, b := out[i], out[j]
		return a.CycleMin < b.CycleMin || a.CycleMin == b.CycleMin && a.SoakMin < b.SoakMin
	})
	const most = 9
	for len(out) > most {
		// Drop the one most like its neighbor: of two, the longer cycle.
		k, like := 1, math.Inf(1)
		for i := 1; i < len(out); i++ {
			if d := out[i].CycleMin/out[i-1].CycleMin + math.Abs(out[i].SoakMin-out[i-1].SoakMin)/60; d < like {
				k, like = i, d
			}
		}
		out = slices.Delete(out, k, k+1)
	}
	return append([]Cycle{{}}, out...)
}

// mostMinutes returns the maximum run time per start of zone z in cycles c. It is
// limited by the permanent rule, the window, half a day if there is none, and
// twice the time that fills the driest strip.
func (s *search) mostMinutes(z int, c Cycle) int {
	zone := &s.job.Zones[z]
	most := float64(s.space.MaxMinutes)
	most = min(most, fillMinutes(zone))
	room := s.open[z].room
	if l := s.limits; !s.exempt(z) && l.Always.MaxMinutes > 0 {
		most = min(most, l.Always.MaxMinutes)
	}
	if most > room {
		most = room
	}
	for c.CycleMin > 0 && most > 1 && most+float64(c.SoakMin*float64(sim.Run{Minutes: most, CycleMin: c.CycleMin}.Cycles()-1)) > room {
		most--
	}
	return max(int(most/max(s.most, 1)+1e-9), 1)
}

// longest returns the length of the longest window [min], or 0.
func longest(windows []clock.Window) float64 {
	n := 0.0
	for _, w := range windows {
		d := w.ToMin - w.FromMin
		if d <= 0 {
			d += clock.Day
		}
		n = max(n, d)
	}
	return n
}
