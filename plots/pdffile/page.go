package pdffile

import (
	"errors"
	"io"

	"codeberg.org/go-pdf/fpdf"

	"loamledger/plots"
	"loamledger/weather/cal"
	"loamledger/weather/visible"
)

// A Paper is a size of paper.
type Paper uint8

// The sizes.
const (
	Letter Paper = iota // 8.5 by 11 in
	A4                  // 210 by 297 mm
)

// size returns the width and height [pt].
func (p Paper) size() (wide, high float64) {
	if p == A4 {
		return 595.28, 841.89
	}
	return 612, 792
}

// A Document is a report with its charts.
type Document struct {
	Report  *plots.Report
	Figures []plots.Figure
	Coming  *plots.Figure  // of the forecast days after the record; nil for none
	Meters  []plots.Figure // of meter reads; none without reads
	Paper   Paper
	Dated   cal.Date // the date in the file’s properties
}

// Write writes the document. It is laid out twice: the first pass finds the pages that
// the second prints. An error is that of w, or of a picture that is not a PNG file.
func Write(w io.Writer, d *Document) error {
	first, err := layOut(d, nil)
	if err != nil {
		return err
	}
	s, err := layOut(d, first)
	if err != nil {
		return err
	}
	return s.pdf.Output(w)
}

// An about is what a file says of itself.
type about struct {
	paper                  Paper
	dated                  cal.Date
	title, footer, version string
}

// newSheet starts a file; earlier is an earlier pass.
func newSheet(a *about, earlier *sheet) (*sheet, error) {
	f, err := newFonts()
	if err != nil {
		return nil, err
	}
	s := &sheet{fonts: f, earlier: earlier, marks: map[string]place{}, links: map[string]int{}, across: map[int]bool{}, left: edge}
	s.wide, s.high = a.paper.size()
	s.right = s.wide - edge
	s.pdf = fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: s.wide, Ht: s.high}})
	s.pdf.SetAutoPageBreak(false, 0)
	s.pdf.SetMargins(0, 0, 0)
	s.pdf.SetCatalogSort(true) // equal bytes each time
	s.pdf.SetCreationDate(a.dated.Time())
	s.pdf.SetModificationDate(a.dated.Time())
	s.pdf.SetLang("en-US")
	s.pdf.SetTitle(visible.Text(a.title), true)
	s.pdf.SetCreator("loamledger "+a.version, true)
	s.pdf.SetProducer("fpdf", false)
	f.register(s.pdf)
	s.footer = visible.Text(a.footer)
	return s, nil
}

// layOut writes all pages; earlier is an earlier pass.
func layOut(d *Document, earlier *sheet) (*sheet, error) {
	text, err := fixedText()
	if err != nil {
		return nil, err
	}
	s, err := newSheet(&about{d.Paper, d.Dated, d.Report.Site + ": watering options compared",
		d.Report.Site + " · " + d.Report.Label + " · loamledger " + d.Report.Version, d.Report.Version}, earlier)
	if err != nil {
		return nil, err
	}
	s.begin()
	s.firstSheet(d.Report)
	s.begin()
	s.contents(d.Report)
	for _, one := range d.Report.Sections() {
		s.section(d, &one, text)
		s.flush()
	}
	s.end()
	return s, errors.Join(s.pdf.Error())
}

// contents lists the sections with their pages, in one paragraph of links.
func (s *sheet) contents(r *plots.Report) {
	s.put(s.bold, small, ink, s.left, s.y, "In this report")
	x := s.left + s.bold.width("In this report", small) + 10
	for _, one := range r.Sections() {
		title := one.Title
		if s.earlier != nil {
			title += " " + itoa(s.earlier.marks[one.ID].page)
		} else {
			title += " 00"
		}
		w := s.plain.width(title, small)
		if x+w > s.right {
			x, s.y = s.left, s.y+small*leading
		}
		s.put(s.plain, small, ink, x, s.y, title)
		s.line(x, s.y+float64(small*1.12), x+w, hair, 0.4)
		s.pdf.Link(x, s.y, w, small*1.1, s.link(one.ID))
		x += w + 12
	}
	s.y += small * leading
	s.fresh = false
}

