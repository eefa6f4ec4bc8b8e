// Package ratesfile reads the rates of a water supplier from YAML.
//
// # Promises
//
// An unknown key is an error, so that a typo loses nothing. Units and currency
// are never guessed. All errors in a file are reported together as one error that
// [diag.IsInput] recognizes, with line and column.
package ratesfile

import (
	"io"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

var (
	topKeys = []string{"name", "currency", "unit", "gallons", "whole_units", "period", "prorate", "change", "budget", "establishment",
		"charges", "account"}
	periodKeys  = []string{"days", "months"}
	prorateKeys = []string{"tiers", "fixed"}
)

// maxCharges bounds the work that a hostile file can cause.
const maxCharges = 500

// A reader reads one file.
type reader struct {
	yamlfile.Reader
	rates    *bill.Rates
	unitName string // of the billing unit, whichever of its names is written
}

// Read reads the rates in in. name is the file name for messages.
func Read(in io.Reader, name string) (*bill.Rates, error) {
	r := &reader{Reader: yamlfile.Reader{Name: name}, rates: &bill.Rates{File: name, NormalDays: 30, Months: 1}}
	root, err := r.Open(in, topKeys)
	if err != nil {
		return nil, err
	}
	rates := r.rates
	rates.Name = r.Text(root, "name")
	r.currency(root)
	r.unit(root)
	rates.WholeUnits = r.Flag(root, "whole_units")
	r.period(root)
	r.change(root)
	r.budget(root)
	r.establishment(root)
	r.account(root)
	r.charges(root)
	if r.Faults.Len() == 0 {
		rates.Supersede()
		rates.Check(&r.Faults)
	}
	if r.Faults.Len() == 0 {
		rates.CheckAccount(&rates.Account, &r.Faults)
	}
	if err := r.Faults.Err(); err != nil {
		return nil, err
	}
	return rates, nil
}

func (r *reader) currency(root *scenarios.Node) {
	text := r.Text(root, "currency")
	n := root.Get("currency")
	const fix = "write its code of three letters, such as currency: USD"
	switch {
	case n == nil:
		r.Faults.Add(diag.MissingKey, root.Pos, "add "+strings.TrimPrefix(fix, "write its code of three letters, such as "),
			"currency is missing")
	case text == "":
	case len(text) != 3 || strings.ToUpper(text) != text || strings.Trim(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "":
		r.Faults.Add(diag.UnknownUnit, n.Pos, fix, "currency %q is not a code of three capital letters", text)
	}
	r.rates.Currency = text
}

// unitNames lists the billing units, for messages.
func unitNames() string {
	var list []string
	for _, u := range quantity.Units(quantity.Volume) {
		list = append(list, u.Name)
	}
	return strings.Join(list, ", ")
}

// unit reads the billing unit and how many liters it has.
func (r *reader) unit(root *scenarios.Node) {
	n := root.Get("unit")
	if n == nil {
		r.Faults.Add(diag.MissingKey, root.Pos, "add the volume that prices and tiers are for, as in unit: HCF; units: "+unitNames(),
			"unit is missing, and is never guessed")
		return
	}
	text := r.Text(root, "unit")
	u, known := quantity.Find(strings.TrimSpace(text), quantity.Volume)
	if !known {
		if text != "" {
			r.Faults.Add(diag.UnknownUnit, n.Pos, "write one of: "+unitNames()+"; 1,000 gallons are a kgal, and 100 cubic feet an HCF",
				"unit %q is not a unit of volume", text)
		}
		return
	}
	// Every unit is exact in liters with 11 decimals.
	r.rates.Unit, r.rates.UnitL, r.unitName = strings.TrimSpace(text), money.Float(1000*u.Num/u.Den, 11), u.Name
	if g := root.Get("gallons"); g != nil {
		if v, ok := r.above(root, "gallons", "write the gallons that the supplier counts in one unit, such as 748"); ok {
			gal, _ := quantity.Find("gal", quantity.Volume)
			r.rates.UnitL = v.Mul(money.Float(1000*gal.Num/gal.Den, 11))
		}
	}
}

func (r *reader) period(root *scenarios.Node) {
	rates := r.rates
	p := root.Get("period")
	if p != nil && r.Group(p, "period", periodKeys) {
		if v := r.Number(p, "days", 1, 400); v != nil {
			rates.NormalDays = r.whole(p, "days", *v)
		}
		if v := r.Number(p, "months", 1, 12); v != nil {
			rates.Months = r.whole(p, "months", *v)
		}
	}
	q := root.Get("prorate")
	if q == nil || !r.Group(q, "prorate", prorateKeys) {
		return
	}
	rates.Tiers, rates.Fixed = r.prorate(q, "tiers"), r.prorate(q, "fixed")
	if (rates.Tiers != bill.Prorate{} || rates.Fixed != bill.Prorate{}) && p.Get("days") == nil {
		r.Faults.Add(diag.MissingKey, q.Pos, "add the days of a normal period, as in period: {days: 30}",
			"prorate needs the days of a normal period")
	}
}

// whole returns a number that must be whole.
func (r *reader) whole(n *scenarios.Node, key string, v float64) int {
	if v != float64(int(v)) {
		r.Faults.Add(diag.OutOfRange, n.Get(key).Pos, "write a whole number", "%s %g is not a whole number", key, v)
	}
	return int(v)
}

func (r *reader) prorate(n *scenarios.Node, key string) (p bill.Prorate) {
	text := strings.ToLower(strings.TrimSpace(r.Text(n, key)))
	if share, ok := strings.CutPrefix(text, "beyond "); ok {
		if v, err := quantity.Parse(share, quantity.Fraction); err == nil && v > 0 && v < 1 {
			p.Beyond = money.Float(v, 6)
			return p
		}
	}
	switch text {
	case "", "never":
	case "always":
		p.Always = true
	default:
		r.Faults.Add(diag.UnknownName, n.Get(key).Pos,
			"write never, always, or beyond 10% for periods longer or shorter than normal by more than that", "prorate: unknown rule %q for %s",
			text, key)
	}
	return p
}

// change reads how prices count that change inside a period.
func (r *reader) change(root *scenarios.Node) {
	switch text := strings.ToLower(strings.TrimSpace(r.Text(root, "change"))); text {
	case "", "by days":
	case "by read date":
		r.rates.ByReadDate = true
	default:
		r.Faults.Add(diag.UnknownName, root.Get("change").Pos, "write by days (volume is split by average daily use) or by read date",
			"unknown rule %q for prices that change inside a period", text)
	}
}

func (r *reader) establishment(root *scenarios.Node) {
	n := root.Get("establishment")
	if n == nil || !r.Group(n, "establishment", []string{"days", "tier"}) {
		return
	}
	days, tier := r.Number(n, "days", 1, 400), r.Number(n, "tier", 1, 20)
	for key, v := range map[string]*float64{"days": days, "tier": tier} {
		if v == nil && n.Get(key) == nil {
			r.Faults.Add(diag.MissingKey, n.Pos, "write establishment: {days: 45, tier: 1}", "establishment: %s is missing", key)
		}
	}
	if days != nil && tier != nil {
		r.rates.Establishment = &bill.Establishment{Days: r.whole(n, "days", *days), Tier: r.whole(n, "tier", *tier)}
	}
}

func (r *reader) charges(root *scenarios.Node) {
	n := root.Get("charges")
	const fix = "add a list of charges, each with a name, a part and an amount, a price, tiers, a percent or a minimum"
	switch {
	case n == nil:
		r.Faults.Add(diag.MissingKey, root.Pos, fix, "charges are missing")
		return
	case n.Kind != scenarios.List || len(n.Items) == 0:
		r.Faults.Add(diag.WrongShape, n.Pos, fix, "charges is not a list with entries")
		return
	case len(n.Items) > maxCharges:
		r.Faults.Add(diag.TooLarge, n.Pos, "split the rates", "there are %d charges; the maximum is %d", len(n.Items), maxCharges)
		return
	}
	for i, item := range n.Items {
		if c, ok := r.charge(item, i); ok {
			r.rates.Charges = append(r.rates.Charges, c)
		}
	}
	if !slices.ContainsFunc(r.rates.Charges, func(c bill.Charge) bool { return c.Part == bill.Water }) && r.Faults.Len() == 0 {
		r.Faults.Add(diag.MissingKey, n.Pos, "write part: water in the charge for the water used", "no charge has part: water")
	}
}
