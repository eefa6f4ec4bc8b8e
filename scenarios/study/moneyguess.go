package study

import (
	"fmt"
	"strings"

	"loamledger/sim/bill"
	"loamledger/weather/quantity"
)

func areRanges(n int) string {
	if n == 1 {
		return "is a range"
	}
	return "are ranges"
}

// guesses says what the bills had to assume, each with how often.
func (m *siteMoney) guesses() (out []string) {
	if m.hasDay {
		if idle := m.all.Idle(m.prices); len(idle) > 0 {
			out = append(out, fmt.Sprintf("Not in force on %v, so not in these bills: %s. Another day can be set: money: {prices: 2024-01-31}.",
				m.prices, strings.Join(idle, ", ")))
		}
	}
	if open := m.rates.Open(); len(open) > 0 {
		out = append(out, fmt.Sprintf("%s of the rates %s: these bills have the middle or the likeliest value (see: loamledger ranges).",
			quantity.Count(len(open), "number", "numbers"), areRanges(len(open))))
	}
	n, bills := map[bill.NoteCode]int{}, 0
	for s := range m.bills {
		for i := range m.bills[s] {
			bills++
			for _, note := range m.bills[s][i].Notes {
				n[note.Code]++
			}
		}
	}
	of := func(code bill.NoteCode, text string) {
		if n[code] > 0 {
			out = append(out, fmt.Sprintf("%s: on %s of %s.", text, quantity.Whole(n[code]), quantity.Count(bills, "bill", "bills")))
		}
	}
	of(bill.WinterDefault, "Sewer counts the default of the rates, because there is no winter before")
	of(bill.WinterMetered, "Sewer counts all water, because there is no winter before and the rates have no default, "+
		"which makes savings too large")
	of(bill.ReadApart, "Meters are read on different days, so charges on meters together do not count the other")
	of(bill.NoPrice, "Some days have no price for water")
	if apart := m.apart(); len(apart) > 0 {
		for i := range m.rates.Charges {
			if c := &m.rates.Charges[i]; c.Combine || c.Basis.Deduct {
				out = append(out, fmt.Sprintf("Charges on several meters together omit those that are not meters of this site: %s.",
					strings.Join(apart, ", ")))
				break
			}
		}
	}
	return out
}
