package study

import (
	"fmt"
	"math"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// Money prices the water of a study. Its bills are worked out as the study is
// replayed.
type Money struct {
	Rates   *bill.Rates // with the prices of one day
	Prices  cal.Date    // that day; HasDay is set if the rates have dates at all
	HasDay  bool
	Meter   bill.Meter     // through which the site is watered
	Real    []bill.Between // real read periods of the meter; none for calendar months
	Checked bool           // the rates reproduce a real bill to the cent
	table   *tally.Table   // of the bills; nil before the replay
	bills   [][]bill.Bill  // by strategy, in order of their dates
	use     *meterUse      // that they price
	start   cal.Date       // of the record
}

// Price sets the rates of the study. reads are those of the account, none if
// they are not known; checked is set if the rates reproduce real bills. An error is
// a [*diag.Error] at the place in the scenario.
func (l *Study) Price(rates *bill.Rates, reads []bill.Read, checked bool) error {
	own := l.Scenario.Money
	fault := func(code diag.Code, pos diag.Pos, fix, format string, args ...any) error {
		return &diag.Error{Code: code, Pos: pos, Msg: fmt.Sprintf(format, args...), Fix: fix}
	}
	m := &Money{Checked: checked}
	var ok bool
	if m.Meter, ok = rates.Account.Meter(own.Meter); !ok {
		var names []string
		for _, o := range rates.Account.Meters {
			names = append(names, o.Name)
		}
		fix, pos := "write one of: "+strings.Join(names, ", "), own.MeterPos
		if own.Meter == "" {
			return fault(diag.MissingKey, own.Pos, "add meter, through which the site is watered: "+strings.Join(names, ", "),
				"money: the account in the rates has %d meters", len(names))
		}
		return fault(diag.UnknownName, pos, fix, "money: the account in the rates has no meter %q", own.Meter)
	}
	switch {
	case m.Meter.Use == bill.DeductUse:
		return fault(diag.Conflict, own.Pos, "name the meter that is billed", "money: meter %q is a deduct meter, which has no bill",
			m.Meter.Name)
	case m.Meter.Use == bill.Mixed && rates.Account.IndoorL.Sign() == 0:
		return fault(diag.MissingKey, own.Pos, "add account: {indoor: 150 gal}, the use indoors a day, to the rates; "+
			"or use: irrigation to the meter",
			"money: the meter also serves the house, and how much is not given; the price of water outdoors depends on it")
	}
	if m.Prices, m.HasDay = rates.Newest(); own.Prices != nil {
		m.Prices, m.HasDay = *own.Prices, true
	}
	m.Rates = rates
	if m.HasDay {
		m.Rates = rates.AsOf(m.Prices)
	}
	if !m.Rates.Priced(&rates.Account, m.Meter) {
		pos := own.Pos
		if own.Prices != nil {
			pos = own.PricesPos
		}
		return fault(diag.NoEffect, pos, "choose another day under prices, or add a charge with part: water",
			"money: on %v the rates have no charge for water at this meter", m.Prices)
	}
	for _, r := range reads {
		if r.Meter == m.Meter.Name {
			m.Real = append(m.Real, bill.Between{From: r.From, To: r.To})
		}
	}
	l.Money = m
	l.Measures = append(l.measures(), m.measure())
	return nil
}

// A meterUse adds up the water of each strategy by day, from the sheets of a
// replay.
type meterUse struct {
	m3        [][]float64 // by strategy, then day
	zones, at int         // sheets come by strategy and zone
}

func newMeterUse(l *Study) *meterUse {
	if l.Money == nil {
		return nil
	}
	u := &meterUse{m3: make([][]float64, len(l.Job.Strategies)), zones: len(l.Job.Zones)}
	for k := range u.m3 {
		u.m3[k] = make([]float64, l.Job.Weather.Days())
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
		if k := u.at / u.zones; k < len(u.m3) { // else a reference
			for i, dose := range s.Trace.Dose {
				if dose != 0 {
					u.m3[k][i] += s.Plan.Doses[dose].GrossMM / 1000 * s.Zone.AreaM2
				}
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
func (m *Money) work(u *meterUse, start cal.Date, t *tally.Table) {
	m.table, m.use, m.start = t, u, start
	for k := range u.m3 {
		m.bills = append(m.bills, m.priced(k, 1))
	}
}

// priced returns the bills of strategy s with all its water multiplied by a factor.
func (m *Money) priced(s int, factor float64) []bill.Bill {
	first, start, days := 1, m.start, m.use.m3[s]
	if m.table.South {
		first = 7
	}
	var reads []bill.Read
	for _, p := range bill.Periods(start, start+cal.Date(len(days)), m.Rates.Months, first, m.Real) {
		sum := 0.0
		for d := p.From; d < p.To; d++ {
			sum += days[d-start]
		}
		read := bill.Read{Meter: m.Meter.Name, From: p.From, To: p.To}
		base := money.Num{}
		if m.Meter.Use == bill.Mixed {
			base = m.Rates.BaseUse(read.Days())
		}
		read.Volume = money.Float(factor*sum, volumePlaces).Mul(liters).Div(m.Rates.UnitL).Add(base)
		read.Indoor = &base
		reads = append(reads, read)
	}
	return m.Rates.Bills(&m.Rates.Account, reads)
}

// liters is a cubic meter [L].
var liters = money.Int(1000)

// inYear reports whether bill b counts for the given year: its middle day is in it.
func (m *Money) inYear(b *bill.Bill, year int) bool {
	from, to := tally.YearSpan(year, m.table.South)
	middle := bill.Between{From: b.From, To: b.To}.Middle()
	return middle >= from && middle < to
}

// year returns the bills of strategy s in one year, 0 for all of the record.
func (m *Money) year(s, year int) (sum bill.Sums) {
	for i := range m.bills[s] {
		if b := &m.bills[s][i]; year == 0 || m.inYear(b, year) {
			sum.Add(b.Sums())
		}
	}
	return sum
}

// covered returns the bills of strategy s on the days that yearly figures cover,
// and the number of years they are divided by.
func (m *Money) covered(s int, b *tally.Basis) (sum bill.Sums, years int) {
	if !b.Yearly() {
		return m.year(s, 0), 1
	}
	for _, y := range b.Years {
		sum.Add(m.year(s, y))
	}
	return sum, len(b.Years)
}

// perYear returns the parts of the mean yearly bill of strategy s, which add up to
// it, to the cent.
func (m *Money) perYear(s int, b *tally.Basis) bill.Sums {
	sum, years := m.covered(s, b)
	return sum.PerYear(years)
}

// savings returns what strategy s saves a year against the baseline: the mean, and
// the lowest and highest of the years that count.
func (m *Money) savings(s int, b *tally.Basis) (low, mean, high money.Num) {
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
func (m *Money) known(t *tally.Table, s int) bool {
	return m != nil && m.table == t && s < len(m.bills)
}

// billKey is the key of the measure that only the bills of one replay have.
const billKey = "water_bill"

// measure is the column of comparisons.
func (m *Money) measure() tally.Measure {
	return tally.Measure{
		Key: billKey, Title: "Water bill [" + m.Rates.Currency + "]", Kind: tally.Number, Better: tally.Less, Lead: true,
		About: "whole water bill of the meter, with fixed charges and use indoors, in " + m.Rates.Currency,
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
				sums, _ = m.covered(s, &c.Basis)
			}
			return sums.Total().Float64()
		},
		Views: []tally.View{{Over: tally.PerYear, Head: "bill\n[" + m.Rates.Currency + "]\n%p",
			Front: "Water bill (" + m.Rates.Currency + "/yr)"}},
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
