package pdffile

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"unicode/utf16"

	"codeberg.org/go-pdf/fpdf"

	"loamledger/plots"
)

// Distances [pt].
const (
	edge     = 42.0 // between paper and text, left and right
	head     = 40.0 // above the text
	foot     = 48.0 // below it, with the page number
	body     = 9.0  // size of running text
	small    = 8.0
	leading  = 1.25 // distance of lines in sizes
	paraGap  = 4.0
	headSize = 14.0
	subSize  = 11.0
)

// Grays of text and lines, with the contrast that the HTML report has.
const (
	ink   = 0x1C
	faint = 0x4A
	hair  = 0xC4
)

// A sheet writes text, tables and pictures down the page, and on to the next.
// Distances are in points from the upper left corner.
type sheet struct {
	*fonts
	pdf         *fpdf.Fpdf
	wide, high  float64 // of the paper
	left, right float64 // of the column in use
	y           float64 // below what is written
	page        int     // from 1
	dry         bool    // measures only, on one endless page
	fresh       bool    // nothing is on the page yet
	ends        []float64
	marks       map[string]place // sections, by id
	earlier     *sheet           // of the first pass, which found the pages; nil in it
	links       map[string]int
	waiting     []block // pictures that did not fit where they belong
	footer      string
	face        *face
	size        float64
	across      map[int]bool // widths of the pictures in the file [px]
	pictures    int
	charts      int
	shortened   bool // the first sheet has not all of the options, or not all of their texts
	listed      int  // options on the first sheet
	omitted     int  // options that it says are on another page
	headings    []string
}

// A place is a page and a height on it.
type place struct {
	page int
	y    float64
}

func (s *sheet) bottom() float64 { return s.high - foot }
func (s *sheet) column() float64 { return s.right - s.left }

// begin starts a page.
func (s *sheet) begin() {
	if s.dry {
		return
	}
	if s.page > 0 {
		s.end()
	}
	s.page++
	s.pdf.AddPage()
	s.face, s.y, s.fresh = nil, head, true
}

// end writes what is below the text.
func (s *sheet) end() {
	s.ends = append(s.ends, s.y)
	if s.dry {
		return
	}
	number := fmt.Sprintf("Page %d", s.page)
	if s.earlier != nil {
		number = fmt.Sprintf("Page %d of %d", s.page, s.earlier.page)
	}
	y := s.high - foot + 16
	s.line(edge, y-4, s.wide-edge, hair, 0.5)
	s.put(s.plain, 7.5, faint, edge, y, s.footer)
	s.put(s.plain, 7.5, faint, s.wide-edge-s.plain.width(number, 7.5), y, number)
}

// put writes one line of text with its upper edge at y.
func (s *sheet) put(f *face, size float64, gray int, x, y float64, text string) {
	if s.dry || text == "" {
		return
	}
	if s.face != f || s.size != size {
		s.pdf.SetFont(f.family, f.style, size)
		s.face, s.size = f, size
	}
	s.pdf.SetTextColor(gray, gray, gray)
	s.pdf.Text(x, y+float64(size*0.92), s.known(text))
}

// line draws a level line.
func (s *sheet) line(x, y, to float64, gray int, width float64) {
	if s.dry {
		return
	}
	s.pdf.SetDrawColor(gray, gray, gray)
	s.pdf.SetLineWidth(width)
	s.pdf.Line(x, y, to, y)
}

// need starts a page if height does not fit on this one, and places pictures that
// wait for a page.
func (s *sheet) need(height float64) {
	for !s.dry && !s.fresh && s.y+height > s.bottom() {
		s.begin()
		s.settle()
	}
}

// skip leaves a gap, not at the top of a page.
func (s *sheet) skip(gap float64) {
	if !s.fresh || s.dry {
		s.y += float64(gap)
	}
}

// mark makes a section the target of links, and a bookmark.
func (s *sheet) mark(id, title string, level int) {
	if s.dry {
		return
	}
	if id != "" {
		s.marks[id] = place{s.page, s.y}
		s.pdf.SetLink(s.link(id), max(s.y-6, 0), s.page)
	}
	if s.face == nil { // bookmarks are written in the encoding of the font
		s.pdf.SetFont(s.plain.family, s.plain.style, body)
		s.face, s.size = s.plain, body
	}
	s.pdf.Bookmark(title, level, max(s.y-6, 0))
}

// link returns the link to a section.
func (s *sheet) link(id string) int {
	at, ok := s.links[id]
	if !ok {
		at = s.pdf.AddLink()
		s.links[id] = at
	}
	return at
}

// picture draws a PNG file with its description.
func (s *sheet) picture(name string, p *plots.Picture, alt string, x, y, wide, high float64) {
	if s.dry {
		return
	}
	s.pictures++
	if s.earlier == nil { // the first pass finds pages only
		return
	}
	file, share, err := s.distinct(p.PNG)
	if err != nil {
		s.pdf.SetError(fmt.Errorf("%s: %w", name, err))
		return
	}
	o := fpdf.ImageOptions{ImageType: "PNG"}
	s.pdf.RegisterImageOptionsReader(name, o, bytes.NewReader(file))
	// A description without tags: ISO 32000-1, 14.9.3, a marked-content sequence with the tag Span.
	s.pdf.RawWriteStr("/Span <</Alt <" + hex16(alt) + ">>> BDC")
	s.pdf.ImageOptions(name, x, y, wide*share, high, false, o, 0, "")
	s.pdf.RawWriteStr("EMC")
}

// distinct returns a PNG file with a width that no other picture of the file has, and
// that width as a share of its own. fpdf sorts pictures by nothing but their widths, so
// pictures of equal widths would come in another order each time.
func (s *sheet) distinct(file []byte) (out []byte, share float64, err error) {
	c, err := png.DecodeConfig(bytes.NewReader(file))
	if err != nil {
		return nil, 0, err
	}
	wide := c.Width
	for s.across[wide] {
		wide++
	}
	s.across[wide] = true
	share = float64(wide) / float64(c.Width)
	if wide == c.Width {
		return file, share, nil
	}
	img, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		return nil, 0, err
	}
	rect := image.Rect(0, 0, wide, c.Height)
	var wider draw.Image = image.NewNRGBA(rect)
	if p, ok := img.(*image.Paletted); ok {
		wider = image.NewPaletted(rect, p.Palette)
	}
	draw.Draw(wider, rect, image.NewUniform(img.At(img.Bounds().Min.X, img.Bounds().Min.Y)), image.Point{}, draw.Src)
	if p, ok := img.(*image.Paletted); ok {
		to := wider.(*image.Paletted)
		for row := range c.Height {
			copy(to.Pix[row*to.Stride:], p.Pix[row*p.Stride:][:c.Width])
		}
	} else {
		draw.Draw(wider, rect, img, img.Bounds().Min, draw.Src)
	}
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	err = e.Encode(&b, wider)
	return b.Bytes(), share, err
}

// hex16 writes a text as the digits of a hexadecimal string of UTF-16.
func hex16(text string) string {
	out := "FEFF"
	for _, u := range utf16.Encode([]rune(text)) {
		out += fmt.Sprintf("%04X", u)
	}
	return out
}
