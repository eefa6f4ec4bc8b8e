package study

import (
	"fmt"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/weather/quantity"
)

// maxIntakeZones is how many zones the caution about intake rates names.
const maxIntakeZones = 3

// defaultIntakes cautions that runoff figures rest on intake rates from the
// catalog. It names the zones whose sprinklers apply water faster than the
// slowest lawn measured took it in; elsewhere the intake rate changes nothing.
func (l *Study) defaultIntakes() []scenarios.Warning {
	assumed := map[string]bool{}
	for i := range l.Scenario.Inputs {
		if in := &l.Scenario.Inputs[i]; in.Defaulted {
			assumed[in.Key] = true
		}
	}
	lawns := catalog.LawnIntake()
	var names []string
	for i := range l.Scenario.Zones {
		z := &l.Scenario.Zones[i]
		if assumed["zones."+z.Name+".soil.intake"] && z.PRMMH*(1-z.LossShare) > lawns.Low {
			names = append(names, z.Name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	w := scenarios.Warning{Code: scenarios.DefaultIntake, Value: float64(len(names)), Unit: "zones"}
	who := strings.Join(names, ", ")
	switch n := len(names); {
	case n == 1:
		w.Zone = names[0]
	case n > maxIntakeZones:
		who = fmt.Sprintf("%s and %s", strings.Join(names[:maxIntakeZones-1], ", "),
			quantity.Count(n-maxIntakeZones+1, "other zone", "other zones"))
	}
	rate := func(mmh float64) string { return quantity.Format(mmh, quantity.Rate, l.Scenario.Units) }
	w.Text = fmt.Sprintf("runoff figures for %s use general intake rates. Lawns elsewhere took in %s to %s, whatever their soil, so real "+
		"runoff may be none or several times higher. Time how long each zone runs before water runs off",
		who, rate(lawns.Low), rate(lawns.High))
	return []scenarios.Warning{w}
}

// intakeLines writes the caution for people.
func (l *Study) intakeLines() (lines []string) {
	for _, one := range l.defaultIntakes() {
		lines = append(lines, quantity.Capital(one.Text)+".")
	}
	return lines
}
