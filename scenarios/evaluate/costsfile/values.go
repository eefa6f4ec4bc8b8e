package costsfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/portfolio"
	"loamledger/sim/program"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A kind is how a number is written, and its range.
type kind struct {
	low, high float64
	read      func(text string) (float64, error)
	like      string // an example
	whole     bool
}

func share(low, high float64) kind {
	return kind{
		low:  low,
		high: high,
		like: "5%",
		read: func(text string) (float64, error) { return quantity.Parse(text, quantity.Fraction) },
	}
}

func amount(low float64) kind {
	return kind{low: low, high: maxAmount, like: "120", read: quantity.ParseNumber}
}

func years() kind {
	return kind{low: 1, high: maxYears, like: "10 years", whole: true, read: func(text string) (float64, error) {
		number, unit := quantity.Cut(text)
		if unit != "years" && unit != "year" {
			return 0, fmt.Errorf("%q is not a number of years", text)
		}
		return quantity.ParseNumber(number)
	}}
}

// kindOf returns how a knob is written.
func kindOf(k program.Knob) kind {
	switch k {
	case program.Saving:
		return share(0, 3)
	case program.NetToGross:
		return share(0, 2)
	case program.Decay, program.Losses:
		return share(0, 0.95)
	case program.Life:
		return years()
	case program.Discount:
		return share(-0.05, 0.5)
	case program.Avoided:
		return share(0, 10)
	}
	return amount(0)
}

// single reads one number.
func (r *reader) single(n *scenarios.Node, what string, k kind) (float64, bool) {
	if n.Kind != scenarios.Scalar {
		r.Faults.Add(diag.WrongShape, n.Pos, "write a single value, such as "+k.like, "%s is not a single value", what)
		return 0, false
	}
	text := strings.TrimSpace(n.Text)
	v, err := k.read(text)
	switch {
	case err != nil:
		r.Faults.Add(diag.BadQuantity, n.Pos, "write it like "+k.like, "%s: %v", what, err)
		return 0, false
	case !(v >= k.low && v <= k.high):
		r.Faults.Add(
			diag.OutOfRange,
			n.Pos,
			"check the value and its unit",
			"%s %s is outside %s to %s",
			what,
			text,
			k.text(k.low),
			k.text(k.high),
		)
		return 0, false
	case k.whole && v != math.Round(v):
		r.Faults.Add(diag.OutOfRange, n.Pos, "write a whole number, such as "+k.like, "%s %s is not whole", what, text)
		return 0, false
	}
	return v, true
}

// text writes a bound as the file would.
func (k kind) text(v float64) string {
	switch {
	case strings.HasSuffix(k.like, "%"):
		return strconv.FormatFloat(100*v, 'g', -1, 64) + "%"
	case k.whole:
		return fmt.Sprintf("%g years", v)
	}
	return fmt.Sprintf("%g", v)
}

// value reads a number, or its low, middle and high value.
func (r *reader) value(n *scenarios.Node, what string, k kind) (v program.Value, ok bool) {
	if n.Kind != scenarios.Map {
		one, ok := r.single(n, what, k)
		return program.Sure(one), ok
	}
	if !r.Group(n, what, valueKeys) {
		return v, false
	}
	ok = true
	for i, to := range []*float64{&v.Low, &v.Mid, &v.High} {
		if !r.required(n, valueKeys[i], "such as "+k.like) {
			ok = false
			continue
		}
		one, fine := r.single(n.Get(valueKeys[i]), what+": "+valueKeys[i], k)
		*to, ok = one, ok && fine
	}
	if ok && !(v.Low <= v.Mid && v.Mid <= v.High) {
		r.Faults.Add(diag.WrongOrder, n.Pos, "write low, mid and high in order", "%s: low, mid and high are not in order", what)
		return v, false
	}
	return v, ok
}

// per reads the volume that a price of water is for [m³].
func (r *reader) per(n *scenarios.Node, what string) float64 {
	if !r.required(n, "per", "the volume that the price is for, such as AF, HCF, kgal or m3") {
		return 1
	}
	text := r.Text(n, "per")
	u, known := quantity.Find(text, quantity.Volume)
	if !known {
		if text != "" {
			r.Faults.Add(diag.UnknownUnit, n.Get("per").Pos, "write one of "+quantity.Names(quantity.Volume), "%s: %q is not a unit of volume",
				what, text)
		}
		return 1
	}
	return u.Num / u.Den
}

