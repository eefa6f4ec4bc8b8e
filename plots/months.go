package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/tally"
	"loamledger/weather/portable"
)

// Months returns the water applied and needed by month: a panel for each
// strategy, area-weighted mean depth in an average year.
func Months(s *Study) Chart {
	c := s.frame(MonthsKind, "water-by-month", "Water applied and needed, by month")
	u := s.Units
	fall := s.monthly(s.base(), monthRain)
	high := 0.0
	var over, under monthLeader
	for m := range 12 {
		high = max(high, u.depth(fall[m]))
		if s.Metered != nil && !math.IsNaN(s.Metered[m]) {
			high = max(high, u.depth(s.Metered[m]))
		}
		if s.Allowance != nil {
			high = max(high, u.depth(s.Allowance.MonthMM[m]))
		}
	}
	var alt []string
	for st := range s.own() {
		applied, need := s.monthly(st, monthGross), s.monthly(s.Table.LeastRow(st), monthGross)
		p := Panel{Title: s.Table.Strategies[st]}
		total, needed := 0.0, 0.0
		bars := Series{Form: Bars, Role: Applied, Width: 0.72}
		line := Series{Form: Steps, Role: Need, Width: 1}
		drops := Series{Form: Steps, Role: RainFall, Width: 1}
		for m := range 12 {
			x := float64(m + 1)
			bars.X, bars.Y = append(bars.X, x), append(bars.Y, u.depth(applied[m]))
			line.X, line.Y = append(line.X, x), append(line.Y, u.depth(need[m]))
			drops.X, drops.Y = append(drops.X, x), append(drops.Y, u.depth(fall[m]))
			high = max(high, u.depth(applied[m]), u.depth(need[m]))
			total, needed = total+applied[m], needed+need[m]
			over.offer(st, m, u.shownDepth(applied[m]-need[m]))
			under.offer(st, m, u.shownDepth(need[m]-applied[m]))
		}
		p.Note = fmt.Sprintf("%s %s; need %s", u.depthWords(total), s.per(), u.depthWords(needed))
		p.Series = []Series{bars, drops, line}
		if st == s.base() && s.Metered != nil {
			dots := Series{Form: Marks, Role: MeteredUse, X: line.X}
			for _, mm := range s.Metered {
				dots.Y = append(dots.Y, u.depth(mm))
			}
			p.Series = append(p.Series, dots)
		}
		if a := s.Allowance; a != nil {
			allowed := Series{Form: Steps, Role: AllowedWater, Width: 1, X: line.X}
			for m := range 12 {
				allowed.Y = append(allowed.Y, u.depth(a.MonthMM[m]))
			}
			p.Series = append(p.Series, allowed)
			p.Note += fmt.Sprintf("; %s of the allowance", percent(a.Kept[st].Share))
		}
		c.Panels = append(c.Panels, p)
		alt = append(alt, fmt.Sprintf("%s: %s applied %s, %s needed", p.Title, u.depthWords(total), s.per(), u.depthWords(needed)))
	}
	c.X = monthAxis()
	c.Y = scaleTo("average depth over the site", u.depthUnit()+"/month", high, 5)
	c.Columns, c.HeightPt = columns(len(c.Panels)), 92
	c.Keys = []Key{
		{Form: Bars, Role: Applied, Label: "applied"}, {Form: Line, Role: Need, Label: "need: " + tally.LeastWater},
		{Form: Line, Role: RainFall, Label: "rain"},
	}
	if s.Metered != nil {
		c.Keys = append(c.Keys, Key{Form: Marks, Role: MeteredUse, Label: "metered, less base use"})
		c.Notes = append(c.Notes, "Dots: metered use less base use, before any change; 0 if below base use.")
	}
	if s.Allowance != nil {
		c.Keys = append(c.Keys, Key{Form: Line, Role: AllowedWater, Label: "allowance"})
	}
	c.See = "No strategy applies more in any month than an evenly watered zone needs."
	largest := func(l *monthLeader) string {
		return fmt.Sprintf("%s%s in %s with %s",
			fixed(l.value, u.depthDigits()), u.pick(" inches", " mm"), monthNames[l.month], l.names(s.Table.Strategies))
	}
	if over.value > 0 {
		c.See = "Bars above the black line exceed what an evenly watered zone needs; uneven coverage and losses explain part of it. " +
			"The largest surplus is " + largest(&over) + "."
	}
	if under.value > leastShortfall(u) {
		c.See += " The largest shortfall is " + largest(&under) + "."
	}
	if see := s.allowanceSee(); see != "" {
		c.See += " " + see
	}
	c.Alt = "Bar charts of water applied by month with lines for need and rain, one chart per strategy. " + strings.Join(alt, ". ") + "."
	if s.Metered != nil {
		c.Alt += " Dots show what the meters read with " + quote(s.Table.Strategies[s.base()]) + ", less base use."
	}
	if s.Allowance != nil {
		c.Alt += " " + s.allowanceSee()
	}
	basis := s.Table.Basis()
	c.Notes = append(c.Notes, basis.Sentence()+" The need assumes perfect foresight and perfectly even watering. "+
		"Over the whole record no schedule keeps water from getting scarce with less, though plants tolerate some of that; in a single "+
		"month one can, if it watered ahead.")
	if note := s.needNote(); note != "" {
		c.Notes = append(c.Notes, note)
	}
	return c
}

// needNote names the strategies whose need is that of a changed site; empty for none.
func (s *Study) needNote() string {
	var names []string
	for st := range s.own() {
		if s.monthly(s.Table.LeastRow(st), monthGross) != s.monthly(s.Table.LeastWaterIndex(), monthGross) {
			names = append(names, quote(s.Table.Strategies[st]))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "The need is that of the plants, soil and area after the changes that are part of " + listedOf(names) +
		"; in the other panels, of the site as it is now."
}

// leastShortfall is the monthly shortfall up to which the chart names none: one
// step of the last digit that it shows.
func leastShortfall(u Units) float64 { return 1.5 * portable.Pow(10, -float64(u.depthDigits())) }

// A monthLeader is a leader among strategies and months; the first of equal
// months counts.
type monthLeader struct {
	leader
	month int
}

func (l *monthLeader) offer(st, m int, value float64) {
	if len(l.at) > 0 && value == l.value && m != l.month {
		if m > l.month {
			return
		}
		l.at = nil
	}
	if len(l.at) == 0 || value > l.value {
		l.month = m
	}
	l.leader.offer(st, value, more)
}
