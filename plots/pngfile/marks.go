package pngfile

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"

	"loamledger/plots"
)

// marks draws a dot at each point of every series of marks.
func (a *area) marks(p *pen, panel *plots.Panel) {
	for k := range panel.Series {
		s := &panel.Series[k]
		if s.Form != plots.Marks {
			continue
		}
		for i := range s.X {
			if x, y := a.px(s.X[i]), a.py(s.Y[i]); !math.IsNaN(x) && !math.IsNaN(y) {
				p.dot(s.Role.Style(base(s, i)), x, y)
			}
		}
	}
}

// dot draws the mark of a style, white around it where it has a casing.
func (p *pen) dot(s plots.Style, x, y float64) {
	if s.CasePt > 0 {
		p.disc(plate, x, y, float64(s.DotPt/2)+s.CasePt)
	}
	p.disc(s.Fill, x, y, s.DotPt/2)
}

// markTexts writes the texts beside marks, those of the last series first: the
// last series is on top and counts most, so its texts may hide a line if there is
// no other room.
func (a *area) markTexts(p *pen, panel *plots.Panel) {
	from := len(p.texts)
	for k := len(panel.Series) - 1; k >= 0; k-- {
		s := &panel.Series[k]
		if s.Form != plots.Marks {
			continue
		}
		dot := s.Role.Style(0).DotPt
		for i, text := range s.Text {
			x, y := a.px(s.X[i]), a.py(s.Y[i])
			if text == "" || math.IsNaN(x) || math.IsNaN(y) {
				continue
			}
			if b, clear, ok := a.place(p, panel, from, text, x, y, float64(dot/2)+2); ok && (clear || k == len(panel.Series)-1) {
				p.fill(plate, [][4]float64{{b.left - 1, b.top, b.right + 1, b.bottom}})
				p.text(p.fonts.tick, ink, b.left, b.top-float64(0.15*p.fonts.tick.Font.Size.Points()), text)
			}
		}
	}
}

// place finds room for a text beside (x, y): within the area, not over another
// text since from, and where it hides the least of the drawing. It reports whether
// it hides nothing and whether there is room.
func (a *area) place(p *pen, panel *plots.Panel, from int, text string, x, y, off float64) (best box, clear, ok bool) {
	w, h := wide(p.fonts.tick, text), float64(0.95*p.fonts.tick.Font.Size.Points())
	least := math.MaxInt
	edge := min(x+off, a.right-w) // beside a mark at the edge, or above it
	for _, at := range [...][2]float64{
		{x + off, y - off - h}, {x + off, y - float64(h/2)}, {x - off - w, y - off - h}, {x - off - w, y + off},
		{x - float64(w/2), y - off - h}, {x + off, y + off}, {x - float64(w/2), y + off}, {x - off - w, y - float64(h/2)},
		{edge, y - off - h}, {edge, y - off - float64(1.6*h)}, {edge, y + off},
	} {
		b := box{text: text, left: at[0], top: at[1], right: at[0] + w, bottom: at[1] + h}
		if b.left < a.left || b.right > a.right+1 || b.top < a.top || b.bottom > a.bottom {
			continue
		}
		free := true
		for _, o := range p.texts[from:] {
			free = free && !(b.left < o.right && o.left < b.right && b.top < o.bottom && o.top < b.bottom)
		}
		if n := a.hides(panel, b); free && n < least {
			best, least = b, n
		}
	}
	return best, least == 0, least < math.MaxInt
}

// hides counts how much of the lines and marks of a panel a box covers.
func (a *area) hides(panel *plots.Panel, b box) int {
	n := 0
	over := func(x, y float64) {
		if x > b.left-2 && x < b.right+2 && y > b.top-2 && y < b.bottom+2 {
			n++
		}
	}
	for k := range panel.Series {
		s := &panel.Series[k]
		switch s.Form {
		case plots.Post:
			over(a.px(s.X[0]), (b.top+b.bottom)/2)
		case plots.Marks:
			for i := range s.X {
				over(a.px(s.X[i]), a.py(s.Y[i]))
			}
		case plots.Line:
			for i := 1; i < len(s.X); i++ {
				const parts = 12
				for j := range parts {
					f := float64(j) / parts
					over(a.px(s.X[i-1]+float64(f*(s.X[i]-s.X[i-1]))), a.py(s.Y[i-1]+float64(f*(s.Y[i]-s.Y[i-1]))))
				}
			}
		}
	}
	return n
}

// disc fills a circle.
func (p *pen) disc(c color.Color, x, y, radius float64) {
	var path vg.Path
	at := p.at(x, y)
	path.Move(vg.Point{X: at.X + vg.Points(radius), Y: at.Y})
	path.Arc(at, vg.Points(radius), 0, 2*math.Pi)
	path.Close()
	p.canvas.SetColor(c)
	p.canvas.Fill(path)
}
