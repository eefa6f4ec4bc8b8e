package bill

import "loamledger/sim/money"

// IndoorOf returns the use indoors per day at a meter [L]: its own, or that of the
// account at a mixed meter; 0 if it is not stated.
func (a *Account) IndoorOf(m Meter) money.Num {
	switch {
	case m.Use != Mixed:
		return money.Num{}
	case m.IndoorL.Sign() > 0:
		return m.IndoorL
	}
	return a.IndoorL
}

// IndoorOf returns the use indoors in the period of a read, as the account states
// it: at most the volume read, and none at an irrigation meter. It is nil if the
// account does not state it.
func (r *Rates) IndoorOf(read *Read) *money.Num {
	m, _ := r.Account.Meter(read.Meter)
	var v money.Num
	if m.Use == Mixed {
		if r.Account.IndoorOf(m).Sign() == 0 {
			return nil
		}
		v = money.Min(r.BaseUse(m, read.Days()), read.Volume)
	}
	return &v
}

// BaseUse returns the use indoors at a meter on the given number of days, in billing
// units; 0 if it is not stated.
func (r *Rates) BaseUse(m Meter, days int) money.Num {
	return r.Account.IndoorOf(m).Mul(money.Int(days)).Div(r.UnitL)
}
