package bill

import "loamledger/sim/money"

// A Step is one state on the way from one set of bills to another: the parts of
// the whole bills once the change named Name has been made.
type Step struct {
	Name string
	Sums Sums
}

// A Span is one step of a bridge: what it changes, part by part.
type Span struct {
	Name   string
	Change Sums
}

// Bridge returns the change of every step after the first. Every step is the
// difference of two whole bills, so the changes add up to the difference of the
// last bill and the first, to the cent.
func Bridge(steps []Step) []Span {
	var out []Span
	for i := 1; i < len(steps); i++ {
		out = append(out, Span{steps[i].Name, steps[i].Sums.Less(steps[i-1].Sums)})
	}
	return out
}

// PerYear returns the parts divided by a number of years and rounded to 0.01 so
// that they add up to the rounded total: every part takes the rounding of the
// parts before it along.
func (s Sums) PerYear(years int) Sums {
	var sum, before money.Num
	list := s.List()
	for i := range list {
		sum = sum.Add(list[i])
		now := sum.Div(money.Int(years)).Cents()
		list[i], before = now.Sub(before), now
	}
	return Sums{list[0], list[1], list[2], list[3], list[4]}
}
