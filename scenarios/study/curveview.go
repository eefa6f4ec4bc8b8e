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
	stress := func(v float64) string {
		if c.Dry == 0 {
			return "-"
		}
		return days(v)
	}
	g := &Grid{Columns: toTheRight(0, 5), Head: []string{"run time", volume + "/yr", "stress days\nmedian year", "stress days\ndry year",
		"runoff\nevents/yr"}}
	for _, p := range c.Points {
		g.add(shareText(p.Share), volumeText(p.Site.M3PerYear, sys), stress(p.Site.StressDaysMedian), stress(p.Site.StressDaysDry),
			fmt.Sprintf("%.1f", p.Site.RunoffEvents))
	}
	views := []*View{{
		Head: []string{fmt.Sprintf("%s, at scaled run times:", c.Strategy)}, Grid: g,
		Notes: []string{"", fmt.Sprintf("By zone: %s a year / stress days in the dry year", volume)},
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
				row = append(row, volumeText(f.M3PerYear, sys)+" / "+stress(f.StressDaysDry))
			}
			g.add(row...)
		}
		views = append(views, &View{Grid: g})
	}
	last := &View{Notes: []string{"", noWholeYear}}
	if c.Dry != 0 {
		last.Notes[1] = fmt.Sprintf("Median year %d, 1-in-10 dry year %d. Site stress days are area-weighted zone means.", c.Median, c.Dry)
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
