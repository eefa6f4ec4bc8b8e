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

// The scale of a picture, as a share of the size it was drawn for: 432 pt across.
const (
	drawnPt    = 432.0
	leastScale = 0.68 // so that its 10 pt labels stay legible
)

// chart writes a chart where it belongs, or has its pictures wait for the next page: what
// comes after them then fills the page. Charts are numbered in their order.
func (s *sheet) chart(f *plots.Figure) {
	s.charts++
	number := s.charts
	for i := range f.Pictures {
		b := block{chart: f.Chart, part: i, picture: &f.Pictures[i], number: number}
		if len(s.waiting) > 0 || !s.place(&b) {
			s.waiting = append(s.waiting, b)
		}
	}
}

// settle places waiting pictures as long as they fit.
func (s *sheet) settle() {
	for len(s.waiting) > 0 && s.place(&s.waiting[0]) {
		s.waiting = s.waiting[1:]
	}
}

// flush places all waiting pictures.
func (s *sheet) flush() {
	for s.settle(); len(s.waiting) > 0; s.settle() {
		s.begin()
	}
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

// place draws a picture if it fits on the page, a little smaller if it must be.
func (s *sheet) place(b *block) bool {
	if b.picture.WidthPx == 0 || b.picture.HighPx == 0 {
		return true // nothing to draw
	}
	title, see := s.texts(b)
	size := subSize
	if b.part > 0 {
		size = body
	}
	gap := 12.0
	if s.fresh {
		gap = 0
	}
	text := gap + float64(float64(len(title))*size*1.25) + float64(float64(len(see))*body*leading) + 4
	room := s.bottom() - s.y - text
	wide := min(drawnPt, s.column())
	high := wide * float64(b.picture.HighPx) / float64(b.picture.WidthPx)
	if scale := room / high; scale < 1 {
		if scale < leastScale && !s.fresh {
			return false
		}
		wide, high = wide*scale, high*scale
	}
	s.y += gap
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
	s.y += high + 6
	return true
}
