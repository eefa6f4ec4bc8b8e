package ratesfile

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

var chargeKeys = []string{"name", "part", "from", "to", "season", "when", "amount", "per", "price", "tiers", "percent", "of", "minimum",
	"covers", "volume", "winter", "cap", "deduct", "combine"}

// howKeys are the keys that say how a charge is worked out; a charge has one.
var howKeys = []string{"amount", "price", "tiers", "percent", "minimum"}

// needs lists the keys that make sense only with one of others.
var needs = []struct {
	key  string
	with []string
}{
	{"per", []string{"amount"}}, {"of", []string{"percent", "minimum"}}, {"covers", []string{"minimum"}},
	{"volume", []string{"price", "tiers"}}, {"cap", []string{"price", "tiers"}}, {"deduct", []string{"price", "tiers"}},
	{"combine", []string{"price", "tiers"}}, {"winter", []string{"volume"}},
}

// charge reads entry i of the list of charges.
func (r *reader) charge(n *scenarios.Node, i int) (c bill.Charge, ok bool) {
	before := r.Faults.Len()
	if !r.Group(n, fmt.Sprintf("charge %d", i+1), chargeKeys) {
		return c, false
	}
	c.Pos, c.Name = n.Pos, strings.TrimSpace(r.Text(n, "name"))
	if n.Get("name") == nil {
		r.Faults.Add(diag.MissingKey, n.Pos, "add a name, as on the bill", "charge %d has no name", i+1)
	}
	r.part(n, &c)
	r.dates(n, &c)
	r.when(n, &c)
	r.how(n, &c)
	return c, r.Faults.Len() == before
}

func (r *reader) part(n *scenarios.Node, c *bill.Charge) {
	known := bill.PartNames()
	text := strings.ToLower(strings.TrimSpace(r.Text(n, "part")))
	at := slices.Index(known, text)
	switch {
	case n.Get("part") == nil:
		r.Faults.Add(diag.MissingKey, n.Pos, "add part: "+strings.Join(known, ", "), "charge %q has no part", c.Name)
	case at < 0 && text != "":
		r.Faults.Add(diag.UnknownName, n.Get("part").Pos, "write one of: "+strings.Join(known, ", "), "unknown part %q", text)
	case at >= 0:
		c.Part = bill.Part(at)
	}
}

func (r *reader) dates(n *scenarios.Node, c *bill.Charge) {
	from, hasFrom := r.date(n, "from")
	to, hasTo := r.date(n, "to")
	if hasFrom {
		c.Dates = c.Dates.From(from)
	}
	if hasTo {
		c.Dates = c.Dates.To(to)
	}
	if hasFrom && hasTo && to < from {
		r.Faults.Add(diag.WrongOrder, n.Get("to").Pos, "write a later date", "charge %q ends on %v, before it begins on %v", c.Name, to, from)
	}
	s := n.Get("season")
	if s == nil || !r.Group(s, "season", []string{"from", "to"}) {
		return
	}
	first, ok1 := r.day(s, "from")
	last, ok2 := r.day(s, "to")
	if ok1 && ok2 {
		c.Season = &bill.Season{From: first, To: last}
	}
}

// date reads a date; ok is false if it is missing.
func (r *reader) date(n *scenarios.Node, key string) (d cal.Date, ok bool) {
	text := r.Text(n, key)
	if text == "" {
		return 0, false
	}
	d, err := cal.Parse(strings.TrimSpace(text))
	if err != nil {
		r.Faults.Add(diag.NotADate, n.Get(key).Pos, "write year, month and day, such as 2024-01-31", "%s %q is not a date", key, text)
	}
	return d, err == nil
}

// day reads a required day of the year.
func (r *reader) day(n *scenarios.Node, key string) (bill.Day, bool) {
	text := r.Text(n, key)
	if n.Get(key) == nil {
		r.Faults.Add(diag.MissingKey, n.Pos, "write a month and a day, such as 05-01", "%s is missing", key)
		return 0, false
	}
	if text == "" {
		return 0, false
	}
	days := scenarios.YearDays(text)
	if len(days) != 1 {
		r.Faults.Add(diag.NotADate, n.Get(key).Pos, "write a month and a day, such as 05-01 or May 1", "%s %q is not one day of the year", key,
			text)
		return 0, false
	}
	return bill.Day(days[0]), true
}

