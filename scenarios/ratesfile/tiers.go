package ratesfile

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

var tierKeys = []string{"from", "to", "width", "price"}

const tierFix = "write tiers as a list with the lowest first, such as [{to: 8, price: 2.61}, {price: 3.84}]"

// maxTiers bounds the tiers of a charge.
const maxTiers = 50

func (r *reader) tiers(n *scenarios.Node, c *bill.Charge) {
	if n.Kind != scenarios.List || len(n.Items) == 0 || len(n.Items) > maxTiers {
		r.Faults.Add(diag.WrongShape, n.Pos, tierFix, "charge %q: tiers is not a list of 1 to %d tiers", c.Name, maxTiers)
		return
	}
	for i, item := range n.Items {
		where := fmt.Sprintf("charge %q, tier %d", c.Name, i+1)
		if !r.Group(item, where, tierKeys) {
			continue
		}
		t := bill.Tier{Pos: item.Pos}
		if p := item.Get("price"); p != nil {
			t.Price, _ = r.spanned(p, where+": price", bill.Doubt{Of: bill.OfPrice, Tier: i + 1}, c)
		} else {
			r.Faults.Add(diag.MissingKey, item.Pos, tierFix, "%s has no price", where)
		}
		to, width := item.Get("to"), item.Get("width")
		last := i == len(n.Items)-1
		switch {
		case to != nil && width != nil:
			r.Faults.Add(diag.Conflict, width.Pos, "give one of them", "%s has both to and width", where)
		case to != nil:
			t.To = r.bound(to, where+": to")
		case width != nil:
			t.Width = r.bound(width, where+": width")
		case !last:
			r.Faults.Add(diag.MissingKey, item.Pos, "add to, the upper bound counted from 0; only the last tier has none", "%s has no upper bound",
				where)
		}
		if last && (to != nil || width != nil) {
			r.Faults.Add(diag.Conflict, item.Pos, "add a last tier without to: volume above would be free",
				"%s is the last one and has an upper bound", where)
		}
		r.tierFrom(item, c, where)
		c.Tiers = append(c.Tiers, t)
	}
}

// tierFrom checks the lower bound, which may be written although it follows from
// the tier below: it is that bound or, counted in whole units, the next unit.
func (r *reader) tierFrom(n *scenarios.Node, c *bill.Charge, where string) {
	f := n.Get("from")
	if f == nil {
		return
	}
	v, ok := r.decimal(f, where+": from")
	if !ok {
		return
	}
	var below money.Num
	if len(c.Tiers) > 0 {
		prev := c.Tiers[len(c.Tiers)-1].To
		if prev == nil || prev.BySize != nil || len(prev.Terms) != 1 || prev.Terms[0].Of != bill.Units {
			r.Faults.Add(diag.NoEffect, f.Pos, "remove it; a tier begins where the one below ends", "%s: from cannot be checked", where)
			return
		}
		below = prev.Terms[0].Share
	}
	next := below.Add(money.Int(1))
	switch {
	case v.Cmp(below) == 0 || v.Cmp(next) == 0:
	case v.Cmp(below) < 0:
		r.Faults.Add(diag.Conflict, f.Pos, fmt.Sprintf("write from: %v, or remove it", below),
			"%s begins at %v, but the tier below ends at %v: tiers overlap",
			where, v, below)
	default:
		r.Faults.Add(diag.Conflict, f.Pos, fmt.Sprintf("write from: %v, or remove it", below),
			"%s begins at %v, but the tier below ends at %v: a gap",
			where, v, below)
	}
}

// bound reads an upper bound or a width, or one for each meter size.
func (r *reader) bound(n *scenarios.Node, what string) *bill.Bound {
	if n.Kind != scenarios.Map {
		return &bill.Bound{Terms: r.terms(n, what)}
	}
	b := &bill.Bound{BySize: map[string][]bill.Term{}}
	for _, e := range n.Entries {
		b.BySize[e.Key] = r.terms(e.Value, what+" for a meter of "+e.Key)
	}
	return b
}

