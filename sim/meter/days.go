package meter

import "loamledger/weather/cal"

// Days are what is known of every day from Start. Columns have equal lengths.
type Days struct {
	Start  cal.Date
	SimM3  []float64 // through the meter, in the replay of the strategy as found [m³]
	NeedMM []float64 // share of ETo less effective rain [mm]; may be below 0
}

// End returns the day after the last.
func (d *Days) End() cal.Date { return d.Start + cal.Date(len(d.SimM3)) }

// sum adds up a column over a period, which must lie within the days.
func (d *Days) sum(col []float64, p *Period) (sum float64) {
	for i := p.From - d.Start; i < p.To-d.Start; i++ {
		sum += col[i]
	}
	return sum
}

// Sim returns the use of a period in the replay [m³]; the period must lie within
// the days.
func (d *Days) Sim(p *Period) float64 { return d.sum(d.SimM3, p) }

// need returns the mean need of a period [mm/d]; the period must lie within the days.
func (d *Days) need(p *Period) float64 { return d.sum(d.NeedMM, p) / float64(p.Days()) }
