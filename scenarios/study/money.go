package study

import (
	"math"

	"loamledger/scenarios"
	"loamledger/sim"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// siteMoney prices the water of a study. Its bills are worked out as the study is
// replayed.
type siteMoney struct {
	rates  *bill.Rates // with the prices of one day
	all    *bill.Rates // with all prices
	prices cal.Date    // that day; hasDay is set if the rates have dates at all
	hasDay bool
	meters []metered     // through which the site is watered, in the order of the scenario
	check  bill.Verdict  // how far bills that were received check the rates
	table  *tally.Table  // of the bills; nil before the replay
	bills  [][]bill.Bill // by strategy, in order of their dates
	sums   [][]meterSums // of the bills, by strategy and meter
	use    *meterUse     // that they price
	start  cal.Date      // of the record
}

// A metered is a meter of the account that waters zones of the site.
type metered struct {
	bill.Meter
	real []bill.Between // its real read periods; none for calendar months
}

// Price sets the rates of the study. meters are those of [Study.AccountMeters], reads
// those of the account, none if they are not known; matches compare bills, which are of
// them, with those that were received. An error is a [*diag.Error] at the place in the
// scenario.
func (l *Study) Price(rates *bill.Rates, meters []bill.Meter, reads []bill.Read, bills []bill.Bill, matches []bill.Match) error {
	own := l.Scenario.Money
	m := &siteMoney{rates: rates, all: rates}
	if m.prices, m.hasDay = rates.Newest(&rates.Account); own.Prices != nil {
		m.prices, m.hasDay = *own.Prices, true
	}
	var day *cal.Date
	if m.hasDay {
		m.rates, day = rates.AsOf(m.prices), &m.prices
	}
	m.check = bill.Checked
	for _, account := range meters {
		if !m.rates.Priced(&rates.Account, account) {
			pos := own.Pos
			if own.Prices != nil {
				pos = own.PricesPos
			}
			if !m.hasDay {
				return moneyError(diag.NoEffect, pos, "add a charge with part: water that applies to it, or correct account in the rates",
					"money: the rates have no charge for water at this meter")
			}
			return moneyError(diag.NoEffect, pos, "choose another day under prices, or add a charge with part: water",
				"money: on %v the rates have no charge for water at this meter", m.prices)
		}
		one := metered{Meter: account}
		for _, r := range reads {
			if r.Meter == account.Name && r.From >= l.Weather.Start && r.To <= l.Weather.End()+1 {
				one.real = append(one.real, bill.Between{From: r.From, To: r.To})
			}
		}
		if check := rates.CheckedFor(matches, bills, account.Name, day); m.check == bill.Checked {
			m.check = check
		}
		m.meters = append(m.meters, one)
	}
	l.money = m
	l.Measures = append(l.measures(), m.measure())
	return nil
}

// A meterUse adds up the water of each strategy through each meter by day, from the
// sheets of a replay.
type meterUse struct {
	m3      [][][]float64 // by strategy, meter and day
	meterOf []int         // of each zone
	at      int           // sheets come by strategy and zone
	day     []float64     // of one sheet
}

func newMeterUse(l *Study) *meterUse {
	if l.money == nil {
		return nil
	}
	u := &meterUse{m3: make([][][]float64, len(l.Job.Strategies))}
	for k := range u.m3 {
		u.m3[k] = make([][]float64, len(l.money.meters))
		for m := range u.m3[k] {
			u.m3[k][m] = make([]float64, l.Job.Weather.Days())
		}
	}
	for z := range l.Scenario.Zones {
		u.meterOf = append(u.meterOf, l.Scenario.Zones[z].Meter)
	}
	return u
}

// beside returns a sink that passes sheets to another, nil for none, and to u; u may
// be nil.
func (u *meterUse) beside(sink func(*replay.Sheet) error) func(*replay.Sheet) error {
	if u == nil {
		return sink
	}
	return func(s *replay.Sheet) error {
		if k := u.at / len(u.meterOf); k < len(u.m3) { // else a reference
			days := u.m3[k][u.meterOf[u.at%len(u.meterOf)]]
			u.day = s.AppendMetered(u.day[:0])
			for i, v := range u.day {
				days[i] += v
			}
		}
		u.at++
		if sink == nil {
			return nil
		}
		return sink(s)
	}
}

// volumePlaces is the number of decimals to which a volume of a period is taken
// from the replay [m³].
const volumePlaces = 6

// work works out the bills of every strategy.
func (m *siteMoney) work(u *meterUse, start cal.Date, t *tally.Table) {
	m.table, m.use, m.start = t, u, start
	for s := range u.m3 {
		bills := m.priced(s, 1)
		m.bills, m.sums = append(m.bills, bills), append(m.sums, m.summed(bills))
	}
}

// A meterSums is the sums of the bills of one meter.
type meterSums struct {
	all   bill.Sums
	years map[int]bill.Sums // by the year for which they count
}

// summed adds up bills by meter.
func (m *siteMoney) summed(bills []bill.Bill) []meterSums {
	out := make([]meterSums, len(m.meters))
	for k := range out {
		out[k].years = map[int]bill.Sums{}
		for i := range bills {
			b := &bills[i]
			if b.Meter != m.meters[k].Name {
				continue
			}
			year, own := m.yearOf(b), b.Sums()
			sum := out[k].years[year]
			sum.Add(own)
			out[k].years[year] = sum
			out[k].all.Add(own)
		}
	}
	return out
}

// priced returns the bills of strategy s with all its water multiplied by a factor.
func (m *siteMoney) priced(s int, factor float64) []bill.Bill {
	first := 1
	if m.table.South {
		first = 7
	}
	var reads []bill.Read
	for i, days := range m.use.m3[s] {
		reads = append(reads, m.reads(&m.meters[i], days, factor, first)...)
	}
	return m.rates.Bills(&m.rates.Account, reads)
}

// reads returns what a meter would read if the site used a multiple of the given water by
// day [m³], with its use indoors.
func (m *siteMoney) reads(meter *metered, days []float64, factor float64, firstMonth int) (reads []bill.Read) {
	start := m.start
	for _, p := range bill.Periods(start, start+cal.Date(len(days)), m.rates.Months, firstMonth, meter.real) {
		sum := 0.0
		for d := p.From; d < p.To; d++ {
			sum += days[d-start]
		}
		read := bill.Read{Meter: meter.Name, From: p.From, To: p.To}
		base := m.rates.BaseUse(meter.Meter, read.Days())
		read.Volume = money.Float(factor*sum, volumePlaces).Mul(liters).Div(m.rates.UnitL).Add(base)
		read.Indoor = &base
		reads = append(reads, read)
	}
	return reads
}

// liters is a cubic meter [L].
var liters = money.Int(1000)

// yearOf returns the year for which a bill counts: that of its middle day.
func (m *siteMoney) yearOf(b *bill.Bill) int {
	span := sim.Span{}
	span.Year, span.Month, _ = bill.Between{From: b.From, To: b.To}.Middle().YMD()
	return m.table.YearOf(&span)
}

// inYear reports whether bill b counts for the given year.
func (m *siteMoney) inYear(b *bill.Bill, year int) bool { return m.yearOf(b) == year }

// year returns the bills of strategy s in one year, 0 for all of the record.
func (m *siteMoney) year(s, year int) (sum bill.Sums) {
	for k := range m.meters {
		sum.Add(m.meterYear(s, k, year))
	}
	return sum
}

// meterYear does the same for one meter.
func (m *siteMoney) meterYear(s, meter, year int) bill.Sums {
	of := &m.sums[s][meter]
	if year == 0 {
		return of.all
	}
	return of.years[year]
}

// meterPerYear returns the parts of the mean yearly bill of one meter under strategy
// s, which add up to it, to the cent; without a whole year, of all days.
func (m *siteMoney) meterPerYear(s, meter int, b *tally.Basis) (sum bill.Sums) {
	if !b.Yearly() {
		return m.meterYear(s, meter, 0)
	}
	for _, y := range b.Years {
		sum.Add(m.meterYear(s, meter, y))
	}
	return sum.PerYear(len(b.Years))
}

// perYear does the same for all meters together: the sum of theirs.
func (m *siteMoney) perYear(s int, b *tally.Basis) (sum bill.Sums) {
	for k := range m.meters {
		sum.Add(m.meterPerYear(s, k, b))
	}
	return sum
}

// covered returns the bills of strategy s on the days that yearly figures cover.
func (m *siteMoney) covered(s int, b *tally.Basis) (sum bill.Sums) {
	if !b.Yearly() {
		return m.year(s, 0)
	}
	for _, y := range b.Years {
		sum.Add(m.year(s, y))
	}
	return sum
}

// savings returns what strategy s saves a year against the baseline: the mean, and
// the lowest and highest of the years that count.
func (m *siteMoney) savings(s int, b *tally.Basis) (low, mean, high money.Num) {
	base, own := m.perYear(m.table.Baseline, b), m.perYear(s, b)
	mean = base.Total().Sub(own.Total())
	low, high = mean, mean
	for _, y := range b.Years {
		was, is := m.year(m.table.Baseline, y), m.year(s, y)
		one := was.Total().Sub(is.Total())
		low, high = money.Min(low, one), money.Max(high, one)
	}
	return low, mean, high
}

// known reports whether the bills are those of table t and include strategy s.
func (m *siteMoney) known(t *tally.Table, s int) bool {
	return m != nil && m.table == t && s < len(m.bills)
}

// billKey is the key of the measure that only the bills of one replay have.
const billKey = "water_bill"

// measure is the column of comparisons.
func (m *siteMoney) measure() tally.Measure {
	return tally.Measure{
		Key: billKey, Title: "Water bill [" + m.rates.Currency + "]", Kind: tally.Number, Better: tally.Less, Lead: true,
		About: "whole water bill of the site's meters, with fixed charges and use indoors, in " + m.rates.Currency,
		In:    tally.InComparison | tally.InJSON,
		Whole: func(c *tally.Cells, s int, over tally.Over) float64 {
			if !m.known(c.Table, s) {
				return math.NaN()
			}
			var sums bill.Sums
			switch over {
			case tally.MedianYear, tally.DryYear:
				year := c.Ranked.Median
				if over == tally.DryYear {
					year = c.Ranked.Dry
				}
				if year == 0 {
					return math.NaN()
				}
				sums = m.year(s, year)
			case tally.PerYear:
				sums = m.perYear(s, &c.Basis)
			default:
				sums = m.covered(s, &c.Basis)
			}
			return sums.Total().Float64()
		},
		Views: []tally.View{{Over: tally.PerYear, Head: "bill\n[" + m.rates.Currency + "]\n%p",
			Front: "Water bill (" + m.rates.Currency + "/yr)"}},
	}
}

// projectOf returns the project of strategy s; nil for none.
func (l *Study) projectOf(s int) *scenarios.Project {
	for i := range l.Scenario.Money.Projects {
		p := &l.Scenario.Money.Projects[i]
		if s < len(l.Job.Strategies) && l.Job.Strategies[s].Name == l.Scenario.Strategies[p.Strategy].Name {
			return p
		}
	}
	return nil
}

// escalations are the yearly rises of water prices, above other prices, at which
// projects are shown: none, and two scenarios from the rise of bills in the United
// States over a decade (about 5.5% a year).
func escalations() []money.Num {
	return []money.Num{{}, money.Float(0.03, 3), money.Float(0.055, 3)}
}
