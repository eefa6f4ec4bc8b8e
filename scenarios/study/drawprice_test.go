package study

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/scenarios/ratesfile"
	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/cal"
)

// pricedYard is the yard of [rangedYard] with water that has a price.
func pricedYard(tb testing.TB, rates string, changes ...string) (*Study, *tally.Table) {
	tb.Helper()
	sc := readYard(tb, strings.NewReplacer(changes...).Replace(yardText)+"\nmoney: {rates: rates.yaml}\n")
	w, err := Prepare(sc, Records{Parts: []*weather.Record{inventRecord(tb, 4)}})
	if err != nil {
		tb.Fatal(err)
	}
	return pricedStudy(tb, sc, w, readRates(tb, rates))
}

func readRates(tb testing.TB, text string) *bill.Rates {
	tb.Helper()
	rates, err := ratesfile.Read(strings.NewReader(text), "rates.yaml")
	if err != nil {
		tb.Fatal(err)
	}
	return rates
}

// pricedStudy sets up a scenario with rates and replays it.
func pricedStudy(tb testing.TB, sc *scenarios.Scenario, w *Weather, rates *bill.Rates) (*Study, *tally.Table) {
	tb.Helper()
	l, err := New(sc, w, nil)
	if err != nil {
		tb.Fatal(err)
	}
	if rates.NeedsETo() {
		rates.WithETo(l.Job.Weather.Start, l.Job.Weather.EToMM)
	}
	meters, err := l.AccountMeters(rates)
	if err != nil {
		tb.Fatal(err)
	}
	if err := l.Price(rates, meters, nil, nil, nil); err != nil {
		tb.Fatal(err)
	}
	t, err := l.Replay(context.Background(), nil)
	if err != nil {
		tb.Fatal(err)
	}
	return l, t
}

// billOf returns the spread of the yearly bill of strategy s, and the replay's.
func billOf(r *plots.Ranges, s int) (p10, p50, p90, point float64) {
	for i := range r.Spreads {
		if of := &r.Spreads[i]; of.Figure.Measure.Key == billKey {
			return of.Of[s].P10, of.Of[s].P50, of.Of[s].P90, of.Point[s]
		}
	}
	return math.NaN(), math.NaN(), math.NaN(), math.NaN()
}

const flatRates = `name: flat
currency: USD
unit: m3
charges: [{name: water, part: water, price: PRICE}]
account: {meters: [{use: irrigation}]}
`

// TestFlatPriceAgainstItsClosedForm: run times are fixed and areas exact, so the water of
// the baseline is the same in all draws, and its bill is water times price. Of a price flat
// from 8 to 12, a tenth of the draws lies below 8.4, half below 10 and nine tenths below
// 11.6; of a triangle 8, 9, 12, below 8 + sqrt(0.1·4·1) = 8.632, 12 − sqrt(0.5·4·3) =
// 9.551 and 12 − sqrt(0.1·4·3) = 10.905.
func TestFlatPriceAgainstItsClosedForm(t *testing.T) {
	for price, want := range map[string][4]float64{"8 to 12": {8.4, 10, 11.6, 10}, "8 to 9 to 12": {8.632, 9.551, 10.905, 9}} {
		l, table := pricedYard(t, strings.Replace(flatRates, "PRICE", price, 1))
		r := drawn(t, l, table, DrawOptions{Draws: 500, Workers: 2})
		water := table.Compare()[table.Baseline].M3PerYear
		p10, p50, p90, point := billOf(r, table.Baseline)
		for i, got := range []float64{p10, p50, p90, point} {
			if math.Abs(got/water-want[i]) > 0.04 { // 1% of the range
				t.Errorf("price %s: %d: %v a m³, want %v", price, i, got/water, want[i])
			}
		}
		if r.FullBills != checkedDraws || r.BillOff > 0.25 {
			t.Errorf("price %s: %d in full, off by %v", price, r.FullBills, r.BillOff)
		}
		if r.Priced {
			t.Error("the notes say that prices are not drawn")
		}
	}
}

