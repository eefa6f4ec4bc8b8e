package bill_test

import (
	"fmt"

	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/cal"
)

// Thirty units in one period: 12.00 fixed, ten units at 3.00 and the other twenty at 5.50. By hand: 12 + 30 + 110 = 152.
func ExampleRates_Bills() {
	ten := &bill.Bound{Terms: []bill.Term{{Of: bill.Units, Share: money.Int(10)}}}
	rates := &bill.Rates{Currency: "USD", Unit: "kgal", UnitL: money.Float(3785.41, 2), NormalDays: 30, Charges: []bill.Charge{
		{Name: "service", Part: bill.Fixed, Amount: &bill.Table{All: money.Int(12)}},
		{Name: "water", Part: bill.Water, Tiers: []bill.Tier{{To: ten, Price: money.Int(3)}, {Price: money.Float(5.5, 2)}}},
	}}
	account := &bill.Account{Meters: []bill.Meter{{Name: "yard"}}}
	june := bill.Read{Meter: "yard", From: cal.Of(2031, 6, 1), To: cal.Of(2031, 7, 1), Volume: money.Int(30)}
	for _, b := range rates.Bills(account, []bill.Read{june}) {
		for _, line := range b.Lines {
			fmt.Println(line.Charge, line.Tier, line.Units, line.Amount.Fixed(2))
		}
		fmt.Println("total", b.Total.Fixed(2))
	}
	// Output:
	// service 0 1 12.00
	// water 1 10 30.00
	// water 2 20 110.00
	// total 152.00
}
