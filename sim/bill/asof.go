package bill

import (
	"slices"

	"loamledger/weather/cal"
)

// AsOf returns the rates with the prices in force on one day, for all days:
// seasons still follow the calendar.
func (r *Rates) AsOf(day cal.Date) *Rates {
	own := *r
	own.Charges = nil
	for _, c := range r.Charges {
		if c.Dates.Holds(day) {
			c.Dates = cal.Period{}
			own.Charges = append(own.Charges, c)
		}
	}
	return &own
}

// Newest returns the last day on which a charge begins; ok is false if no charge
// has a first day.
func (r *Rates) Newest() (d cal.Date, ok bool) {
	for i := range r.Charges {
		if first, has := r.Charges[i].Dates.First(); has && (!ok || first > d) {
			d, ok = first, true
		}
	}
	return d, ok
}

// Priced reports whether the rates charge for water on some day at the meter.
func (r *Rates) Priced(a *Account, m Meter) bool {
	p := period{worker: &worker{rates: r, account: a}, meter: m}
	return slices.ContainsFunc(r.Charges, func(c Charge) bool { return c.Part == Water && p.applies(&c) })
}
