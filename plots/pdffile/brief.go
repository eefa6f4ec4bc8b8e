package pdffile

import (
	"errors"
	"fmt"
	"io"

	"loamledger/plots"
	"loamledger/weather/cal"
)

// A BriefDocument is a brief with the charts that its page has room for.
type BriefDocument struct {
	Brief   *plots.Brief
	Figures []plots.Figure // two are shown beside each other below the text, if they fit
	Paper   Paper
	Dated   cal.Date // the date in the file’s properties
}

// WriteBrief writes a brief as one page. An error is that of w, of a picture that is not a
// PNG file, or of a brief that is too long for a page.
func WriteBrief(w io.Writer, d *BriefDocument) error {
	b := d.Brief
	about := about{d.Paper, d.Dated, b.Title + ": evaluation", b.Title + " · " + b.Label + " · loamledger " + b.Version, b.Version}
	first, err := newSheet(&about, nil)
	if err != nil {
		return err
	}
	first.page = 1
	s, err := newSheet(&about, first)
	if err != nil {
		return err
	}
	s.begin()
	fits := false
	for _, size := range firstSizes() {
		if end := s.measured(func() { s.brief(b, size) }); end <= s.bottom() {
			s.brief(b, size)
			s.beside(d.Figures, size)
			fits = true
			break
		}
	}
	s.end()
	if !fits {
		return fmt.Errorf("the page is too long: omit measures")
	}
	return errors.Join(s.pdf.Error(), s.pdf.Output(w))
}

// brief writes the text of a brief in a size of type.
func (s *sheet) brief(b *plots.Brief, size float64) {
	s.masthead(b.Kicker, b.Title, b.Origin, size, s.right)
	s.answer(b.Answer, size*1.4)
	for _, text := range b.Lead {
		s.paragraph([]run{{s.plain, text}}, size, ink, 0, "")
		s.y += 2
	}
	s.y += 2
	for i := range b.Tables {
		if t := &b.Tables[i]; len(t.Rows) > 0 {
			s.paragraph([]run{{s.plain, t.Caption}}, size*0.86, faint, 0, "")
			s.table(gridOf(t), size)
			s.y -= 2
		}
	}
	notes := ""
	for _, n := range b.Cautions {
		notes += " " + n
	}
	s.paragraph([]run{{s.bold, b.Label + "."}, {s.plain, notes}}, size*0.86, faint, 0, "")
	s.y += 4
	left, right, top := s.left, s.right, s.y
	const gap = 18.0
	middle := left + float64((right-left)/2)
	title := func(text string) {
		s.put(s.title, size*1.2, ink, s.left, s.y, text)
		s.y += float64(size * 1.55)
	}
	s.right = middle - gap/2
	title("Biggest uncertainties")
	s.list(b.Doubts, size, true)
	half := len(b.Facts) / 2 // in each column: the room that this saves is for charts
	s.terms(pairs(b.Facts[:half]), size*0.92, 66)
	end := s.y
	s.left, s.right, s.y = middle+gap/2, right, top
	title("What to do next")
	s.list(b.Steps, size, true)
	s.terms(pairs(b.Facts[half:]), size*0.92, 66)
	s.y = max(s.y, end) + 1
	s.left, s.right = left, right
}

// beside draws up to two charts beside each other in the room that is left on the page;
// none if they would be too small to read.
func (s *sheet) beside(list []plots.Figure, size float64) {
	const gap, least = 14.0, 120.0
	list = list[:min(2, len(list))]
	wide := (s.column() - float64(gap*float64(len(list)-1))) / float64(max(len(list), 1))
	left, right, top := s.left, s.right, s.y+6
	for i := range list {
		f := &list[i]
		if len(f.Pictures) == 0 || f.Pictures[0].WidthPx == 0 {
			continue
		}
		p := &f.Pictures[0]
		s.left, s.y = left+float64((wide+gap)*float64(i)), top
		s.right = s.left + wide
		lines := s.title.wrap(f.Chart.Title, size, wide)
		high, across := wide*float64(p.HighPx)/float64(p.WidthPx), wide
		room := s.bottom() - s.y - float64(float64(len(lines))*size*1.25)
		if high > room {
			across, high = across*room/high, room
		}
		if across >= least {
			for _, line := range lines {
				s.put(s.title, size, ink, s.left, s.y, line)
				s.y += float64(size * 1.25)
			}
			s.picture(fmt.Sprintf("chart-%d", i+1), p, f.Chart.Alt, s.left, s.y, across, high)
		}
	}
	s.left, s.right = left, right
}
