package study

import (
	"strconv"

	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/sim/tally"
)

// A MoneyRecord is what water costs, for scripts. All amounts are in Currency and
// estimated; those a year follow the basis of the comparison.
type MoneyRecord struct {
	Label      string           `json:"label"`
	Rates      string           `json:"rates"`
	Checked    bool             `json:"rates_checked"` // they reproduce a real bill at this meter and these prices to the cent
	Check      string           `json:"rates_check"`   // one of [bill.Verdict]
	NotInForce []string         `json:"charges_not_in_force,omitempty"`
	Currency   string           `json:"currency"`
	Unit       string           `json:"unit"`
	Prices     string           `json:"prices_of,omitempty"` // day whose prices count in all years
	Meters     []string         `json:"meters,omitempty"`    // of the account, through which the site is watered
	Periods    string           `json:"periods"`             // real read dates, or calendar months
	Strategies []MoneyStrategy  `json:"strategies"`
	YearBridge []YearBridgeStep `json:"year_bridge,omitempty"`
}

// A MoneyStrategy is the bill of one strategy.
type MoneyStrategy struct {
	Strategy string          `json:"strategy"`
	Bill     PartsRecord     `json:"bill_per_year"`
	Bridge   *PartsRecord    `json:"change_against_baseline,omitempty"` // adds up to the cent
	Saving   *RangeRecord    `json:"saving_per_year,omitempty"`
	SavedM3  *float64        `json:"saved_m3_per_year,omitempty"` // through the sprinklers
	Years    []YearBill      `json:"years"`
	Project  *ProjectRecord  `json:"project,omitempty"`
	Meters   []MeterBillSums `json:"meters"`
}

// A PartsRecord are the parts of a bill; they add up to the total.
type PartsRecord struct {
	Fixed     money.Num `json:"fixed"`
	Indoor    money.Num `json:"water_indoors"`
	Outdoor   money.Num `json:"water_outdoors"`
	Sewer     money.Num `json:"sewer"`
	Surcharge money.Num `json:"surcharge"`
	Total     money.Num `json:"total"`
}

// A RangeRecord is a mean and the lowest and highest of the whole years.
type RangeRecord struct {
	Low  money.Num `json:"low"`
	Mean money.Num `json:"mean"`
	High money.Num `json:"high"`
}

// A YearBill is the bill of one whole year.
type YearBill struct {
	Year  int       `json:"year"`
	Total money.Num `json:"total"`
}

// A MeterBillSums is the yearly bill of one meter.
type MeterBillSums struct {
	Meter  string      `json:"meter"`
	Bill   PartsRecord `json:"bill_per_year"`
	Saving *money.Num  `json:"saving_per_year,omitempty"` // absent for the baseline
}

// A ProjectRecord is what a strategy costs to introduce and what it is worth.
type ProjectRecord struct {
	CostLow    money.Num `json:"cost_low"`
	CostHigh   money.Num `json:"cost_high"`
	UpkeepLow  money.Num `json:"upkeep_low_per_year"`
	UpkeepHigh money.Num `json:"upkeep_high_per_year"`
	Life       int       `json:"life_years"`
	Discount   money.Num `json:"discount_rate"`
	// PerM3 is what saved water costs over the life of the change; absent if no water is saved.
	PerM3 *CostRecord   `json:"cost_per_m3_saved,omitempty"`
	Worth []WorthRecord `json:"worth"`
}

// A CostRecord is a range of costs.
type CostRecord struct {
	Low  money.Num `json:"low"`
	High money.Num `json:"high"`
}

// A WorthRecord is the worth at one escalation of water prices. A payback of null
// means never.
type WorthRecord struct {
	Escalation  money.Num  `json:"escalation"`
	PaybackLow  *money.Num `json:"payback_low_years"`
	PaybackHigh *money.Num `json:"payback_high_years"`
	NPVLow      money.Num  `json:"npv_low"`
	NPV         money.Num  `json:"npv"`
	NPVHigh     money.Num  `json:"npv_high"`
}

// A YearBridgeStep explains the bill of the last whole year from that of the year
// before: first its weather and days under the baseline, then the saving.
type YearBridgeStep struct {
	Strategy string      `json:"strategy"`
	Step     string      `json:"step"`
	Change   PartsRecord `json:"change"`
}

func partsRecord(s bill.Sums) PartsRecord {
	return PartsRecord{s.Fixed, s.Indoor, s.Outdoor, s.Sewer, s.Surcharge, s.Total()}
}

