package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/bill"
	"loamledger/sim/draw"
	"loamledger/sim/money"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// Prices are drawn to so many decimals.
const pricePlaces = 9

// checkedDraws is the number of draws whose bills are worked out in full, too.
const checkedDraws = 8

// mostFull is the number of bills that may all be worked out in full: half a minute of one
// core for the slowest tariffs of the tests, and less for most.
const mostFull = 400_000

// A pricer prices the water of draws. Whole bills of exact decimals are too slow for
// every draw, so those of a billing period are read off a curve, which many draws and years
// share: see [bill.Curve]. It is of the billed volume, so that whole units can be carried.
// Where a bill depends on more than the water of its own meter and period, such as on a
// winter average, all bills are worked out in full if they are not too many; else the curve
// is that of the mean yearly bill, with all water of a strategy multiplied by a factor.
type pricer struct {
	*drawing
	m       *siteMoney
	doubts  []bill.Doubt
	ranges  []scenarios.Doubt // of doubts
	plain   *bill.Rates       // of curves: those of a period carry no whole units to the next
	ends    [][2]*bill.Rates  // by doubt: its lowest and highest value, all others as in the rates
	pairs   []pricePair       // of a percentage and what it may be of
	periods [][]pricedPeriod  // by meter
	full    bool              // all bills are worked out in full
	curves  map[string]*bill.Curve
	yearly  []*bill.Curve // by strategy, if whole years are priced
	meterOf []int         // by zone
	unitM3  float64       // a billing unit [m³]
}

// A pricePair is two numbers in doubt whose product is in a bill.
type pricePair struct {
	i, k int               // of the doubts
	ends [2][2]*bill.Rates // with the lowest and the highest value of each
}

// A pricedPeriod is a billing period of one meter.
type pricedPeriod struct {
	from, to cal.Date
	counts   bool    // in the years of yearly figures
	base     float64 // use indoors [billing units]
	curve    *bill.Curve
	spans    []spanPart
}

// A spanPart is the part of a span of the calendar that lies in a period.
type spanPart struct {
	span  int
	share []float64 // of the span's water, by strategy
}

// newPricer returns what prices draws; nil without rates.
func newPricer(d *drawing, draws int) *pricer {
	m := d.money
	if !m.known(d.table, 0) {
		return nil
	}
	p := &pricer{drawing: d, m: m, doubts: m.rates.Open(), ranges: m.doubts(), curves: map[string]*bill.Curve{},
		unitM3: m.rates.UnitL.Float64() / 1000}
	plain, apart := *m.rates, m.rates.Apart(len(m.meters))
	plain.WholeUnits = m.rates.WholeUnits && !apart // periods that stand alone are carried in [pricer.bills]
	p.plain = &plain
	for i := range p.doubts {
		o := &p.doubts[i]
		one := func(v money.Num) *bill.Rates { return p.plain.With([]bill.Doubt{*o}, []money.Num{v}) }
		p.ends = append(p.ends, [2]*bill.Rates{one(o.Low), one(o.High)})
	}
	p.findPairs()
	for z := range d.Scenario.Zones {
		p.meterOf = append(p.meterOf, d.Scenario.Zones[z].Meter)
	}
	p.layOut(apart)
	bills := 0
	for k := range p.periods {
		bills += draws * len(d.Job.Strategies) * len(p.periods[k])
	}
	if p.full = !apart && bills <= mostFull; !apart && !p.full {
		for st := range d.Job.Strategies {
			p.yearly = append(p.yearly, p.yearCurve(st))
		}
	}
	return p
}

