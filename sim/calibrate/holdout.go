package calibrate

import (
	"math"

	"loamledger/sim/meter"
)

// part decides what every period is used for.
func (w *work) part() {
	var usable []int
	for i := range w.Periods {
		p := &w.Periods[i]
		row := Row{Period: *p, Before: math.NaN(), After: math.NaN()}
		covered := p.From >= w.plain.Start && p.To <= w.plain.end()
		switch {
		case p.Left:
		case !covered:
			row.Left, row.Why = true, meter.OutOfRecord
		case w.Reporting != 0 && p.From >= w.Reporting:
			row.Part = Reporting
		case w.Reporting != 0 && p.To > w.Reporting:
			row.Left, row.Why = true, meter.Straddles
		default:
			row.Part = Fitted
			usable = append(usable, i)
		}
		w.res.Rows = append(w.res.Rows, row)
	}
	w.holdOut(usable)
	for i := range w.res.Rows {
		if w.res.Rows[i].Part == Fitted {
			w.fitted = append(w.fitted, i)
		}
	}
}

// A year of hold-out may begin up to slack days late, since reads are not a year apart
// to the day.
const (
	year  = 365
	slack = 20
)

// holdOut holds out the periods from HoldFrom on. By default it is the last year of at
// least two, and in shorter records every third period, so that both parts have all
// seasons; nothing if too few would be left.
func (w *work) holdOut(usable []int) {
	rows := w.res.Rows
	if len(usable) == 0 {
		return
	}
	first, last := rows[usable[0]].From, rows[usable[len(usable)-1]].To
	from := w.HoldFrom
	if from == 0 && int(last-first) >= 2*year-slack {
		from = last - year - slack
	}
	if from != 0 {
		n := 0
		for _, i := range usable {
			if rows[i].From < from {
				n++
			}
		}
		if w.HoldFrom != 0 || n >= leastPeriods {
			for _, i := range usable {
				if rows[i].From >= from {
					rows[i].Part = Held
				}
			}
			return
		}
	}
	const third = 3
	if len(usable) >= 9 {
		for k := third - 2; k < len(usable); k += third {
			rows[usable[k]].Part = Held
		}
	}
}