func (r *reader) when(n *scenarios.Node, c *bill.Charge) {
	w := n.Get("when")
	if w == nil {
		return
	}
	if w.Kind != scenarios.Map || len(w.Entries) == 0 {
		r.Faults.Add(diag.WrongShape, w.Pos, "write keys, such as when: {use: irrigation}; use and size are of the meter, "+
			"other keys are classes of the account",
			"when is not a group of keys")
		return
	}
	for _, e := range w.Entries {
		value := strings.TrimSpace(r.Text(w, e.Key))
		if e.Key == "use" && value != "" && !slices.Contains(bill.UseNames(), value) {
			r.Faults.Add(diag.UnknownName, e.Value.Pos, "write one of: "+strings.Join(bill.UseNames(), ", "), "unknown use %q of a meter", value)
		}
		c.When = append(c.When, bill.Condition{Key: e.Key, Value: value})
	}
	sort.SliceStable(c.When, func(a, b int) bool { return c.When[a].Key < c.When[b].Key })
}

// how reads what is charged.
func (r *reader) how(n *scenarios.Node, c *bill.Charge) {
	var given []string
	for _, key := range howKeys {
		if n.Get(key) != nil {
			given = append(given, key)
		}
	}
	if len(given) != 1 {
		found := "none of these keys"
		if len(given) > 1 {
			found = strings.Join(given, " and ")
		}
		r.Faults.Add(diag.Conflict, n.Pos, "give one of: "+strings.Join(howKeys, ", "), "charge %q has %s", c.Name, found)
		return
	}
	for _, need := range needs {
		if n.Get(need.key) != nil && !slices.ContainsFunc(need.with, func(k string) bool { return n.Get(k) != nil }) {
			r.Faults.Add(diag.NoEffect, n.Get(need.key).Pos, "remove it, or add "+strings.Join(need.with, " or "),
				"charge %q: %s has no effect here",
				c.Name, need.key)
		}
	}
	switch v := n.Get(given[0]); given[0] {
	case "amount":
		c.Amount = r.amount(v, c)
		r.per(n, c)
	case "price":
		if price, ok := r.spanned(v, "price", bill.Doubt{Of: bill.OfPrice}, c); ok {
			c.Tiers = []bill.Tier{{Pos: v.Pos, Price: price}}
		}
		r.basis(n, c)
	case "tiers":
		r.tiers(v, c)
		r.basis(n, c)
	case "percent":
		share, _ := r.spanned(v, "percent", bill.Doubt{Of: bill.OfPercent}, c)
		c.Percent = &bill.Percent{Share: share, Of: r.Texts(n, "of")}
		if n.Get("of") == nil {
			r.Faults.Add(diag.MissingKey, n.Pos, "add of: [water], a list of charges or parts", "charge %q does not say what its percentage is of",
				c.Name)
		}
	case "minimum":
		c.Minimum = &bill.Minimum{Amount: r.table(v, "minimum", false), Of: r.Texts(n, "of")}
		if n.Get("covers") != nil {
			c.Minimum.Covers, _ = r.volume(n, "covers", "remove covers, or write the volume that the minimum pays for")
			if len(c.Minimum.Of) != 1 {
				r.Faults.Add(diag.MissingKey, n.Pos, "add of, the name of the charge whose first units the minimum pays for",
					"charge %q: covers needs of, with one charge", c.Name)
			}
		}
	}
}

// per reads what a fixed amount is for.
func (r *reader) per(n *scenarios.Node, c *bill.Charge) {
	text := strings.TrimSpace(r.Text(n, "per"))
	switch text {
	case "", "period":
		return
	case "day":
		c.PerDay = true
		return
	}
	v, err := quantity.Parse(text, quantity.Area)
	if err != nil || v <= 0 || v > maxNumber {
		r.Faults.Add(diag.BadQuantity, n.Get("per").Pos, "write period, day, or an area of the lot such as 1000 ft2", "per %q is not valid", text)
		return
	}
	c.PerM2 = money.Float(v, 9)
}
