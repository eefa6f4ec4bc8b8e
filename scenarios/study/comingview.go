package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// The number of zones and of strategies that fit on a screen.
const (
	mostComingZones      = 8
	mostComingStrategies = 6
)

// A View is a table with lines above and below it.
type View struct {
	Head  []string
	Grid  *Grid
	Notes []string
}

// ComingViews shows the coming days: the totals of every strategy, then the
// days, zone by zone for the named strategy, or for all strategies if the name
// is empty.
func (l *Study) ComingViews(c *Coming, name string) []View {
	var days *View
	if name == "" {
		days = l.comingDays(c, l.StrategyNames())
	} else {
		days = l.comingZones(c, name)
	}
	days.Notes = append(days.Notes, l.comingNotes(c)...)
	return []View{*l.comingTotals(c), *days}
}

// comingTotals shows the totals of every strategy over the coming days.
func (l *Study) comingTotals(c *Coming) *View {
	sys := l.Scenario.Units
	volume := quantity.Label(quantity.Volume, sys)
	g := &Grid{Head: []string{"strategy", "watering\ndays", "minutes", "water\n[" + volume + "]", "stress\ndays", "most in a zone",
		"runoff\nevents", "runoff\n[" + volume + "]"}}
	g.Columns = toTheRight(1, len(g.Head))
	g.Columns[0].Width, g.Columns[5] = 30, GridColumn{Width: 24}
	for _, name := range l.StrategyNames() {
		s := c.sums(name)
		worst := "-"
		if s.WorstZone != "" {
			worst = fmt.Sprintf("%d, %s", s.WorstDays, s.WorstZone)
		}
		g.add(name, s.WateringDays, quantity.Whole(int(s.Minutes+0.5)), volumeText(s.WaterM3, sys), fmt.Sprintf("%.1f", s.StressDays), worst,
			s.RunoffEvents, volumeText(s.RunoffM3, sys))
	}
	n := len(c.days)
	return &View{Grid: g, Head: []string{"", fmt.Sprintf("Coming days, as forecast: not history, and excluded from all figures above. %s, %s.",
		quantity.Count(n, "day", "days"), period(c.days[0].date, c.days[n-1].date))},
		Notes: []string{"Minutes, water and runoff are summed over zones; stress days are area-weighted zone means."}}
}

// weatherHead begins the heading of a table of days.
func (l *Study) weatherHead() []string {
	depth := quantity.Label(quantity.Depth, l.Scenario.Units)
	return []string{"date", "issued", "rain\n[" + depth + "]", "ETo\n[" + depth + "]"}
}

// comingDays shows the minutes of the named strategies by day, with marks for
// stress and runoff.
func (l *Study) comingDays(c *Coming, names []string) *View {
	sys := l.Scenario.Units
	shown := names[:min(len(names), mostComingStrategies)]
	g := &Grid{Head: append(l.weatherHead(), shown...)}
	g.Columns = toTheRight(2, len(g.Head))
	for i := 4; i < len(g.Columns); i++ {
		g.Columns[i].Width, g.Columns[i].HeadWidth = 14, 14
	}
	for d := range c.days {
		day := &c.days[d]
		row := []any{day.date, day.issued, depthText(day.rainMM, sys), depthText(day.etoMM, sys)}
		for _, name := range shown {
			row = append(row, comingCell(c.rows[name], d))
		}
		g.add(row...)
	}
	v := &View{Head: []string{"", "Minutes by strategy, summed over zones (s: zones with stress, r: zones with a runoff event):"}, Grid: g}
	if n := len(names); n > len(shown) {
		v.Notes = append(v.Notes, fmt.Sprintf("Showing the first %d of %d strategies; --outlook STRATEGY shows another, outlook.csv all.",
			len(shown), n))
	}
	return v
}

// comingCell writes the minutes of day d over all zones, with the number of
// zones that have stress or run off.
func comingCell(plans [][]replay.Row, d int) string {
	minutes, stress, runoff := 0.0, 0, 0
	for _, rows := range plans {
		minutes += rows[d].Minutes
		if thirsty(&rows[d]) {
			stress++
		}
		if runsOff(&rows[d]) {
			runoff++
		}
	}
	text := fmt.Sprintf("%.0f", minutes)
	if stress > 0 {
		text += fmt.Sprintf(" s%d", stress)
	}
	if runoff > 0 {
		text += fmt.Sprintf(" r%d", runoff)
	}
	return text
}

// comingZones shows the coming days of one strategy, zone by zone.
func (l *Study) comingZones(c *Coming, name string) *View {
	plans := c.rows[name]
	sys := l.Scenario.Units
	zones := c.zones[:min(len(c.zones), mostComingZones)]
	g := &Grid{Head: l.weatherHead()}
	for _, zone := range zones {
		g.Head = append(g.Head, zone+"\n[min]")
	}
	g.Columns = toTheRight(2, len(g.Head))
	for i := 2; i < len(g.Columns); i++ {
		g.Columns[i].Width = 14
	}
	g.Head = append(g.Head, "why")
	for d := range c.days {
		day := &c.days[d]
		row := []any{day.date, day.issued, depthText(day.rainMM, sys), depthText(day.etoMM, sys)}
		for z := range zones {
			row = append(row, comingCell(plans[z:z+1], d))
		}
		g.add(append(row, reasonsOn(plans, d))...)
	}
	v := &View{Head: []string{"", fmt.Sprintf("Minutes under %q (s: stress, r: runoff event):", name)}, Grid: g}
	if n := len(c.zones); n > mostComingZones {
		v.Notes = append(v.Notes, fmt.Sprintf("Showing the first %d of %d zones.", mostComingZones, n))
	}
	return v
}

// comingColumns lists the columns that a forecast may lack.
func comingColumns() []weather.Column {
	return []weather.Column{weather.ETo, weather.Tmax, weather.Tmin}
}

// comingNotes says where the forecast is from and what it lacks.
func (l *Study) comingNotes(c *Coming) (notes []string) {
	note := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	if f := l.Forecast; f.aheadSource != "" {
		note("Forecast of the coming days: %s.", f.aheadSource)
	} else {
		note("Forecast of the coming days: %s.", f.source)
	}
	for _, col := range comingColumns() {
		if n := c.usual[col]; n > 0 {
			note("%s is not forecast on %s; the usual value at that time of year in the record is used.", col.Label(),
				quantity.Count(n, "day", "days"))
		}
	}
	if last := c.days[len(c.days)-1].date; c.to > last {
		note("The forecasts end on %v, but days after %v have no rain amount or are too far ahead to show.", c.to, last)
	}
	return notes
}

// NoComing says why forecasts give no coming days; empty if there are no
// forecasts for them.
func (l *Study) NoComing() string {
	f := l.Forecast
	if f == nil || f.ahead == nil {
		return ""
	}
	end := l.Weather.End()
	ahead, ok := f.ahead.Coming(end, l.Weather.Station)
	switch {
	case !ok && f.past > 0:
		return fmt.Sprintf("The forecast has no day after the record, which ends on %v, so no coming days are shown.", end)
	case !ok || len(ahead.Issued) == 0:
		return ""
	}
	first := slices.IndexFunc(ahead.Series.Data[weather.Rain], func(v float64) bool { return v == v }) // not NaN
	if first < 0 {
		return "The forecast has no rain amount for any day after the record, so no coming days are shown."
	}
	if first > 0 {
		return fmt.Sprintf("No coming days are shown: the record ends on %v, but the forecast begins on %v. Add the days between to the record.",
			end, ahead.Series.Date(first))
	}
	return ""
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