// doubts returns what is in doubt about the rates, in the order of [bill.Rates.Open]: all
// prices of one charge are off together.
func (m *siteMoney) doubts() (out []scenarios.Doubt) {
	if m == nil {
		return nil
	}
	open := m.rates.Open()
	for i := range open {
		o := &open[i]
		d := scenarios.Doubt{Cause: fmt.Sprintf("rates: %v of %s", o.Of, o.Name), Key: o.Of.String(), Whose: o.Name, Given: true,
			Input: "rates." + o.Name + "." + o.Of.String(), Range: draw.Around(o.Low.Float64(), o.Mode.Float64(), o.High.Float64())}
		if o.Tier > 0 {
			d.Input += fmt.Sprintf(".tier %d", o.Tier)
		}
		if d.Replay = o.Mode.Float64(); o.Flat {
			d.Range = draw.Between(o.Low.Float64(), o.High.Float64())
		}
		out = append(out, scenarios.BareDoubt(d))
	}
	return out
}

// findPairs lists the percentages with the prices and amounts beside them: bills have their
// products, and no other ones.
func (p *pricer) findPairs() {
	for i := range p.doubts {
		for k := range p.doubts {
			if p.doubts[i].Of != bill.OfPercent || i == k || p.doubts[k].Of == bill.OfPercent && k < i {
				continue
			}
			pair, two := pricePair{i: i, k: k}, []bill.Doubt{p.doubts[i], p.doubts[k]}
			for a, of := range []money.Num{two[0].Low, two[0].High} {
				for b, other := range []money.Num{two[1].Low, two[1].High} {
					pair.ends[a][b] = p.plain.With(two, []money.Num{of, other})
				}
			}
			p.pairs = append(p.pairs, pair)
		}
	}
}

// off returns by how much the numbers of the rates are off in a world, and then the
// products of those that are pairs.
func (p *pricer) off(pick func(*scenarios.Doubt) float64) []float64 {
	var out []float64
	for i := range p.ranges {
		out = append(out, pick(&p.ranges[i])-p.doubts[i].Mode.Float64())
	}
	for _, pair := range p.pairs {
		out = append(out, out[pair.i]*out[pair.k])
	}
	return out
}

// layOut lays out the billing periods of every meter, with curves if asked.
func (p *pricer) layOut(curves bool) {
	m, first := p.m, 1
	if m.table.South {
		first = 7
	}
	days := cal.Date(p.Job.Weather.Days())
	for k := range m.meters {
		var list []pricedPeriod
		for _, b := range bill.Periods(m.start, m.start+days, m.rates.Months, first, m.meters[k].real) {
			of := bill.Bill{Read: bill.Read{From: b.From, To: b.To}}
			one := pricedPeriod{from: b.From, to: b.To,
				base: m.rates.BaseUse(m.meters[k].Meter, int(b.To-b.From)).Float64()}
			if curves {
				one.curve = p.curveOf(k, b)
			}
			one.counts = !p.basis.Yearly() || slices.ContainsFunc(p.basis.Years, func(y int) bool { return m.inYear(&of, y) })
			for i, span := range p.table.Spans {
				from, to := max(span.From, int(b.From-m.start)), min(span.To, int(b.To-m.start))
				if from < to {
					one.spans = append(one.spans, spanPart{i, p.shares(k, span.From, span.To, from, to)})
				}
			}
			list = append(list, one)
		}
		p.periods = append(p.periods, list)
	}
}

// shares returns which share of the water of the days start..end runs on from..to under
// each strategy, as in the replay; that of the days if none runs.
func (p *pricer) shares(meter, start, end, from, to int) (out []float64) {
	for s := range p.Job.Strategies {
		if from == start && to == end {
			out = append(out, 1)
			continue
		}
		sum := func(a, b int) (v float64) {
			for _, m3 := range p.m.use.m3[s][meter][a:b] {
				v += m3
			}
			return v
		}
		if all := sum(start, end); all > 0 {
			out = append(out, sum(from, to)/all)
		} else {
			out = append(out, float64(to-from)/float64(end-start))
		}
	}
	return out
}

