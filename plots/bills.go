package plots

import (
	"fmt"
	"math"
	"strings"
)

// Bills are the water bills of the strategies, estimated, as the charts show them.
// Amounts are in Currency, and those a year follow the basis of the comparison.
type Bills struct {
	Currency   string
	Note       string // whose prices these are, and whether they are checked
	Parts      []BillPart
	Strategies []StrategyBills // without the references
}

// A BillPart is one part of a bill, in the order in which parts are stacked.
type BillPart struct {
	Name string
	Role Role
	Top  bool // the part that watering changes first: water used outdoors
}

// StrategyBills are the bills of one strategy.
type StrategyBills struct {
	Parts  []float64     // a year, in whole cents
	Months [][12]float64 // of each part, by calendar month of an average year
	Years  []float64     // whole bills, by year in the order of the ranking
}

// total returns the whole bill a year.
func (b *StrategyBills) total() float64 {
	sum := 0.0
	for _, v := range b.Parts {
		sum += v
	}
	return math.Round(100*sum) / 100
}

// cents writes an amount to the cent.
func cents(v float64) string { return fixed(v, 2) }

// amount writes an amount without cents, with the currency.
func (b *Bills) amount(v float64) string { return b.Currency + " " + fixed(v, 0) }

// outdoors returns the index of the part that watering changes first.
func (b *Bills) outdoors() int {
	for i := range b.Parts {
		if b.Parts[i].Top {
			return i
		}
	}
	return 0
}

// BillCharts returns the charts of the bills; none without bills.
func BillCharts(s *Study) []Chart {
	if s.Bills == nil {
		return nil
	}
	out := []Chart{billMonths(s)}
	if len(s.Bills.Strategies) > 1 {
		out = append(out, billBridge(s))
	}
	if len(s.Table.RankYears().Years) > 1 {
		out = append(out, billYears(s))
	}
	return out
}

// billMonths returns the bills by month, split into their parts: a panel for each
// strategy.
func billMonths(s *Study) Chart {
	b := s.Bills
	c := s.frame(BillMonthsKind, "bill-by-month", "The water bill by month and part")
	high := 0.0
	var alt []string
	for st := range b.Strategies {
		one := &b.Strategies[st]
		p := Panel{Title: s.Table.Strategies[st]}
		var base [12]float64
		for i, part := range b.Parts {
			bars := Series{Form: Bars, Role: part.Role, Width: 0.76}
			for m := range 12 {
				v := max(one.Months[i][m], 0)
				bars.X = append(bars.X, float64(m+1))
				bars.Base = append(bars.Base, base[m])
				base[m] += v
				bars.Y = append(bars.Y, base[m])
				high = max(high, base[m])
			}
			if one.Parts[i] != 0 {
				p.Series = append(p.Series, bars)
			}
		}
		p.Note = b.amount(one.total()) + " " + s.per()
		alt = append(alt, p.Title+": "+p.Note+" ("+b.partsText(one)+")")
		c.Panels = append(c.Panels, p)
	}
	for i := range b.Parts {
		for st := range b.Strategies {
			if b.Strategies[st].Parts[i] != 0 {
				c.Keys = append(c.Keys, Key{Form: Bars, Role: b.Parts[i].Role, Label: b.Parts[i].Name})
				break
			}
		}
	}
	c.X = monthAxis()
	c.Y = scaleTo("water bill", b.Currency+"/month", high, 5)
	c.Columns, c.HeightPt = columns(len(c.Panels)), 92
	base := &b.Strategies[s.base()]
	c.See = fmt.Sprintf("Water outdoors is %s of the bill with %s, %s of %s %s; watering less cannot lower the rest by much.",
		percent(base.Parts[b.outdoors()]/base.total()), quote(s.Table.Strategies[s.base()]), b.amount(base.Parts[b.outdoors()]),
		b.amount(base.total()), s.per())
	if !(base.total() > 0) {
		c.See = "The baseline has no bill."
	}
	c.Alt = "Bar charts of the water bill by month, split into its parts, one chart per strategy. " + strings.Join(alt, ". ") + "."
	basis := s.Table.Basis()
	c.Notes = []string{basis.Sentence() + " A bill counts for the months of its days. " + b.Note}
	return c
}

// partsText lists the parts of a bill that are not 0.
func (b *Bills) partsText(one *StrategyBills) string {
	var parts []string
	for i, v := range one.Parts {
		if v != 0 {
			parts = append(parts, b.Parts[i].Name+" "+fixed(v, 0))
		}
	}
	return strings.Join(parts, ", ")
}

// billYears returns the whole bills of each year, from the wettest to the driest.
func billYears(s *Study) Chart {
	b := s.Bills
	c := s.frame(BillYearsKind, "bill-by-year", "The water bill by year, from the wettest to the driest")
	high := 0.0
	var alt []string
	var widest, narrowest leader
	ranked := s.Table.RankYears()
	for st := range b.Strategies {
		one := &b.Strategies[st]
		p := Panel{Title: s.Table.Strategies[st]}
		bars := Series{Form: Bars, Role: WholeBill, Width: 0.76}
		low, top := math.Inf(1), 0.0
		for i, v := range one.Years {
			bars.X, bars.Y = append(bars.X, float64(i+1)), append(bars.Y, v)
			low, top = min(low, v), max(top, v)
		}
		high = max(high, top)
		mean := Series{Form: Rule, Role: Need, Y: []float64{one.total()}}
		p.Series = []Series{bars, mean}
		p.Note = fmt.Sprintf("%s to %s, mean %s", fixed(low, 0), fixed(top, 0), fixed(one.total(), 0))
		alt = append(alt, p.Title+": "+p.Note)
		widest.offer(st, math.Round(top-low), more)
		narrowest.offer(st, math.Round(top-low), fewer)
		c.Panels = append(c.Panels, p)
	}
	c.X = s.yearAxis(&ranked, len(c.Panels))
	c.Y = scaleTo("water bill", b.Currency+"/year", high, 5)
	c.Columns, c.HeightPt = columns(len(c.Panels)), 92
	c.Keys = []Key{{Form: Bars, Role: WholeBill, Label: "bill of the year"}, {Form: Line, Role: Need, Label: "mean"}}
	c.See = fmt.Sprintf("With the same prices, weather and days move the bill by %s from year to year with %s, and by %s with %s.",
		b.amount(widest.value), widest.names(s.Table.Strategies), b.amount(narrowest.value), narrowest.names(s.Table.Strategies))
	if widest.value == narrowest.value {
		c.See = fmt.Sprintf("With the same prices, weather and days move the bill by %s from year to year.", b.amount(widest.value))
	}
	c.Alt = "Bar charts of the water bill by year with its mean, one chart per strategy. " + strings.Join(alt, ". ") + "."
	c.Notes = []string{fmt.Sprintf("Whole years, ranked by 0.8 ETo less effective rain: wet %s, median %s, dry %s. A bill counts for the "+
		"year of its middle day. ", ranked.Name(ranked.Wet), ranked.Name(ranked.Median), ranked.Name(ranked.Dry)) + b.Note}
	return c
}
