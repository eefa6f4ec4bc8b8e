package scenarios_test

import (
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
)

// bases returns what parameters may depend on: nothing, and every soil, plant and
// sprinkler of the catalog.
func bases() []scenarios.ZoneBasis {
	out := []scenarios.ZoneBasis{{}}
	for _, p := range catalog.Plants() {
		out = append(out, scenarios.ZoneBasis{Plant: p})
	}
	for _, s := range catalog.Soils() {
		for _, slope := range []float64{0, 0.05, 0.1, 0.3} {
			out = append(out, scenarios.ZoneBasis{Soil: s, Slope: slope})
		}
	}
	for _, k := range catalog.Sprinklers() {
		out = append(out, scenarios.ZoneBasis{Kind: k})
	}
	return out
}

// Every number of a zone is bounded at both ends and has a usual range with a source,
// inside its bounds, which holds its default: no default causes a warning.
func TestEveryNumberHasAUsualRange(t *testing.T) {
	numbers := 0
	for _, p := range scenarios.ZoneParams() {
		if p.Words {
			if p.Usual != nil {
				t.Errorf("%s is not a number, but has a usual range", p.Key)
			}
			continue
		}
		numbers++
		if p.Usual == nil {
			t.Errorf("%s has no usual range: add Usual to its entry", p.Key)
			continue
		}
		if p.Max <= p.Min {
			t.Errorf("%s is not bounded at both ends: %g to %g", p.Key, p.Min, p.Max)
		}
		for _, b := range bases() {
			r := p.Usual(b)
			if !r.Known() || r.Low >= r.High {
				t.Errorf("%s: usual range %+v for %q %q %q", p.Key, r, b.Plant.Name, b.Soil.Name, b.Kind.Name)
				continue
			}
			if !(r.High <= p.Max*1.0001 && r.High > p.Min && r.Low < p.Max) {
				t.Errorf("%s: the usual range %g to %g is not within %g to %g for %q %q %q", p.Key, r.Low, r.High, p.Min, p.Max, b.Plant.Name,
					b.Soil.Name, b.Kind.Name)
			}
			if p.Default == nil {
				continue
			}
			if d := p.Default(b); d.Known() && !r.Holds(d.Value) {
				t.Errorf("%s: the default %g is outside its usual range %g to %g for %q %q %q", p.Key, d.Value, r.Low, r.High, b.Plant.Name,
					b.Soil.Name, b.Kind.Name)
			}
		}
	}
	if numbers < 20 {
		t.Errorf("only %d numbers", numbers)
	}
	for _, k := range catalog.Sprinklers() { // its rate is no Default, since flow may give it
		if r := k.UsualRate(); k.Rate.Known() && !r.Holds(k.Rate.Value) {
			t.Errorf("%s: the rate %g is outside %g to %g", k.Name, k.Rate.Value, r.Low, r.High)
		}
	}
	for _, p := range catalog.Plants() { // nor is a coefficient, since a set gives it
		for _, c := range p.Coefficients {
			for _, k := range c.K {
				if r := p.UsualK(); !r.Holds(k) {
					t.Errorf("%s: %g of %s is outside %g to %g", p.Name, k, c.Set, r.Low, r.High)
				}
			}
		}
	}
}
