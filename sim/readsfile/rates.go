package readsfile

import (
	"strings"

	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// ForRates returns the reads in the billing unit of rates, for the meters of
// their account. A meter that the account lacks is an error at the read, and so is
// use below 0 or unknown use, which has no bill of its own.
func ForRates(reads []Row, rates *bill.Rates) ([]bill.Read, error) {
	var faults diag.List
	var out []bill.Read
	own, _ := quantity.Find(rates.Unit, quantity.Volume)
	for _, read := range reads {
		m, ok := rates.Account.Meter(read.Meter)
		if !ok {
			var names []string
			for _, m := range rates.Account.Meters {
				names = append(names, m.Name)
			}
			faults.Add(diag.UnknownName, read.meterPos, "write one of the account's meters in the column meter: "+strings.Join(names, ", "),
				"the account in the rates has no meter %q", read.Meter)
			continue
		}
		if read.Unknown {
			faults.Add(diag.MissingKey, read.Pos, "give the volume, or old_end and new_start, what the old register showed last and the new "+
				"one first",
				"the read of %v has no use, so its bill cannot be worked out: the meter was replaced", read.To)
			continue
		}
		if read.Volume.Sign() < 0 {
			faults.Add(diag.OutOfRange, read.Pos, "give the read and the estimates before it as one row with read_type corrected",
				"the read of %v has use below 0, so its bill cannot be worked out by itself", read.To)
			continue
		}
		v := read.Volume
		if u, _ := quantity.Find(read.Unit, quantity.Volume); u.Name != own.Name {
			v = v.Mul(money.Float(1000*u.Num/u.Den, 11)).Div(rates.UnitL)
		}
		b := bill.Read{Meter: m.Name, From: read.From, To: read.To, Volume: v}
		b.Indoor = rates.IndoorOf(&b)
		out = append(out, b)
	}
	return out, faults.Err()
}
