package bill

import (
	"slices"

	"loamledger/sim/money"
	"loamledger/weather/cal"
)

// volumes adds the charges by volume.
func (p *period) volumes() {
	p.priced = append(p.priced[:0], make([]bool, p.days)...)
	p.each(func(c *Charge, on []cal.Date) {
		if c.Tiers == nil || c.Combine && p.counted(c) {
			return
		}
		if c.Part == Water {
			for _, d := range on {
				p.priced[d-p.bill.From] = true
			}
		}
		grown, usual := p.established(c, on)
		q, in := p.volume(c)
		if len(grown) > 0 {
			p.grow(c, q, in, len(grown))
		}
		if len(usual) > 0 {
			p.tiers(c, q.Share(len(usual), p.days), in.Share(len(usual), p.days), usual)
		}
	})
	lack := 0
	for _, is := range p.priced {
		if !is {
			lack++
		}
	}
	if lack > 0 && p.bill.Billed.Sign() > 0 {
		p.note(Note{Code: NoPrice, Days: lack})
	}
}

// volume returns the volume of the period that a charge counts, and how much of
// it is used indoors.
func (p *period) volume(c *Charge) (q, indoor money.Num) {
	q = p.bill.Billed
	deducts := func(k int) bool {
		m, _ := p.account.Meter(p.bills[k].Meter)
		return c.Basis.Deduct && m.Use == DeductUse
	}
	for _, k := range p.same {
		switch o := &p.bills[k]; {
		case deducts(k):
			q = money.Max(q.Sub(o.Billed), money.Num{})
		case c.Combine && p.together(c, k):
			q = q.Add(o.Billed)
		}
	}
	for _, k := range p.apart {
		if deducts(k) || c.Combine && p.together(c, k) {
			p.note(Note{Code: ReadApart, Meter: p.bills[k].Meter})
		}
	}
	if c.Basis.Winter != nil {
		if average, known := p.winter(c.Basis.Winter); known {
			if c.Basis.Lesser {
				average = money.Min(average, q)
			}
			q = average
		}
	}
	if c.Basis.Cap != nil {
		q = money.Min(q, p.prorated(*c.Basis.Cap, p.rates.Tiers, p.days))
	}
	if p.bill.Indoor != nil {
		indoor = money.Min(*p.bill.Indoor, q)
	}
	return q, indoor
}

// established splits the days of a water charge into those on which new plants
// have water outside the budget, and the rest.
func (p *period) established(c *Charge, on []cal.Date) (grown, usual []cal.Date) {
	e, from := p.rates.Establishment, p.account.Establishment
	if e == nil || !p.account.HasPlants || c.Part != Water || e.Tier > len(c.Tiers) {
		return nil, on
	}
	for _, d := range on {
		if d >= from && d < from+cal.Date(e.Days) {
			grown = append(grown, d)
		} else {
			usual = append(usual, d)
		}
	}
	return grown, usual
}

// grow charges the use of the given days at the price of one tier.
func (p *period) grow(c *Charge, q, indoor money.Num, days int) {
	tier := p.rates.Establishment.Tier
	units, price := q.Share(days, p.days), c.Tiers[tier-1].Price
	p.add(Line{Charge: c.Name, Part: c.Part, Kind: Established, Tier: tier, Units: units, Price: price, Amount: units.Mul(price).Cents(),
		indoor: indoor.Share(days, p.days).Mul(price).Cents(), Days: days})
}

// tiers charges a volume tier by tier. Use indoors fills the lowest tiers.
func (p *period) tiers(c *Charge, q, indoor money.Num, on []cal.Date) {
	var low money.Num
	if covers := p.covers(c, on); covers.Sign() > 0 {
		low = covers
		p.add(Line{Charge: c.Name, Part: c.Part, Kind: Covered, To: &covers, Units: money.Min(q, covers), Days: len(on)})
	}
	var bottom money.Num
	for i := range c.Tiers {
		t := &c.Tiers[i]
		top, from := q, money.Max(low, bottom)
		var end *money.Num
		if b := p.top(t, bottom, on); b != nil {
			top, end = money.Min(q, *b), b
			bottom = money.Max(bottom, *b)
		}
		units := top.Sub(from)
		if units.Sign() <= 0 {
			if i == 0 && q.Sign() == 0 && len(c.Tiers) == 1 {
				p.add(Line{Charge: c.Name, Part: c.Part, Kind: Volume, Price: t.Price, Days: len(on)})
			}
			continue
		}
		in := money.Min(money.Max(indoor.Sub(from), money.Num{}), units)
		line := Line{Charge: c.Name, Part: c.Part, Kind: Volume, From: from, To: end, Units: units, Price: t.Price,
			Amount: units.Mul(t.Price).Cents(), indoor: in.Mul(t.Price).Cents(), Days: len(on)}
		if len(c.Tiers) > 1 {
			line.Tier = i + 1
		}
		p.add(line)
	}
}

// covers returns the volume of charge c that a minimum pays for on the given days.
func (p *period) covers(c *Charge, on []cal.Date) (v money.Num) {
	p.each(func(least *Charge, both []cal.Date) {
		m := least.Minimum
		if m == nil || m.Covers.Sign() == 0 || !slices.Contains(m.Of, c.Name) {
			return
		}
		days := 0
		for _, d := range on {
			if _, in := slices.BinarySearch(both, d); in {
				days++
			}
		}
		v = v.Add(p.prorated(m.Covers, p.rates.Fixed, days))
	})
	return v
}

// top returns the upper bound of a tier above bottom, on the given days; nil for
// a tier without one.
func (p *period) top(t *Tier, bottom money.Num, on []cal.Date) *money.Num {
	b := t.To
	if b == nil {
		b = t.Width
	}
	if b == nil {
		return nil
	}
	terms := b.Terms
	if b.BySize != nil {
		terms = b.BySize[p.meter.Size]
	}
	var sum money.Num
	for _, term := range terms {
		if term.Of == Units {
			sum = sum.Add(p.prorated(term.Share, p.rates.Tiers, len(on)))
			continue
		}
		sum = sum.Add(term.Share.Mul(p.allowed(term.Of, on)))
	}
	if t.Width != nil {
		sum = sum.Add(bottom)
	}
	return &sum
}

// allowed returns a budget of the account for the given days, in billing units.
func (p *period) allowed(of Of, on []cal.Date) money.Num {
	if of == Outdoor || of == Whole {
		p.noteETo()
	}
	return p.rates.Allowed(p.account, of, on)
}
