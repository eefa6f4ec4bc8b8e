package plots

import (
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// Dimension returns the dimension whose unit depends on the system; false for a
// kind that is written the same everywhere.
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
func (u Units) heading(f *tally.Figure, ofZone bool) string {
	title := f.Title(ofZone)
	if dim, ok := Dimension(f.Measure.Kind); ok {
		title += " [" + quantity.Label(dim, u.system()) + "]"
	}
	return title
}

// figure writes a value of a measure, without the unit of its heading.
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

// comparison sets the comparison of strategies as text.
func (s *Study) comparison(f *Facts) Table {
	figures, cells := tally.Figures(s.measures(), tally.InComparison), s.Table.Cells()
	t := Table{
		Caption: "All strategies over the same weather. Change is against the first; stress days are means over the zones by area. " +
			"Stress is judged in the driest quarter of each zone and adequacy over all of it, so that both can be high. " +
			"A zone-day of runoff is one day on which one zone sheds water: " +
			"five zones can have five on a day, and more than 365 in a year.",
		First: "Strategy",
	}
	for i := range figures {
		t.Head, t.Minor = append(t.Head, s.Units.heading(&figures[i], false)), append(t.Minor, figures[i].Minor)
	}
	for st, name := range s.Table.Strategies {
		row := TableRow{Name: name, Reference: st >= s.own()}
		for i := range figures {
			m := figures[i].Measure
			cell := s.Units.figure(m, cells.Site(m, st, figures[i].Over))
			if st == 0 && m.Kind == tally.Change {
				cell = "basis"
			}
			row.Cells = append(row.Cells, cell)
		}
		switch {
		case row.Reference:
			row.Note = "reference"
		case f.leftOut(st) > 0:
			row.Note = "as the limits cut it"
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// zoneTable sets the comparison of strategies on zone z as text.
func (s *Study) zoneTable(cells *tally.Cells, z int) Table {
	t := Table{First: "Strategy"}
	figures := tally.ZoneFigures(s.measures())
	for i := range figures {
		t.Head, t.Minor = append(t.Head, s.Units.heading(&figures[i], true)), append(t.Minor, figures[i].Minor)
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
