package ratesfile

import (
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

var (
	accountKeys = []string{"persons", "indoor", "landscape", "lot", "classes", "establishment", "meters"}
	meterKeys   = []string{"name", "size", "use", "indoor"}
	budgetKeys  = []string{"indoor", "eto", "factor", "annual", "months"}
	bandKeys    = []string{"to", "depth"}
)

// account reads the customer. Without a list of meters there is one, of mixed use
// and unknown size.
func (r *reader) account(root *scenarios.Node) {
	a := &r.rates.Account
	n := root.Get("account")
	if n != nil && r.Group(n, "account", accountKeys) {
		if v := n.Get("persons"); v != nil {
			n, err := money.Parse(strings.TrimSpace(v.Text))
			if a.Persons = n; err != nil || n.Sign() < 0 || n.Cmp(money.Int(maxNumber)) > 0 {
				r.Faults.Add(diag.NotANumber, v.Pos, "write a number, such as 3", "persons %q is not a number from 0 up", v.Text)
			}
		}
		a.IndoorL = r.inBase(n, "indoor", quantity.Volume).Mul(money.Int(1000))
		a.LandscapeM2, a.LotM2 = r.inBase(n, "landscape", quantity.Area), r.inBase(n, "lot", quantity.Area)
		a.Establishment, a.HasPlants = r.date(n, "establishment")
		if c := n.Get("classes"); c != nil {
			r.classes(c)
		}
		if m := n.Get("meters"); m != nil {
			r.meters(m)
		}
	}
	if len(a.Meters) == 0 {
		a.Meters = []bill.Meter{{}}
	}
}

func (r *reader) classes(n *scenarios.Node) {
	if n.Kind != scenarios.Map {
		r.Faults.Add(diag.WrongShape, n.Pos, "write keys, such as classes: {lot: A}", "classes is not a group of keys")
		return
	}
	r.rates.Account.Classes = map[string]string{}
	for _, e := range n.Entries {
		r.rates.Account.Classes[e.Key] = strings.TrimSpace(r.Text(n, e.Key))
	}
}

func (r *reader) meters(n *scenarios.Node) {
	if n.Kind != scenarios.List || len(n.Items) == 0 || len(n.Items) > maxCharges {
		r.Faults.Add(diag.WrongShape, n.Pos, "write a list, such as [{name: house, size: 5/8 in, use: mixed}]",
			"meters is not a list with entries")
		return
	}
	a := &r.rates.Account
	for _, item := range n.Items {
		if !r.Group(item, "a meter", meterKeys) {
			continue
		}
		m := bill.Meter{Name: strings.TrimSpace(r.Text(item, "name")), Size: strings.TrimSpace(r.Text(item, "size"))}
		if text := strings.TrimSpace(r.Text(item, "use")); text != "" {
			at := slices.Index(bill.UseNames(), text)
			if at < 0 {
				r.Faults.Add(diag.UnknownName, item.Get("use").Pos, "write one of: "+strings.Join(bill.UseNames(), ", "), "unknown use %q of a meter",
					text)
				continue
			}
			m.Use = bill.Use(at)
		}
		m.IndoorL = r.inBase(item, "indoor", quantity.Volume).Mul(money.Int(1000))
		if m.IndoorL.Sign() > 0 && m.Use != bill.Mixed {
			r.Faults.Add(diag.NoEffect, item.Get("indoor").Pos, "remove it, or write use: mixed",
				"meter %q is not mixed, so indoor has no effect", m.Name)
		}
		if slices.ContainsFunc(a.Meters, func(o bill.Meter) bool { return o.Name == m.Name }) {
			r.Faults.Add(diag.Duplicate, item.Pos, "give each meter its own name", "duplicate meter name %q", m.Name)
		}
		a.Meters = append(a.Meters, m)
	}
	if a.IndoorL.Sign() == 0 {
		return
	}
	shared := 0
	for _, m := range a.Meters {
		if m.Use == bill.Mixed && m.IndoorL.Sign() == 0 {
			shared++
		}
	}
	if shared > 1 {
		r.Faults.Add(diag.Conflict, n.Pos, "write indoor under each mixed meter instead, such as {name: house, indoor: 150 gal}",
			"account: indoor is the use at one meter, and %d meters are mixed", shared)
	}
}

// budget reads what a property is allowed.
func (r *reader) budget(root *scenarios.Node) {
	n := root.Get("budget")
	if n == nil || !r.Group(n, "budget", budgetKeys) {
		return
	}
	b := &bill.Budget{IndoorL: r.inBase(n, "indoor", quantity.Volume).Mul(money.Int(1000)), Factor: money.Int(1)}
	if v := n.Get("factor"); v != nil {
		b.Factor = r.factor(v, "factor")
	}
	if e := n.Get("eto"); e != nil && e.Kind == scenarios.Scalar && strings.TrimSpace(e.Text) == "weather" {
		b.HasETo, b.FollowsWeather, b.EToPos = true, true, e.Pos
	} else if e != nil {
		b.HasETo = true
		for i, text := range r.twelve(n, "eto", "write 12 depths, starting with January, such as [1.2 in, 1.6 in, ...], or weather, for "+
			"the ETo of each day of a replay") {
			v, err := quantity.Parse(text, quantity.Depth)
			if err != nil || v < 0 || v > 1000 {
				r.Faults.Add(diag.BadQuantity, e.Items[i].Pos, "write a depth of a month, such as 5.1 in or 130 mm",
					"eto of month %d: %q is not a depth", i+1, text)
				continue
			}
			b.EToMM[i] = money.Float(v, 9)
		}
	}
	r.annual(n, b)
	r.rates.Budget = b
}

// twelve reads a list of twelve texts; nil if it is not one.
func (r *reader) twelve(n *scenarios.Node, key, fix string) []string {
	texts := r.Texts(n, key)
	if n.Get(key).Kind != scenarios.List || len(texts) != 12 {
		r.Faults.Add(diag.WrongShape, n.Get(key).Pos, fix, "%s has %d values, not 12", key, len(texts))
		return nil
	}
	return texts
}

// annual reads the bands of a yearly allowance and its shares by month.
func (r *reader) annual(n *scenarios.Node, b *bill.Budget) {
	a := n.Get("annual")
	if a == nil {
		return
	}
	const fix = "write bands of the lot, smallest first, such as [{to: 5000 ft2, depth: 19 gal/ft2}, {depth: 17 gal/ft2}]"
	if a.Kind != scenarios.List || len(a.Items) == 0 || len(a.Items) > maxTiers {
		r.Faults.Add(diag.WrongShape, a.Pos, fix, "annual is not a list of bands")
		return
	}
	b.HasBands = true
	for i, item := range a.Items {
		if !r.Group(item, "a band", bandKeys) {
			continue
		}
		band := bill.Band{ToM2: r.inBase(item, "to", quantity.Area)}
		if (band.ToM2.Sign() == 0) != (i == len(a.Items)-1) {
			r.Faults.Add(diag.Conflict, item.Pos, fix, "every band but the last needs to, and the last has none")
		}
		if i > 0 && band.ToM2.Sign() > 0 && band.ToM2.Cmp(b.Bands[len(b.Bands)-1].ToM2) <= 0 {
			r.Faults.Add(diag.Conflict, item.Pos, fix, "bands overlap")
		}
		if text := r.Text(item, "depth"); text != "" {
			band.MM = r.perArea(item, text)
		} else if item.Get("depth") == nil {
			r.Faults.Add(diag.MissingKey, item.Pos, fix, "a band has no depth")
		}
		b.Bands = append(b.Bands, band)
	}
	even := money.Int(1).Div(money.Int(12))
	for i := range b.Shares {
		b.Shares[i] = even
	}
	if m := n.Get("months"); m != nil {
		if r.twelve(n, "months", "write 12 percentages, starting with January, that add up to 100%") == nil {
			return
		}
		var sum money.Num
		for i, item := range m.Items {
			b.Shares[i], _ = r.percentage(item, "share of a month", 0)
			sum = sum.Add(b.Shares[i])
		}
		if sum.Round(6).Cmp(money.Int(1)) != 0 {
			r.Faults.Add(diag.OutOfRange, m.Pos, "write 12 percentages that add up to 100%", "months add up to %s%%",
				sum.Mul(money.Int(100)).Short(4))
		}
	}
}

// perArea reads a depth, or gallons per square foot, in L/m².
func (r *reader) perArea(n *scenarios.Node, text string) money.Num {
	number, unit := quantity.Cut(text)
	if unit == "gal/ft2" || unit == "gal/ft²" {
		if v, err := money.Parse(number); err == nil && v.Sign() >= 0 && v.Cmp(money.Int(10000)) <= 0 {
			gal, _ := quantity.Find("gal", quantity.Volume)
			foot, _ := quantity.Find("ft2", quantity.Area)
			return v.Mul(money.Float(1000*gal.Num/gal.Den, 11)).Div(money.Float(foot.Num/foot.Den, 9))
		}
	}
	v, err := quantity.Parse(text, quantity.Depth)
	if err != nil || v < 0 || v > 100000 {
		r.Faults.Add(diag.BadQuantity, n.Get("depth").Pos, "write a depth a year with its unit, such as 19 gal/ft2, 30 in or 760 mm",
			"depth %q is not valid", text)
		return money.Num{}
	}
	return money.Float(v, 9)
}
