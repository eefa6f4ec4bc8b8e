package study

import (
	"fmt"

	"loamledger/sim/tune"
	"loamledger/weather/quantity"
)

// zonesPerCurve is the number of zones in one table, as many as fit on a
// terminal.
const zonesPerCurve = 5

// CurveViews shows the site's curve, then the curve of each zone.
func (l *Study) CurveViews(c *tune.Curve) []*View {
	sys := l.Scenario.Units
	volume := quantity.Label(quantity.Volume, sys)
	unit := c.Basis.Unit()
	g := &Grid{Columns: toTheRight(0, 5), Head: []string{"run time", volume + unit, "stress days\nmedian year", "stress days\ndry year",
		"runoff\nevents" + unit}}
	if c.Dry == 0 { // no year is whole: the days of the record take the place of the two years
		g.Columns, g.Head = toTheRight(0, 4), []string{"run time", volume + unit, "stress\ndays" + unit, "runoff\nevents" + unit}
	}
	for _, p := range c.Points {
		row := []any{shareText(p.Share), volumeText(p.Site.M3PerYear, sys)}
		if c.Dry == 0 {
			row = append(row, days(p.Site.StressDaysPerYear))
		} else {
			row = append(row, days(p.Site.StressDaysMedian), days(p.Site.StressDaysDry))
		}
		g.add(append(row, fmt.Sprintf("%.1f", p.Site.RunoffEvents))...)
	}
	byZone := fmt.Sprintf("By zone: %s %s / stress days in the dry year", volume, c.Basis.Words())
	if c.Dry == 0 {
		byZone = fmt.Sprintf("By zone: %s / stress days, %s", volume, c.Basis.Words())
	}
	views := []*View{{
		Head: []string{fmt.Sprintf("%s, at scaled run times:", c.Strategy)}, Grid: g,
		Notes: []string{"", byZone},
	}}
	for from := 0; from < len(c.Zones); from += zonesPerCurve {
		to := min(from+zonesPerCurve, len(c.Zones))
		g := &Grid{Head: append([]string{"run time"}, c.Zones[from:to]...), Columns: toTheRight(0, 1+to-from)}
		for i := range g.Columns[1:] {
			g.Columns[1+i].HeadWidth = 16 // a name may be long
		}
		for _, p := range c.Points {
			row := []any{shareText(p.Share)}
			for _, f := range p.Zones[from:to] {
				row = append(row, volumeText(f.M3PerYear, sys)+" / "+days(stressShown(c, &f)))
			}
			g.add(row...)
		}
		views = append(views, &View{Grid: g})
	}
	last := &View{Notes: []string{"", c.Basis.Sentence()}}
	if c.Dry != 0 {
		last.Notes = append(last.Notes, "M"+rankedText(&c.Ranked)[1:]+". Site stress days are area-weighted zone means.")
	}
	last.Notes = append(append(last.Notes, c.Notes...), Caution)
	return append(views, last)
}

// shareText writes a share of the run times and marks today's.
func shareText(share float64) string {
	mark := "  "
	if share == 1 {
		mark = "today "
	}
	return fmt.Sprintf("%s%.0f%%", mark, 100*share)
}
