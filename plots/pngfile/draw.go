package pngfile

import (
	"strings"

	"loamledger/plots"
)

// draw draws chart c as planned.
func (l *plan) draw(p *pen, c *plots.Chart) {
	f := &l.fonts
	y := p.lines(f.kicker, faint, edge, edge, firstLine(f, c.Site)) + 2
	y = p.lines(f.title, ink, edge, y, l.title) + 3
	p.lines(f.body, ink, edge, y, l.see)
	y = l.headEnd + 5
	for _, row := range l.keyRows {
		x := edge
		for _, k := range row {
			p.key(k, x, y)
			p.text(f.note, ink, x+swatchWide+4, y, k.Label)
			x += keyWidth(f.note, k) + keyGap
		}
		y += 15
	}
	p.lines(f.note, faint, edge, y+2, l.axes)

	for i := range c.Panels {
		row, column := i/l.columns, i%l.columns
		left := edge + float64(float64(column)*(l.columnWidth+gutter))
		y := p.lines(l.nameFace(&c.Panels[i]), ink, left, l.rowTop[row], l.names[i])
		p.lines(f.note, faint, left, y, l.notes[i])
		l.panel(p, &c.Panels[i], horizontal(c, &c.Panels[i]), vertical(c, &c.Panels[i]), left, l.rowPlot[row], c.HeightPt, l.labeled(c, i))
	}
	if s := c.Strip; s != nil {
		for column := range min(l.columns, len(c.Panels)) {
			left := edge + float64(float64(column)*(l.columnWidth+gutter))
			p.text(f.note, faint, left, l.stripTop, s.Title+", "+s.Note)
			l.panel(p, &s.Panel, c.X, s.Y, left, l.stripPlot, s.HeightPt, false)
		}
	}
	p.stroke(grid, 0.8, nil, [][2]float64{{edge, l.footTop}, {widthPt - edge, l.footTop}})
	p.lines(f.note, faint, edge, l.footTop+5, l.foot)
}

// vertical returns the vertical axis of a panel.
func vertical(c *plots.Chart, p *plots.Panel) plots.Axis {
	if p.Y != nil {
		return *p.Y
	}
	return c.Y
}

// horizontal returns the horizontal axis of a panel.
func horizontal(c *plots.Chart, p *plots.Panel) plots.Axis {
	if p.X != nil {
		return *p.X
	}
	return c.X
}

// firstLine cuts s to one line of the sheet.
func firstLine(f *faces, s string) []string {
	lines, _ := wrap(f.kicker, s, content, 1)
	return lines
}

// panel draws axes and series in the plotting area that starts at left and top.
func (l *plan) panel(p *pen, panel *plots.Panel, xAxis, yAxis plots.Axis, left, top, height float64, below bool) {
	a := area{x: xAxis, y: yAxis, left: left + l.axisLeft, right: left + l.columnWidth - l.axisRight, top: top, bottom: top + height}
	a.grid(p)
	for i := range panel.Series {
		a.series(p, &panel.Series[i])
	}
	a.frame(p)
	a.marks(p, panel)
	a.markTexts(p, panel)
	a.yLabels(p, l.fonts, left)
	if below {
		a.xLabels(p, l.fonts, left, left+l.columnWidth, l.tickLines)
	}
}

// An area is a plotting area [pt] and the axes that map data to it.
type area struct {
	x, y                     plots.Axis
	left, right, top, bottom float64
}

// px maps x to the sheet, limited to the area.
func (a *area) px(x float64) float64 {
	at := a.left + float64((x-a.x.Min)/(a.x.Max-a.x.Min)*(a.right-a.left))
	return keep(at, a.left, a.right)
}

// py maps y to the sheet, limited to the area.
func (a *area) py(y float64) float64 {
	share := (y - a.y.Min) / (a.y.Max - a.y.Min)
	if a.y.Down {
		return keep(a.top+float64(share*(a.bottom-a.top)), a.top, a.bottom)
	}
	return keep(a.bottom-float64(share*(a.bottom-a.top)), a.top, a.bottom)
}

// keep limits v to low..high; NaN stays NaN.
func keep(v, low, high float64) float64 {
	if v < low {
		return low
	}
	if v > high {
		return high
	}
	return v
}

func (a *area) grid(p *pen) {
	if !a.y.Plain {
		for _, t := range a.y.Ticks {
			p.stroke(grid, 0.6, nil, [][2]float64{{a.left, a.py(t.At)}, {a.right, a.py(t.At)}})
		}
	}
	if !a.x.Plain {
		for _, t := range a.x.Ticks {
			p.stroke(grid, 0.6, nil, [][2]float64{{a.px(t.At), a.top}, {a.px(t.At), a.bottom}})
		}
	}
}

// frame draws the line from which values grow.
func (a *area) frame(p *pen) {
	y := a.bottom
	if a.y.Down {
		if a.y.Plain {
			return
		}
		y = a.top
	}
	p.stroke(faint, 0.8, nil, [][2]float64{{a.left, y}, {a.right, y}})
}

// yLabels writes the labels of the vertical axis, skipping those that would
// touch the previous one.
func (a *area) yLabels(p *pen, f faces, left float64) {
	size := f.tick.Font.Size.Points()
	last := -1e9
	for _, t := range a.y.Ticks {
		at := a.py(t.At)
		if t.Label == "" || at-last < size && last-at < size {
			continue
		}
		last = at
		p.text(f.tick, faint, max(left, a.left-tickGap-wide(f.tick, t.Label)), at-float64(size*0.6), t.Label)
	}
}

// xLabels writes the labels below the area, line by line, skipping those
// that would touch the previous one.
func (a *area) xLabels(p *pen, f faces, left, right float64, lines int) {
	for line := range lines {
		end := -1e9
		for _, t := range a.x.Ticks {
			parts := strings.Split(t.Label, "\n")
			if line >= len(parts) || parts[line] == "" {
				continue
			}
			w := wide(f.tick, parts[line])
			x := keep(a.px(t.At)-float64(w/2), left, right-w)
			if x < end+1 {
				continue
			}
			end = x + w
			p.text(f.tick, faint, x, a.bottom+5+float64(float64(line)*tall(f.tick)), parts[line])
		}
	}
}
