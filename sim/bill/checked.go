package bill

import "loamledger/sim/money"

// A Match compares a bill that was received with the one worked out.
type Match struct {
	At       int // index of the bill
	Received money.Num
	Off      money.Num // worked out less received
}

// Checked reports whether rates are checked: at least one bill that was received
// is given, and every one is worked out to the cent.
func Checked(all []Match) bool {
	for _, m := range all {
		if m.Off.Sign() != 0 {
			return false
		}
	}
	return len(all) > 0
}
