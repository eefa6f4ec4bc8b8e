package pngfile

import (
	"image"
	"image/color"
	"math"
	"strings"

	stdfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/vg"
	vgdraw "gonum.org/v1/plot/vg/draw"

	"loamledger/plots"
	"loamledger/weather/portable"
)

// The faces of a picture: a serif for the title, a sans for the rest.
type faces struct {
	kicker, title, body, name, nameRef, note, tick font.Face
}

func newFaces() faces {
	cache := font.NewCache(liberation.Collection())
	face := func(f font.Font, sizePt float64) font.Face { return cache.Lookup(f, vg.Points(sizePt)) }
	sans := font.Font{Typeface: "Liberation", Variant: "Sans"}
	bold, italic := sans, sans
	bold.Weight, italic.Weight, italic.Style = stdfont.WeightBold, stdfont.WeightBold, stdfont.StyleItalic
	return faces{
		kicker:  face(bold, 10),
		title:   face(font.Font{Typeface: "Liberation", Variant: "Serif", Weight: stdfont.WeightBold}, 18),
		body:    face(sans, 12),
		name:    face(bold, 11.5),
		nameRef: face(italic, 11.5),
		note:    face(sans, 10.5),
		tick:    face(sans, 10),
	}
}

// wide returns the width of s [pt].
func wide(f font.Face, s string) float64 { return f.Width(s).Points() }

// tall returns the distance between lines [pt].
func tall(f font.Face) float64 { return float64(f.Font.Size.Points() * 1.25) }

