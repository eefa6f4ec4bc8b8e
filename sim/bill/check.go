package bill

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// Supersede ends every charge without a last day on the day before a later charge
// of the same name, season and conditions begins, so that a list of dated prices
// needs first days only.
func (r *Rates) Supersede() {
	for i := range r.Charges {
		c := &r.Charges[i]
		if _, ends := c.Dates.Last(); ends {
			continue
		}
		first, begins := c.Dates.First()
		var next *cal.Date
		for k := range r.Charges {
			o := &r.Charges[k]
			from, later := o.Dates.First()
			if k == i || !later || !c.alike(o) || begins && from <= first {
				continue
			}
			if next == nil || from < *next {
				next = &from
			}
		}
		if next != nil {
			c.Dates = c.Dates.To(*next - 1)
		}
	}
}

// alike reports whether two charges differ at most in dates and prices.
func (c *Charge) alike(o *Charge) bool {
	season := c.Season == nil && o.Season == nil || c.Season != nil && o.Season != nil && *c.Season == *o.Season
	return c.Name == o.Name && season && slices.Equal(c.When, o.When)
}

// Check adds what is wrong with the rates whatever the account: charges of one
// name that apply on the same day, tiers that overlap, names that nothing has.
func (r *Rates) Check(faults *diag.List) {
	for i := range r.Charges {
		c := &r.Charges[i]
		for k := range i {
			if o := &r.Charges[k]; o.Name == c.Name && o.meets(c) {
				faults.Add(diag.Conflict, c.Pos, "give them different dates, seasons or conditions (when), or different names if both are charged",
					"charge %q applies at the same time as the charge of that name at line %d", c.Name, o.Pos.Line)
			}
		}
		r.checkTiers(c, faults)
		if p := c.Percent; p != nil {
			r.checkOf(i, p.Of, true, faults)
		}
		if m := c.Minimum; m != nil {
			r.checkOf(i, m.Of, m.Covers.Sign() == 0, faults)
		}
	}
}

// checkOf checks what charge i is a share or a minimum of. A name must mean one
// thing, and a charge that is itself a share must come first.
func (r *Rates) checkOf(i int, of []string, parts bool, faults *diag.List) {
	c := &r.Charges[i]
	for _, name := range of {
		r.checkName(c, name, "of", faults, parts)
		part := slices.Index(partNames[:], name)
		var named, other *Charge // a charge of that name, and one that only the part of that name has
		for k := range r.Charges {
			o := &r.Charges[k]
			switch {
			case o.Name == name && k > i && o.late():
				faults.Add(diag.WrongOrder, c.Pos, fmt.Sprintf("put %q before %q", name, c.Name),
					"charge %q counts %q, which comes later: percentages and minimums count what is before them", c.Name, name)
			case o.Name == name:
				named = o
			case parts && part >= 0 && o.Part == Part(part) && o.Name != c.Name:
				other = o
			}
		}
		if parts && part >= 0 && named != nil && (other != nil || named.Part != Part(part)) {
			also := "another part"
			if other != nil {
				also = fmt.Sprintf("the part with %q", other.Name)
			}
			faults.Add(diag.Conflict, c.Pos, "give the charge another name", "charge %q: %q in of is a charge, and also %s", c.Name, name, also)
		}
	}
}

// late reports whether a charge is worked out from others.
func (c *Charge) late() bool {
	return c.Percent != nil || c.Minimum != nil && c.Minimum.Covers.Sign() == 0
}

func (r *Rates) checkName(c *Charge, name, key string, faults *diag.List, parts bool) {
	var known []string
	for i := range r.Charges {
		if n := r.Charges[i].Name; n != c.Name && !slices.Contains(known, n) {
			known = append(known, n)
		}
	}
	if parts {
		known = append(known, partNames[:]...)
	}
	if !slices.Contains(known, name) {
		faults.Add(diag.UnknownName, c.Pos, "write one of: "+strings.Join(known, ", "), "charge %q: %s names %q, which is not a charge", c.Name,
			key, name)
	}
}

