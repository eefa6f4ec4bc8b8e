package study

import (
	"fmt"
	"strings"

	"loamledger/plots"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// moneyHead says which bills these are.
func (l *Study) moneyHead() string {
	m := l.money
	name := l.bare(m.rates.File)
	if m.rates.Name != "" {
		name = m.rates.Name
	}
	text := "Water bills, estimated: rates “" + name + "”"
	if names := m.names(); len(names) == 1 {
		text += ", meter " + names[0]
	} else if len(names) > 1 {
		text += ", meters " + strings.Join(names, ", ")
	}
	if m.hasDay {
		text += fmt.Sprintf(", with the prices of %s in all years", plots.DayText(m.prices))
	}
	text += "; billed by calendar month"
	if m.read() {
		text = strings.TrimSuffix(text, "by calendar month") + "at the real read dates, elsewhere by calendar month"
	}
	return text + ". " + m.checkText()
}

// checkText says how far the rates are checked.
func (m *siteMoney) checkText() string {
	switch m.check {
	case bill.Checked:
		return "The rates are checked: they reproduce real bills to the cent."
	case bill.OtherMeter:
		return "The rates are not checked at every meter: real bills are reproduced to the cent, but of another meter."
	case bill.OtherPrices:
		return "The rates are not checked for these prices: real bills are reproduced to the cent at other prices only."
	case bill.Unlike:
		return "The rates are not checked: a real bill is not reproduced to the cent (see: loamledger bill)."
	}
	return "The rates are not checked: no real bill is reproduced to the cent yet (see: loamledger bill)."
}

// moneyNotes explain the tables of bills.
func (l *Study) moneyNotes(b *tally.Basis) []string {
	notes := []string{"Each saving is the difference of two whole bills. Fixed charges do not fall; " +
		"use indoors lies under use outdoors in the tiers."}
	if b.Yearly() {
		notes = append(notes, "A range of savings is that of the whole years.")
	}
	notes = append(notes, l.money.guesses()...)
	if len(l.Scenario.Money.Projects) > 0 {
		notes = append(notes, fmt.Sprintf("NPV: net present value over the life of the change, at a real discount rate of %s%%. Its range "+
			"and that of payback repeat the lowest or highest yearly saving every year. Payback is not discounted. "+
			"Water prices rise by 0%%, 3%% or 5.5%% a year more than other prices. Saved water: present value of the costs by that of the water "+
			"saved, in a mean year.",
			l.Scenario.Money.Discount.Mul(hundred).Short(2)))
	}
	return notes
}

// hundred turns a share into a percentage.
var hundred = money.Int(100)

// MoneyViews shows the bills of the strategies; none without rates.
func (l *Study) MoneyViews(t *tally.Table) []View {
	if !l.money.known(t, 0) {
		return nil
	}
	basis := t.Basis()
	bills, worth := l.billRows(t, &basis), l.worthRows(t, &basis)
	views := []View{{Head: []string{"", l.moneyHead(), ""}, Grid: bills.grid(), Notes: l.moneyNotes(&basis)}}
	if meters := l.meterRows(t, &basis); len(meters.rows) > 0 {
		views = append(views, View{Head: []string{""}, Grid: meters.grid()})
	}
	if years := l.yearRows(t, &basis); len(years.rows) > 0 {
		views = append(views, View{Head: []string{""}, Grid: years.grid(), Notes: []string{yearNote}})
	}
	if len(worth.rows) > 0 {
		views = append(views, View{Head: []string{""}, Grid: worth.grid()})
	}
	return views
}

// yearNote explains the bridge from year to year.
const yearNote = "From the bill of the baseline in one year to the bill of each strategy in the next, with the same prices: weather can " +
	"hide a saving, or look like one."

// billRows shows the parts of each bill and what is saved.
func (l *Study) billRows(t *tally.Table, b *tally.Basis) plainTable {
	m := l.money
	out := plainTable{head: []string{"strategy"}}
	out.head = append(out.head, bill.SumNames()...)
	out.head = append(out.head, "bill "+b.Words()+" ["+m.rates.Currency+"]", "saved", "range of years")
	for s := range m.bills {
		own := m.perYear(s, b)
		row := plainRow{name: t.Strategies[s]}
		for _, v := range own.List() {
			row.cells = append(row.cells, v.Text())
		}
		saved, years := "baseline", ""
		if s != t.Baseline {
			low, mean, high := m.savings(s, b)
			saved, years = mean.Text(), low.Text()+" to "+high.Text()
			if !b.Yearly() {
				years = ""
			}
		}
		row.cells = append(row.cells, own.Total().Text(), saved, years)
		out.rows = append(out.rows, row)
	}
	return out
}

// meterRows shows the bills by meter; no rows for one meter.
func (l *Study) meterRows(t *tally.Table, b *tally.Basis) plainTable {
	m := l.money
	if len(m.meters) < 2 {
		return plainTable{}
	}
	out := plainTable{head: append([]string{"by meter"}, bill.SumNames()...)}
	out.head = append(out.head, "bill "+b.Words()+" ["+m.rates.Currency+"]", "saved")
	for s := range m.bills {
		for k := range m.meters {
			own := m.meterPerYear(s, k, b)
			row := plainRow{name: m.meters[k].Name + ": " + t.Strategies[s]}
			for _, v := range own.List() {
				row.cells = append(row.cells, v.Text())
			}
			saved := "baseline"
			if s != t.Baseline {
				base := m.meterPerYear(t.Baseline, k, b)
				saved = base.Total().Sub(own.Total()).Text()
			}
			row.cells = append(row.cells, own.Total().Text(), saved)
			out.rows = append(out.rows, row)
		}
	}
	return out
}

// worthRows shows what the projects are worth.
func (l *Study) worthRows(t *tally.Table, b *tally.Basis) plainTable {
	m, unit, perM3 := l.money, "m³", money.Int(1)
	if l.Scenario.Units == quantity.US {
		unit, perM3 = "AF", money.Float(acreFootM3, 9)
	}
	out := plainTable{head: []string{"project", "price rise", "cost", "upkeep a year", "life [yr]", "payback [yr]", "NPV", "range of NPV",
		"saved water [" + m.rates.Currency + "/" + unit + "]"}}
	between := func(a, b money.Num) string {
		if a.Cmp(b) == 0 {
			return a.Text()
		}
		return a.Text() + " to " + b.Text()
	}
	for s := range m.bills {
		p, worth := l.worth(s, b)
		for i, w := range worth {
			water := ""
			if low, high, ok := p.Levelized(l.saved(s, b)); ok && i == 0 { // the price of water does not matter
				water = between(low.Mul(perM3), high.Mul(perM3))
			}
			out.rows = append(out.rows, plainRow{t.Strategies[s], []string{w.Escalation.Mul(hundred).Short(1) + "%", between(p.CostLow, p.CostHigh),
				between(p.UpkeepLow, p.UpkeepHigh), fmt.Sprint(p.Years), paybackText(&w), w.NPV.Text(),
				w.NPVLow.Text() + " to " + w.NPVHigh.Text(), water}})
		}
	}
	return out
}

// paybackText writes a range of paybacks.
func paybackText(w *bill.Worth) string {
	switch {
	case w.PaybackLow == nil:
		return "never"
	case w.PaybackHigh == nil:
		return w.PaybackLow.Short(1) + " or more, or never"
	case w.PaybackLow.Round(1).Cmp(w.PaybackHigh.Round(1)) == 0:
		return w.PaybackLow.Short(1)
	}
	return w.PaybackLow.Short(1) + " to " + w.PaybackHigh.Short(1)
}

// moneyPart is the report's section on bills; nil without rates.
func (l *Study) moneyPart(t *tally.Table) *plots.TextPart {
	if !l.money.known(t, 0) {
		return nil
	}
	basis := t.Basis()
	part := &plots.TextPart{Lead: l.moneyHead(), Notes: l.moneyNotes(&basis)}
	for _, from := range []plainTable{l.billRows(t, &basis), l.meterRows(t, &basis), l.yearRows(t, &basis), l.worthRows(t, &basis)} {
		if len(from.rows) > 0 {
			part.Tables = append(part.Tables, from.page())
		}
	}
	return part
}

// maxCostsNamed is how many projects the sentence on costs names.
const maxCostsNamed = 3

// costFact says in sentences what the baseline costs and what the projects save,
// whatever the verdict on them; empty without rates.
func (l *Study) costFact(t *tally.Table) string {
	m := l.money
	if !m.known(t, 0) {
		return ""
	}
	basis := t.Basis()
	base := m.perYear(t.Baseline, &basis)
	text := fmt.Sprintf("the whole bill, with fixed charges and water indoors, is %s %s %s under “%s”", m.rates.Currency,
		whole(base.Total()), basis.Words(), t.Strategies[t.Baseline])
	named := 0
	for s := range m.bills {
		if p, worth := l.worth(s, &basis); p != nil && named < maxCostsNamed {
			w := &worth[0]
			saved := wholeSpan(w.SavingLow, w.SavingHigh) + " of it a year"
			if whole(w.SavingLow) != whole(w.SavingHigh) {
				saved = wholeSpan(w.SavingLow, w.SavingHigh) + " of it, depending on the year"
			}
			text += fmt.Sprintf("; “%s” costs %s and saves %s (payback in years: %s)", t.Strategies[s],
				costText(p), saved, paybackText(w))
			named++
		}
	}
	prices := ""
	if m.hasDay {
		prices = " with the prices of " + plots.DayText(m.prices)
	}
	if m.check == bill.Checked {
		return text + ". Estimated" + prices + "; the rates reproduce bills of this account to the cent."
	}
	return text + ". Estimated" + prices + "; the rates are not checked with a real bill."
}

// costText writes what a project costs, once and a year.
func costText(p *bill.Project) string {
	text := wholeSpan(p.CostLow, p.CostHigh) + " once"
	if p.UpkeepHigh.Cmp(money.Num{}) > 0 {
		text += ", " + wholeSpan(p.UpkeepLow, p.UpkeepHigh) + " a year,"
	}
	return text
}

// wholeSpan writes two amounts without cents, or one if they are equal.
func wholeSpan(a, b money.Num) string {
	if low, high := whole(a), whole(b); low != high {
		return low + " to " + high
	}
	return whole(a)
}

// whole writes an amount without cents.
func whole(v money.Num) string { return strings.TrimSuffix(v.Round(0).Text(), ".00") }

// BillTable returns every bill of the replay as rows of text, the first with the
// names of the columns; nil without rates.
func (l *Study) BillTable(t *tally.Table) [][]string {
	m := l.money
	if !m.known(t, 0) {
		return nil
	}
	unit := "_" + strings.ToLower(m.rates.Unit)
	rows := [][]string{{"strategy", "meter", "from", "read_date", "days", "volume" + unit, "billed" + unit, "fixed", "water_indoors",
		"water_outdoors", "sewer", "surcharge", "total"}}
	for s := range m.bills {
		for i := range m.bills[s] {
			b := &m.bills[s][i]
			row := []string{t.Strategies[s], b.Meter, b.From.String(), b.To.String(), fmt.Sprint(b.Days()), b.Volume.Short(4), b.Billed.Short(4)}
			sums := b.Sums()
			for _, v := range append(sums.List(), b.Total) {
				row = append(row, v.Fixed(2))
			}
			rows = append(rows, row)
		}
	}
	return rows
}
