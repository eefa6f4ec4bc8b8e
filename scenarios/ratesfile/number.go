package ratesfile

import (
	"fmt"
	"strings"
	"unicode"

	"loamledger/scenarios"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// maxNumber bounds prices, amounts and volumes.
const maxNumber = 1_000_000_000

// decimal reads a plain decimal number from 0 up.
func (r *reader) decimal(n *scenarios.Node, what string) (money.Num, bool) {
	return r.plain(n, what, false)
}

// plain reads a plain decimal number, from 0 up unless it may be negative.
func (r *reader) plain(n *scenarios.Node, what string, negative bool) (money.Num, bool) {
	if n.Kind != scenarios.Scalar {
		r.Faults.Add(diag.WrongShape, n.Pos, "write a single number", "%s is not a single number", what)
		return money.Num{}, false
	}
	if r.refused(n, what) {
		return money.Num{}, false
	}
	text := strings.TrimSpace(n.Text)
	v, err := money.Parse(text)
	if err != nil {
		r.Faults.Add(diag.NotANumber, n.Pos, r.numberFix(text), "%s: %s", what, money.WhyNot(text))
		return money.Num{}, false
	}
	least := money.Num{}
	if negative {
		least = money.Int(-maxNumber)
	}
	if v.Cmp(least) < 0 || v.Cmp(money.Int(maxNumber)) > 0 {
		r.Faults.Add(diag.OutOfRange, n.Pos, fmt.Sprintf("write a number from %v to %d", least, maxNumber), "%s: %s is out of range", what, text)
		return money.Num{}, false
	}
	return v, true
}

// numberFix offers the number in the text, without what must not be there.
func (r *reader) numberFix(text string) string {
	digits := strings.TrimFunc(text, func(c rune) bool { return !unicode.IsDigit(c) && c != '.' })
	more := false // the text has digits after the first number, such as 1e3
	if i := strings.IndexFunc(digits, func(c rune) bool { return !unicode.IsDigit(c) && c != '.' && c != ',' }); i > 0 {
		more = !strings.Contains(digits[i:], "/") && !strings.Contains(digits[i:], " ")
		digits = digits[:i]
	}
	if _, err := money.Parse(digits); err != nil || more {
		digits = "2.61"
	}
	return fmt.Sprintf("write digits with a decimal point, such as %s; currency and unit are stated once, at the top of the file", digits)
}

// volume reads a volume above 0 under a key: billing units or, with its unit, any.
func (r *reader) volume(n *scenarios.Node, key, fix string) (money.Num, bool) {
	v := n.Get(key)
	if r.refused(v, key) {
		return money.Num{}, false
	}
	if v.Kind == scenarios.Scalar {
		number, unit := quantity.Cut(strings.TrimSpace(v.Text))
		u, is := quantity.Find(unit, quantity.Volume)
		size, err := money.Parse(number)
		if is && err == nil && size.Sign() > 0 && size.Cmp(money.Int(maxNumber)) <= 0 {
			return r.inUnits(size, u), true
		}
	}
	return r.above(n, key, fix)
}

// inUnits converts a volume to billing units.
func (r *reader) inUnits(v money.Num, u quantity.Unit) money.Num {
	if u.Name == r.unitName {
		return v
	}
	return v.Mul(money.Float(1000*u.Num/u.Den, 11)).Div(r.rates.UnitL)
}

// above reads a number above 0 under a key.
func (r *reader) above(n *scenarios.Node, key, fix string) (money.Num, bool) {
	v, ok := r.decimal(n.Get(key), key)
	if ok && v.Sign() == 0 {
		r.Faults.Add(diag.OutOfRange, n.Get(key).Pos, fix, "%s is 0", key)
		return v, false
	}
	return v, ok
}

// inBase reads a value with its unit under a key; 0 if it is missing. The base
// units are decimal fractions of each unit, exact in 12 decimals.
func (r *reader) inBase(n *scenarios.Node, key string, dim quantity.Dimension) money.Num {
	v := r.Quantity(n, key, dim)
	if v == nil {
		return money.Num{}
	}
	if *v < 0 || *v > maxNumber {
		r.Faults.Add(diag.OutOfRange, n.Get(key).Pos, "check the value and its unit", "%s %s is out of range", key, n.Get(key).Text)
		return money.Num{}
	}
	return money.Float(*v, 12)
}

// table reads an amount, or one for each meter size; it may be negative for a
// credit.
func (r *reader) table(n *scenarios.Node, what string, credit bool) *bill.Table {
	if n.Kind != scenarios.Map {
		v, ok := r.plain(n, what, credit)
		if !ok {
			return nil
		}
		return &bill.Table{All: v}
	}
	t := &bill.Table{BySize: map[string]money.Num{}}
	for _, e := range n.Entries {
		if v, ok := r.plain(e.Value, what+" for a meter of "+e.Key, credit); ok {
			t.BySize[e.Key] = v
		}
	}
	return t
}

// factor reads a number of which 1 is all, such as 0.8 or 80%, up to 5.
func (r *reader) factor(n *scenarios.Node, what string) money.Num {
	if r.refused(n, what) {
		return money.Num{}
	}
	if n.Kind == scenarios.Scalar {
		text := strings.TrimSpace(n.Text)
		digits, percent := strings.CutSuffix(text, "%")
		v, err := money.Parse(strings.TrimSpace(digits))
		if percent {
			v = v.Div(money.Int(100))
		}
		if err == nil && v.Sign() >= 0 && v.Cmp(money.Int(5)) <= 0 {
			return v
		}
	}
	r.Faults.Add(diag.OutOfRange, n.Pos, "write a share such as 80% or 0.8", "%s is not a share from 0 to 5", what)
	return money.Num{}
}

// percentage reads a share such as 15%, from least percent up.
func (r *reader) percentage(n *scenarios.Node, what string, least int) (money.Num, bool) {
	if r.refused(n, what) {
		return money.Num{}, false
	}
	fix := "write it with its sign, such as 15%"
	if n.Kind == scenarios.Scalar {
		digits, is := strings.CutSuffix(strings.TrimSpace(n.Text), "%")
		v, err := money.Parse(strings.TrimSpace(digits))
		switch inside := err == nil && v.Cmp(money.Int(least)) >= 0 && v.Cmp(money.Int(10000)) <= 0; {
		case is && inside:
			return v.Div(money.Int(100)), true
		case is && err == nil:
			r.Faults.Add(diag.OutOfRange, n.Pos, fmt.Sprintf("write a percentage from %d%% to 10000%%", least), "%s %s is out of range", what,
				n.Text)
			return money.Num{}, false
		case err == nil && v.Cmp(money.Int(1)) >= 0:
			fix = fmt.Sprintf("write %v%%", v)
		case err == nil && v.Sign() > 0 && v.Cmp(money.Int(1)) < 0: // a share was meant, or a small percentage
			fix = fmt.Sprintf("write %v%% if that is the share, or %v%%", v.Mul(money.Int(100)), v)
		}
	}
	r.Faults.Add(diag.BadQuantity, n.Pos, fix, "%s is not a percentage", what)
	return money.Num{}, false
}
