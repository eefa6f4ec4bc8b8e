package plots

import (
	"fmt"
	"strings"

	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// winterWaterC is the air temperature above which winter watering is advised [°C]:
// 40 °F, common practice, no source.
const winterWaterC = (40 - 32) / 1.8

// WinterWater advises winter watering if root zones of strategy st dry out while
// plants are dormant and the ground is open: a day or more in a mean whole
// year, or over a record without one. Empty if there is no such zone.
func WinterWater(t *tally.Table, u Units, st int) string {
	return winterWater(t, u, []int{st})
}

// winterWater advises about several strategies at once.
func winterWater(t *tally.Table, u Units, list []int) string {
	basis := t.Basis()
	var texts []string
	for _, st := range list {
		var zones []string
		for z := range t.Zones {
			sum := t.Sum(&basis, st, z)
			if mean := float64(sum.DryWinterDays) / basis.Divisor(); mean >= 1 {
				zones = append(zones, t.Zones[z].Name+" "+fixed(mean, 0))
			}
		}
		if len(zones) > 0 {
			texts = append(texts, listed(zones, 0)+" under "+quote(t.Strategies[st]))
		}
	}
	if len(texts) == 0 {
		return ""
	}
	sys := quantity.SI
	if u == US {
		sys = quantity.US
	}
	if more := len(texts) - maxNamed; more > 0 {
		texts = append(texts[:maxNamed], "and so for "+count(more, "other strategy", "other strategies"))
	}
	return fmt.Sprintf("Dry winter days %s, with dormant plants in dry soil that is not frozen: %s. "+
		"On a day above %s without snow or ice, water these zones once a month if local rules allow it (common practice, no source).",
		basis.Words(), strings.Join(texts, "; "), quantity.Format(winterWaterC, quantity.Temperature, sys))
}

// WinterNote is [WinterWater] of all strategies but the references.
func (s *Study) WinterNote() string {
	var list []int
	for st := range s.Table.NoWaterIndex() {
		if !s.Table.IsCut(st) {
			list = append(list, st)
		}
	}
	return winterWater(s.Table, s.Units, list)
}
