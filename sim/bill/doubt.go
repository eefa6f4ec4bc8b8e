package bill

import (
	"slices"

	"loamledger/sim/money"
	"loamledger/weather/diag"
)

// A Doubt is a price, an amount or a percentage that is not exactly known. The charge has
// its Mode.
type Doubt struct {
	Pos    diag.Pos // of the number
	Charge diag.Pos // of the charge, by which it is found
	Name   string   // of the charge
	Of     DoubtOf
	Tier   int // of a price, from 1; 0 for a charge without tiers
	// Low, Mode and High are in the unit of the number, percentages as shares. With Flat,
	// all values between are equally likely and Mode is the middle.
	Low, Mode, High money.Num
	Flat            bool
}

// DoubtOf is what a doubt is about.
type DoubtOf uint8

// What doubts are about.
const (
	OfPrice DoubtOf = iota
	OfAmount
	OfPercent
)

var doubtNames = [...]string{"price", "amount", "percent"}

func (o DoubtOf) String() string { return doubtNames[o] }

// Open returns the doubts about the charges that r has, which [Rates.AsOf] may have left out.
func (r *Rates) Open() (out []Doubt) {
	for _, s := range r.Doubts {
		if slices.ContainsFunc(r.Charges, func(c Charge) bool { return c.Pos == s.Charge }) {
			out = append(out, s)
		}
	}
	return out
}

// With returns the rates with one value for each of some doubts.
func (r *Rates) With(doubts []Doubt, values []money.Num) *Rates {
	own := *r
	own.Charges = slices.Clone(r.Charges)
	for i := range own.Charges {
		c := &own.Charges[i]
		tiers := false
		for k := range doubts {
			if doubts[k].Charge != c.Pos {
				continue
			}
			switch doubts[k].Of {
			case OfPrice:
				if !tiers {
					c.Tiers, tiers = slices.Clone(c.Tiers), true
				}
				c.Tiers[max(doubts[k].Tier-1, 0)].Price = values[k]
			case OfAmount:
				table := *c.Amount
				table.All = values[k]
				c.Amount = &table
			case OfPercent:
				percent := *c.Percent
				percent.Share = values[k]
				c.Percent = &percent
			}
		}
	}
	return &own
}

// Apart reports whether each bill follows from the use of its own meter in its own period,
// of so many meters that have reads, if whole units are not carried.
func (r *Rates) Apart(meters int) bool {
	return !slices.ContainsFunc(r.Charges, func(c Charge) bool {
		return c.Basis.Winter != nil || meters > 1 && (c.Combine || c.Basis.Deduct)
	})
}

// ByYear reports whether equal use on the same days of two years can cost differently.
func (r *Rates) ByYear() bool {
	dated := func(c Charge) bool {
		_, first := c.Dates.First()
		_, last := c.Dates.Last()
		return first || last
	}
	return r.Account.HasPlants || r.Budget != nil && r.Budget.FollowsWeather || slices.ContainsFunc(r.Charges, dated)
}