// curveOf returns the curve of a meter and a period, which periods with equal days of the
// year share unless their bills differ by year.
func (p *pricer) curveOf(meter int, b bill.Between) *bill.Curve {
	key := fmt.Sprintf("%d %v %v", meter, b.From, b.To)
	if !p.plain.ByYear() {
		_, m, d := b.From.YMD()
		_, toM, toD := b.To.YMD()
		key = fmt.Sprintf("%d %d-%d %d-%d %d", meter, m, d, toM, toD, int(b.To-b.From))
	}
	if c := p.curves[key]; c != nil {
		return c
	}
	of, rates := &p.m.meters[meter], p.plain
	base := rates.BaseUse(of.Meter, int(b.To-b.From))
	read := bill.Read{Meter: of.Name, From: b.From, To: b.To, Indoor: &base}
	total := func(r *bill.Rates, units float64) float64 {
		own := read
		own.Volume = money.Float(units, volumePlaces)
		sums := bill.TotalOf(r.Bills(&r.Account, []bill.Read{own}))
		return sums.Total().Float64()
	}
	c := &bill.Curve{Unit: 8, Near: 0.02, Deep: 10}
	c.Bill = func(x float64) float64 { return total(rates, x) }
	c.Growth = func(x float64) []float64 { return p.growth(x, total) }
	p.curves[key] = c
	return c
}

// growth returns by how much a bill grows with each number in doubt, and with the products
// of pairs.
func (p *pricer) growth(x float64, total func(r *bill.Rates, x float64) float64) (out []float64) {
	for i := range p.doubts {
		out = append(out, (total(p.ends[i][1], x)-total(p.ends[i][0], x))/p.width(i))
	}
	for n := range p.pairs {
		e := &p.pairs[n].ends
		both := total(e[1][1], x) - total(e[1][0], x) - total(e[0][1], x) + total(e[0][0], x)
		out = append(out, both/float64(p.width(p.pairs[n].i)*p.width(p.pairs[n].k)))
	}
	return out
}

// width returns how wide the range of doubt i is.
func (p *pricer) width(i int) float64 { return p.doubts[i].High.Sub(p.doubts[i].Low).Float64() }

// yearCurve returns the curve of the mean yearly bill of a strategy.
func (p *pricer) yearCurve(st int) *bill.Curve {
	total := func(r *bill.Rates, factor float64) float64 {
		own := *p.m
		own.rates = r
		return own.meanBill(st, factor, &p.basis)
	}
	// Whole years take long, so less is asked of straight lines: the draws that are worked
	// out in full say how far they are off.
	c := &bill.Curve{Unit: 0.5, Near: 0.0005 * total(p.plain, 1), Deep: 5}
	c.Bill = func(x float64) float64 { return total(p.plain, x) }
	c.Growth = func(x float64) []float64 { return p.growth(x, total) }
	return c
}

// volumes returns the water of strategy st by meter and period of a world [m³].
func (p *pricer) volumes(st int, w *worldWater) [][]float64 {
	out := make([][]float64, len(p.periods))
	for k, list := range p.periods {
		out[k] = make([]float64, len(list))
		for i := range list {
			for _, part := range list[i].spans {
				out[k][i] += float64(part.share[st] * w.in(st, k, part.span))
			}
		}
	}
	return out
}

// bills returns the mean yearly bill of every strategy in a world.
func (p *pricer) bills(w *worldWater, off []float64) (out []float64) {
	if p.full {
		return p.inFull(w, off)
	}
	for st := range p.Job.Strategies {
		if p.yearly != nil {
			out = append(out, p.yearly[st].Of(w.factor(st), off))
			continue
		}
		sum := 0.0
		for k, list := range p.volumes(st, w) {
			carried := 0.0
			for i, v := range list {
				one := &p.periods[k][i]
				units := v/p.unitM3 + one.base
				if p.m.rates.WholeUnits {
					have := units + carried
					units = math.Floor(have)
					carried = have - units
				}
				if one.counts {
					sum += one.curve.Of(units, off)
				}
			}
		}
		out = append(out, sum/p.basis.Divisor())
	}
	return out
}