// TestPriceMovesMoneyAndNoWater: a price is in the table of money, as a price that nobody
// measures, and moves no water.
func TestPriceMovesMoneyAndNoWater(t *testing.T) {
	l, table := pricedYard(t, strings.Replace(flatRates, "PRICE", "5 to 15", 1),
		"\n  - {name: refill when due, refill: {mad: 50 %}}", "")
	r := drawn(t, l, table, DrawOptions{Draws: 300, Workers: 2})
	found := false
	for i := range r.Swings {
		if w := &r.Swings[i]; w.What == "price, water" {
			found = true
			// The tenth of 5 to 15 is 6 and its nine tenths 14, so the saving is in that
			// proportion.
			if w.SavingM3[0] != w.SavingM3[1] || math.Abs(w.Bill[1]/w.Bill[0]-14.0/6) > 0.01 {
				t.Errorf("%+v", w)
			}
		}
	}
	if !found {
		t.Fatal("no price among the inputs")
	}
	for _, m := range r.Settle {
		if m.Price {
			t.Errorf("a price explains water: %+v", m)
		}
	}
	if len(r.SettleBill) == 0 || !r.SettleBill[0].Price || r.SettleBill[0].How != "" || r.SettleBill[0].Share < 0.9 {
		t.Errorf("what settles money: %+v", r.SettleBill)
	}
}

// TestMoneyOnAnyNumberOfGoroutines: money of the draws is the same to the last bit on one
// goroutine and on three, with prices and settings in doubt.
func TestMoneyOnAnyNumberOfGoroutines(t *testing.T) {
	of := func(workers int) *plots.Ranges {
		l, table := pricedYard(t, tieredRates, "front: 12,", "front: 10 to 14,", "mad: 50 %", "mad: 40% to 60%")
		r := drawn(t, l, table, DrawOptions{Draws: 120, Workers: workers})
		return r
	}
	one, three := of(1), of(3)
	if *one.Bill != *three.Bill || one.BillOff != three.BillOff {
		t.Errorf("%+v and %+v", one.Bill, three.Bill)
	}
	for i := range one.Swings {
		if one.Swings[i] != three.Swings[i] {
			t.Errorf("%+v and %+v", one.Swings[i], three.Swings[i])
		}
	}
}

const tieredRates = `name: tiers
currency: USD
unit: m3
charges:
  - {name: service, part: fixed, amount: 10 to 14}
  - {name: water, part: water, tiers: [{to: 5, price: 1.50}, {to: 12, price: 3 to 4}, {price: 6 to 9}]}
  - {name: tax, part: surcharge, percent: 5% to 10%, of: [water]}
account: {indoor: 60 gal, meters: [{use: mixed}]}
`

// structures are one tariff of each kind whose bills follow other rules.
var structures = map[string]string{
	"tiers": tieredRates,
	"whole units": `name: whole
currency: USD
unit: HCF
whole_units: true
charges: [{name: water, part: water, tiers: [{to: 2, price: 2}, {to: 5, price: 4}, {price: 9}]}]
account: {indoor: 50 gal, meters: [{use: mixed}]}
`,
	"minimum": `name: minimum
currency: USD
unit: kgal
charges:
  - {name: least, part: fixed, minimum: 20, covers: 2, of: [water]}
  - {name: water, part: water, tiers: [{to: 4, price: 4 to 6}, {price: 8}]}
account: {meters: [{use: irrigation}]}
`,
	"seasons": `name: seasons
currency: USD
unit: kgal
charges:
  - {name: water, part: water, season: {from: 05-15, to: 10-14}, tiers: [{to: 3, price: 5 to 7}, {price: 11}]}
  - {name: water, part: water, season: {from: 10-15, to: 05-14}, price: 4}
account: {meters: [{use: irrigation}]}
`,
	"winter average": `name: winter
currency: USD
unit: kgal
charges:
  - {name: water, part: water, tiers: [{to: 4, price: 4}, {price: 8 to 10}]}
  - {name: sewer, part: sewer, volume: lesser, winter: {months: [dec, jan, feb], from: 04-01, default: 4}, price: 5}
account: {indoor: 100 gal, meters: [{use: mixed}]}
`,
	"two months": `name: two months
currency: USD
unit: HCF
period: {days: 61, months: 2}
charges: [{name: water, part: water, tiers: [{to: 8, price: 2}, {to: 20, price: 4}, {price: 9}]}]
account: {indoor: 50 gal, meters: [{use: mixed}]}
`,
}

