package pdffile

import (
	"errors"
	"io"
	"slices"

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
	}
	s.flush()
	s.origin(d.Report)
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
	if one.ID == plots.MethodID { // the last of the site’s own pages
		s.settle()
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
		} else {
			s.para("The charts are numbered and stand where pages have room, from here on.", body, ink)
		}
		printed, n := plots.Printed(d.Figures)
		for i := range printed {
			s.chart(&printed[i])
		}
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
	s.need(60)
	s.para(t.Caption, small, faint)
	s.table(gridOf(t), small)
}

// numbers writes every measure.
func (s *sheet) numbers(r *plots.Report) {
	s.para(r.Detail, body, ink)
	s.para(r.Diagnosis, body, ink)
	if r.Front.MoreAlarms > 0 {
		s.paragraph([]run{{s.bold, "Implausible:"}}, body, ink, 0, "")
		s.list(r.Alarms, body, false)
	}
	s.titled(&r.Comparison)
	s.para(r.DryYears+" The two references are benchmarks, not schedules: no controller can run them. "+r.Judged, small, faint)
	for _, one := range []struct {
		title string
		table *plots.Table
	}{
		{"If the design ETo is wrong", r.Design}, {"What the strategies change", r.What}, {"What each change does", r.Changes},
		{"How long parts keep working", r.Lives}, {"Runoff, worst zones first", r.Runoff},
	} {
		if one.table != nil {
			s.heading("", one.title, 1)
			s.titled(one.table)
		}
	}
	s.terms(pairs(r.Notes), small, 110)
}

func pairs(items []plots.Item) (out [][2]string) {
	for _, it := range items {
		out = append(out, [2]string{it.Term, it.Text})
	}
	return out
}

// zones writes a table for each zone, with its inputs.
func (s *sheet) zones(r *plots.Report) {
	for i := range r.Zones {
		z := &r.Zones[i]
		s.heading("", z.Name, 1)
		s.titled(&z.Table)
		text := ""
		for k, in := range z.Inputs {
			if k > 0 {
				text += "; "
			}
			text += in.Term + " " + in.Text
		}
		s.para(text+".", small, faint)
	}
	if r.OtherZones != nil {
		s.heading("", "All other zones", 1)
		s.titled(r.OtherZones)
	}
}

// weather writes where the weather is from and what was done to it.
func (s *sheet) weather(r *plots.Report) {
	w := &r.Weather
	terms := [][2]string{{"Station", r.Station}, {"File", w.File}, {"Read as", w.Layout}, {"Reference ET", w.EToMethod},
		{"Likely error of reference ET", w.EToError}, {"Filled values", r.FilledShare}}
	s.terms(slices.DeleteFunc(terms, func(t [2]string) bool { return t[1] == "" }), small, 130)
	if len(w.Fills) > 0 {
		var rows [][]string
		for _, f := range w.Fills {
			rows = append(rows, []string{f.Column, f.How, itoa(f.Count)})
		}
		s.table(textGrid([]string{"Filled column", "How", "Days"}, rows), small)
	}
	if len(w.Findings) == 0 {
		s.para("The checks have no findings.", body, ink)
	} else {
		var rows [][]string
		for i := range w.Findings {
			f := &w.Findings[i]
			rows = append(rows, []string{f.What, f.Column, itoa(f.Count), f.Detail, f.Action, f.Source})
		}
		s.table(textGrid([]string{"Finding", "Column", "Days", "Example", "Action", "Source of the rule"}, rows), small)
	}
	if len(w.Assumptions) > 0 {
		s.paragraph([]run{{s.plain, "Assumed where the file is silent:"}}, body, ink, 0, "")
		s.list(w.Assumptions, body, false)
	}
}

// defaults lists every value that was not given.
func (s *sheet) defaults(r *plots.Report) {
	if len(r.Defaults) == 0 {
		s.para("No defaults: every value was given.", body, ink)
		return
	}
	s.para(itoa(r.NotGiven)+" values were not given; zones with equal values share a line. Each is an assumption about this site until it "+
		"is measured.", body, ink)
	var rows [][]string
	for i := range r.Defaults {
		d := &r.Defaults[i]
		rows = append(rows, []string{d.Where, d.Key, d.Value, d.Range, d.Grade.String(), d.Source})
	}
	s.table(textGrid([]string{"Where", "What", "Value", "Range", "Grade", "Source"}, rows), 7)
}

// origin names the inputs, with their hashes, and characters that could not be
// shown.
func (s *sheet) origin(r *plots.Report) {
	s.skip(8)
	s.need(40)
	s.line(s.left, s.y, s.right, ink, 0.8)
	s.y += 5
	s.para(r.Run(), small, faint)
	for _, f := range r.Files {
		s.paragraph([]run{{s.plain, f.Name + ", SHA-256 " + f.SHA256}}, 7, faint, 0, "")
	}
	if n := len(s.lacking); n > 0 {
		s.para("Characters that the fonts of this file lack: "+itoa(n)+". They are shown as a question mark; the HTML report has them.",
			small, faint)
	}
}
