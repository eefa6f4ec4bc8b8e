package pdffile

import (
	"fmt"
	"strings"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansitalic"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-fonts/liberation/liberationserifbold"
	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/sfnt"

	"loamledger/weather/visible"
)

// A face is one font of the file.
type face struct {
	family, style string // as fpdf names them
	ttf           []byte
	parsed        *sfnt.Font
	wide          map[rune]float64 // advance of a character [em]; negative if the font lacks it
}

// fonts are the faces of a file: a serif for titles, a sans for the rest.
type fonts struct {
	plain, bold, italic, title *face
	lacking                    map[rune]bool // characters shown as a question mark
}

func newFonts() (*fonts, error) {
	f := &fonts{
		plain:   &face{family: "sans", ttf: liberationsansregular.TTF},
		bold:    &face{family: "sans", style: "B", ttf: liberationsansbold.TTF},
		italic:  &face{family: "sans", style: "I", ttf: liberationsansitalic.TTF},
		title:   &face{family: "serif", style: "B", ttf: liberationserifbold.TTF},
		lacking: map[rune]bool{},
	}
	for _, one := range f.all() {
		parsed, err := sfnt.Parse(one.ttf)
		if err != nil {
			return nil, fmt.Errorf("reading an embedded font: %w", err)
		}
		one.parsed, one.wide = parsed, map[rune]float64{}
	}
	return f, nil
}

func (f *fonts) all() []*face { return []*face{f.plain, f.bold, f.italic, f.title} }

// register adds the faces to a file. A file contains the characters in use only.
func (f *fonts) register(pdf *fpdf.Fpdf) {
	for _, one := range f.all() {
		pdf.AddUTF8FontFromBytes(one.family, one.style, one.ttf)
	}
}

// advance returns the width of a character [em], negative if the face lacks it.
func (c *face) advance(r rune) float64 {
	w, known := c.wide[r]
	if known {
		return w
	}
	w = -1
	var b sfnt.Buffer
	if at, err := c.parsed.GlyphIndex(&b, r); err == nil && at != 0 && r <= 0xFFFF {
		const size = 1000 // pixels per em, in 64ths
		if a, err := c.parsed.GlyphAdvance(&b, at, 64*size, 0); err == nil {
			w = float64(a) / 64 / size
		}
	}
	c.wide[r] = w
	return w
}

// known returns s with every character that a face lacks replaced.
func (f *fonts) known(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\t' || r == '\n' || r == '\r' {
			return ' '
		}
		for _, one := range f.all() {
			if one.advance(r) < 0 {
				f.lacking[r] = true
				return '?'
			}
		}
		return r
	}, visible.Text(s))
}

// width returns the width of a text in a size [pt].
func (c *face) width(s string, size float64) float64 {
	sum := 0.0
	for _, r := range s {
		sum += max(c.advance(r), 0)
	}
	return float64(sum * size)
}

// wrap breaks s into lines no wider than width [pt]; a word too long for a line is
// broken. There is at least one line.
func (c *face) wrap(s string, size, width float64) (lines []string) {
	line, at, space := "", 0.0, c.width(" ", size)
	for _, word := range strings.Fields(s) {
		w := c.width(word, size)
		if line != "" && at+space+w <= width {
			line, at = line+" "+word, at+space+w
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for w > width {
			head, tail := c.split(word, size, width)
			lines, word = append(lines, head), tail
			w = c.width(word, size)
		}
		line, at = word, w
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// split cuts a word that is too long, after at least one character.
func (c *face) split(word string, size, width float64) (head, tail string) {
	runes := []rune(word)
	n := 1
	for n < len(runes)-1 && c.width(string(runes[:n+1]), size) <= width {
		n++
	}
	return string(runes[:n]), string(runes[n:])
}