// TestBillsOfDrawsAreThoseOfTrueSites: sites drawn from the ranges, each set up and
// replayed as a scenario of its own with its own prices and billed to the cent, have the
// bills that the draws read off. In these, the largest difference is below 0.03% of a
// yearly bill, or a cent a bill, whatever the tariff, tier edges in the middle of all
// that is drawn.
func TestBillsOfDrawsAreThoseOfTrueSites(t *testing.T) {
	const exact = "units: si\nranges: {eto: 99.9999% to 100.0001%, rain: 99.9999% to 100.0001%}"
	for name, text := range structures {
		l, table := pricedYard(t, text, "rate: 35 mm/h", "rate: 25 to 45 mm/h", "front: 12,", "front: 8 to 16,", "units: si", exact)
		d := &drawing{Study: l, ctx: context.Background(), options: DrawOptions{Workers: 1}, table: table, basis: table.Basis()}
		d.causes = causesOf(l.doubts(), 1000)
		d.figures = d.basis.Figures(tally.FrontFigures(l.measures()))
		d.option, d.own = l.verdictData(table).Option(), d.ownNumbers()
		d.pricer = newPricer(d, 1000)
		const sites = 12
		random, places := rand.New(rand.NewPCG(3, 3)), make([]map[string]float64, sites)
		for i := range places {
			places[i] = map[string]float64{}
			for k := range d.list {
				places[i][d.list[k].Cause] = random.Float64()
			}
		}
		pick := func(i int) func(*scenarios.Doubt) float64 {
			return func(of *scenarios.Doubt) float64 { return of.Range.At(places[i][of.Cause]) }
		}
		d.worlds = replay.NewWorlds(&l.Job, table)
		d.worlds.Anew, d.worlds.Monthly = true, true
		samples, err := d.run(sites, 0, pick)
		if err != nil {
			t.Fatal(err)
		}
		worst := 0.0
		for i := range samples {
			sc, err := l.Scenario.Drawn(pick(i))
			if err != nil {
				t.Fatal(err)
			}
			w, err := Prepare(sc, Records{Parts: []*weather.Record{inventRecord(t, 4)}})
			if err != nil {
				t.Fatal(err)
			}
			rates := readRates(t, text)
			var values []float64
			for k := range d.pricer.ranges {
				values = append(values, pick(i)(&d.pricer.ranges[k]))
			}
			truth, replayed := pricedStudy(t, sc, w, rates.With(rates.Doubts, numbers(values)))
			basis := replayed.Basis()
			for s := range l.Job.Strategies {
				full := truth.money.perYear(s, &basis)
				worst = max(worst, math.Abs(samples[i].bills[s]/full.Total().Float64()-1))
			}
		}
		t.Logf("%s: bills differ by at most %.3f%%", name, 100*worst)
		if worst > 0.0003 {
			t.Errorf("%s: bills differ by up to %.3f%%", name, 100*worst)
		}
	}
}

// TestBillCurveAtTierEdges: at, just below and just above each edge of a tier, and in the
// middle of each, a curve of bills is within five cents of the whole bill: it is halved where
// its middle is off by two, and an edge can be off by twice that.
func TestBillCurveAtTierEdges(t *testing.T) {
	for _, name := range []string{"block", "steep", "seasonal", "sizes", "minimum", "budget", "lots"} {
		text, err := os.ReadFile("../ratesfile/testdata/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		rates := readRates(t, string(text))
		rates.WholeUnits = false
		p := &pricer{m: &siteMoney{rates: rates}, plain: rates, curves: map[string]*bill.Curve{}}
		for _, meter := range rates.Account.Meters {
			if meter.Use == bill.DeductUse || !rates.Priced(&rates.Account, meter) || !rates.Apart(1) {
				continue
			}
			p.m.meters = []metered{{Meter: meter}}
			p.curves = map[string]*bill.Curve{}
			for month := 1; month <= 12; month++ {
				b := bill.Between{From: cal.Of(2023, month, 1), To: cal.Of(2023+month/12, month%12+1, 1)}
				c := p.curveOf(0, b)
				for _, edge := range edges(rates) {
					for _, x := range []float64{edge, edge - 0.01, edge + 0.01, edge / 2, 1.37 * edge} {
						want := c.Bill(x)
						if got := c.Of(x, nil); math.Abs(got-want) > 0.05 {
							t.Errorf("%s, month %d: %v units cost %v, the curve says %v", name, month, x, want, got)
						}
					}
				}
			}
		}
	}
}

func numbers(values []float64) (out []money.Num) {
	for _, v := range values {
		out = append(out, money.Float(v, pricePlaces))
	}
	return out
}

// edges returns the bounds of all tiers that are numbers of units, and a few amounts beside
// them.
func edges(r *bill.Rates) []float64 {
	out := []float64{3, 70}
	for _, c := range r.Charges {
		below := 0.0
		for _, tier := range c.Tiers {
			for _, b := range []*bill.Bound{tier.To, tier.Width} {
				if b == nil {
					continue
				}
				for _, term := range b.Terms {
					if term.Of == bill.Units {
						below = max(below, term.Share.Float64())
						out = append(out, below)
					}
				}
			}
		}
	}
	return out
}
