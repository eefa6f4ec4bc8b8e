package ratesfile

import (
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/diag"
)

// to is between the numbers of a range.
const to = " to "

func isRange(n *scenarios.Node) bool {
	return n != nil && n.Kind == scenarios.Scalar && strings.Contains(n.Text, to)
}

// refused reports a range where none can be: the rest of a tariff is printed in it, and
// only prices, amounts and percentages change from year to year.
func (r *reader) refused(n *scenarios.Node, what string) bool {
	if !isRange(n) {
		return false
	}
	r.Faults.Add(diag.WrongShape, n.Pos, "write one number; a price, an amount or a percent may be a range, such as price: 8 to 12",
		"%s cannot be a range: the tariff states one number", what)
	return true
}

// amount reads a fixed amount, which may be a range if it is the same for all meters.
func (r *reader) amount(n *scenarios.Node, c *bill.Charge) *bill.Table {
	if !isRange(n) {
		return r.table(n, "amount", true)
	}
	v, ok := r.spanned(n, "amount", bill.Doubt{Of: bill.OfAmount}, c)
	if !ok {
		return nil
	}
	return &bill.Table{All: v}
}

// spanned reads a number that may be a range: two numbers between which all values are
// equally likely, or three with the most likely value in the middle. The value is the
// middle, or the most likely one.
func (r *reader) spanned(n *scenarios.Node, what string, s bill.Doubt, c *bill.Charge) (money.Num, bool) {
	one := func(n *scenarios.Node) (money.Num, bool) {
		switch s.Of {
		case bill.OfAmount:
			return r.plain(n, what, true)
		case bill.OfPercent:
			return r.percentage(n, what, -100)
		}
		return r.decimal(n, what)
	}
	if !isRange(n) {
		return one(n)
	}
	parts := strings.Split(n.Text, to)
	if len(parts) > 3 {
		r.Faults.Add(diag.WrongShape, n.Pos, "write the lowest and the highest value, or the lowest, the most likely and the highest",
			"%s has %d numbers", what, len(parts))
		return money.Num{}, false
	}
	var values []money.Num
	for _, text := range parts {
		text = strings.TrimSpace(text)
		if s.Of == bill.OfPercent && !strings.Contains(text, "%") && strings.HasSuffix(strings.TrimSpace(parts[len(parts)-1]), "%") {
			text += "%" // a unit after the last number is that of all
		}
		v, ok := one(&scenarios.Node{Pos: n.Pos, Kind: scenarios.Scalar, Text: text})
		if !ok {
			return v, false
		}
		values = append(values, v)
	}
	last := len(values) - 1
	for i := 1; i <= last; i++ {
		if values[i].Cmp(values[i-1]) < 0 || values[0].Cmp(values[last]) == 0 {
			r.Faults.Add(diag.WrongOrder, n.Pos, "write the lower number first", "%s: %s is not a range", what, n.Text)
			return money.Num{}, false
		}
	}
	s.Pos, s.Charge, s.Name = n.Pos, c.Pos, c.Name
	s.Low, s.High, s.Flat = values[0], values[last], last == 1
	if s.Mode = values[1]; s.Flat {
		s.Mode = s.Low.Add(s.High).Div(money.Int(2))
	}
	r.rates.Doubts = append(r.rates.Doubts, s)
	return s.Mode, true
}
