package plots

import (
	"fmt"
	"strings"

	"loamledger/sim/tally"
)

// options compares the strategies on the first page. Its columns are the
// measures that have a heading for it, and whether a strategy meets the rule.
func (s *Study) options(f *Facts, at int) Table {
	cells := s.Table.Cells()
	figures := cells.Basis.Figures(tally.FrontFigures(s.measures()))
	rows := s.Table.Compare()
	t := Table{First: "Option"}
	for i := range figures {
		t.Head = append(t.Head, s.frontHeading(&figures[i], &cells.Basis))
	}
	if s.own() > maxCompanions {
		t.Head = append(t.Head, otherDays)
	}
	worst := len(s.Table.Zones) > 1
	if worst {
		t.Head = append(t.Head, "Worst zone: thirsty days"+s.typical())
	}
	t.Head = append(t.Head, "Meets the rule")
	t.Words = make([]bool, len(t.Head))
	for st := range s.own() {
		row := TableRow{Name: s.Table.Strategies[st], Named: st == at && at != s.base()}
		for i := range figures {
			row.Cells = append(row.Cells, s.frontCell(cells, &figures[i], st))
			row.Spread = append(row.Spread, s.rangeCell(f.Ranges.spreadOf(&figures[i]), st))
		}
		if f.Ranges != nil {
			row.Spreads = "range"
		}
		meets, why := s.meetsRule(rows, st)
		if s.own() > maxReasons { // the sentence above the table counts them
			why = ""
		}
		other := s.companions(cells, figures, st)
		if s.own() > maxCompanions { // a column is shorter than a line in every row
			row.Cells, row.Spread = append(row.Cells, s.companionCell(cells, figures, st)), append(row.Spread, "")
			other = ""
		}
		row.About, row.Fails = sentences(s.aboutLine(f, st), other), sentences(s.allowanceLine(st), s.legalLine(f, st), why)
		if worst {
			thirsty, brown := s.worstCells(st)
			if s.own() > maxCompanions { // no room
				brown = ""
			}
			row.Cells, row.Spread = append(row.Cells, thirsty), append(row.Spread, brown)
		}
		checked := ""
		if meets == "yes" && f.Legal == "" && s.own() <= maxCompanions { // else the rule says it
			checked = "local rules not checked"
		}
		row.Cells, row.Spread = append(row.Cells, meets), append(row.Spread, checked)
		t.Rows = append(t.Rows, row)
	}
	return t
}

// otherDays is the heading of the days that the row itself has no room to spell out.
const otherDays = "Other days, see notes"

// companionCell counts the same days as [Study.companions] in the order of the figures.
func (s *Study) companionCell(cells *tally.Cells, figures []tally.Figure, st int) string {
	var days []string
	for i := range figures {
		if c, ok := figures[i].Companion(s.measures()); ok {
			days = append(days, s.cell(cells, &c, st))
		}
	}
	return strings.Join(days, ", ")
}

// companionNote says what the cells of [otherDays] count.
func (s *Study) companionNote(b *tally.Basis) string {
	var of []string
	last := ""
	figures := b.Figures(tally.FrontFigures(s.measures()))
	for i := range figures {
		if c, ok := figures[i].Companion(s.measures()); ok {
			if c.Measure.Part == last {
				of[len(of)-1] += " and" + shortYear(c.Over)
				continue
			}
			last = c.Measure.Part
			of = append(of, last+shortYear(c.Over))
		}
	}
	return strings.Join(of, ", ") + "."
}

// companions counts the same days, in the order of their columns, for the other part of
// the zones; empty for none.
func (s *Study) companions(cells *tally.Cells, figures []tally.Figure, st int) string {
	var parts, days []string
	any, of := false, ""
	write := func() {
		if len(days) > 0 {
			parts = append(parts, strings.Join(days, " and ")+" "+of)
		}
		days = nil
	}
	for i := range figures {
		c, ok := figures[i].Companion(s.measures())
		if !ok {
			continue
		}
		text := s.cell(cells, &c, st) + shortYear(c.Over)
		any = any || cells.Site(c.Measure, st, c.Over) > 0
		if c.Measure.Part != of {
			write()
		}
		days, of = append(days, text), c.Measure.Part
	}
	write()
	if !any {
		return ""
	}
	return "Also " + strings.Join(parts, ", ") + "."
}

// shortYear names the year of a count; empty for all years.
func shortYear(over tally.Over) string {
	switch over {
	case tally.MedianYear:
		return " (typical)"
	case tally.DryYear:
		return " (dry)"
	}
	return ""
}

// allowanceLine says whether strategy st keeps to the allowance; empty without one.
func (s *Study) allowanceLine(st int) string {
	if s.Allowance == nil {
		return ""
	}
	switch k := s.Allowance.Kept[st]; k.Within {
	case k.Years:
		return "Within the allowance."
	case 0:
		if k.Years > 1 && k.Share <= 1 {
			return "Below the allowance on average, but above it in part of every year."
		}
		return "Above the allowance."
	default:
		return fmt.Sprintf("Within the allowance in %d of %d years.", k.Within, k.Years)
	}
}

// legalLine says what the limits of the scenario do to strategy st, if the rule does not
// say it; empty for nothing.
func (s *Study) legalLine(f *Facts, st int) string {
	if f.Legal == "" || st >= len(s.Table.Breaches) || len(s.Table.Breaches[st]) == 0 {
		return ""
	}
	if f.leftOut(st) > 0 {
		return "Local rules shorten or drop some of its runs, and the figures count it that way."
	}
	if st == s.base() {
		return "It runs when local rules forbid it."
	}
	return ""
}

// frontHead returns the heading of a figure on the first page. If no year is
// whole, a figure whose unit would say "/yr" says its days.
func frontHead(f *tally.Figure, b *tally.Basis) string {
	head := f.FrontTitle(b)
	if _, ok := Dimension(f.Measure.Kind); ok && f.Over == tally.PerYear && !b.Yearly() {
		head += " " + b.Words()
	}
	return head
}
