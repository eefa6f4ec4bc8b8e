package bill

import (
	"slices"

	"loamledger/sim/money"
	"loamledger/weather/cal"
)

// A period is one bill being worked out.
type period struct {
	*worker
	at    int
	bill  *Bill
	meter Meter
	days  int
	same  []int // bills of the account's other meters for the same days, in order
	apart []int // bills of other meters that share only some days
}

func (w *worker) period(i int) *period {
	p := &w.under
	*p = period{worker: w, at: i, bill: &w.bills[i], same: p.same[:0], apart: p.apart[:0]}
	p.meter, _ = w.account.Meter(p.bill.Meter)
	p.days = p.bill.Days()
	if len(w.account.Meters) > 1 {
		p.others()
	}
	return p
}

// others finds the bills of other meters that share days with this one. Bills are
// in the order of their read dates.
func (p *period) others() {
	b := p.bill
	from, to := p.at, p.at+1
	for from > 0 && p.bills[from-1].To > b.From {
		from--
	}
	for to < len(p.bills) && p.bills[to].To <= b.To+maxDays {
		to++
	}
	for k := from; k < to; k++ {
		switch o := &p.bills[k]; {
		case o.Meter == b.Meter:
		case o.From == b.From && o.To == b.To:
			p.same = append(p.same, k)
		case o.From < b.To && o.To > b.From:
			p.apart = append(p.apart, k)
		}
	}
}

// together reports whether a charge on all meters together counts bill k.
func (p *period) together(c *Charge, k int) bool {
	m, _ := p.account.Meter(p.bills[k].Meter)
	o := period{worker: p.worker, meter: m}
	return m.Use != DeductUse && o.applies(c)
}

// counted reports whether a charge on all meters together is on an earlier bill
// for the same days.
func (p *period) counted(c *Charge) bool {
	return slices.ContainsFunc(p.same, func(k int) bool { return k < p.at && p.together(c, k) })
}

// applies reports whether a charge is for this account and meter.
func (p *period) applies(c *Charge) bool {
	for _, when := range c.When {
		if p.account.class(p.meter, when.Key) != when.Value {
			return false
		}
	}
	return true
}

// class returns what an account or a meter of it is by the given key.
func (a *Account) class(m Meter, key string) string {
	switch key {
	case "use":
		return m.Use.String()
	case "size":
		return m.Size
	}
	return a.Classes[key]
}

// on lists the days on which a charge is in force: those of the period or, if
// prices count by the read date, all of them or none. The list is valid as long as p.
func (p *period) on(c *Charge) []cal.Date {
	if c.Season == nil && c.Dates.Holds(p.bill.From) && c.Dates.Holds(p.bill.To) {
		return p.whole()
	}
	var out []cal.Date
	for d := p.bill.From; d < p.bill.To; d++ {
		day := d
		if p.rates.ByReadDate {
			day = p.bill.To
		}
		if c.Dates.Holds(day) && (c.Season == nil || c.Season.holds(day)) {
			out = append(out, d)
		}
	}
	return out
}

// whole lists the days of the period.
func (p *period) whole() []cal.Date {
	if len(p.all) != p.days || p.days > 0 && p.all[0] != p.bill.From {
		p.all = p.all[:0]
		for d := p.bill.From; d < p.bill.To; d++ {
			p.all = append(p.all, d)
		}
	}
	return p.all
}

// of returns the amount for a meter size.
func (t *Table) of(size string) money.Num {
	if t.BySize != nil {
		return t.BySize[size]
	}
	return t.All
}

// prorated scales what is for a normal period to the given days of this one.
func (p *period) prorated(v money.Num, rule Prorate, on int) money.Num {
	num, den := rule.factor(p.days, p.rates.NormalDays)
	return v.Share(on*num, p.days*den)
}

func (p *period) add(l Line) { p.bill.Lines = append(p.bill.Lines, l) }

// each calls f for every charge that applies to the meter on some day.
func (p *period) each(f func(c *Charge, on []cal.Date)) {
	for i := range p.rates.Charges {
		c := &p.rates.Charges[i]
		if !p.applies(c) {
			continue
		}
		if on := p.on(c); len(on) > 0 {
			f(c, on)
		}
	}
}

func (p *period) fixed() {
	p.each(func(c *Charge, on []cal.Date) {
		table := c.Amount
		if c.Minimum != nil && c.Minimum.Covers.Sign() > 0 {
			table = c.Minimum.Amount
		}
		if table == nil {
			return
		}
		price, units := table.of(p.meter.Size), money.Int(1)
		if c.PerM2.Sign() > 0 {
			units = p.account.LotM2.Div(c.PerM2)
		}
		if c.PerDay {
			units = units.Mul(money.Int(len(on)))
		} else {
			units = p.prorated(units, p.rates.Fixed, len(on))
		}
		amount := price.Mul(units).Cents()
		p.add(Line{Charge: c.Name, Part: c.Part, Kind: FixedAmount, Units: units, Price: price, Amount: amount, Days: len(on)})
	})
}

// shares adds the percentages of other charges and the minimums that cover no
// volume, in their order: each counts what stands before it.
func (p *period) shares() {
	p.each(func(c *Charge, on []cal.Date) {
		switch {
		case c.Percent != nil:
			p.percent(c, on)
		case c.Minimum != nil && c.Minimum.Covers.Sign() == 0:
			p.topUp(c, on)
		}
	})
}

// counts reports whether a list of charges and parts includes the line.
func (l *Line) counts(of []string) bool {
	return slices.Contains(of, l.Charge) || slices.Contains(of, l.Part.String())
}

func (p *period) percent(c *Charge, on []cal.Date) {
	var base, indoor money.Num
	for _, l := range p.bill.Lines {
		if l.counts(c.Percent.Of) {
			base, indoor = base.Add(l.Amount), indoor.Add(l.indoor)
		}
	}
	share := func(v money.Num) money.Num { return v.Mul(c.Percent.Share).Share(len(on), p.days).Cents() }
	p.add(Line{Charge: c.Name, Part: c.Part, Kind: Percentage, Price: c.Percent.Share, Base: base, Amount: share(base),
		indoor: share(indoor), Days: len(on)})
}

// topUp adds what the bill, or what the minimum is for, lacks of the minimum.
func (p *period) topUp(c *Charge, on []cal.Date) {
	least := p.prorated(c.Minimum.Amount.of(p.meter.Size), p.rates.Fixed, len(on)).Cents()
	var sum money.Num
	for _, l := range p.bill.Lines {
		if len(c.Minimum.Of) == 0 || l.counts(c.Minimum.Of) {
			sum = sum.Add(l.Amount)
		}
	}
	if lack := least.Sub(sum); lack.Sign() > 0 {
		p.add(Line{Charge: c.Name, Part: c.Part, Kind: TopUp, Base: least, Amount: lack, Days: len(on)})
	}
}
