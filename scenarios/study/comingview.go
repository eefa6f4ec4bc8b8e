package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// mostComingZones is the number of zones that fit on a screen.
const mostComingZones = 8

// A View is a table with lines above and below it.
type View struct {
	Head  []string
	Grid  *Grid
	Notes []string
}

// ComingView shows the coming days of the named strategy, or of the baseline if
// the name is empty.
func (l *Study) ComingView(c *Coming, name string) *View {
	if name == "" && len(l.Job.Strategies) > 0 {
		name = l.Job.Strategies[l.Scenario.Baseline].Name
	}
	plans := c.Rows[name]
	sys := l.Scenario.Units
	depth := quantity.Label(quantity.Depth, sys)
	zones := c.Zones[:min(len(c.Zones), mostComingZones)]
	g := &Grid{Head: []string{"date", "issued", "rain\n[" + depth + "]", "ETo\n[" + depth + "]"}}
	for _, zone := range zones {
		g.Head = append(g.Head, zone+"\n[min]")
	}
	g.Columns = toTheRight(2, len(g.Head))
	for i := 2; i < len(g.Columns); i++ {
		g.Columns[i].Width = 14
	}
	g.Head = append(g.Head, "why")
	for d, day := range c.Days {
		row := []any{day.Date, day.Issued, depthText(day.RainMM, sys), depthText(day.EToMM, sys)}
		for z := range zones {
			row = append(row, fmt.Sprintf("%.0f", plans[z][d].Minutes))
		}
		g.add(append(row, reasonsOn(plans, d))...)
	}
	v := &View{Head: []string{"", fmt.Sprintf("Coming days, as forecast: not history, and excluded from all figures above. "+
		"Minutes under %q.", name)}, Grid: g}
	note := func(format string, args ...any) { v.Notes = append(v.Notes, fmt.Sprintf(format, args...)) }
	if n := len(c.Zones); n > mostComingZones {
		note("Showing the first %d of %d zones.", mostComingZones, n)
	}
	for _, col := range []weather.Column{weather.ETo, weather.Tmin} {
		if n := c.Usual[col]; n > 0 {
			note("%s is not forecast on %s; the usual value at that time of year in the record is used.", col.Label(),
				quantity.Count(n, "day", "days"))
		}
	}
	if last := c.Days[len(c.Days)-1].Date; c.To > last {
		note("The forecasts end on %v, but days after %v have no rain amount or are too far ahead to show.", c.To, last)
	}
	return v
}

// reasonsOn lists the reasons of day d, each once, since zones may differ.
func reasonsOn(plans [][]replay.Row, d int) string {
	var words []string
	for _, rows := range plans {
		if r := rows[d].Reason.String(); !slices.Contains(words, r) {
			words = append(words, r)
		}
	}
	return strings.Join(words, ", ")
}
