package pngfile

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
)

// text writes s with its left edge at x and the top of its line at y, and
// keeps its box.
func (p *pen) text(f font.Face, c color.Color, x, y float64, s string) {
	if s == "" {
		return
	}
	size := f.Font.Size.Points()
	at := p.at(x, y+float64(size*0.92))
	high := float64(p.at(0, 0).Y.Dots(p.dpi)) // of the sheet
	p.letters(f, c, at.X.Dots(p.dpi), high-float64(at.Y.Dots(p.dpi)), s)
	p.texts = append(p.texts, box{text: s, left: x, top: y + float64(0.15*size), right: x + wide(f, s), bottom: y + float64(1.1*size)})
}

// letters draws s from (x, y) in pixels, y downward to the base line. The canvas
// would rotate and scale each letter as a picture, which takes a quarter of the
// time of a chart; this only copies upright letters, with identical pixels.
func (p *pen) letters(f font.Face, c color.Color, x, y float64, s string) {
	face := p.inPixels[f.Font]
	if face == nil {
		face = f.FontFace(p.dpi)
		p.inPixels[f.Font] = face
	}
	fix := func(v float64) fixed.Int26_6 { return fixed.Int26_6(math.Round(v * 64)) }
	dot := fixed.Point26_6{X: fix(x), Y: fix(y)}
	before := rune(-1)
	for _, r := range s {
		if before >= 0 {
			dot.X += face.Kern(before, r)
		}
		where, mask, from, advance, ok := face.Glyph(dot, r)
		if !ok { // a character missing in the font has no width
			continue
		}
		// Such a face always returns an image.Alpha.
		lay(p.sheet, c, where, mask.(*image.Alpha), from)
		dot.X += advance
		before = r
	}
}

// lay draws the opaque color c on sheet through mask, read from point from.
func lay(sheet *image.RGBA, c color.Color, where image.Rectangle, mask *image.Alpha, from image.Point) {
	r, g, b, _ := c.RGBA()
	shift := from.Sub(where.Min)
	where = where.Intersect(sheet.Rect)
	for y := where.Min.Y; y < where.Max.Y; y++ {
		cover := mask.Pix[mask.PixOffset(where.Min.X+shift.X, y+shift.Y):][:where.Dx()]
		row := sheet.Pix[sheet.PixOffset(where.Min.X, y):][: 4*where.Dx() : 4*where.Dx()]
		for i, a := range cover {
			if a == 0 {
				continue
			}
			m := uint32(a) * 0x101
			px := row[4*i:][:3:3]
			px[0] = blend(px[0], r, m)
			px[1] = blend(px[1], g, m)
			px[2] = blend(px[2], b, m)
		}
	}
}

// blend returns a 16-bit channel of color over on the color under it, with m of
// 0xFFFF as its cover.
func blend(under uint8, over, m uint32) uint8 {
	return uint8((uint32(under)*0x101*(0xFFFF-m)/0xFFFF + over*m/0xFFFF) >> 8)
}
