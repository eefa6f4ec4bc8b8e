package cli

import (
	"math"

	"loamledger/weather/portable"
	"loamledger/weather/quantity"
)

// rangeText returns the limits of a parameter, given in the base unit of dim. A
// limit that is converted to US units is rounded into the range, to two digits or
// 0.01, so that every value shown is accepted.
func rangeText(low, high float64, dim quantity.Dimension, bare bool, sys quantity.System) string {
	if bare {
		return quantity.Number(low, 4) + " to " + quantity.Number(high, 4)
	}
	text := func(v float64, round func(float64) float64) string {
		n := quantity.Convert(v, dim, sys)
		if v == 0 || quantity.UnitName(dim, sys) == quantity.UnitName(dim, quantity.SI) || dim == quantity.Temperature {
			return quantity.Format(v, dim, sys) // the zero of temperatures is not that of the base unit
		}
		step := max(portable.Pow(10, math.Floor(portable.Log10(math.Abs(n)))-1), 0.01)
		if units := n / step; math.Abs(units-math.Round(units)) > 1e-6 {
			v *= round(units) * step / n
		}
		return quantity.Format(v, dim, sys)
	}
	return text(low, math.Ceil) + " to " + text(high, math.Floor)
}
