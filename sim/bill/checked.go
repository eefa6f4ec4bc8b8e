package bill

import (
	"loamledger/sim/money"
	"loamledger/weather/cal"
)

// A Match compares a bill that was received with the one worked out.
type Match struct {
	At       int // index of the bill
	Received money.Num
	Off      money.Num // worked out less received
}

// A Verdict says how far rates are checked with bills that were received.
type Verdict uint8

// The verdicts. Only Checked is trust in the prices of a replay.
const (
	NoBill      Verdict = iota // no bill that was received is given
	Unlike                     // one is not worked out to the cent
	OtherMeter                 // all are, but none is of the meter that matters
	OtherPrices                // all are, but none has the prices that matter
	Checked                    // all are, and one has the prices and the meter that matter
	Verdicts                   // how many there are
)

var verdictNames = [Verdicts]string{"no bill given", "not reproduced", "checked at another meter", "checked at other prices", "checked"}

func (v Verdict) String() string { return verdictNames[v] }

// Reproduced returns Checked if at least one bill that was received is given and
// every one is worked out to the cent.
func Reproduced(all []Match) Verdict {
	for _, m := range all {
		if m.Off.Sign() != 0 {
			return Unlike
		}
	}
	if len(all) == 0 {
		return NoBill
	}
	return Checked
}

// CheckedFor returns whether the bills that were received check the prices of one
// day, nil for rates without dates, at one meter. The matches are of bills.
func (r *Rates) CheckedFor(all []Match, bills []Bill, meter string, day *cal.Date) Verdict {
	out := Reproduced(all)
	if out != Checked {
		return out
	}
	out = OtherMeter
	for _, m := range all {
		b := &bills[m.At]
		switch {
		case b.Meter != meter:
		case day == nil || r.pricesOf(b, *day):
			return Checked
		default:
			out = OtherPrices
		}
	}
	return out
}

// pricesOf reports whether bill b has days with the prices of the given day.
func (r *Rates) pricesOf(b *Bill, day cal.Date) bool {
	same := func(d cal.Date) bool {
		for i := range r.Charges {
			if dates := r.Charges[i].Dates; dates.Holds(d) != dates.Holds(day) {
				return false
			}
		}
		return true
	}
	if r.ByReadDate {
		return same(b.To)
	}
	for d := b.From; d < b.To; d++ {
		if same(d) {
			return true
		}
	}
	return false
}