// avoided reads the avoided cost by year.
func (r *reader) avoided(root *scenarios.Node) {
	const fix = "avoided_cost: {per: AF, years: {2027: 900, 2028: 930}, growth: 0%}"
	n := root.Get("avoided_cost")
	if n == nil {
		r.Faults.Add(diag.MissingKey, root.Pos, "add "+fix, "avoided_cost is missing")
		return
	}
	if !r.Group(n, "avoided_cost", avoidedKeys) {
		return
	}
	unit := r.per(n, "avoided_cost")
	r.top[program.Avoided] = program.Sure(1)
	if f := n.Get("factor"); f != nil {
		r.has[program.Avoided] = true
		r.top[program.Avoided], _ = r.value(f, "factor", kindOf(program.Avoided))
	}
	if r.required(n, "growth", "the real growth a year after the last year, or 0%") {
		r.plan.Growth, _ = r.single(n.Get("growth"), "growth", share(-0.2, 0.2))
	}
	list := n.Get("years")
	if list == nil || list.Kind != scenarios.Map || len(list.Entries) == 0 || len(list.Entries) > maxYears {
		r.Faults.Add(diag.WrongShape, n.Pos, "write years with their prices, as in "+fix, "avoided_cost has no years with prices")
		return
	}
	for i, e := range list.Entries {
		y, err := strconv.Atoi(e.Key)
		price, ok := r.single(e.Value, "price of "+e.Key, amount(0))
		switch {
		case err != nil || y < 1900 || y > 2300:
			r.Faults.Add(diag.NotADate, e.Pos, "write a year, such as 2027", "avoided_cost: %q is not a year", e.Key)
		case i > 0 && len(r.plan.Avoided) == i && y != r.plan.Avoided[i-1].Year+1:
			r.Faults.Add(diag.NotSorted, e.Pos, fmt.Sprintf("write %d next, so that no year is guessed", r.plan.Avoided[i-1].Year+1),
				"avoided_cost: year %d does not follow %d", y, r.plan.Avoided[i-1].Year)
		case ok:
			r.plan.Avoided = append(r.plan.Avoided, program.YearPrice{Year: y, Price: price / unit})
		}
	}
	if first := r.plan.Avoided; len(first) > 0 && r.plan.FirstYear != 0 && r.plan.FirstYear < first[0].Year {
		r.Faults.Add(diag.OutOfRange, list.Entries[0].Pos, fmt.Sprintf("begin with %d, the first year", r.plan.FirstYear),
			"avoided_cost begins in %d, after the first year %d", first[0].Year, r.plan.FirstYear)
	}
}

// price reads a price of water; false if there is none.
func (r *reader) price(root *scenarios.Node, key string, k program.Knob) bool {
	n := root.Get(key)
	if n == nil || !r.Group(n, key, priceKeys) {
		return false
	}
	unit := r.per(n, key)
	if !r.required(n, "price", "such as 4.50") {
		return false
	}
	v, _ := r.value(n.Get("price"), key, amount(0))
	r.top[k] = program.Value{Low: v.Low / unit, Mid: v.Mid / unit, High: v.High / unit}
	return true
}

// targets reads by what accounts are ranked. A ranking on what only the simulation knows
// is an error.
func (r *reader) targets(root *scenarios.Node) {
	n := root.Get("targets")
	if n == nil || !r.Group(n, "targets", targetKeys) {
		return
	}
	b := portfolio.Bills{Seed: r.plan.Seed}
	names := portfolio.RankNames()
	if r.required(n, "rank_by", strings.Join(names, ", ")) {
		text := r.Text(n, "rank_by")
		found := false
		for i, name := range names {
			if name == text {
				b.By, found = portfolio.RankBy(i), true
			}
		}
		if !found {
			r.Faults.Add(diag.UnknownName, n.Get("rank_by").Pos, "write one of: "+strings.Join(names, ", ")+"; these are what a bill can tell",
				"targets: %q is nothing to rank by", text)
		}
	}
	b.Early, b.Late = r.span(n, "rank_years"), r.span(n, "score_years")
	r.plan.TargetsPos = n.Pos
	if n.Get("bill_error") != nil { // metered bills need none
		r.plan.HasBillError = true
		b.Error, _ = r.single(n.Get("bill_error"), "bill_error", share(0, 1))
		if text := scalar(n.Get("bill_error")); b.Error == 0 && text != "" && r.Faults.Len() == 0 {
			r.Faults.Add(diag.Circular, n.Get("bill_error").Pos, "write how far bills differ from the replay, such as 15%",
				"without an error of the bills, accounts would be ranked on simulated truth, which nobody can know")
		}
	}
	if b.By != portfolio.ByBill &&
		r.required(n, "area_error", "how far the irrigated area is known, one standard deviation, such as 10%, or 0%") {
		b.AreaError, _ = r.single(n.Get("area_error"), "area_error", share(0, 1))
	} else if b.By == portfolio.ByBill && n.Get("area_error") != nil {
		r.Faults.Add(diag.NoEffect, n.Get("area_error").Pos, "remove it, or rank by beyond_need or ratio",
			"area_error has no effect on a ranking by bill")
	}
	if b.Early.Overlaps(b.Late) {
		r.Faults.Add(diag.Circular, n.Get("score_years").Pos, "score on years after those of the bills",
			"the years of the score overlap those of the bills, so the result would flatter the ranking")
	} else if b.Early.From > b.Late.From && b.Late.From != 0 {
		r.Faults.Add(diag.WrongOrder, n.Get("score_years").Pos, "rank on earlier years, score on later ones",
			"the years of the score are before those of the bills")
	}
	r.plan.Bills = b
}

// span reads years such as "2001 to 2010".
func (r *reader) span(n *scenarios.Node, key string) (s portfolio.Years) {
	if !r.required(n, key, "years, such as 2001 to 2010") {
		return s
	}
	text := r.Text(n, key)
	from, to, _ := strings.Cut(text, " to ")
	if to == "" {
		to = from
	}
	a, err1 := strconv.Atoi(strings.TrimSpace(from))
	b, err2 := strconv.Atoi(strings.TrimSpace(to))
	if err1 != nil || err2 != nil || a < 1700 || b > 2300 || b < a {
		if text != "" {
			r.Faults.Add(diag.NotADate, n.Get(key).Pos, "write years, such as 2001 to 2010", "%s: %q is not a span of years", key, text)
		}
		return s
	}
	return portfolio.Years{From: a, To: b}
}
