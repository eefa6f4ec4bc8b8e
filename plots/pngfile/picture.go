package pngfile

import (
	"image"
	"image/png"
	"io"

	"gonum.org/v1/plot/vg"
	vgdraw "gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"loamledger/plots"
)

// The size of every picture: 432 pt at 216 dots per inch is 1296 px.
const (
	WidthPt     = 432
	DotsPerInch = 216
)

// A Picture is a drawn chart.
type Picture struct {
	img   *image.Paletted
	bare  int // first pixel row below the heading
	texts []box
	hPt   float64
}

// A box is where a text stands [pt], kept so that tests can look for overlaps.
type box struct {
	text                     string
	left, top, right, bottom float64
}

// Draw draws chart c.
func Draw(c *plots.Chart) *Picture { return drawAt(c, DotsPerInch) }

// drawAt draws chart c with so many dots per inch; the arrangement, measured in
// points, does not depend on it.
func drawAt(c *plots.Chart, dpi int) *Picture {
	l := arrange(c)
	canvas := vgimg.NewWith(vgimg.UseWH(WidthPt, vg.Length(l.height)), vgimg.UseDPI(dpi))
	p := &pen{canvas: vgdraw.New(canvas), pixel: 72 / float64(dpi), fonts: l.fonts, heightPt: l.height}
	l.draw(p, c)
	// A canvas of this kind always stands on an image.RGBA.
	pic := &Picture{img: indexed(canvas.Image().(*image.RGBA)), texts: p.texts, hPt: l.height}
	pic.bare = int(l.headEnd * float64(dpi) / 72)
	return pic
}

// BareSize returns the width and height in pixels of what [Picture.WriteBare]
// writes.
func (p *Picture) BareSize() (width, height int) {
	b := p.img.Bounds()
	return b.Dx(), b.Dy() - p.bare
}

// Write writes the picture with its heading: for use on its own.
func (p *Picture) Write(w io.Writer) error { return encode(w, p.img) }

// WriteBare writes the picture without title and sentence: for a page that
// sets them as text.
func (p *Picture) WriteBare(w io.Writer) error {
	b := p.img.Bounds()
	b.Min.Y += p.bare
	return encode(w, p.img.SubImage(b))
}

func encode(w io.Writer, m image.Image) error {
	e := png.Encoder{CompressionLevel: png.DefaultCompression}
	return e.Encode(w, m)
}
