package accounts

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"sync"

	"loamledger/sim"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// A biller prices the water of accounts at one station. Whole bills of exact decimals are too slow for every account,
// measure and month, so they are read off curves, see [bill.Curve], which all accounts with equal tiers share: those of a
// budget are the account's own. What a winter average costs has curves of its own. Where a minimum tops up the sum of
// both, every bill is worked out in full. It is safe for concurrent use.
type biller struct {
	rates  *bill.Rates // with the prices of one day, and the ETo of the station
	split  bill.Split
	state  billing
	meter  bill.Meter
	needs  []string // columns of [CustomerColumns]
	sizes  []string // of meters in the rates
	values []Customer
	prices *cal.Date // nil if the rates have no dates
	layout [2]layout // of years that begin in January, and in July
	unitM3 float64   // a billing unit [m³]
	own    bool      // curves differ by account

	mu     sync.Mutex
	shared map[string]*curves // by size of the meter
}

// A billing is how bills are worked out.
type billing uint8

// The ways.
const (
	byCurve billing = iota // a curve by period
	bySplit                // and one of the winter average
	inFull
)

// A layout is the billing periods of a record.
type layout struct {
	periods []bill.Between
	of      []int   // period of each span of the calendar
	year    []int   // that each period counts for
	winter  [][]int // periods whose mean is the winter average of each
}

// curves are the bills of every period.
type curves struct{ now, winter []*bill.Curve }

// newBiller returns what prices the accounts of a station; rates are those that the program's money names. calendar
// and eto are of the station's days. An error is a [*diag.Error] at the place in the program.
func newBiller(m *Money, rates *bill.Rates, calendar *sim.Calendar, eto []float64) (*biller, error) {
	fault := func(code diag.Code, pos diag.Pos, fix, format string, args ...any) (*biller, error) {
		return nil, &diag.Error{Code: code, Pos: pos, Fix: fix, Msg: fmt.Sprintf(format, args...)}
	}
	name, pos := "", m.Pos
	if m.Meter != nil {
		name, pos = m.Meter.Text, m.Meter.Pos
	}
	meter, ok := rates.Account.Meter(name)
	var known []string
	for _, o := range rates.Account.Meters {
		known = append(known, o.Name)
	}
	switch {
	case !ok && name == "":
		return fault(diag.MissingKey, pos, fmt.Sprintf("add meter, one of: %q", known), "money: the account in the rates has %d meters",
			len(known))
	case !ok:
		return fault(diag.UnknownName, pos, fmt.Sprintf("write one of: %q", known), "money: the account in the rates has no meter %q", name)
	case meter.Use == bill.DeductUse:
		return fault(diag.Conflict, pos, "name the meter that is billed", "money: a deduct meter has no bill")
	}
	b := &biller{meter: meter, values: m.Values, unitM3: rates.UnitL.Float64() / 1000, shared: map[string]*curves{}}
	if day, dated := rates.Newest(&rates.Account); m.Prices != nil || dated {
		if m.Prices != nil {
			day = *m.Prices
		}
		b.prices, rates = &day, rates.AsOf(day)
	}
	if !rates.Priced(&rates.Account, meter) {
		if b.prices == nil {
			return fault(diag.NoEffect, pos, "add a charge with part: water that applies to it, or correct account in the rates",
				"money: the rates have no charge for water at this meter")
		}
		return fault(diag.NoEffect, pos, "choose another day under prices, or add a charge with part: water",
			"money: the rates have no charge for water at this meter on %v", *b.prices)
	}
	if rates.NeedsETo() {
		rates.WithETo(calendar.Start, eto)
	}
	b.rates = rates
	b.state = byCurve
	if !rates.Apart(1) {
		b.state = inFull
		if b.split, ok = rates.Split(); ok {
			b.state = bySplit
		}
	}
	b.findNeeds()
	b.layout[0], b.layout[1] = b.layOut(calendar, false), b.layOut(calendar, true)
	return b, nil
}

// full returns an account of which everything is known.
func (b *biller) full() bill.Account {
	one := money.Int(1)
	return bill.Account{Persons: one, LandscapeM2: one, LotM2: one, Classes: b.rates.Account.Classes, Meters: []bill.Meter{b.meter}}
}

// findNeeds finds what the rates must know of an account, by leaving out one thing at a time.
func (b *biller) findNeeds() {
	lacks := func(without func(a *bill.Account)) bool {
		a := b.full()
		without(&a)
		var faults diag.List
		b.rates.CheckAccount(&a, &faults)
		return faults.Len() > 0
	}
	b.sizes = b.rates.Sizes()
	if len(b.sizes) > 0 && !slices.Contains(b.sizes, b.meter.Size) {
		b.meter.Size = b.sizes[0] // of the accounts that are tried here; every account has its own
	}
	if b.meter.Use == bill.Mixed {
		b.needs = append(b.needs, ColumnIndoor)
	}
	for _, o := range []struct {
		column  string
		without func(a *bill.Account)
	}{
		{columnPersons, func(a *bill.Account) { a.Persons = money.Num{} }},
		{ColumnLandscape, func(a *bill.Account) { a.LandscapeM2 = money.Num{} }},
		{ColumnLot, func(a *bill.Account) { a.LotM2 = money.Num{} }},
	} {
		if lacks(o.without) {
			b.needs, b.own = append(b.needs, o.column), true
		}
	}
	if len(b.sizes) > 0 {
		b.needs = append(b.needs, ColumnMeterSize)
	}
}

