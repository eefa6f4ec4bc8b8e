package accountsfile

import (
	"math"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/accounts"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// moneyKeys are those of money in a program, before the columns that rates may need.
var moneyKeys = []string{"rates", "meter", "prices"}

// money reads the rates and what they need to know of accounts that do not say it.
func (r *programReader) money(root *scenarios.Node) {
	n := root.Get("money")
	if n == nil {
		return
	}
	keys := slices.Clone(moneyKeys)
	for _, c := range accounts.CustomerColumns() {
		keys = append(keys, c.Key)
	}
	if !r.Group(n, "money", keys) {
		return
	}
	m := &accounts.Money{Pos: n.Pos, Meter: n.Get("meter")}
	r.Text(n, "meter")
	if text := strings.TrimSpace(r.Text(n, "rates")); text != "" {
		m.Rates = scenarios.File{Name: text, Pos: n.Get("rates").Pos}
	} else if n.Get("rates") == nil {
		r.Faults.Add(diag.MissingKey, n.Pos, "add rates: rates.yaml, the file of what water costs", "money: rates is missing")
	}
	if text := strings.TrimSpace(r.Text(n, "prices")); text != "" {
		d, err := cal.Parse(text)
		if err != nil {
			r.Faults.Add(diag.NotADate, n.Get("prices").Pos, "write the day whose prices count, such as 2024-01-31",
				"money: prices %s is not a date",
				quoted(text))
		}
		m.Prices = &d
	}
	for _, c := range accounts.CustomerColumns() {
		if v := n.Get(c.Key); v != nil {
			if one, ok := r.customer(&c, v); ok {
				m.Values = append(m.Values, one)
			}
		}
	}
	r.out.Money = m
}

// customer reads a value, a range or words with shares.
func (r *programReader) customer(c *accounts.CustomerColumn, n *scenarios.Node) (out accounts.Customer, ok bool) {
	out = accounts.Customer{Column: c.Key, Pos: n.Pos}
	fix := "write it like " + c.Key + ": " + c.Like
	switch {
	case n.Kind == scenarios.Map && (c.Words || c.Bare):
		out.Words = r.words(n, c.Key, fix)
		for _, w := range out.Words {
			if v, err := quantity.ParseNumber(w.Node.Text); c.Bare && (err != nil || v < c.Low || v > c.High) {
				r.Faults.Add(diag.NotANumber, w.Node.Pos, fix, "%s: %s is not a number from 0 up", c.Key, quoted(w.Node.Text))
			}
		}
		return out, len(out.Words) > 0
	case n.Kind != scenarios.Scalar:
		r.Faults.Add(diag.WrongShape, n.Pos, fix, "%s is not a single value or a range", c.Key)
		return out, false
	}
	text := strings.TrimSpace(n.Text)
	switch {
	case c.Words:
		out.Words = []accounts.Word{{Share: 1, Node: &scenarios.Node{Pos: n.Pos, Kind: scenarios.Scalar, Text: text}}}
		return out, true
	case c.Key == accounts.ColumnLandscape && text == accounts.IrrigatedArea:
		out.Irrigated = true
		return out, true
	}
	span, err := c.Parse(text)
	if err != nil {
		r.Faults.Add(diag.BadQuantity, n.Pos, fix, "%s: %v", c.Key, err)
		return out, false
	}
	out.Range = span
	return out, true
}

// words reads words with shares that add up to 1.
func (r *programReader) words(n *scenarios.Node, key, fix string) (out []accounts.Word) {
	sum := 0.0
	for _, w := range n.Entries {
		share, err := quantity.Parse(w.Value.Text, quantity.Fraction)
		if err != nil || !(share > 0 && share <= 1) {
			r.Faults.Add(diag.BadQuantity, w.Pos, fix, "%s of %s is not a share", quoted(w.Value.Text), quoted(w.Key))
			continue
		}
		sum += share
		out = append(out, accounts.Word{Share: share, Node: &scenarios.Node{Pos: w.Pos, Kind: scenarios.Scalar, Text: w.Key}})
	}
	if len(out) > 0 && math.Abs(sum-1) > 1e-6 {
		r.Faults.Add(diag.OutOfRange, n.Pos, "make them add up to 100%", "the shares of %s add up to %.4g%%", key, 100*sum)
	}
	return out
}
