package study

import (
	"slices"

	"loamledger/plots"
	"loamledger/sim/bill"
	"loamledger/sim/draw"
	"loamledger/sim/tally"
)

// billSteps is the number of whole sets of bills of a strategy between which the bills
// of the draws are read off: a bill grows with the water in pieces of straight lines,
// one for each tier.
const billSteps = 24

// drawnBills fills in the yearly bill of every strategy and draw, where the study has
// rates: whole bills at a few multiples of the replay's water, and straight lines
// between them. Decisions are the same in all draws, so the water of a strategy grows by
// about the same share in every period.
func (d *drawing) drawnBills(r *plots.Ranges, samples []sample) {
	m := d.Money
	at := slices.IndexFunc(d.figures, func(f tally.Figure) bool { return f.Measure.Key == billKey })
	if at < 0 || !m.known(d.table, 0) {
		return
	}
	rows := d.table.Compare()
	for st := range d.Job.Strategies {
		factor := func(s *sample) float64 {
			if rows[st].M3PerYear > 0 {
				return s.m3[st] / rows[st].M3PerYear
			}
			return 1
		}
		all := column(samples, factor)
		low, high := slices.Min(all), slices.Max(all)
		var bills []float64
		for k := range billSteps + 1 {
			bills = append(bills, m.meanBill(st, low+(high-low)*float64(k)/billSteps, &d.basis))
		}
		for i := range samples {
			place := 0.0
			if high > low {
				place = (all[i] - low) / (high - low)
			}
			samples[i].figures[st*len(d.figures)+at] = draw.Quantile(bills, place)
		}
	}
	if d.option == d.table.Baseline {
		return
	}
	of := func(s *sample, st int) float64 { return s.figures[st*len(d.figures)+at] }
	saved := draw.SpreadOf(column(samples, func(s *sample) float64 { return of(s, d.table.Baseline) - of(s, d.option) }))
	r.Bill, r.Currency = &saved, m.Rates.Currency
}

// meanBill returns the bill of strategy s for a year of the basis, with all its water
// multiplied by a factor.
func (m *Money) meanBill(s int, factor float64, b *tally.Basis) float64 {
	var sum bill.Sums
	for _, own := range m.priced(s, factor) {
		counts := !b.Yearly() || slices.ContainsFunc(b.Years, func(y int) bool { return m.inYear(&own, y) })
		if counts {
			sum.Add(own.Sums())
		}
	}
	return sum.Total().Float64() / b.Divisor()
}
