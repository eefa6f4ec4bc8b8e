package study

import (
	"context"
	"reflect"
	"slices"

	"loamledger/sim/bill"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// A Glancer replays studies one after another, for a page that answers each move of a
// slider: what a study has in common with the one before is not worked out again. The zero
// Glancer is ready. It is not safe for concurrent use.
type Glancer struct {
	runner replay.Runner
	bills  keptBills
}

// Glance replays the study's job without the checks of [Study.Replay]: the table has the
// same numbers. With rates it also works out the bills. The study must not be changed
// afterwards, and the table is valid until the next glance. An error is from ctx.
func (g *Glancer) Glance(ctx context.Context, l *Study) (*tally.Table, error) {
	job := l.Job
	job.Daily = l.money != nil
	t, err := g.runner.Repeat(ctx, &job)
	if err != nil {
		return nil, err
	}
	t.KeepYears()
	if l.money == nil {
		return t, nil
	}
	use := newMeterUse(l)
	for s := range job.Strategies {
		for z := range job.Zones {
			days := use.m3[s][use.meterOf[z]]
			for i, v := range g.runner.Daily(s, z) {
				days[i] += v
			}
		}
	}
	l.money.table, l.money.use, l.money.start = t, use, l.Weather.Start
	g.bills.fill(l.money)
	return t, nil
}

// keptBills are the bills of the study before, by strategy, and all that they follow from.
type keptBills struct {
	rates  *bill.Rates // nil for none
	meters []metered
	south  bool
	start  cal.Date
	use    *meterUse
	bills  [][]bill.Bill
	sums   [][]meterSums
}

// fill works out the bills of every strategy. Those of equal water at equal prices are
// those of before.
func (k *keptBills) fill(m *siteMoney) {
	same := k.rates != nil && k.start == m.start && k.south == m.table.South && reflect.DeepEqual(k.rates, m.rates) &&
		reflect.DeepEqual(k.meters, m.meters)
	m.bills, m.sums = nil, nil
	for s := range m.use.m3 {
		at := -1
		if same {
			at = slices.IndexFunc(k.use.m3, func(days [][]float64) bool { return slices.EqualFunc(days, m.use.m3[s], slices.Equal) })
		}
		if at >= 0 {
			m.bills, m.sums = append(m.bills, k.bills[at]), append(m.sums, k.sums[at])
			continue
		}
		bills := m.priced(s, 1)
		m.bills, m.sums = append(m.bills, bills), append(m.sums, m.summed(bills))
	}
	*k = keptBills{rates: m.rates, meters: m.meters, south: m.table.South, start: m.start, use: m.use, bills: m.bills, sums: m.sums}
}
