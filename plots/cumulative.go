package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/weather/cal"
)

// Cumulative returns the water applied to the whole site since the first day: a panel
// for each strategy, with the baseline, and the difference between them filled. Only
// months of the days that yearly figures cover add to a line.
func Cumulative(s *Study) Chart {
	c := s.frame(CumulativeKind, "cumulative-water", "Water applied since the first day")
	u, base := s.Units, s.base()
	x, totals := s.cumulated()
	end := len(x) - 1
	high := 0.0
	for st := range totals {
		high = max(high, u.volume(totals[st][end]))
	}
	per, unit := 1.0, u.volumeUnit()
	switch {
	case high >= 10_000_000:
		per, unit = 1_000_000, "million "+unit
	case high >= 10_000:
		per, unit = 1000, "thousand "+unit
	}
	for _, column := range totals {
		for i := range column {
			column[i] = u.volume(column[i]) / per
		}
	}
	words := func(v float64) string { return rounded(v*per) + " " + u.volumeUnit() }
	var alt []string
	var best, worst leader
	for st, own := range totals {
		p := Panel{Title: s.Table.Strategies[st], Note: words(own[end])}
		if saved := totals[base][end] - own[end]; st != base {
			p.Series = append(p.Series, above(x, totals[base], own, SavesWater), above(x, own, totals[base], UsesMore),
				Series{Form: Line, Role: BaseTotal, X: x, Y: totals[base]})
			p.Note += ", " + words(math.Abs(saved)) + lessOrMore(saved)
			best.offer(st, saved, more)
			worst.offer(st, saved, fewer)
		}
		p.Series = append(p.Series, Series{Form: Line, Role: OwnTotal, X: x, Y: own})
		c.Panels = append(c.Panels, p)
		alt = append(alt, p.Title+": "+p.Note)
	}
	c.X = dateAxis(s.From, int(x[end])+1)
	c.Y = scaleTo("water applied to the whole site", unit, high/per, 4)
	c.Columns, c.HeightPt = columns(len(c.Panels)), 84
	c.Keys = []Key{{Form: Line, Role: OwnTotal, Label: "this option"}}
	c.See = fmt.Sprintf("With %s, the baseline, the site is given %s in all.", quote(s.Table.Strategies[base]), words(totals[base][end]))
	if len(best.at) > 0 {
		c.Keys = append(c.Keys, Key{Form: Line, Role: BaseTotal, Label: "baseline"},
			Key{Form: Bars, Role: SavesWater, Label: "less"}, Key{Form: Bars, Role: UsesMore, Label: "more"})
		c.See += " The filled gap is the difference to it: at the end, " + words(math.Abs(best.value)) + lessOrMore(best.value) +
			" with " + best.names(s.Table.Strategies)
		if worst.value != best.value {
			c.See += ", and " + words(math.Abs(worst.value)) + lessOrMore(worst.value) + " with " + worst.names(s.Table.Strategies)
		}
		c.See += "."
	}
	c.Alt = "Line charts of the water applied since the first day, one chart per strategy, beside the baseline. " +
		strings.Join(alt, ". ") + "."
	basis := s.Table.Basis()
	of := basis.Span()
	if basis.Yearly() {
		of = basis.Count() + ": " + basis.List()
	}
	c.Notes = []string{"Totals of " + of + ". A line is level in months that do not count."}
	return c
}

// cumulated returns the days from the first one at which months end, 0 before them, and
// for each strategy the volume applied until then [m³].
func (s *Study) cumulated() (x []float64, totals [][]float64) {
	t, basis := s.Table, s.Table.Basis()
	x, totals = []float64{0}, make([][]float64, s.own())
	for st := range totals {
		totals[st] = []float64{0}
	}
	for i, span := range t.Spans {
		x = append(x, float64(span.To-1))
		counts := t.Covers(&basis, cal.Of(span.Year, span.Month, 1))
		for st := range totals {
			total := totals[st][i]
			for z := range t.Zones {
				if counts {
					total += float64(t.Month(st, z, i).GrossMM / 1000 * t.Zones[z].AreaM2)
				}
			}
			totals[st] = append(totals[st], total)
		}
	}
	return x, totals
}

// above is the band between two lines where the upper one is above the lower one.
func above(x, upper, lower []float64, role Role) Series {
	band := Series{Form: Band, Role: role, X: x, Base: lower}
	for i := range x {
		band.Y = append(band.Y, max(upper[i], lower[i]))
	}
	return band
}

// lessOrMore follows a volume that is saved, or one that is not.
func lessOrMore(saved float64) string {
	if saved < 0 {
		return " more"
	}
	return " less"
}