// meets reports whether both charges can apply on one day to one meter.
func (c *Charge) meets(o *Charge) bool {
	for _, w := range c.When {
		for _, v := range o.When {
			if w.Key == v.Key && w.Value != v.Value {
				return false
			}
		}
	}
	first, hasFirst := o.Dates.First()
	last, hasLast := c.Dates.Last()
	if hasFirst && hasLast && last < first {
		return false
	}
	first, hasFirst = c.Dates.First()
	last, hasLast = o.Dates.Last()
	if hasFirst && hasLast && last < first {
		return false
	}
	if c.Season == nil || o.Season == nil {
		return true
	}
	for d := range cal.Date(366) { // the days of a leap year
		if day := cal.Of(2012, 1, 1) + d; c.Season.holds(day) && o.Season.holds(day) {
			return true
		}
	}
	return false
}

// checkTiers reports bounds that do not rise: those in plain units, and shares of a budget
// of which no part is above that of the tier before.
func (r *Rates) checkTiers(c *Charge, faults *diag.List) {
	for i := 1; i < len(c.Tiers); i++ {
		low, high := c.Tiers[i-1].To, c.Tiers[i].To
		if low == nil || high == nil {
			continue
		}
		if low.BySize == nil && high.BySize == nil && high.budgeted() && !high.rises(low) {
			faults.Add(diag.Conflict, c.Tiers[i].Pos, "write the tiers with the lowest first, each with a larger share",
				"charge %q: tier %d ends at or below the end of tier %d in every period: tiers overlap", c.Name, i+1, i)
			continue
		}
		for _, size := range append(low.sizes(), high.sizes()...) {
			a, ok1 := low.plain(size)
			b, ok2 := high.plain(size)
			if ok1 && ok2 && b.Cmp(a) <= 0 {
				of := ""
				if size != "" {
					of = fmt.Sprintf(" for a meter of %s", size)
				}
				faults.Add(diag.Conflict, c.Tiers[i].Pos, fmt.Sprintf("write a bound above %v, counted from 0", a),
					"charge %q: tier %d ends at %v%s, but tier %d ends at %v: tiers overlap", c.Name, i+1, b, of, i, a)
				break
			}
		}
	}
}

// CheckAccount adds what the rates need to know of an account and it does not
// say: sizes of meters, persons, areas, classes.
func (r *Rates) CheckAccount(a *Account, faults *diag.List) {
	lacks := map[string]bool{}
	lack := func(c *Charge, what, fix string) {
		if !lacks[what] {
			lacks[what] = true
			faults.Add(diag.MissingKey, c.Pos, fix, "charge %q needs %s", c.Name, what)
		}
	}
	for i := range r.Charges {
		c := &r.Charges[i]
		for _, w := range c.When {
			if w.Key != "use" && w.Key != "size" && a.Classes[w.Key] == "" {
				lack(c, fmt.Sprintf("the class %q of the account", w.Key), fmt.Sprintf("add account: {classes: {%s: %s}}", w.Key, w.Value))
			}
		}
		if c.PerM2.Sign() > 0 && a.LotM2.Sign() == 0 {
			lack(c, "the area of the lot", "add account: {lot: 8000 ft2}")
		}
		for _, m := range a.Meters {
			p := period{worker: &worker{rates: r, account: a}, meter: m}
			if m.Use != DeductUse && p.applies(c) {
				c.checkSize(m, lack)
			}
		}
		for _, of := range c.bases() {
			switch {
			case of != Units && r.Budget == nil:
				lack(c, "a budget", "add budget, with indoor, eto and factor, or annual")
			case (of == Indoor || of == Whole) && a.Persons.Sign() == 0:
				lack(c, "the number of persons", "add account: {persons: 3}")
			case (of == Outdoor || of == Whole) && a.LandscapeM2.Sign() == 0:
				lack(c, "the landscape area", "add account: {landscape: 4000 ft2}")
			case (of == Outdoor || of == Whole) && !r.Budget.HasETo:
				lack(c, "the ETo of the outdoor budget", "add budget: {eto: [12 depths]}")
			case of == Annual && !r.Budget.HasBands:
				lack(c, "the yearly allowance", "add budget: {annual: [{to: 5000 ft2, depth: 30 in}, {depth: 27 in}]}")
			case of == Annual && a.LotM2.Sign() == 0:
				lack(c, "the area of the lot", "add account: {lot: 8000 ft2}")
			}
		}
	}
}
