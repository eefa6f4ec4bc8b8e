package pngfile

import (
	"math"

	"loamledger/plots"
)

// series draws one series in its area.
func (a *area) series(p *pen, s *plots.Series) {
	style := s.Role.Style(0)
	switch s.Form {
	case plots.Line:
		for _, run := range unbroken(s.X, s.Y) {
			line := reduce(a.map2(run), p.pixel)
			if len(line) == 1 { // a single day between gaps
				line = append(line, [2]float64{line[0][0] + p.pixel, line[0][1]})
			}
			p.line(style, line)
		}
	case plots.Steps:
		for _, run := range unbroken(s.X, s.Y) {
			var line [][2]float64
			for _, pt := range run {
				y := a.py(pt[1])
				line = append(line, [2]float64{a.px(pt[0] - float64(s.Width/2)), y}, [2]float64{a.px(pt[0] + float64(s.Width/2)), y})
			}
			p.line(style, line)
		}
	case plots.Rule:
		y := a.py(s.Y[0])
		if math.IsNaN(y) {
			return
		}
		p.stroke(style.Stroke, style.WidthPt, style.DashPt, [][2]float64{{a.left, y}, {a.right, y}})
	case plots.Post:
		x := a.px(s.X[0])
		if math.IsNaN(x) {
			return
		}
		p.stroke(style.Stroke, style.WidthPt, style.DashPt, [][2]float64{{x, a.top}, {x, a.bottom}})
	case plots.Marks: // lie above the frame
	case plots.Bars:
		a.bars(p, s, style)
	case plots.Spans:
		a.spans(p, s, style)
	case plots.Band:
		a.band(p, s, style)
	case plots.Cells:
		a.cells(p, s)
	}
}

func (a *area) map2(run [][2]float64) [][2]float64 {
	out := make([][2]float64, len(run))
	for i, pt := range run {
		out[i] = [2]float64{a.px(pt[0]), a.py(pt[1])}
	}
	return out
}

// base returns element i of the base of s, 0 if s has none.
func base(s *plots.Series, i int) float64 {
	if s.Base == nil {
		return 0
	}
	return s.Base[i]
}

// bars draws vertical bars. If several share one pixel column, only the largest is
// drawn, at least a pixel wide.
func (a *area) bars(p *pen, s *plots.Series, style plots.Style) {
	var rects [][4]float64
	slim := a.px(a.x.Min+s.Width)-a.px(a.x.Min) < 3*p.pixel
	column := math.Inf(-1)
	for i, x := range s.X {
		if math.IsNaN(x) || math.IsNaN(s.Y[i]-base(s, i)) || s.Y[i] == base(s, i) {
			continue
		}
		left, right := a.px(x-float64(s.Width/2)), a.px(x+float64(s.Width/2))
		right = max(right, left+p.pixel)
		y, b := a.py(s.Y[i]), a.py(base(s, i))
		r := [4]float64{left, min(y, b), right, max(y, b)}
		if at := math.Floor(left / p.pixel); slim && at == column {
			if last := &rects[len(rects)-1]; r[3]-r[1] > last[3]-last[1] {
				*last = r
			}
			continue
		} else {
			column = at
		}
		rects = append(rects, r)
	}
	if slim {
		style.Fill, style.WidthPt = style.Stroke, 0 // an outline would cover the fill
	}
	p.blocks(style, rects)
}

// spans draws horizontal bars, with their texts if they fit.
func (a *area) spans(p *pen, s *plots.Series, style plots.Style) {
	for i := range s.X {
		left, right := a.px(base(s, i)), a.px(s.X[i])
		if !(right-left >= p.pixel/2) || math.IsNaN(s.Y[i]) { // too narrow, or a gap
			continue
		}
		y0, y1 := a.py(s.Y[i]-float64(s.Width/2)), a.py(s.Y[i]+float64(s.Width/2))
		r := [4]float64{left, min(y0, y1), right, max(y0, y1)}
		p.blocks(style, [][4]float64{r})
		if i >= len(s.Text) {
			continue
		}
		w, size := wide(p.fonts.tick, s.Text[i]), p.fonts.tick.Font.Size.Points()
		if w+8 > right-left || size > r[3]-r[1] {
			continue
		}
		x, mid := float64((left+right-w)/2), float64((r[1]+r[3])/2)
		p.fill(plate, [][4]float64{{x - 2, mid - float64(size/2) - 0.3, x + w + 2, mid + float64(size/2) + 0.3}})
		p.text(p.fonts.tick, ink, x, mid-float64(size*0.6), s.Text[i])
	}
}

// band fills between Y and Base, each run between gaps separately and widened by
// half a step at both ends, so that a single day is visible.
func (a *area) band(p *pen, s *plots.Series, style plots.Style) {
	for from := 0; from < len(s.X); {
		if math.IsNaN(s.Y[from]) || math.IsNaN(base(s, from)) {
			from++
			continue
		}
		to := from
		for to < len(s.X) && !math.IsNaN(s.Y[to]) && !math.IsNaN(base(s, to)) {
			to++
		}
		var upper, lower [][2]float64
		add := func(x float64, i int) {
			upper = append(upper, [2]float64{a.px(x), a.py(s.Y[i])})
			lower = append(lower, [2]float64{a.px(x), a.py(base(s, i))})
		}
		add(s.X[from]-0.5, from)
		for i := from; i < to; i++ {
			add(s.X[i], i)
		}
		add(s.X[to-1]+0.5, to-1)
		for i := len(lower) - 1; i >= 0; i-- {
			upper = append(upper, lower[i])
		}
		p.area(style.Fill, upper)
		from = to
	}
}

// cells draws the boxes of a calendar, one fill per class.
func (a *area) cells(p *pen, s *plots.Series) {
	byClass := map[float64][][4]float64{}
	var all [][4]float64
	for i := range s.X {
		if math.IsNaN(s.X[i]) || math.IsNaN(s.Y[i]) {
			continue
		}
		y0, y1 := a.py(s.Y[i]-0.5), a.py(s.Y[i]+0.5)
		r := [4]float64{a.px(s.X[i] - 0.5), min(y0, y1), a.px(s.X[i] + 0.5), max(y0, y1)}
		byClass[s.Base[i]] = append(byClass[s.Base[i]], r)
		all = append(all, r)
	}
	for class := 0.0; class <= 4; class++ {
		p.fill(s.Role.Style(class).Fill, byClass[class])
	}
	style := s.Role.Style(0)
	p.outline(style.Stroke, style.WidthPt, all)
}

// key draws the sample of key k in the legend at (x, y).
func (p *pen) key(k plots.Key, x, y float64) {
	style := k.Role.Style(k.Class)
	switch k.Form {
	case plots.Marks:
		p.dot(style, x+swatchWide/2+2, y+6.5)
	case plots.Post:
		p.stroke(style.Stroke, style.WidthPt, style.DashPt, [][2]float64{{x + swatchWide/2 + 2, y}, {x + swatchWide/2 + 2, y + 13}})
	case plots.Line, plots.Steps, plots.Rule:
		p.stroke(style.Stroke, style.WidthPt, style.DashPt, [][2]float64{{x, y + 6.5}, {x + swatchWide, y + 6.5}})
	default:
		p.blocks(style, [][4]float64{{x + 3, y + 1.5, x + swatchWide, y + 11.5}})
	}
}