// terms reads a sum such as 8, 12717 gal, 130% budget or 50% indoor + 50% outdoor.
func (r *reader) terms(n *scenarios.Node, what string) (out []bill.Term) {
	fix := fmt.Sprintf("write units (8), a volume (12717 gal), or shares of a budget (100%% indoor + 50%% outdoor; also budget, allowance)")
	if r.refused(n, what) {
		return nil
	}
	if n.Kind != scenarios.Scalar || strings.Count(n.Text, "+") > 5 {
		r.Faults.Add(diag.WrongShape, n.Pos, fix, "%s is not a bound", what)
		return nil
	}
	names := []string{bill.Indoor.String(), bill.Outdoor.String(), bill.Whole.String(), bill.Annual.String()}
	for text := range strings.SplitSeq(n.Text, "+") {
		text = strings.TrimSpace(text)
		number, unit := quantity.Cut(text)
		v, err := money.Parse(number)
		if err != nil || v.Sign() < 0 || v.Cmp(money.Int(maxNumber)) > 0 {
			r.Faults.Add(diag.NotANumber, n.Pos, fix, "%s: %s", what, money.WhyNot(text))
			return nil
		}
		of := strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(unit, "%"), " of"))
		u, volume := quantity.Find(unit, quantity.Volume)
		switch at := slices.Index(names, of); {
		case unit == "":
			out = append(out, bill.Term{Of: bill.Units, Share: v})
		case strings.HasPrefix(unit, "%") && at >= 0:
			out = append(out, bill.Term{Of: bill.Indoor + bill.Of(at), Share: v.Div(money.Int(100))})
		case volume:
			out = append(out, bill.Term{Of: bill.Units, Share: r.inUnits(v, u)})
		default:
			r.Faults.Add(diag.BadQuantity, n.Pos, fix, "%s: %q is not a bound", what, text)
			return nil
		}
	}
	return out
}

// basis reads the volume that a charge counts.
func (r *reader) basis(n *scenarios.Node, c *bill.Charge) {
	b := &c.Basis
	b.Deduct, c.Combine = r.Flag(n, "deduct"), r.Flag(n, "combine")
	if v := n.Get("cap"); v != nil {
		if most, ok := r.volume(n, "cap", "remove cap, or write the volume"); ok {
			b.Cap = &most
		}
	}
	w := n.Get("winter")
	switch text := strings.TrimSpace(r.Text(n, "volume")); text {
	case "", "use":
		if w != nil {
			r.Faults.Add(diag.NoEffect, w.Pos, "add volume: winter average, or volume: lesser", "charge %q: winter has no effect here", c.Name)
		}
		return
	case "winter average":
	case "lesser":
		b.Lesser = true
	default:
		r.Faults.Add(diag.UnknownName, n.Get("volume").Pos, "write use, winter average, or lesser for the smaller of both", "unknown volume %q",
			text)
		return
	}
	if w == nil {
		r.Faults.Add(diag.MissingKey, n.Pos, "add winter: {months: [dec, jan, feb], from: 04-01}",
			"charge %q does not say which months are winter", c.Name)
		return
	}
	if !r.Group(w, "winter", []string{"months", "from", "default"}) {
		return
	}
	winter := &bill.Winter{}
	winter.From, _ = r.day(w, "from")
	for _, text := range r.Texts(w, "months") {
		m := scenarios.Month(text)
		if m == 0 {
			r.Faults.Add(diag.UnknownName, w.Get("months").Pos, "write months such as [dec, jan, feb]", "%q is not a month", text)
		}
		winter.Months = append(winter.Months, m)
	}
	if len(winter.Months) == 0 {
		r.Faults.Add(diag.MissingKey, w.Pos, "add months: [dec, jan, feb]", "winter: months are missing")
	}
	if d := w.Get("default"); d != nil {
		if v, ok := r.decimal(d, "default"); ok {
			winter.Default = &v
		}
	}
	b.Winter = winter
}