// wrap breaks s into lines no wider than width [pt], at most most of them (0
// means no limit). A word too long for a line is broken. cut reports whether
// text was cut, in which case the last line ends in an ellipsis.
func wrap(f font.Face, s string, width float64, most int) (lines []string, cut bool) {
	line := ""
	for _, word := range strings.Fields(s) {
		joined := word
		if line != "" {
			joined = line + " " + word
		}
		if wide(f, joined) <= width {
			line = joined
			continue
		}
		if line != "" {
			lines, line = append(lines, line), ""
		}
		for wide(f, word) > width {
			head, tail := split(f, word, width)
			lines, word = append(lines, head), tail
		}
		line = word
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	if most == 0 || len(lines) <= most {
		return lines, false
	}
	lines = lines[:most]
	last := []rune(lines[most-1])
	for len(last) > 1 && wide(f, string(last)+"…") > width {
		last = last[:len(last)-1]
	}
	lines[most-1] = strings.TrimRight(string(last), " ") + "…"
	return lines, true
}

// split cuts a word that does not fit, after at least one letter.
func split(f font.Face, word string, width float64) (head, tail string) {
	runes := []rune(word)
	n := 1
	for n < len(runes)-1 && wide(f, string(runes[:n+1])) <= width {
		n++
	}
	return string(runes[:n]), string(runes[n:])
}

// A pen draws on a canvas with y upward, from coordinates with y downward.
type pen struct {
	canvas   vgdraw.Canvas
	sheet    *image.RGBA // what the canvas draws on
	fonts    faces
	inPixels map[font.Font]stdfont.Face // the faces in use at this resolution
	heightPt float64
	dpi      float64
	pixel    float64 // width of a pixel [pt]
	texts    []box
}

func (p *pen) at(x, y float64) vg.Point {
	return vg.Point{X: vg.Points(x), Y: vg.Points(p.heightPt - y)}
}

// An rgb is a color as in 0xRRGGBB.
type rgb uint32

// RGBA is [color.Color]'s.
func (c rgb) RGBA() (r, g, b, a uint32) {
	return uint32(c>>16&0xFF) * 0x101, uint32(c>>8&0xFF) * 0x101, uint32(c&0xFF) * 0x101, 0xFFFF
}

// The colors of everything except data.
const (
	ink   rgb = 0x1C1C1A
	faint rgb = 0x4A4A46
	grid  rgb = 0xDDDDD8
	plate rgb = 0xFFFFFF
)

// lines writes several lines and returns the y below them.
func (p *pen) lines(f font.Face, c color.Color, x, y float64, lines []string) float64 {
	for _, s := range lines {
		p.text(f, c, x, y, s)
		y += tall(f)
	}
	return y
}

// fill fills rectangles given as left, top, right, bottom, all at once.
func (p *pen) fill(c color.Color, rects [][4]float64) {
	var path vg.Path
	for _, r := range rects {
		path.Move(p.at(r[0], r[1]))
		path.Line(p.at(r[2], r[1]))
		path.Line(p.at(r[2], r[3]))
		path.Line(p.at(r[0], r[3]))
		path.Close()
	}
	if len(path) > 0 {
		p.canvas.SetColor(c)
		p.canvas.Fill(path)
	}
}

// stroke draws lines in one style.
func (p *pen) stroke(c color.Color, widthPt float64, dashPt []float64, lines ...[][2]float64) {
	dashes := make([]vg.Length, len(dashPt))
	pattern := 0.0
	for i, d := range dashPt {
		dashes[i] = vg.Points(d)
		pattern += d
	}
	p.canvas.SetColor(c)
	p.canvas.SetLineWidth(vg.Points(widthPt))
	p.canvas.SetLineDash(dashes, 0)
	// The rasterizer searches each pixel row from its start, so the cost of a
	// path grows with the square of its length: long lines are drawn in parts
	// that share an end point and continue the dash.
	const piece = 48
	var path vg.Path
	flush := func() {
		if len(path) > 0 {
			p.canvas.Stroke(path)
			path = path[:0]
		}
	}
	for _, l := range lines {
		done := 0.0
		for len(l) > 1 {
			part := l[:min(len(l), piece)]
			if pattern > 0 {
				flush()
				p.canvas.SetLineDash(dashes, vg.Points(math.Mod(done, pattern)))
				done += length(part)
			}
			path.Move(p.at(part[0][0], part[0][1]))
			for _, pt := range part[1:] {
				path.Line(p.at(pt[0], pt[1]))
			}
			if len(path) >= piece {
				flush()
			}
			l = l[len(part)-1:]
		}
	}
	flush()
}

// length returns the length of a line [pt].
func length(l [][2]float64) float64 {
	sum := 0.0
	for i := range l[1:] {
		sum += portable.Hypot(l[i+1][0]-l[i][0], l[i+1][1]-l[i][1])
	}
	return sum
}

// line draws a line in a style, its casing below it.
func (p *pen) line(s plots.Style, line [][2]float64) {
	if s.CasePt > 0 {
		p.stroke(plate, s.WidthPt+2*s.CasePt, nil, line)
	}
	p.stroke(s.Stroke, s.WidthPt, s.DashPt, line)
}

// outline strokes the edges of rectangles.
func (p *pen) outline(c color.Color, widthPt float64, rects [][4]float64) {
	lines := make([][][2]float64, len(rects))
	for i, r := range rects {
		lines[i] = [][2]float64{{r[0], r[1]}, {r[2], r[1]}, {r[2], r[3]}, {r[0], r[3]}, {r[0], r[1]}}
	}
	p.stroke(c, widthPt, nil, lines...)
}

// area fills the polygon through pts.
func (p *pen) area(c color.Color, pts [][2]float64) {
	if len(pts) < 3 {
		return
	}
	var path vg.Path
	path.Move(p.at(pts[0][0], pts[0][1]))
	for _, pt := range pts[1:] {
		path.Line(p.at(pt[0], pt[1]))
	}
	path.Close()
	p.canvas.SetColor(c)
	p.canvas.Fill(path)
}

// blocks fills rectangles in a style, hatch and outline included.
func (p *pen) blocks(s plots.Style, rects [][4]float64) {
	p.fill(s.Fill, rects)
	for _, r := range rects {
		p.hatch(s.Hatch, s.Stroke, r)
	}
	if s.WidthPt > 0 {
		p.outline(s.Stroke, s.WidthPt, rects)
	}
}
