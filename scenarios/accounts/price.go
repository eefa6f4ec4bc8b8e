package accounts

import (
	"math"
	"slices"

	"loamledger/sim/portfolio"
	"loamledger/sim/tally"
)

// price adds what irrigation costs to the rows of a replayed account: the bill of the year with
// the water of a measure, less that of the use indoors alone.
func (r *Replayer) price(b *biller, cu *customer, t *tally.Table) {
	l := &b.layout[0]
	if t.South {
		l = &b.layout[1]
	}
	c := b.curvesOf(l, &cu.account)
	first, last := l.year[0], l.year[len(l.year)-1]
	for i := range r.paid {
		r.paid[i] = sized(r.paid[i], last-first+1)
	}
	r.water = sized(r.water, len(l.periods))
	base, found, paid := r.paid[0], r.paid[1], r.paid[2]
	clear(r.water)
	b.byYear(l, c, cu, r.water, base)
	rows := r.rows.Results
	reference := slices.IndexFunc(rows, func(row portfolio.Result) bool { return row.Reference })
	order := make([]int, 0, len(r.base)) // of strategies, the reference first
	for s := range r.base {
		if r.base[s].Name == rows[reference].Measure {
			order = slices.Insert(order, 0, s)
		} else {
			order = append(order, s)
		}
	}
	years := len(rows) / len(r.base)
	for n, s := range order {
		into := paid
		if n == 0 {
			into = found
		}
		l.water(t, s, r.water)
		b.byYear(l, c, cu, r.water, into)
		for i := range rows[s*years : (s+1)*years] {
			row := &rows[s*years+i]
			at := int(row.Year) - first
			cost, saving := cents(into[at]-base[at]), cents(found[at]-into[at])
			row.Money, row.MoneySaving = &cost, &saving
		}
	}
	sum, n := 0.0, 0
	for i := range rows[:years] {
		if row := &rows[i]; row.WholeYear {
			sum += base[int(row.Year)-first]
			n++
		}
	}
	if n > 0 {
		mean := cents(sum / float64(n))
		r.rows.Account.IndoorMoney = &mean
	}
}

// cents rounds an amount of money to the cent.
func cents(v float64) float64 { return math.Round(100*v) / 100 }

// sized returns a slice of n numbers in the memory of another.
func sized(of []float64, n int) []float64 {
	if cap(of) < n {
		return make([]float64, n)
	}
	return of[:n]
}

// billOf returns the metered use of a year as a row, with the days on which it was metered if they are known.
func (p *Program) billOf(a *Account, u *Use, south bool) portfolio.Bill {
	out := portfolio.Bill{Account: a.ID, Year: int32(u.Year), VolumeM3: u.M3}
	days := a.UsePeriod
	if !days.Known() {
		days = p.UsePeriod
	}
	if u.Year != 0 {
		from, to := tally.YearSpan(u.Year, south)
		days = Period{from, to - 1}
	}
	if days.Known() {
		from, to := int32(days.From), int32(days.To)
		out.From, out.To = &from, &to
	}
	return out
}
