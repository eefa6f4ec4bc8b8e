package bill

import (
	"fmt"

	"loamledger/sim/money"
	"loamledger/weather/quantity"
)

// hundred turns a share into a percentage.
var hundred = money.Int(100)

// volumePlaces is the number of decimals of printed volumes.
const volumePlaces = 3

// What says what a line charges for; unit is the billing unit and days those of
// the period.
func (l *Line) What(unit string, days int) string {
	text := ""
	switch l.Kind {
	case FixedAmount:
		text = "fixed"
		if l.Units.Cmp(money.Int(1)) != 0 {
			text = "fixed, " + l.Units.Short(volumePlaces) + " ×"
		}
	case Volume:
		text = "all units"
		switch {
		case l.Tier > 0 && l.To != nil:
			text = fmt.Sprintf("tier %d, %s to %s %s", l.Tier, l.From.Short(volumePlaces), l.To.Short(volumePlaces), unit)
		case l.Tier > 0:
			text = fmt.Sprintf("tier %d, above %s %s", l.Tier, l.From.Short(volumePlaces), unit)
		case l.From.Sign() > 0:
			text = fmt.Sprintf("above %s %s", l.From.Short(volumePlaces), unit)
		}
	case Covered:
		text = fmt.Sprintf("first %s %s, paid by the minimum", l.To.Short(volumePlaces), unit)
	case Established:
		text = fmt.Sprintf("new plants, at the price of tier %d", l.Tier)
	case Percentage:
		text = fmt.Sprintf("%s%% of %s", l.Price.Mul(hundred).Short(4), l.Base.Text())
	case TopUp:
		text = "up to the minimum of " + l.Base.Text()
	}
	if l.Days < days {
		text += fmt.Sprintf(", %d of %s", l.Days, quantity.Count(days, "day", "days"))
	}
	return text
}

// Text says what a bill had to settle.
func (n *Note) Text(unit string) string {
	switch n.Code {
	case NoPrice:
		return "no charge for water is in force on " + quantity.Count(n.Days, "day", "days")
	case WinterAverage:
		return fmt.Sprintf("winter average: %s %s, the mean of %s", n.units.Short(volumePlaces), unit,
			quantity.Count(n.reads, "winter period", "winter periods"))
	case WinterDefault:
		return fmt.Sprintf("no winter reads yet: the default of %s %s counts", n.units.Short(volumePlaces), unit)
	case MeanETo:
		return fmt.Sprintf("the weather lacks %s of this bill: the budget has the mean ETo of their calendar month",
			quantity.Count(n.Days, "day", "days"))
	case ReadApart:
		return "meter " + n.Meter + " is read on other days, so a charge that counts both meters does not count it here"
	}
	return "no winter reads yet, and the rates have no default: the metered volume counts"
}
