package pngfile

import (
	"image"
	"io"

	"git.sr.ht/~sbinet/gg"
	stdfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	vgdraw "gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"loamledger/plots"
)

// The size of every picture: 432 pt at 216 dots per inch is 1296 px.
const (
	widthPt     = 432
	dotsPerInch = 216
)

// A Picture is a drawn chart. It is valid until its [drawer] draws the next.
type Picture struct {
	img    *image.Paletted
	packer *packer
	bare   int // first pixel row below the heading
	texts  []box
	hPt    float64

	head, body packed // the rows above and below bare, packed when first asked for
}

// A box is the place of a text [pt], kept so that tests can look for overlaps.
type box struct {
	text                     string
	left, top, right, bottom float64
}

// Draw draws chart c with a new [drawer].
func Draw(c *plots.Chart) *Picture { return new(drawer).draw(c) }

// A drawer draws one chart after another in the same memory. The zero Drawer is
// ready for use. Several goroutines must not share one.
type drawer struct {
	sheet   []uint8
	indexer indexer
	packer  packer
}

// draw draws chart c.
func (d *drawer) draw(c *plots.Chart) *Picture { return d.drawAt(c, dotsPerInch) }

// drawAt draws chart c at a number of dots per inch; the layout, in points, does
// not depend on it.
func (d *drawer) drawAt(c *plots.Chart, dpi int) *Picture {
	l := arrange(c)
	wide, high := pixels(widthPt, dpi), pixels(l.height, dpi)
	if n := 4 * wide * high; cap(d.sheet) < n {
		d.sheet = make([]uint8, n)
	}
	sheet := &image.RGBA{Pix: d.sheet[:4*wide*high], Stride: 4 * wide, Rect: image.Rect(0, 0, wide, high)}
	// By default a canvas copies the sheet before it draws on it.
	ctx := gg.NewContextForRGBA(sheet)
	ctx.SetLineCapButt()
	ctx.InvertY()
	canvas := vgimg.NewWith(vgimg.UseImageWithContext(sheet, ctx), vgimg.UseDPI(dpi))
	p := &pen{
		canvas: vgdraw.New(canvas), sheet: sheet, fonts: l.fonts, inPixels: map[font.Font]stdfont.Face{},
		heightPt: l.height, dpi: float64(dpi), pixel: 72 / float64(dpi),
	}
	l.draw(p, c)
	return &Picture{img: d.indexer.indexed(sheet), packer: &d.packer, texts: p.texts, hPt: l.height, bare: int(l.headEnd * float64(dpi) / 72)}
}

// pixels returns how many pixels a length [pt] takes.
func pixels(pt float64, dpi int) int { return int(float64(vg.Length(pt)/vg.Inch*vg.Length(dpi)) + 0.5) }

// BareSize returns the width and height in pixels of the picture of
// [Picture.WriteBare].
func (p *Picture) BareSize() (width, height int) {
	b := p.img.Bounds()
	return b.Dx(), b.Dy() - p.bare
}

// Write writes the picture with its heading, for use on its own.
func (p *Picture) Write(w io.Writer) error {
	if p.head.data == nil {
		p.head = p.packer.pack(p.img, 0, p.bare, false)
	}
	return writePNG(w, p.img.Palette, p.img.Rect.Dx(), p.head, p.rest())
}

// WriteBare writes the picture without title and sentence, for a page that has
// them as text.
func (p *Picture) WriteBare(w io.Writer) error {
	return writePNG(w, p.img.Palette, p.img.Rect.Dx(), p.rest())
}

// rest returns the rows below the heading, which both files share.
func (p *Picture) rest() packed {
	if p.body.data == nil {
		p.body = p.packer.pack(p.img, p.bare, p.img.Rect.Dy(), true)
	}
	return p.body
}
