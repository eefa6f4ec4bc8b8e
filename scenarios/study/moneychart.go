package study

import (
	"fmt"

	"loamledger/plots"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/sim/tally"
)

// billParts are the parts of bills as charts stack them: what watering does not change
// is at the bottom. Index is the place in [bill.Sums.List].
var billParts = [...]struct {
	index int
	role  plots.Role
}{{0, plots.FixedPart}, {3, plots.SewerPart}, {bill.IndoorSum, plots.IndoorPart}, {bill.OutdoorSum, plots.OutdoorPart},
	{4, plots.SurchargePart}}

// billCharts returns the bills as the charts show them; nil without rates.
func (l *Study) billCharts(t *tally.Table) *plots.Bills {
	m := l.money
	if !m.known(t, 0) {
		return nil
	}
	basis, ranked := t.Basis(), t.RankYears()
	out := &plots.Bills{Currency: m.rates.Currency, Note: m.pricesNote()}
	for _, part := range billParts {
		out.Parts = append(out.Parts, plots.BillPart{Name: bill.SumNames()[part.index], Role: part.role, Top: part.index == bill.OutdoorSum})
	}
	for s := range m.bills {
		var one plots.StrategyBills
		yearly := m.perYear(s, &basis)
		months := m.byMonth(s, &basis)
		for _, part := range billParts {
			one.Parts = append(one.Parts, yearly.List()[part.index].Float64())
			one.Months = append(one.Months, months[part.index])
		}
		for _, y := range ranked.Years {
			sums := m.year(s, y)
			one.Years = append(one.Years, sums.Total().Float64())
		}
		out.Strategies = append(out.Strategies, one)
	}
	return out
}

// pricesNote says which prices the bills have, and whether they are checked.
func (m *siteMoney) pricesNote() string {
	text := "Prices do not change in the rates."
	if m.hasDay {
		text = fmt.Sprintf("Prices of %s in all years.", plots.DayText(m.prices))
	}
	return text + " " + m.checkText()
}

// byMonth returns each part of the bills of strategy s by calendar month of an average
// year: the days of a bill have equal shares of it.
func (m *siteMoney) byMonth(s int, b *tally.Basis) [5][12]float64 {
	var out [5][12]float64
	years := b.Divisor()
	for i := range m.bills[s] {
		one := &m.bills[s][i]
		counts := !b.Yearly()
		for _, y := range b.Years {
			counts = counts || m.inYear(one, y)
		}
		if !counts {
			continue
		}
		sums := one.Sums()
		var days [12]float64
		for d := one.From; d < one.To; d++ {
			days[d.Month()-1]++
		}
		for part, v := range sums.List() {
			for month, n := range days {
				out[part][month] += v.Float64() * n / float64(one.Days()) / years
			}
		}
	}
	return out
}

// yearRows explain the bill of the last whole year from that of the year before; no
// rows without two such years.
func (l *Study) yearRows(t *tally.Table, b *tally.Basis) plainTable {
	m := l.money
	if len(b.Years) < 2 {
		return plainTable{}
	}
	y := b.Years[len(b.Years)-2:]
	name := func(year int) string { return "bill of " + tally.YearName(year, t.South) }
	out := plainTable{head: []string{"from year to year", name(y[0]), "weather and days", "saving",
		name(y[1]) + " [" + m.rates.Currency + "]"}}
	first := m.year(t.Baseline, y[0])
	for s := range m.bills {
		row := plainRow{t.Strategies[s], []string{first.Total().Text()}}
		last := m.year(s, y[1])
		spans := m.yearBridge(s, b)
		if s == t.Baseline {
			row.cells = append(row.cells, signed(last.Total().Sub(first.Total())), "")
		}
		for _, span := range spans {
			row.cells = append(row.cells, signed(span.Change.Total()))
		}
		row.cells = append(row.cells, last.Total().Text())
		out.rows = append(out.rows, row)
	}
	return out
}

// signed writes an amount with its sign.
func signed(v money.Num) string {
	if v.Sign() > 0 {
		return "+" + v.Text()
	}
	return v.Text()
}
