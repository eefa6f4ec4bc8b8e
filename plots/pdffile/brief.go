package pdffile

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"loamledger/plots"
	"loamledger/weather/cal"
)

// A BriefDocument is a brief with the charts of the pages after it.
type BriefDocument struct {
	Brief   *plots.Brief
	Figures []plots.Figure
	Paper   Paper
	Dated   cal.Date // the date in the file’s properties
}

// WriteBrief writes a brief as one page, and its charts on pages after it. An error is that
// of w, of a picture that is not a PNG file, or of a brief that is too long for a page.
func WriteBrief(w io.Writer, d *BriefDocument) error {
	first, err := layOutBrief(d, nil)
	if err != nil {
		return err
	}
	s, err := layOutBrief(d, first)
	if err != nil {
		return err
	}
	return s.pdf.Output(w)
}

// layOutBrief lays out a brief; the layout before, if there is one, knows how many pages
// there are.
func layOutBrief(d *BriefDocument, before *sheet) (*sheet, error) {
	b := d.Brief
	footer := b.Title + " · " + b.Label + " · loamledger " + b.Version
	s, err := newSheet(&about{d.Paper, d.Dated, b.Title + ": evaluation", footer, b.Version}, before)
	if err != nil {
		return nil, err
	}
	s.begin()
	at := slices.IndexFunc(firstSizes(), func(size float64) bool { return s.measured(func() { s.brief(b, size) }) <= s.bottom() })
	if at < 0 {
		return nil, fmt.Errorf("the page is too long: omit measures")
	}
	s.brief(b, firstSizes()[at])
	if len(d.Figures) > 0 {
		s.begin()
		for i := range d.Figures {
			s.queue(&d.Figures[i])
		}
		s.flush()
	}
	s.end()
	return s, errors.Join(s.pdf.Error())
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
	half := len(b.Facts) / 2 // in each column
	s.terms(pairs(b.Facts[:half]), size*0.92, 66)
	end := s.y
	s.left, s.right, s.y = middle+gap/2, right, top
	title("What to do next")
	s.list(b.Steps, size, true)
	s.terms(pairs(b.Facts[half:]), size*0.92, 66)
	s.y = max(s.y, end) + 1
	s.left, s.right = left, right
}
