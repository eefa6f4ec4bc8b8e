package study

import (
	"fmt"
	"math"

	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// An effect compares the water of settings, replayed as shown, with that of their
// strategy.
type effect struct {
	// exact is set if every zone gets the strategy's water over the record, to a
	// part in a billion.
	exact bool
	// change is the change of the site's water, as a share; NaN if the strategy
	// applies none. Zones has that of each zone.
	change float64
	zones  []float64
}

// exactWithin is the difference in water below which settings are called exact, as
// a share: rounding errors of arithmetic.
const exactWithin = 1e-9

// effectOf compares the second strategy of a table with the first.
func effectOf(t *tally.Table) effect {
	basis := t.Basis()
	e := effect{exact: true}
	a, b := 0.0, 0.0
	change := func(from, to float64) float64 {
		switch {
		case from > 0:
			return to/from - 1
		case to > 0:
			return math.NaN()
		}
		return 0
	}
	for z := range t.Zones {
		whole := change(t.Total(0, z).GrossMM, t.Total(1, z).GrossMM)
		e.exact = e.exact && math.Abs(whole) <= exactWithin // not if NaN
		own, its := t.Sum(&basis, 0, z), t.Sum(&basis, 1, z)
		a, b = a+float64(own.GrossMM*t.Zones[z].AreaM2), b+float64(its.GrossMM*t.Zones[z].AreaM2)
		e.zones = append(e.zones, change(own.GrossMM, its.GrossMM))
	}
	e.change = change(a, b)
	return e
}

// EffectLine says whether the settings apply the strategy's water, and the
// difference if not.
func (l *Study) EffectLine(s *Sheet) string {
	if s.effect.exact {
		return "Exact: replayed as shown, every zone gets the same water as under the strategy."
	}
	rows, basis := s.table.Compare(), s.table.Basis()
	text := fmt.Sprintf("Not exact: replayed as shown, the site gets %s %s %s; the strategy applies %s", l.volume(rows[1].M3PerYear),
		quantity.Label(quantity.Volume, l.Scenario.Units), basis.Words(), l.volume(rows[0].M3PerYear))
	if !math.IsNaN(s.effect.change) {
		text += " (" + changeText(s.effect.change) + ")"
	}
	worst := 0
	for z, c := range s.effect.zones {
		if math.IsNaN(c) || math.Abs(c) > math.Abs(s.effect.zones[worst]) {
			worst = z
		}
	}
	switch c := s.effect.zones[worst]; {
	case len(s.effect.zones) == 1:
	case math.IsNaN(c):
		text += fmt.Sprintf(". Under the strategy, within the limits, %s gets no water; with the settings it does", l.Job.Zones[worst].Name)
	default:
		text += fmt.Sprintf(". The largest change is in %s (%s)", l.Job.Zones[worst].Name, changeText(c))
	}
	return text + "."
}

// changeText writes a small change of water.
func changeText(share float64) string {
	more := "more"
	if share < 0 {
		more = "less"
	}
	v := math.Abs(100 * share)
	if v < 0.05 {
		return "less than 0.1% " + more
	}
	return quantity.Number(v, 1) + "% " + more
}
