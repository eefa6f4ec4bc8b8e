package explain

import (
	"fmt"
	"strconv"

	"loamledger/weather/quantity"
)

// The methods below write one value in the units of the scenario. The values of a
// day are in SI; only what is printed is converted. An inch takes one decimal
// more than a millimeter, and so does a pure number by which it is multiplied.
//
// Within an equation a value stands without its unit; the result carries it.

// depth writes a depth [mm] with its unit, as in 4.00 mm or 0.157 in.
func (w *writer) depth(mm float64) string { return w.depthNumber(mm) + " " + w.depthUnit() }

// fineDepth writes a depth [mm] with its unit and a decimal more than depth.
func (w *writer) fineDepth(mm float64) string { return w.fineNumber(mm) + " " + w.depthUnit() }

// depthNumber writes a depth [mm] as depth does, without its unit.
func (w *writer) depthNumber(mm float64) string { return w.number(mm, quantity.Depth, 2) }

// fineNumber writes a depth [mm] as fineDepth does, without its unit.
func (w *writer) fineNumber(mm float64) string { return w.number(mm, quantity.Depth, 3) }

// signed writes a depth [mm] as fineNumber does, with its sign even if positive.
func (w *writer) signed(mm float64) string {
	return fmt.Sprintf("%+.*f", 3+w.moreDecimals(), quantity.Convert(mm, quantity.Depth, w.sys))
}

// wholeNumber writes a depth [mm] that is a whole number in either unit.
func (w *writer) wholeNumber(mm float64) string {
	return fixed(quantity.Convert(mm, quantity.Depth, w.sys), 0)
}

// storage writes the storage S of the curve number [mm] with its unit, to
// tenths of a millimeter or thousandths of an inch.
func (w *writer) storage(mm float64) string {
	if w.sys == quantity.US {
		return w.depth(mm)
	}
	return fixed(mm, 1) + " " + w.depthUnit()
}

// rate writes a rate [mm/h] with its unit, as in 12.00 mm/h or 0.472 in/h.
func (w *writer) rate(mmh float64) string { return w.rateNumber(mmh) + " " + w.rateUnit() }

// fineRate writes a rate [mm/h] with its unit and a decimal more than rate.
func (w *writer) fineRate(mmh float64) string { return w.fineRateNumber(mmh) + " " + w.rateUnit() }

// rateNumber writes a rate [mm/h] as rate does, without its unit.
func (w *writer) rateNumber(mmh float64) string { return w.number(mmh, quantity.Rate, 2) }

// fineRateNumber writes a rate [mm/h] as fineRate does, without its unit.
func (w *writer) fineRateNumber(mmh float64) string { return w.number(mmh, quantity.Rate, 3) }

// degrees writes a temperature [°C] in the unit of the scenario, without it.
func (w *writer) degrees(c float64) string {
	return fixed(quantity.Convert(c, quantity.Temperature, w.sys), 2)
}

// factor writes a pure number by which depths or rates are multiplied, with the
// given decimals, or one more among inches.
func (w *writer) factor(v float64, decimals int) string {
	return fixed(v, decimals+w.moreDecimals())
}

// minutes writes a number of minutes, to be multiplied by a rate.
func (w *writer) minutes(v float64) string { return w.factor(v, 2) }

// inMillimeters writes a depth [mm] for an equation with metric constants, with
// the conversion from inches where there is one.
func (w *writer) inMillimeters(mm float64) string {
	if w.sys == quantity.US {
		return fmt.Sprintf("%.1f x %s", quantity.InchMM, w.depthNumber(mm))
	}
	return w.depthNumber(mm)
}

// minutesFor returns the minutes that a unit of depth takes, given those for 1 mm.
func (w *writer) minutesFor(perMM float64) float64 {
	return perMM / quantity.Convert(1, quantity.Depth, w.sys)
}

func (w *writer) number(v float64, dim quantity.Dimension, decimals int) string {
	return fixed(quantity.Convert(v, dim, w.sys), decimals+w.moreDecimals())
}

func (w *writer) moreDecimals() int {
	if w.sys == quantity.US {
		return 1
	}
	return 0
}

func (w *writer) depthUnit() string { return quantity.UnitName(quantity.Depth, w.sys) }
func (w *writer) rateUnit() string  { return quantity.UnitName(quantity.Rate, w.sys) }

// depthUnits names the unit of depth in a heading.
func (w *writer) depthUnits() string {
	if w.sys == quantity.US {
		return "inches"
	}
	return w.depthUnit()
}

func fixed(v float64, decimals int) string { return strconv.FormatFloat(v, 'f', decimals, 64) }
