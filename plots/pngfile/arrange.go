package pngfile

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"gonum.org/v1/plot/font"

	"loamledger/plots"
)

// Distances of the arrangement [pt].
const (
	edge       = 10.0 // between sheet and content
	gutter     = 14.0 // between columns
	rowGap     = 12.0 // between rows of panels
	tickGap    = 4.0  // between tick labels and plotting area
	swatchWide = 20.0 // of a key
	keyGap     = 13.0 // between keys
	content    = widthPt - 2*edge
)

// A plan is the layout measured before drawing: the height of the sheet depends
// on how names wrap.
type plan struct {
	fonts               faces
	title, see, axes    []string
	keyRows             [][]plots.Key
	columnWidth         float64
	axisLeft, axisRight float64 // from the column's edges to the plotting area
	tickLines           int     // lines of labels below a panel
	names               [][]string
	notes               [][]string
	rowTop, rowPlot     []float64 // top of each row, and of its plotting areas
	headEnd, stripTop   float64
	stripPlot           float64
	footTop, height     float64
	foot                []string
	columns             int
}

// arrange measures chart c.
func arrange(c *plots.Chart) *plan {
	l := &plan{fonts: newFaces(), columns: max(c.Columns, 1)}
	f := &l.fonts
	l.title, _ = wrap(f.title, c.Title, content, 0)
	l.see, _ = wrap(f.body, c.See, content, 0)
	l.keyRows = flow(f.note, c.Keys)
	if text := axesText(c); text != "" {
		l.axes, _ = wrap(f.note, text, content, 0)
	}

	y := edge + tall(f.kicker) + 2
	y += float64(float64(len(l.title))*tall(f.title)) + 3
	y += float64(float64(len(l.see))*tall(f.body)) + 4
	l.headEnd = y
	y += 5 + float64(float64(len(l.keyRows))*15) + 2
	y += float64(float64(len(l.axes))*tall(f.note)) + 7

	l.columnWidth = (content - float64(gutter*float64(l.columns-1))) / float64(l.columns)
	for _, t := range c.Y.Ticks {
		l.axisLeft = max(l.axisLeft, wide(f.tick, t.Label))
	}
	for i := range c.Panels {
		for _, t := range vertical(c, &c.Panels[i]).Ticks {
			l.axisLeft = max(l.axisLeft, wide(f.tick, t.Label))
		}
	}
	if c.Strip != nil {
		for _, t := range c.Strip.Y.Ticks {
			l.axisLeft = max(l.axisLeft, wide(f.tick, t.Label))
		}
	}
	l.axisLeft += tickGap
	l.axisRight = 2
	for i := range c.Panels {
		for _, t := range horizontal(c, &c.Panels[i]).Ticks {
			l.tickLines = max(l.tickLines, 1+strings.Count(t.Label, "\n"))
		}
	}
	if c.Strip != nil {
		l.stripTop = y
		l.stripPlot = y + tall(f.note) + 3
		y = l.stripPlot + c.Strip.HeightPt + 14
	}
	var full []string
	for i := range c.Panels {
		p := &c.Panels[i]
		const most = 3
		name, cut := wrap(l.nameFace(p), panelName(p), l.columnWidth, most)
		if cut {
			number := fmt.Sprintf("(%d) ", i+1)
			name, _ = wrap(l.nameFace(p), number+panelName(p), l.columnWidth, most)
			full = append(full, number+p.Title)
		}
		note, _ := wrap(f.note, p.Note, l.columnWidth, 2)
		l.names, l.notes = append(l.names, name), append(l.notes, note)
	}
	for row := 0; row*l.columns < len(c.Panels); row++ {
		names, notes := 0, 0
		for i := row * l.columns; i < min((row+1)*l.columns, len(c.Panels)); i++ {
			names, notes = max(names, len(l.names[i])), max(notes, len(l.notes[i]))
		}
		l.rowTop = append(l.rowTop, y)
		y += float64(float64(names)*tall(f.name)) + float64(float64(notes)*tall(f.note)) + 6
		l.rowPlot = append(l.rowPlot, y)
		y += c.HeightPt + rowGap
		if l.labeled(c, row*l.columns) {
			y += 5 + float64(float64(l.tickLines)*tall(f.tick))
		}
	}
	l.footTop = y - rowGap + 6
	l.foot = l.footLines(c, full)
	l.height = l.footTop + 5 + float64(float64(len(l.foot))*tall(f.note)) + edge
	return l
}

// labeled reports whether panel i has labels below it; if labels appear once, only
// the last row has them.
func (l *plan) labeled(c *plots.Chart, i int) bool {
	return !c.X.Once || i+l.columns >= len(c.Panels)
}

func (l *plan) nameFace(p *plots.Panel) font.Face {
	if p.Reference {
		return l.fonts.nameRef
	}
	return l.fonts.name
}

func panelName(p *plots.Panel) string {
	if p.Reference {
		return p.Title + " (reference)"
	}
	return p.Title
}

// capital makes the first letter of an ASCII text a capital.
// capital writes the first letter as a capital, whatever its alphabet.
func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if first == utf8.RuneError {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

// axesText names the axes that have a unit; dates, months and years name themselves.
func axesText(c *plots.Chart) string {
	name := func(a plots.Axis) string { return a.Label + " (" + a.Unit + ")" }
	var parts []string
	if c.Y.Unit != "" {
		parts = append(parts, capital(name(c.Y))+".")
	}
	if c.X.Unit != "" {
		parts = append(parts, "Left to right: "+name(c.X)+".")
	}
	scale := "Same scale in every panel."
	if len(c.Panels) == 1 {
		scale = ""
	}
	for i := range c.Panels {
		if c.Panels[i].Y != nil { // each has its unit in its title
			scale = ""
			break
		}
		if c.Panels[i].X != nil && scale != "" {
			scale = "Same vertical scale in every panel."
			break
		}
	}
	if scale != "" {
		parts = append(parts, scale)
	}
	return strings.Join(parts, " ")
}

// footLines returns the lines below the panels.
func (l *plan) footLines(c *plots.Chart, full []string) []string {
	var paragraphs []string
	if len(full) > 0 {
		paragraphs = append(paragraphs, "Full names: "+strings.Join(full, "; ")+".")
	}
	paragraphs = append(paragraphs, c.Notes...)
	origin := fmt.Sprintf("%s. Weather: %s. %s.", c.Site, c.Station, plots.DatesText(c.From, c.To))
	if c.Label != "" {
		origin = c.Label + ". " + origin
	}
	paragraphs = append(paragraphs, origin)
	var out []string
	for _, s := range paragraphs {
		lines, _ := wrap(l.fonts.note, s, content, 0)
		out = append(out, lines...)
	}
	return out
}

// flow arranges keys in rows that fit the sheet.
func flow(f font.Face, keys []plots.Key) [][]plots.Key {
	var rows [][]plots.Key
	x := 0.0
	for _, k := range keys {
		w := keyWidth(f, k)
		if len(rows) == 0 || x+w > content {
			rows, x = append(rows, nil), 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], k)
		x += w + keyGap
	}
	return rows
}

func keyWidth(f font.Face, k plots.Key) float64 { return swatchWide + 4 + wide(f, k.Label) }