// layOut lays out the billing periods of the record: calendar months, or several together.
func (b *biller) layOut(c *sim.Calendar, south bool) (l layout) {
	first := 1
	if south {
		first = 7
	}
	l.periods = bill.Periods(c.Start, c.Start+cal.Date(c.Days()), b.rates.Months, first, nil)
	for i, p := range l.periods {
		y, m, _ := p.Middle().YMD()
		if south && m < first {
			y--
		}
		l.year = append(l.year, y)
		var winter []int
		if b.state == bySplit {
			winter = b.split.Rule.Of(l.periods, i)
		}
		l.winter = append(l.winter, winter)
	}
	at := 0
	for i := range c.Spans {
		for c.Start+cal.Date(c.Spans[i].From) >= l.periods[at].To {
			at++
		}
		l.of = append(l.of, at)
	}
	return l
}

// beyondTiers is a volume of which every tier has its part [billing units].
const beyondTiers = 1e9

// curvesOf returns the curves of an account.
func (b *biller) curvesOf(l *layout, a *bill.Account) *curves {
	if b.state == inFull {
		return nil
	}
	key := a.Meters[0].Size
	if l == &b.layout[1] {
		key += " south"
	}
	if b.own {
		return b.newCurves(l, a)
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	c := b.shared[key]
	if c == nil {
		c = b.newCurves(l, a)
		b.shared[key] = c
	}
	return c
}

// newCurves makes the curves of an account. Periods with equal days of the year share one unless bills differ by year.
func (b *biller) newCurves(l *layout, a *bill.Account) *curves {
	own := *a
	lay := func(r *bill.Rates) []*bill.Curve {
		plain := *r
		plain.WholeUnits = false // carried by [biller.byYear]
		by := map[[5]int]*bill.Curve{}
		var list []*bill.Curve
		for _, p := range l.periods {
			y, m, d := p.From.YMD()
			_, toM, toD := p.To.YMD()
			if !plain.ByYear() {
				y = 0
			}
			key := [5]int{y, 100*m + d, 100*toM + toD, int(p.To - p.From)}
			if by[key] == nil {
				whole := func(x float64) *bill.Bill {
					read := bill.Read{Meter: own.Meters[0].Name, From: p.From, To: p.To, Volume: money.Float(x, 6)}
					return &plain.Bills(&own, []bill.Read{read})[0]
				}
				by[key] = &bill.Curve{Unit: 8, Near: 0.02, Deep: 10, Bill: func(x float64) float64 { return whole(x).Total.Float64() }}
				by[key].Knots, by[key].Straight = plain.Knots(whole(beyondTiers)), plain.OnlyTiers()
			}
			list = append(list, by[key])
		}
		return list
	}
	if b.state == bySplit {
		return &curves{lay(b.split.Now), lay(b.split.Winter)}
	}
	return &curves{now: lay(b.rates)}
}

// byYear adds up what an account pays by year: water [m³] is that outdoors by period, and the use indoors is under it.
// out has a place for each year from the first one on.
func (b *biller) byYear(l *layout, c *curves, cu *customer, water, out []float64) {
	clear(out)
	if b.state == inFull {
		b.inFull(l, cu, water, out)
		return
	}
	base, carried := cu.indoorL/1000/b.unitM3, 0.0
	billed := make([]float64, len(l.periods))
	for i, p := range l.periods {
		days := float64(p.To - p.From)
		units := water[i]/b.unitM3 + float64(base*days)
		if b.rates.WholeUnits { // in millionths, to which reads are rounded: a binary fraction must not cost a unit
			have := math.Round(1e6*units) + carried
			units = math.Floor(have / 1e6)
			carried = have - float64(1e6*units)
		}
		billed[i] = units
		total := c.now[i].Of(units, nil)
		if b.state == bySplit {
			total += c.winter[i].Of(b.average(l, billed, i), nil)
		}
		out[l.year[i]-l.year[0]] += total
	}
}

// average returns the volume that a charge by the winter average counts in period i.
func (b *biller) average(l *layout, billed []float64, i int) float64 {
	rule, p := b.split.Rule, l.periods[i]
	v := 0.0
	switch list := l.winter[i]; {
	case len(list) > 0:
		for _, k := range list {
			v += billed[k]
		}
		v /= float64(len(list))
	case rule.Default != nil:
		v = rule.Default.Float64()
	default:
		return billed[i]
	}
	v *= b.rates.PerPeriod(int(p.To - p.From))
	if b.split.Lesser {
		v = min(v, billed[i])
	}
	return v
}

// inFull works out every bill in exact decimals.
func (b *biller) inFull(l *layout, cu *customer, water, out []float64) {
	var reads []bill.Read
	for i, p := range l.periods {
		days := float64(p.To - p.From)
		units := water[i]/b.unitM3 + float64(cu.indoorL/1000/b.unitM3*days)
		reads = append(reads, bill.Read{Meter: cu.account.Meters[0].Name, From: p.From, To: p.To, Volume: money.Float(units, 6)})
	}
	for i, one := range b.rates.Bills(&cu.account, reads) {
		out[l.year[i]-l.year[0]] += one.Total.Float64()
	}
}

// water adds up the volume of strategy s by billing period [m³].
func (l *layout) water(t *tally.Table, s int, out []float64) {
	clear(out)
	for z := range t.Zones {
		for i := range t.Spans {
			out[l.of[i]] += float64(t.Outcomes[s][z].Months[i].GrossMM / 1000 * t.Zones[z].AreaM2)
		}
	}
}

// short writes a number without zeros at its end.
func short(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
