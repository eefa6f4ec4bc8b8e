package bill

import "loamledger/sim/money"

// IndoorOf returns the use indoors in the period of a read, as the account states
// it: at most the volume read, and none at an irrigation meter. It is nil if the
// account does not state it.
func (r *Rates) IndoorOf(read *Read) *money.Num {
	m, _ := r.Account.Meter(read.Meter)
	var v money.Num
	switch {
	case m.Use != Mixed:
	case r.Account.IndoorL.Sign() == 0:
		return nil
	default:
		v = money.Min(r.BaseUse(read.Days()), read.Volume)
	}
	return &v
}

// BaseUse returns the account's use indoors on the given number of days, in
// billing units; 0 if it is not stated.
func (r *Rates) BaseUse(days int) money.Num {
	return r.Account.IndoorL.Mul(money.Int(days)).Div(r.UnitL)
}
