package study

import (
	"strings"

	"loamledger/plots"
	"loamledger/sim/tally"
)

// gridOf returns a table of the report as a table for a terminal.
func gridOf(t *plots.Table) *Grid {
	g := &Grid{Head: append([]string{strings.ToLower(t.First)}, t.Head...), Columns: toTheRight(1, 1+len(t.Head))}
	g.Columns[0].Width = 34
	for i := range t.Head {
		g.Columns[1+i].HeadWidth = 14
		if t.IsWords(i) {
			g.Columns[1+i].Right = false
		}
	}
	for _, r := range t.Rows {
		g.Rows = append(g.Rows, append([]string{r.Name}, r.Cells...))
	}
	return g
}

// RangeViews shows what draws say.
func (l *Study) RangeViews(t *tally.Table, r *plots.Ranges) []View {
	s := l.rangeStudy(t)
	views := []View{{Head: lines(s.RangeVerdict(r), s.RangeRule(), s.RangeSaving(r), s.RangeBill(r), s.RangeMiddle(r))}}
	for _, table := range s.RangeTables(r) {
		views = append(views, View{Head: append([]string{""}, lines(table.Caption)...), Grid: gridOf(&table)})
	}
	if swings := s.SwingTable(r); len(swings.Rows) > 0 {
		views = append(views, View{Head: []string{"", swings.Caption}, Grid: gridOf(&swings)})
	}
	for _, table := range []plots.Table{s.MoneySwingTable(r), s.SettleTable(r), s.SettleBillTable(r), s.OffTable(r)} {
		if len(table.Rows) > 0 {
			views = append(views, View{Head: []string{"", table.Caption}, Grid: gridOf(&table)})
		}
	}
	last := View{Notes: append([]string{""}, lines(s.MeasureFirst(r), s.OtherSettings(r), s.RangeYears(r))...)}
	last.Notes = append(last.Notes, s.RangeNotes(r)...)
	last.Notes = append(last.Notes, l.exactLine(), Caution)
	return append(views, last)
}

// lines returns the texts that are not empty.
func lines(texts ...string) (out []string) {
	for _, text := range texts {
		if text != "" {
			out = append(out, text)
		}
	}
	return out
}

// rangeStudy is what the texts and charts of draws are made from.
func (l *Study) rangeStudy(t *tally.Table) *plots.Study {
	s := l.verdictData(t)
	s.Site, s.Station, s.From, s.To = l.Scenario.Site.Name, l.stationName(), l.Weather.Start, l.Weather.End()
	return s
}

// RangeCharts returns the charts of draws.
func (l *Study) RangeCharts(t *tally.Table, r *plots.Ranges) []plots.Chart {
	return plots.RangeCharts(l.rangeStudy(t), r)
}

// exactLine names the main numbers that count as exact, since the scenario gives them
// without a range.
func (l *Study) exactLine() string {
	counts := map[string]int{}
	for z := range l.Scenario.Zones {
		name := l.Scenario.Zones[z].Name
		for _, key := range exactKeys {
			in := l.inputOf("zones." + name + "." + key)
			if in == nil || in.Defaulted || l.doubtful(in.Key) {
				continue
			}
			counts[key]++
		}
	}
	var parts []string
	for _, key := range exactKeys {
		if n := counts[key]; n > 0 {
			parts = append(parts, causeWords[key]+" of "+zoneCount(n, len(l.Scenario.Zones)))
		}
	}
	if len(parts) == 0 {
		return "No area, rate, uniformity, soil or root depth counts as exact."
	}
	return "Counted as exact, since given as one number: " + strings.Join(parts, ", ") + ". Write a range where you are not sure, such as " +
		"uniformity: 45% to 65%."
}
