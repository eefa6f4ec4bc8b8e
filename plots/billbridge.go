package plots

import (
	"fmt"
	"math"
	"strings"
)

// A lane is one bar of a bridge.
type lane struct {
	name     string
	low, top float64
	role     Role
	amount   string
}

// billBridge returns the way from the bill of the baseline to that of each other
// strategy, part by part, in whole cents.
func billBridge(s *Study) Chart {
	b := s.Bills
	c := s.frame(BillBridgeKind, "bill-bridge", "From the bill now to the bill of each option, by part")
	from := &b.Strategies[s.base()]
	high := from.total()
	var most leader
	var alt []string
	used := map[Role]bool{}
	for st := range b.Strategies {
		if st == s.base() {
			continue
		}
		to := &b.Strategies[st]
		saved := math.Round(100*(from.total()-to.total())) / 100
		most.offer(st, saved, more)
		p := Panel{Title: s.Table.Strategies[st], Note: fmt.Sprintf("saves %s %s %s", b.Currency, cents(saved), s.per())}
		if saved < 0 {
			p.Note = fmt.Sprintf("costs %s %s more %s", b.Currency, cents(-saved), s.per())
		}
		y := Axis{Plain: true}
		lanes := []lane{{"now", 0, from.total(), WholeBill, cents(from.total())}}
		at := from.total()
		for i := range b.Parts {
			change := math.Round(100*(to.Parts[i]-from.Parts[i])) / 100
			if change == 0 {
				continue
			}
			role, sign := BillFalls, ""
			if change > 0 {
				role, sign = BillRises, "+"
			}
			lanes = append(lanes, lane{b.Parts[i].Name, min(at, at+change), max(at, at+change), role, sign + cents(change)})
			used[role] = true
			high = max(high, at, at+change)
			at += change
		}
		lanes = append(lanes, lane{"with this", 0, to.total(), WholeBill, cents(to.total())})
		high = max(high, to.total())
		for i, l := range lanes {
			place := float64(len(lanes) - 1 - i)
			p.Series = append(p.Series, Series{Form: Spans, Role: l.role, X: []float64{l.top}, Base: []float64{l.low}, Y: []float64{place},
				Width: 0.72})
			y.Ticks = append(y.Ticks, Tick{At: place, Label: l.name + " " + l.amount})
		}
		y.Min, y.Max = -0.5, float64(len(lanes))-0.5
		p.Y = &y
		alt = append(alt, p.Title+" "+p.Note)
		c.Panels = append(c.Panels, p)
	}
	c.X = scaleTo("water bill", b.Currency+"/"+s.each(), high, 5)
	c.X.Once = true
	c.Y = Axis{Min: -0.5, Max: 3.5, Plain: true}
	c.Columns, c.HeightPt = 1, 74
	c.Keys = []Key{{Form: Bars, Role: WholeBill, Label: "whole bill"}}
	for _, k := range []Key{{Form: Bars, Role: BillFalls, Label: "falls"}, {Form: Bars, Role: BillRises, Label: "rises"}} {
		if used[k.Role] {
			c.Keys = append(c.Keys, k)
		}
	}
	c.See = fmt.Sprintf("The largest saving is %s %s %s, with %s. Parts that are not shown stay the same.", b.Currency,
		cents(most.value), s.per(), most.names(s.Table.Strategies))
	if most.value <= 0 {
		c.See = "No option lowers the bill. Parts that are not shown stay the same."
	}
	c.Alt = "Bars from the bill of the baseline to that of each other strategy, with a bar for each part. " + strings.Join(alt, ". ") + "."
	basis := s.Table.Basis()
	c.Notes = []string{"Now: " + quote(s.Table.Strategies[s.base()]) + ". " + basis.Sentence() +
		" Each change is the difference of two whole bills, and changes add up to the cent. " + b.Note}
	return c
}
