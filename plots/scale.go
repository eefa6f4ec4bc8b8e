package plots

import (
	"math"
	"strconv"

	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

// scaleTo returns an axis from 0 to a round number at or above high, with about n
// intervals.
func scaleTo(label, unit string, high float64, n int) Axis {
	if !(high > 0) || math.IsInf(high, 0) {
		high = 1
	}
	step := roundStep(high / float64(n))
	top := step * math.Ceil(high/step-1e-9)
	ax := Axis{Label: label, Unit: unit, Max: top}
	decimals := max(0, -int(math.Floor(portable.Log10(step)+1e-9)))
	if math.Abs(float64(step*portable.Pow(10, float64(decimals)))-math.Round(step*portable.Pow(10, float64(decimals)))) > 1e-9 {
		decimals++ // a step such as 2.5
	}
	for i := 0; float64(i)*step <= top*(1+1e-9); i++ {
		at := float64(i) * step
		ax.Ticks = append(ax.Ticks, Tick{At: at, Label: fixed(at, decimals)})
	}
	return ax
}

// roundStep returns the smallest of 1, 2, 2.5, 5 times a power of ten at
// or above least.
func roundStep(least float64) float64 {
	power := portable.Pow(10, math.Floor(portable.Log10(least)))
	for _, m := range []float64{1, 2, 2.5, 5} {
		if m*power >= least*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

var monthNames = [12]string{
	"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
}

// monthAxis returns an axis of the twelve months, at 1 to 12.
func monthAxis() Axis {
	ax := Axis{Label: "month", Min: 0.5, Max: 12.5, Plain: true}
	for m, name := range monthNames {
		ax.Ticks = append(ax.Ticks, Tick{At: float64(m + 1), Label: name[:1]})
	}
	return ax
}

// dateAxis returns an axis of n days from start, day 0 being start, with a
// tick at the first of each month, or each January where there are many.
func dateAxis(start cal.Date, n int) Axis {
	ax := Axis{Label: "date", Max: float64(max(n-1, 1))}
	every := max(1, (n/366+9)/10) // years from label to label
	for i := range n {
		y, m, d := (start + cal.Date(i)).YMD()
		switch {
		case d != 1:
		case n > 800:
			if m == 1 && y%every == 0 {
				ax.Ticks = append(ax.Ticks, Tick{At: float64(i), Label: strconv.Itoa(y)})
			}
		default:
			ax.Ticks = append(ax.Ticks, Tick{At: float64(i), Label: monthNames[m-1][:3]})
		}
	}
	return ax
}

// DayText writes a day for a sentence, such as "April 18, 2018".
func DayText(d cal.Date) string {
	y, m, day := d.YMD()
	return monthNames[m-1] + " " + strconv.Itoa(day) + ", " + strconv.Itoa(y)
}

// DatesText writes a span of days for a caption, as titles have it.
func DatesText(from, to cal.Date) string { return dates(from, to) }

// dates writes a span of days for a sentence or a title, such as "April 18 to
// September 17, 2018".
func dates(from, to cal.Date) string {
	if from == to {
		return DayText(from)
	}
	y1, m1, d1 := from.YMD()
	y2, m2, d2 := to.YMD()
	first := monthNames[m1-1] + " " + strconv.Itoa(d1)
	if y1 != y2 {
		first += ", " + strconv.Itoa(y1)
	}
	return first + " to " + monthNames[m2-1] + " " + strconv.Itoa(d2) + ", " + strconv.Itoa(y2)
}
