package money_test

import (
	"fmt"

	"loamledger/sim/money"
)

// Decimals are exact, unlike binary numbers, and halves round away from zero.
func ExampleNum() {
	a, _ := money.Parse("0.1")
	b, _ := money.Parse("0.2")
	x, y := 0.1, 0.2
	fmt.Println(a.Add(b), x+y)
	price, _ := money.Parse("2.345")
	fmt.Println(price.Cents(), price.Neg().Cents())
	// Output:
	// 0.3 0.30000000000000004
	// 2.35 -2.35
}
