package bill

import (
	"loamledger/sim/money"
	"loamledger/weather/cal"
)

// A dailyETo is ETo by day [mm]. A day outside it has the mean of its calendar month.
type dailyETo struct {
	start cal.Date
	mm    []money.Num
	mean  [12]money.Num // of a day in each calendar month
}

// depthPlaces is the number of decimals to which the ETo of a day is taken [mm].
const depthPlaces = 6

// NeedsETo reports whether the budget follows weather that is not given yet.
func (r *Rates) NeedsETo() bool {
	return r.Budget != nil && r.Budget.FollowsWeather && r.Budget.daily == nil
}

// WithETo gives a budget that follows the weather its ETo of each day from start [mm].
// Days of a bill outside it have the mean of their calendar month in it, and a note counts
// them. It must have days of every calendar month for that; one without has 0.
func (r *Rates) WithETo(start cal.Date, mm []float64) {
	d := &dailyETo{start: start}
	var days [12]int
	for i, v := range mm {
		n := money.Float(v, depthPlaces)
		month := (start + cal.Date(i)).Month() - 1
		d.mm, d.mean[month] = append(d.mm, n), d.mean[month].Add(n)
		days[month]++
	}
	for month, n := range days {
		d.mean[month] = d.mean[month].Div(money.Int(n)) // 0 for none
	}
	own := *r.Budget
	own.daily = d
	r.Budget = &own
}

// at returns the ETo of a day, and whether the weather has it.
func (d *dailyETo) at(day cal.Date) (mm money.Num, known bool) {
	if i := int(day - d.start); i >= 0 && i < len(d.mm) {
		return d.mm[i], true
	}
	return d.mean[day.Month()-1], false
}

// sum adds up the ETo of days.
func (d *dailyETo) sum(on []cal.Date) (mm money.Num) {
	for _, day := range on {
		one, _ := d.at(day)
		mm = mm.Add(one)
	}
	return mm
}

// noteETo notes the days of the period that the weather does not have.
func (p *period) noteETo() {
	b := p.rates.Budget
	if b == nil || b.daily == nil {
		return
	}
	outside := 0
	for d := p.bill.From; d < p.bill.To; d++ {
		if _, known := b.daily.at(d); !known {
			outside++
		}
	}
	if outside > 0 {
		p.note(Note{Code: MeanETo, Days: outside})
	}
}
