package plots

import (
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// Dimension returns the dimension of k, whose unit depends on the system; false
// for a kind that is written the same everywhere.
func Dimension(k tally.Kind) (quantity.Dimension, bool) {
	switch k {
	case tally.Depth:
		return quantity.Depth, true
	case tally.Area:
		return quantity.Area, true
	case tally.Volume:
		return quantity.Volume, true
	}
	return 0, false
}

// measures returns the measures of the study.
func (s *Study) measures() []tally.Measure {
	if s.Measures == nil {
		return tally.Measures()
	}
	return s.Measures
}

// heading returns the heading of a figure with its unit.
func (u Units) heading(f *tally.Figure, b *tally.Basis, ofZone bool) string {
	if _, ok := Dimension(f.Measure.Kind); ok && f.Over == tally.PerYear && b.Yearly() { // the unit says that it is per year
		sum := *f
		sum.Over = tally.Record
		return u.withUnit(sum.Title(b, ofZone), f, b)
	}
	return u.withUnit(f.Title(b, ofZone), f, b)
}

// withUnit adds the unit of f to a heading.
func (u Units) withUnit(heading string, f *tally.Figure, b *tally.Basis) string {
	dim, ok := Dimension(f.Measure.Kind)
	if !ok {
		return heading
	}
	unit := quantity.Label(dim, u.system())
	if f.Over == tally.PerYear && b.Yearly() {
		unit += b.Unit()
	}
	return heading + " (" + unit + ")"
}

// figure writes a value of a measure, without the unit in its heading.
func (u Units) figure(m *tally.Measure, v float64) string {
	switch m.Kind {
	case tally.Volume:
		return rounded(u.volume(v))
	case tally.Area:
		return rounded(u.area(v))
	case tally.Depth:
		return fixed(u.depth(v), u.depthDigits())
	case tally.Share:
		return percent(v)
	case tally.Change:
		return moreOrLess(v)
	}
	if m.Digits == 1 {
		return events(v)
	}
	return fixed(v, m.Digits)
}

// cell writes the value of figure f for strategy st.
func (s *Study) cell(cells *tally.Cells, f *tally.Figure, st int) string {
	if st == s.base() && f.Measure.Kind == tally.Change {
		return "baseline"
	}
	return s.Units.figure(f.Measure, cells.Site(f.Measure, st, f.Over))
}

// comparison writes the comparison of strategies as text.
func (s *Study) comparison(f *Facts) Table {
	cells := s.Table.Cells()
	figures := cells.Basis.Figures(tally.Figures(s.measures(), tally.InComparison|tally.InReport))
	t := Table{
		Caption: "All strategies were run with the same weather. Change is relative to the baseline; stress and browning days are " +
			"area-weighted means over zones. Stress days and the share of need met are those of whole zones; browning days and the " +
			"longest streak are those of driest quarters. A stress day has one dry week behind it, while the share counts the water " +
			"of the whole record, so many stress days can go with a high share. " +
			"A runoff event is one day on which water runs off one zone: " +
			"five zones can have five on one day, and more than 365 in a year. On page one, stress days are called thirsty days and the " +
			"median year the typical year. " + cells.Basis.Sentence(),
		First: "Strategy",
	}
	for i := range figures {
		t.Head, t.Minor = append(t.Head, s.Units.heading(&figures[i], &cells.Basis, false)), append(t.Minor, figures[i].Minor)
	}
	for st, name := range s.Table.Strategies {
		row := TableRow{Name: name, Reference: st >= s.own()}
		for i := range figures {
			row.Cells = append(row.Cells, s.cell(cells, &figures[i], st))
		}
		row.Note = s.rowNote(f, st)
		t.Rows = append(t.Rows, row)
	}
	return t
}

// rowNote says what is special about strategy st; empty for nothing.
func (s *Study) rowNote(f *Facts, st int) string {
	switch {
	case st >= s.own():
		return "reference"
	case s.Table.IsCut(st):
		return "the baseline as the limits would cut it; not an option"
	case st == s.base() && s.Table.Cut > 0:
		return "as it ran"
	case f.leftOut(st) > 0:
		return "as cut by the limits"
	}
	return ""
}

// zoneTable writes the comparison of strategies on zone z as text.
func (s *Study) zoneTable(cells *tally.Cells, z int) Table {
	t := Table{First: "Strategy"}
	figures := tally.ZoneFigures(s.measures())
	for i := range figures {
		t.Head, t.Minor = append(t.Head, s.Units.heading(&figures[i], &cells.Basis, true)), append(t.Minor, figures[i].Minor)
	}
	for st, name := range s.Table.Strategies {
		row := TableRow{Name: name, Reference: st >= s.own()}
		for i := range figures {
			m := figures[i].Measure
			row.Cells = append(row.Cells, s.Units.figure(m, cells.Zone(m, st, z, figures[i].Over)))
		}
		if row.Reference {
			row.Note = "reference"
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
