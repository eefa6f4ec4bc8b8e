package tally

import (
	"math"
	"slices"
	"strings"
)

// A Figure is a column of a comparison: a measure in one of its views.
type Figure struct {
	Measure *Measure
	View
}

// Key returns the word for the figure in JSON.
func (f *Figure) Key() string { return f.Measure.Key + f.Over.suffix() }

// Title returns the heading of the figure on basis b, without a unit that depends
// on the system; ofZone is set for the table of one zone.
func (f *Figure) Title(b *Basis, ofZone bool) string {
	if ofZone && f.Measure.zoneTitle != "" {
		return f.Measure.zoneTitle + f.Over.words(b)
	}
	return f.Measure.Title + f.Over.words(b)
}

// FrontTitle returns the heading of the figure on the first page.
func (f *Figure) FrontTitle(b *Basis) string { return b.filled(f.Front, "", " ") }

// Companion returns the figure that stands in small print beside f on the first
// page, over the same period; false if measures have none for it.
func (f *Figure) Companion(measures []Measure) (Figure, bool) {
	i := slices.IndexFunc(measures, func(m Measure) bool { return f.Beside != "" && m.Key == f.Beside })
	if i < 0 {
		return Figure{}, false
	}
	return Figure{&measures[i], View{Over: f.Over}}, true
}

// TerminalHead returns the heading of the figure on a terminal, with line breaks,
// and the given unit where the heading asks for one; empty if it follows from the
// title.
func (f *Figure) TerminalHead(b *Basis, unit string) string { return b.filled(f.Head, unit, "\n") }

// filled replaces what a heading leaves open; gap is between words that may break.
func (b *Basis) filled(head, unit, gap string) string {
	words := b.Words()
	if !b.Yearly() {
		words = strings.Replace(words, " these ", " these"+gap, 1)
	}
	return strings.NewReplacer("%s", unit, "%p", words, "%r", b.Unit()).Replace(head)
}

// Figures returns the columns as they apply on basis b. If no year is whole, there
// is no median and no dry year, and the days of the record take their place.
func (b *Basis) Figures(all []Figure) []Figure {
	if b.Yearly() {
		return all
	}
	var out []Figure
	for _, f := range all {
		if f.Over == MedianYear || f.Over == DryYear {
			front := f.Front
			if front != "" {
				front = f.frontDays
			}
			if front == "" && f.Front != "" {
				front = f.Measure.Title + " %p"
			}
			f.View = View{Over: PerYear, Front: front, Beside: f.Beside, Rest: f.Rest}
		}
		if !slices.ContainsFunc(out, func(g Figure) bool { return g.Measure == f.Measure && g.Over == f.Over }) {
			out = append(out, f)
		}
	}
	return out
}

// FrontFigures returns the columns of the first page of the report: the views
// that have a heading for it, leading measures first.
func FrontFigures(measures []Measure) []Figure {
	return slices.DeleteFunc(Figures(measures, InComparison), func(f Figure) bool { return f.Front == "" })
}

// Figures returns the columns of the whole site in output o, leading measures
// first.
func Figures(measures []Measure, o Output) []Figure {
	var out []Figure
	each(measures, o, func(m *Measure) {
		if len(m.Views) == 0 {
			out = append(out, Figure{m, View{Over: m.usual()}})
		}
		for _, v := range m.Views {
			out = append(out, Figure{m, v})
		}
	})
	return out
}

// ZoneFigures returns the columns of the table of one zone: each measure once,
// per year or over the record.
func ZoneFigures(measures []Measure) []Figure {
	var out []Figure
	each(measures, InZones, func(m *Measure) {
		minor := len(m.Views) > 0 && !slices.ContainsFunc(m.Views, func(v View) bool { return !v.Minor })
		out = append(out, Figure{m, View{Over: m.usual(), Minor: minor}})
	})
	return out
}

