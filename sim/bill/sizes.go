package bill

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"loamledger/sim/money"
)

// sizes lists the meter sizes of a bound, or "" for one that counts for all.
func (b *Bound) sizes() []string {
	if b.BySize == nil {
		return []string{""}
	}
	return slices.Sorted(maps.Keys(b.BySize))
}

// plain returns the bound in units for a meter size; ok is false if it depends on
// a budget.
func (b *Bound) plain(size string) (v money.Num, ok bool) {
	terms := b.Terms
	if b.BySize != nil {
		terms = b.BySize[size]
	}
	for _, t := range terms {
		if t.Of != Units {
			return v, false
		}
		v = v.Add(t.Share)
	}
	return v, len(terms) > 0
}

// budgeted reports whether a bound for all sizes is a share of a budget.
func (b *Bound) budgeted() bool {
	return slices.ContainsFunc(b.Terms, func(t Term) bool { return t.Of != Units })
}

// rises reports whether some part of a bound is above that of a lower one, so that it may
// be above it in some period. The whole budget is its part indoors and outdoors.
func (b *Bound) rises(low *Bound) bool {
	var parts [Bases]money.Num
	add := func(terms []Term, sign int) {
		for _, t := range terms {
			share := t.Share.Mul(money.Int(sign))
			if t.Of == Whole {
				parts[Indoor], parts[Outdoor] = parts[Indoor].Add(share), parts[Outdoor].Add(share)
			} else {
				parts[t.Of] = parts[t.Of].Add(share)
			}
		}
	}
	add(b.Terms, 1)
	add(low.Terms, -1)
	return slices.ContainsFunc(parts[:], func(v money.Num) bool { return v.Sign() > 0 })
}

// bases lists what the bounds of a charge are shares of.
func (c *Charge) bases() (out []Of) {
	for i := range c.Tiers {
		for _, b := range []*Bound{c.Tiers[i].To, c.Tiers[i].Width} {
			if b == nil {
				continue
			}
			for _, t := range b.Terms {
				out = append(out, t.Of)
			}
			for _, size := range b.sizes() {
				for _, t := range b.BySize[size] {
					out = append(out, t.Of)
				}
			}
		}
	}
	return out
}

// tables lists the meter sizes of every table of a charge.
func (c *Charge) tables() (out [][]string) {
	table := func(t *Table) {
		if t != nil && t.BySize != nil {
			out = append(out, slices.Sorted(maps.Keys(t.BySize)))
		}
	}
	table(c.Amount)
	if c.Minimum != nil {
		table(c.Minimum.Amount)
	}
	for i := range c.Tiers {
		for _, b := range []*Bound{c.Tiers[i].To, c.Tiers[i].Width} {
			if b != nil && b.BySize != nil {
				out = append(out, b.sizes())
			}
		}
	}
	return out
}

// checkSize reports a meter whose size a table of the charge lacks.
func (c *Charge) checkSize(m Meter, lack func(c *Charge, what, fix string)) {
	for _, sizes := range c.tables() {
		if slices.Contains(sizes, m.Size) {
			continue
		}
		if m.Size == "" {
			what := "the size of the meter"
			if m.Name != "" {
				what = fmt.Sprintf("the size of meter %q", m.Name)
			}
			lack(c, what, fmt.Sprintf("add it under account, as in meters: [{size: %s}]; sizes listed: %s", sizes[0], strings.Join(sizes, ", ")))
			continue
		}
		lack(c, fmt.Sprintf("an amount for a meter of %s", m.Size), "sizes listed: "+strings.Join(sizes, ", "))
	}
}

// Sizes lists the meter sizes that all tables of the rates have or, without tables, those that a charge is for; in
// order, and none if no charge depends on the size.
func (r *Rates) Sizes() (out []string) {
	first := true
	add := func(sizes []string) {
		if first {
			out, first = slices.Clone(sizes), false
			return
		}
		out = slices.DeleteFunc(out, func(s string) bool { return !slices.Contains(sizes, s) })
	}
	var charged []string
	for i := range r.Charges {
		c := &r.Charges[i]
		for _, sizes := range c.tables() {
			add(sizes)
		}
		for _, w := range c.When {
			if w.Key == "size" {
				charged = append(charged, w.Value)
			}
		}
	}
	if first {
		slices.Sort(charged)
		return slices.Compact(charged)
	}
	return out
}