// moneyRecord returns what water costs; nil without rates.
func (l *Study) moneyRecord(t *tally.Table) *MoneyRecord {
	m := l.money
	if !m.known(t, 0) {
		return nil
	}
	out := &MoneyRecord{Label: "estimated (ex-ante)", Rates: l.bare(m.rates.File), Checked: m.check == bill.Checked,
		Check: m.check.String(), Currency: m.rates.Currency,
		Unit: m.rates.Unit, Meters: m.names(), Periods: "calendar months"}
	if m.hasDay {
		out.Prices, out.NotInForce = m.prices.String(), m.all.Idle(m.prices)
	}
	if m.read() {
		out.Periods = "real read dates, elsewhere calendar months"
	}
	basis := t.Basis()
	for s := range m.bills {
		own := m.perYear(s, &basis)
		row := MoneyStrategy{Strategy: t.Strategies[s], Bill: partsRecord(own), Years: []YearBill{},
			Meters: []MeterBillSums{}}
		for k := range m.meters {
			one := MeterBillSums{Meter: m.meters[k].Name, Bill: partsRecord(m.meterPerYear(s, k, &basis))}
			if s != t.Baseline {
				base := m.meterPerYear(t.Baseline, k, &basis)
				saved := base.Total().Sub(one.Bill.Total)
				one.Saving = &saved
			}
			row.Meters = append(row.Meters, one)
		}
		for _, y := range basis.Years {
			sums := m.year(s, y)
			row.Years = append(row.Years, YearBill{y, sums.Total()})
		}
		if s != t.Baseline {
			bridge := partsRecord(own.Less(m.perYear(t.Baseline, &basis)))
			low, mean, high := m.savings(s, &basis)
			row.Bridge, row.Saving = &bridge, &RangeRecord{low, mean, high}
			row.SavedM3 = Number(l.savedM3(s, &basis))
			row.Project = l.projectRecord(s, &basis)
		}
		out.Strategies = append(out.Strategies, row)
	}
	for s := range m.bills {
		for _, span := range m.yearBridge(s, &basis) {
			out.YearBridge = append(out.YearBridge, YearBridgeStep{t.Strategies[s], span.Name, partsRecord(span.Change)})
		}
	}
	return out
}

// yearBridge goes from the baseline's bill of the last whole year but one to that
// of the last year under strategy s; nil if there are no two such years, or for the
// baseline.
func (m *siteMoney) yearBridge(s int, b *tally.Basis) []bill.Span {
	if len(b.Years) < 2 || s == m.table.Baseline {
		return nil
	}
	y := b.Years[len(b.Years)-2:]
	return bill.Bridge([]bill.Step{
		{Name: strconv.Itoa(y[0]), Sums: m.year(m.table.Baseline, y[0])},
		{Name: "weather and days", Sums: m.year(m.table.Baseline, y[1])},
		{Name: "saving", Sums: m.year(s, y[1])},
	})
}

// worth returns what introducing strategy s is worth at each escalation; nil
// without a project or a whole year.
func (l *Study) worth(s int, b *tally.Basis) (p *bill.Project, worth []bill.Worth) {
	own := l.projectOf(s)
	if own == nil || !b.Yearly() || s == l.money.table.Baseline {
		return nil, nil
	}
	p = &bill.Project{CostLow: own.CostLow, CostHigh: own.CostHigh, UpkeepLow: own.UpkeepLow, UpkeepHigh: own.UpkeepHigh, Years: own.Years,
		Discount: l.Scenario.Money.Discount}
	low, mean, high := l.money.savings(s, b)
	for _, e := range escalations() {
		worth = append(worth, p.Worth(low, mean, high, e))
	}
	return p, worth
}

func (l *Study) projectRecord(s int, b *tally.Basis) *ProjectRecord {
	p, worth := l.worth(s, b)
	if p == nil {
		return nil
	}
	out := &ProjectRecord{CostLow: p.CostLow, CostHigh: p.CostHigh, UpkeepLow: p.UpkeepLow, UpkeepHigh: p.UpkeepHigh, Life: p.Years,
		Discount: p.Discount}
	if low, high, ok := p.Levelized(l.saved(s, b)); ok {
		out.PerM3 = &CostRecord{low.Round(4), high.Round(4)}
	}
	for _, w := range worth {
		out.Worth = append(out.Worth, WorthRecord{w.Escalation, w.PaybackLow, w.PaybackHigh, w.NPVLow, w.NPV, w.NPVHigh})
	}
	return out
}
