package pdffile

import (
	"fmt"

	"loamledger/plots"
)

// A block is one picture of a chart, with the chart's title and sentence before the
// first.
type block struct {
	chart   *plots.Chart
	part    int // 0 is the first
	picture *plots.Picture
	number  int
}

// The scale of a picture, as a share of the size it was drawn for: 432 pt across, with
// labels of 10 pt.
const (
	drawnPt    = 432.0
	leastScale = 0.68
	tightScale = 0.6 // on a page that would be half empty without the picture
)

// least returns the least scale of a picture on this page.
func (s *sheet) least() float64 {
	if s.y < s.high/2 {
		return tightScale
	}
	return leastScale
}

// chart writes a chart where it belongs, or has its pictures wait for the next page: what
// comes after them in their section then fills the page. Charts are numbered in their
// order.
func (s *sheet) chart(f *plots.Figure) {
	waited := len(s.waiting) > 0
	s.queue(f)
	if !waited {
		s.settle()
	}
}

// queue has the pictures of a chart wait.
func (s *sheet) queue(f *plots.Figure) {
	s.charts++
	for i := range f.Pictures {
		s.waiting = append(s.waiting, block{chart: f.Chart, part: i, picture: &f.Pictures[i], number: s.charts})
	}
}

// settle places waiting pictures as long as they fit.
func (s *sheet) settle() {
	for len(s.waiting) > 0 && s.place(&s.waiting[0], 1) {
		s.waiting = s.waiting[1:]
	}
}

// flush places all waiting pictures, so that what follows them stands after them: as many
// on a page as fit at one scale.
func (s *sheet) flush() {
	for len(s.waiting) > 0 {
		n, scale := s.together()
		if n == 0 && !s.fresh {
			s.begin()
			continue
		}
		for range max(n, 1) {
			s.place(&s.waiting[0], scale)
			s.waiting = s.waiting[1:]
		}
	}
}

// together returns how many of the waiting pictures fit on what is left of the page, and
// at which scale; 0 if not even the first does.
func (s *sheet) together() (n int, scale float64) {
	text, high, least := 0.0, 0.0, s.least()
	scale = 1
	for i := range s.waiting {
		b := &s.waiting[i]
		text += s.above(b, s.fresh && i == 0) + below
		high += s.tall(b)
		fits := (s.bottom() - s.y - text) / high
		if high > 0 && fits < least {
			break
		}
		n, least = i+1, leastScale
		if high > 0 {
			scale = min(1, fits)
		}
	}
	return n, scale
}

// texts returns the title and the sentence above a picture, as lines.
func (s *sheet) texts(b *block) (title, see []string) {
	if b.part > 0 {
		return s.title.wrap(fmt.Sprintf("Chart %d, continued", b.number), body, s.column()), nil
	}
	text := b.chart.See
	if b.chart.Label != "" {
		text += " " + b.chart.Label + "."
	}
	return s.title.wrap(fmt.Sprintf("Chart %d. %s", b.number, b.chart.Title), subSize, s.column()), s.plain.wrap(text, body, s.column())
}

// below is the room under a picture.
const below = 6.0

// tall returns the height of a picture at the size it was drawn for; 0 for none.
func (s *sheet) tall(b *block) float64 {
	if b.picture.WidthPx == 0 {
		return 0
	}
	return min(drawnPt, s.column()) * float64(b.picture.HighPx) / float64(b.picture.WidthPx)
}

// sized returns the size of the title above a picture.
func sized(b *block) float64 {
	if b.part > 0 {
		return body
	}
	return subSize
}

// above returns the height of the texts above a picture.
func (s *sheet) above(b *block, first bool) float64 {
	title, see := s.texts(b)
	gap := 12.0
	if first {
		gap = 0
	}
	return gap + float64(float64(len(title))*sized(b)*1.25) + float64(float64(len(see))*body*leading) + 4
}

// place draws a picture at a scale if it fits on the page, a little smaller if it must be.
func (s *sheet) place(b *block, scale float64) bool {
	full := s.tall(b)
	if full == 0 {
		return true // nothing to draw
	}
	title, see := s.texts(b)
	size, first := sized(b), s.fresh
	if fits := (s.bottom() - s.y - s.above(b, first)) / full; scale > fits {
		if fits < s.least() && !first {
			return false
		}
		scale = fits
	}
	wide, high := min(drawnPt, s.column())*scale, full*scale
	if !first {
		s.y += 12
	}
	s.fresh = false
	if b.part == 0 {
		s.mark("", b.chart.Title, 1)
	}
	for _, line := range title {
		s.put(s.title, size, ink, s.left, s.y, line)
		s.y += float64(size * 1.25)
	}
	for _, line := range see {
		s.put(s.plain, body, ink, s.left, s.y, line)
		s.y += body * leading
	}
	s.y += 4
	alt := b.chart.Alt
	if b.part > 0 {
		alt = b.chart.Title + ", continued."
	}
	s.picture(fmt.Sprintf("chart-%d-%d", b.number, b.part), b.picture, alt, s.left, s.y, wide, high)
	s.y += float64(high) + below
	return true
}
