package study

import (
	"fmt"
	"strings"

	"loamledger/plots"
	"loamledger/sim/money"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// The limits of plausible money. They judge inputs and results; nothing is computed
// from them.
const (
	// Saved water costs 500 to 1,500 USD an acre-foot in screened programs. Our choice after
	// programs of rebates.
	cheapestUSDPerAF = 200
	// A home saves 9,000 to 40,000 gallons a year in published programs.
	mostHomeGal = 60_000
)

// usualHomeGal is the usual saving of a home [gal/yr].
var usualHomeGal = [...]float64{9_000, 40_000}

// acreFootM3 is an acre-foot [m³]: 43,560 ft³.
const acreFootM3 = 43560 * 0.028316846592

// savedM3 returns the water that strategy s saves a year against the baseline [m³].
func (l *Study) savedM3(s int, b *tally.Basis) float64 {
	t, saved := l.money.table, 0.0
	for z := range t.Zones {
		was, is := t.Sum(b, t.Baseline, z), t.Sum(b, s, z)
		saved += float64((was.GrossMM - is.GrossMM) / 1000 * t.Zones[z].AreaM2)
	}
	return saved / b.Divisor()
}

// saved is the same as an exact number.
func (l *Study) saved(s int, b *tally.Basis) money.Num {
	return money.Float(l.savedM3(s, b), volumePlaces)
}

// moneyAlarms returns implausible money; none without rates.
func (l *Study) moneyAlarms(t *tally.Table) (out []plots.Alarm) {
	m := l.money
	if !m.known(t, 0) {
		return nil
	}
	basis := t.Basis()
	if !basis.Yearly() {
		return nil
	}
	var cheap, much []plots.Alarm
	var cheapNames, muchNames []string
	for s := range m.bills {
		if s == t.Baseline || t.IsCut(s) {
			continue
		}
		name := t.Strategies[s]
		saved := l.savedM3(s, &basis)
		if p, _ := l.worth(s, &basis); p != nil && m.rates.Currency == "USD" {
			if _, high, ok := p.Levelized(l.saved(s, &basis)); ok {
				if cost := high.Float64() * acreFootM3; cost < cheapestUSDPerAF {
					cheap = append(cheap, plots.Alarm{Code: plots.SavedWaterCheap, Strategy: name, Value: high.Float64(), Unit: "USD/m³"})
					cheapNames = append(cheapNames, fmt.Sprintf("“%s” at most %.0f", name, cost))
				}
			}
		}
		if gal := quantity.Convert(saved, quantity.Volume, quantity.US); m.mixed() && gal > mostHomeGal {
			much = append(much, plots.Alarm{Code: plots.HomeSaving, Strategy: name, Value: saved, Unit: "m³/yr"})
			muchNames = append(muchNames, "“"+name+"” "+volumeText(saved, l.Scenario.Units))
		}
	}
	add := func(list []plots.Alarm, format string, args ...any) {
		text := fmt.Sprintf(format, args...)
		for _, a := range list {
			a.Text = text
			out = append(out, a)
		}
	}
	if len(cheap) > 0 {
		add(cheap, "Saved water below USD %d an acre-foot is implausibly cheap (%s): programs pay 500 to 1,500. Count labor, visits and upkeep.",
			cheapestUSDPerAF, strings.Join(cheapNames, ", "))
	}
	if len(much) > 0 {
		unit := quantity.Label(quantity.Volume, l.Scenario.Units)
		add(much, "Savings above %s %s a year are implausible for one home (%s): %s to %s are usual. "+
			"The meter is mixed, as in a home.",
			volumeText(mostHomeGal*galM3, l.Scenario.Units), unit, strings.Join(muchNames, ", "),
			volumeText(usualHomeGal[0]*galM3, l.Scenario.Units),
			volumeText(usualHomeGal[1]*galM3, l.Scenario.Units))
	}
	return out
}

// galM3 is a gallon [m³].
const galM3 = 0.003785411784
