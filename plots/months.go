package plots

import (
	"fmt"
	"strings"
)

// Months returns the water applied against need by month: a panel for each
// strategy, mean depth over the site in an average year.
func Months(s *Study) Chart {
	c := s.frame(MonthsKind, "water-by-month", "Water applied against need, by month")
	u := s.Units
	need := s.monthly(s.Table.LeastWaterIndex(), monthGross)
	fall := s.monthly(0, monthRain)
	high := 0.0
	var over, under monthLeader
	for m := range 12 {
		high = max(high, u.depth(need[m]), u.depth(fall[m]))
	}
	var alt []string
	for st := range s.own() {
		applied := s.monthly(st, monthGross)
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
			high = max(high, u.depth(applied[m]))
			total, needed = total+applied[m], needed+need[m]
			over.offer(st, m, u.toldDepth(applied[m]-need[m]))
			under.offer(st, m, u.toldDepth(need[m]-applied[m]))
		}
		p.Note = fmt.Sprintf("%s a year; need %s", u.depthWords(total), u.depthWords(needed))
		p.Series = []Series{bars, drops, line}
		c.Panels = append(c.Panels, p)
		alt = append(alt, fmt.Sprintf("%s: %s applied a year against %s needed", p.Title, u.depthWords(total), u.depthWords(needed)))
	}
	c.X = monthAxis()
	c.Y = scaleTo("mean depth over the site", u.depthUnit()+"/month", high, 5)
	c.Columns, c.HeightPt = columns(len(c.Panels)), 92
	c.Keys = []Key{{Form: Bars, Role: Applied, Label: "applied"}, {Form: Line, Role: Need, Label: "need: least water without stress"}, {Form: Line, Role: RainFall, Label: "rain"}}
	c.See = "No strategy applies more in any month than an evenly watered zone could do with."
	largest := func(l *monthLeader) string {
		return fmt.Sprintf("%s%s in %s, under %s", fixed(l.value, u.depthDigits()), u.pick(" inches", " mm"), monthNames[l.month], l.names(s.Table.Strategies))
	}
	if over.value > 0 {
		c.See = "Bars above the black line are water above the least that an evenly watered zone could do with; uneven coverage and losses need part of it. The largest is " + largest(&over) + "."
	}
	if under.value > 0 {
		c.See += " The largest shortfall is " + largest(&under) + "."
	}
	c.Alt = "Bar charts, one for each strategy, of water applied by month with lines for need and rain. " + strings.Join(alt, ". ") + "."
	c.Notes = []string{"Averages over all years of the record. The need is the least that avoids stress, given perfect foresight and perfectly even watering. Over the whole record no real schedule avoids stress with less; in a single month one can, having watered ahead."}
	return c
}

// A monthLeader is a leader among strategies and months; of months that tie,
// the first is told.
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
