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

// Newest returns the last day on which prices change, because a charge begins or
// has ended the day before, and on which water has a price at the account's meters;
// if it never has, the last such day. ok is false if no charge has dates.
func (r *Rates) Newest(a *Account) (d cal.Date, ok bool) {
	var days []cal.Date
	for i := range r.Charges {
		if first, has := r.Charges[i].Dates.First(); has {
			days = append(days, first)
		}
		if last, has := r.Charges[i].Dates.Last(); has {
			days = append(days, last+1)
		}
	}
	if len(days) == 0 {
		return 0, false
	}
	slices.Sort(days)
	for _, day := range slices.Backward(days) {
		own := r.AsOf(day)
		if !slices.ContainsFunc(a.Meters, func(m Meter) bool { return m.Use != DeductUse && !own.Priced(a, m) }) {
			return day, true
		}
	}
	return days[len(days)-1], true
}

// Idle names the charges that are not in force on a day, whatever the season, in
// the order of the rates.
func (r *Rates) Idle(day cal.Date) (out []string) {
	for i := range r.Charges {
		name := r.Charges[i].Name
		holds := func(c Charge) bool { return c.Name == name && c.Dates.Holds(day) }
		if !slices.ContainsFunc(r.Charges, holds) && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// Priced reports whether the rates charge for water on some day at the meter.
func (r *Rates) Priced(a *Account, m Meter) bool {
	p := period{worker: &worker{rates: r, account: a}, meter: m}
	return slices.ContainsFunc(r.Charges, func(c Charge) bool { return c.Part == Water && p.applies(&c) })
}