// each calls f with every measure of output o, leading ones first.
func each(measures []Measure, o Output, f func(*Measure)) {
	for _, lead := range [2]bool{true, false} {
		for i := range measures {
			if m := &measures[i]; m.Lead == lead && m.IsIn(o) {
				f(m)
			}
		}
	}
}

// Cells are the sums of a table over the periods of its figures, each added up when
// it is first asked for. They are not safe for concurrent use.
type Cells struct {
	Table  *Table
	Ranked Ranked
	Basis  Basis
	sums   [3][][]Cell // over Record, MedianYear and DryYear, by strategy, then zone; nil until asked for
}

// Cells returns the sums that figures need.
func (t *Table) Cells() *Cells {
	c := &Cells{Table: t, Ranked: t.RankYears(), Basis: t.Basis()}
	for k := range c.sums {
		c.sums[k] = make([][]Cell, len(t.Outcomes))
	}
	return c
}

// cells returns the sums of strategy s by zone over a period; over is Record,
// MedianYear or DryYear.
func (c *Cells) cells(s int, over Over) []Cell {
	kept, t := &c.sums[0][s], c.Table
	year := 0
	switch over {
	case MedianYear:
		kept, year = &c.sums[1][s], c.Ranked.Median
	case DryYear:
		kept, year = &c.sums[2][s], c.Ranked.Dry
	}
	if *kept != nil {
		return *kept
	}
	all := make([]Cell, len(t.Zones))
	for z := range all {
		all[z] = Cell{strategy: s, Zone: z, year: year, areaM2: t.Zones[z].AreaM2}
		if year == 0 {
			all[z].Sums = t.Sum(&c.Basis, s, z)
		} else {
			all[z].Sums = t.Year(s, z, year)
		}
	}
	least := all
	if ref := t.LeastRow(s); s != ref && s < len(t.Strategies) {
		least = c.cells(ref, over)
	}
	for z := range all {
		all[z].least = least[z].Sums
	}
	*kept = all
	return all
}

// of returns the cells of the zones under strategy s, and the divisor of a sum
// over them; no cells if there is no such year.
func (c *Cells) of(s int, over Over) (zones []Cell, per float64) {
	if (over == MedianYear || over == DryYear) && !c.Basis.Yearly() {
		return nil, 1
	}
	per = 1
	if over == PerYear {
		per = c.Basis.Divisor()
	}
	return c.cells(s, over), per
}

// Zone returns measure m of strategy s on zone z; NaN if it has no value. m must
// have a Get.
func (c *Cells) Zone(m *Measure, s, z int, over Over) float64 {
	zones, per := c.of(s, over)
	if zones == nil {
		return math.NaN()
	}
	v, _ := m.Of(&zones[z])
	return v / per
}

// Site returns measure m of strategy s on the whole site; NaN if it has no
// value.
func (c *Cells) Site(m *Measure, s int, over Over) float64 {
	if m.Whole != nil {
		return m.Whole(c, s, over)
	}
	if m.Site == Worst {
		v, _ := c.Worst(m, s, over)
		return v
	}
	zones, years := c.of(s, over)
	if zones == nil {
		return math.NaN()
	}
	sum, per, weights := 0.0, 0.0, 0.0
	for z := range zones {
		weight := 1.0
		if m.Site == Mean {
			weight = zones[z].areaM2
		}
		sum += float64(weight * m.Get(&zones[z]))
		if m.Per != nil {
			per += float64(weight * m.Per(&zones[z]))
		}
		weights += weight
	}
	switch {
	case m.Per != nil:
		sum = m.ratio(sum, per)
	case m.Site == Mean:
		sum /= weights
	}
	return sum / years
}

// Worst returns the highest value of m over the zones and the first zone with
// it; no zone if no value is above 0.
func (c *Cells) Worst(m *Measure, s int, over Over) (v float64, zone string) {
	zones, years := c.of(s, over)
	if zones == nil {
		return math.NaN(), ""
	}
	for z := range zones {
		if of, _ := m.Of(&zones[z]); of > v {
			v, zone = of, c.Table.Zones[z].Name
		}
	}
	return v / years, zone
}
