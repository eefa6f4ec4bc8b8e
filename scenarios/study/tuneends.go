package study

import (
	"slices"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
)

// The range of a coefficient and of an available water capacity without one in the
// catalog, as factors: assumptions by loamledger.
const (
	kLow, kHigh     = 0.85, 1.15
	awcLow, awcHigh = 0.8, 1.2
)

// markEnd is how far the marks of the plants are moved.
const markEnd = 0.1

// An end is one end of the range of one input in every zone at once.
type end struct {
	key, name string
	k, awc    []float64 // factors, by zone; nil for 1
	marks     float64   // what the marks are moved by
}

// ends lists the ends at which a setting is scored.
func (l *Study) ends() []end {
	n := len(l.Scenario.Zones)
	lowK, highK, lowAWC, highAWC := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range l.Scenario.Zones {
		z := &l.Scenario.Zones[i]
		lowK[i], highK[i] = rangeOfK(z)
		lowAWC[i], highAWC[i] = awcLow, awcHigh
		if soil, ok := catalog.FindSoil(z.Soil); ok {
			lowAWC[i], highAWC[i] = factors(soil.AWC.Value, soil.AWC.Low, soil.AWC.High, awcLow, awcHigh)
		}
	}
	return []end{
		{key: "k_low", name: "K at its low end", k: lowK}, {key: "k_high", name: "K at its high end", k: highK},
		{key: "awc_low", name: "AWC at its low end", awc: lowAWC}, {key: "awc_high", name: "AWC at its high end", awc: highAWC},
		{key: "marks_low", name: "marks 0.1 lower", marks: -markEnd}, {key: "marks_high", name: "marks 0.1 higher", marks: markEnd},
	}
}

// rangeOfK returns the ends of the range of a zone's coefficient as factors.
func rangeOfK(z *scenarios.Zone) (low, high float64) {
	plant, ok := catalog.FindPlant(z.Plant)
	if !ok {
		return kLow, kHigh
	}
	if z.Season != nil && !z.Season.ActivityOnly && plant.Ka.High > 0 {
		return factors(plant.Ka.Value, plant.Ka.Low, plant.Ka.High, kLow, kHigh)
	}
	c, ok := plant.Coefficient(z.Coefficients)
	if !ok {
		return kLow, kHigh
	}
	return factors(slices.Max(c.K[:]), c.Low, c.High, kLow, kHigh)
}

// factors returns a range as factors on a value; ifNot if it has none or is not
// around the value.
func factors(v, low, high, lowIfNot, highIfNot float64) (a, b float64) {
	a, b = low/v, high/v
	if !(a > 0 && a < 1) {
		a = lowIfNot
	}
	if !(b > 1) {
		b = highIfNot
	}
	return a, b
}

// zonesAt returns the zones at an end.
func (l *Study) zonesAt(e *end) []sim.Zone {
	zones := withMarks(l.Job.Zones, e.marks)
	for i := range zones {
		if e.k != nil {
			zones[i].ScaleK(e.k[i])
		}
		if e.awc != nil {
			zones[i].TAWMM *= e.awc[i]
		}
	}
	return zones
}

// withMarks returns the zones with the marks of their plants moved.
func withMarks(zones []sim.Zone, by float64) []sim.Zone {
	move := func(marks ...*float64) {
		for _, m := range marks {
			*m = sim.MovedMark(*m, by)
		}
	}
	zones = slices.Clone(zones)
	for i := range zones {
		z := &zones[i]
		move(&z.ToleranceR7, &z.BrowningR7)
		if z.Overseed != nil {
			o := *z.Overseed
			move(&o.ToleranceR7, &o.BrowningR7)
			z.Overseed = &o
		}
	}
	return zones
}

// believing returns a strategy whose water balances assume the plants and soils of
// the scenario while those of the replay are at an end.
func believing(st *strategy.Strategy, e *end) strategy.Strategy {
	out := *st
	out.Parts = nil
	for _, p := range st.Parts {
		refill, ok := p.(*strategy.Refill)
		if !ok || e.k == nil && e.awc == nil {
			out.Parts = append(out.Parts, p)
			continue
		}
		for z, is := range refill.Zones {
			if !is {
				continue
			}
			one := *refill
			one.Zones = make([]bool, len(refill.Zones))
			one.Zones[z] = true
			if e.k != nil {
				one.Assumed.K = orOne(one.Assumed.K) / e.k[z]
			}
			if e.awc != nil {
				one.Assumed.Storage = orOne(one.Assumed.Storage) / e.awc[z]
			}
			out.Parts = append(out.Parts, &one)
		}
	}
	return out
}

func orOne(f float64) float64 {
	if f == 0 {
		return 1
	}
	return f
}

// intervals returns the interval between waterings of the plants of each zone.
func (l *Study) intervals() []tune.Interval {
	out := make([]tune.Interval, len(l.Scenario.Zones))
	for i := range l.Scenario.Zones {
		z := &l.Scenario.Zones[i]
		plant, ok := catalog.FindPlant(z.Plant)
		if !ok && z.PlantGroup != catalog.NoGroup {
			plant, ok = catalog.Typical(z.PlantGroup), true
		}
		if ok {
			b := plant.BetweenWaterings()
			out[i] = tune.Interval{Shortest: int(b.Shortest), Longest: int(b.Longest)}
		}
	}
	return out
}