// inFull returns the mean yearly bill of every strategy in a world, worked out in full.
func (p *pricer) inFull(w *worldWater, off []float64) (out []float64) {
	values := make([]money.Num, len(p.doubts))
	for i := range values {
		values[i] = p.doubts[i].Mode.Add(money.Float(off[i], pricePlaces))
	}
	own := *p.m
	own.rates = p.m.rates.With(p.doubts, values)
	for st := range p.Job.Strategies {
		var reads []bill.Read
		for k, list := range p.volumes(st, w) {
			of := &p.m.meters[k]
			for i, v := range list {
				one := &p.periods[k][i]
				base := own.rates.BaseUse(of.Meter, int(one.to-one.from))
				reads = append(reads, bill.Read{Meter: of.Name, From: one.from, To: one.to, Indoor: &base,
					Volume: money.Float(v, volumePlaces).Mul(liters).Div(own.rates.UnitL).Add(base)})
			}
		}
		out = append(out, own.mean(own.rates.Bills(&own.rates.Account, reads), &p.basis))
	}
	return out
}

// A worldWater is the water of one world.
type worldWater struct {
	m3   [][][]float64 // by strategy, meter and span of the calendar
	year []float64     // by strategy, against the replay's
}

func (w *worldWater) in(st, meter, span int) float64 { return w.m3[st][meter][span] }
func (w *worldWater) factor(st int) float64          { return w.year[st] }

// water adds up the water of a world.
func (p *pricer) water(of *replay.World, t *tally.Table) *worldWater {
	w := &worldWater{}
	was, is := p.table.Compare(), t.Compare()
	for st := range p.Job.Strategies {
		meters := make([][]float64, len(p.m.meters))
		for k := range meters {
			meters[k] = make([]float64, len(p.table.Spans))
		}
		for z, months := range of.GrossMM[st] {
			for i, mm := range months {
				meters[p.meterOf[z]][i] += float64(mm / 1000 * of.Zones[z].AreaM2)
			}
		}
		factor := 1.0
		if was[st].M3PerYear > 0 {
			factor = is[st].M3PerYear / was[st].M3PerYear
		}
		w.m3, w.year = append(w.m3, meters), append(w.year, factor)
	}
	return w
}

// meanBill returns the bill of strategy s for a year of the basis, with all its water
// multiplied by a factor.
func (m *siteMoney) meanBill(s int, factor float64, b *tally.Basis) float64 {
	return m.mean(m.priced(s, factor), b)
}

// mean returns what bills are a year of the basis.
func (m *siteMoney) mean(bills []bill.Bill, b *tally.Basis) float64 {
	var sum bill.Sums
	for i := range bills {
		if !b.Yearly() || slices.ContainsFunc(b.Years, func(y int) bool { return m.inYear(&bills[i], y) }) {
			sum.Add(bills[i].Sums())
		}
	}
	return sum.Total().Float64() / b.Divisor()
}

// A drawnProject is what a project costs in one draw.
type drawnProject struct {
	cost, upkeep, discount float64
	years                  int
}

// projectsOf returns the projects of a drawn scenario, by strategy; nil for one without.
func (d *drawing) projectsOf(sc *scenarios.Scenario) []*drawnProject {
	if d.pricer == nil || len(sc.Money.Projects) == 0 {
		return nil
	}
	out := make([]*drawnProject, len(d.Job.Strategies))
	for i := range sc.Money.Projects {
		p := &sc.Money.Projects[i]
		mid := func(a, b money.Num) float64 { return (a.Float64() + b.Float64()) / 2 }
		out[p.Strategy] = &drawnProject{mid(p.CostLow, p.CostHigh), mid(p.UpkeepLow, p.UpkeepHigh), sc.Money.Discount.Float64(), p.Years}
	}
	return out
}

// npv returns the net present value of a project that saves so much a year, at prices that
// rise as others do:
//
//	NPV = Σ (saving − upkeep)/(1 + r)^t − cost,  t = 1..life
func (p *drawnProject) npv(saving float64) float64 {
	sum, down := -p.cost, 1.0
	for range p.years {
		down *= 1 + p.discount
		sum += (saving - p.upkeep) / down
	}
	return sum
}

// onlyMoney reports whether a cause moves money and no water.
func onlyMoney(d *scenarios.Doubt) bool {
	return strings.HasPrefix(d.Input, "rates.") || strings.HasPrefix(d.Input, "money.")
}