// section writes one section of the report.
func (s *sheet) section(d *Document, one *plots.Section, text []piece) {
	r := d.Report
	if one.ID == plots.ChartsID && len(d.Figures) > 0 && len(d.Figures[0].Pictures) > 0 { // the heading is not left behind
		b := block{chart: d.Figures[0].Chart, picture: &d.Figures[0].Pictures[0]}
		s.need(float64(headSize*2.35) + 5 + s.above(&b, false) + float64(s.tall(&b)*s.least()))
	}
	if len(one.Parts) > 0 && one.ID != plots.MetersID {
		s.need(s.kept(func() {
			s.heading(one.ID, one.Title, 0)
			s.para(one.Stamp, small, faint)
			s.opening(one.Parts[0])
		}, 150))
	}
	if one.ID == plots.ZonesID && len(r.Zones) > 0 {
		s.need(s.kept(func() {
			s.heading(one.ID, one.Title, 0)
			s.para(one.Stamp, small, faint)
			s.headed(r.Zones[0].Name, &r.Zones[0].Table)
		}, 150))
	}
	s.heading(one.ID, one.Title, 0)
	if one.Stamp != "" {
		s.paragraph([]run{{s.bold, one.Stamp + "."}}, small, faint, 0, "")
		s.y += 2
	}
	if one.ID == plots.ComingID && d.Coming != nil {
		s.chart(d.Coming)
	}
	if one.ID == plots.MetersID {
		for i := range d.Meters {
			s.chart(&d.Meters[i])
		}
	}
	if len(one.Parts) > 0 {
		for _, p := range one.Parts {
			s.part(p)
		}
		return
	}
	switch one.ID {
	case plots.NumbersID:
		s.numbers(r)
	case plots.ChartsID:
		if len(d.Figures) == 0 {
			s.para("This run drew no charts.", body, ink)
		}
		printed, n := plots.Printed(d.Figures)
		for i := range printed {
			s.queue(&printed[i])
		}
		s.flush()
		if n > 0 {
			s.para("Not here: the depletion charts of more zones ("+itoa(n)+"). See the HTML report, or the charts folder of a replay.", body, ink)
		}
	case plots.ZonesID:
		s.zones(r)
	case plots.ComingID:
		s.part(r.Coming)
	case plots.WeatherID:
		s.weather(r)
	case plots.DefaultsID:
		s.defaults(r)
	default:
		s.fixed(text, one.ID)
	}
	if one.ID == plots.MethodID {
		s.origin(r)
	}
}

// opening writes the beginning of a part: its first sentences and its first table.
func (s *sheet) opening(p *plots.TextPart) {
	s.para(p.Lead, body, ink)
	if len(p.Tables) > 0 {
		s.titled(&p.Tables[0])
	}
}

// part writes a section of sentences and tables.
func (s *sheet) part(p *plots.TextPart) {
	s.para(p.Lead, body, ink)
	for i := range p.Tables {
		s.titled(&p.Tables[i])
	}
	for _, note := range p.Notes {
		s.para(note, small, faint)
	}
}

// titled writes a table below its caption.
func (s *sheet) titled(t *plots.Table) {
	write := func() {
		s.para(t.Caption, small, faint)
		s.table(gridOf(t), small)
	}
	s.need(s.kept(write, 90))
	write()
}

// headed writes a table below its title, which is not left behind on another page.
func (s *sheet) headed(title string, t *plots.Table) {
	write := func() {
		s.heading("", title, 1)
		s.titled(t)
	}
	s.need(s.kept(write, 120))
	write()
}

// kept is the height that must be free for what is not to be broken: all of it, or
// least of what takes much of a page.
func (s *sheet) kept(write func(), least float64) float64 {
	if whole := s.measured(write) - s.y; whole <= 0.4*s.high {
		return whole
	}
	return least
}
