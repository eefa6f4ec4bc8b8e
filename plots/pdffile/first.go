package pdffile

import (
	"slices"
	"strings"

	"loamledger/plots"
)

// sizes of the first sheet [pt], the largest first. Below the last one, options are
// left to a later page.
func firstSizes() []float64 { return []float64{9, 8.75, 8.5, 8.25, 8, 7.75, 7.5, 7.25, 7} }

// firstSheet writes what a reader needs to decide, on one page: in the largest type
// in which it fits.
func (s *sheet) firstSheet(r *plots.Report) {
	s.mark("", r.Site, 0)
	front := r.Front
	options := front.Options
	for s.shortened = false; ; s.shortened = true {
		for _, size := range firstSizes() {
			if s.measured(func() { s.first(r, &options, size) }) <= s.bottom() {
				s.first(r, &options, size)
				return
			}
		}
		if !shorten(&options) {
			break
		}
	}
	s.first(r, &options, firstSizes()[len(firstSizes())-1])
}

// shorten omits what the last option that is neither named nor the first does, as long as
// there is one that has this; then why it fails; then the option, which is counted. False
// if there is nothing to omit. The numbers in full have all of it.
func shorten(t *plots.Table) bool {
	for _, text := range []func(*plots.TableRow) *string{
		func(r *plots.TableRow) *string { return &r.About }, func(r *plots.TableRow) *string { return &r.Fails },
	} {
		for i := len(t.Rows) - 1; i > 0; i-- {
			if r := &t.Rows[i]; !r.Named && *text(r) != "" {
				t.Rows = slices.Clone(t.Rows)
				*text(&t.Rows[i]) = ""
				return true
			}
		}
	}
	for i := len(t.Rows) - 1; i > 0; i-- {
		if r := &t.Rows[i]; !r.Named && !r.Reference {
			rows := append([]plots.TableRow{}, t.Rows[:i]...)
			t.Rows = append(rows, t.Rows[i+1:]...)
			t.Omitted++
			return true
		}
	}
	return false
}

// measured returns where a text would end.
func (s *sheet) measured(write func()) float64 {
	keep := *s
	s.dry = true
	write()
	end := s.y
	*s = keep
	return end
}

// masthead writes a title between what it is and where it is from, and a rule down to
// right.
func (s *sheet) masthead(kicker, title, origin string, size, right float64) {
	s.paragraph([]run{{s.plain, kicker}}, size, faint, 0, "")
	for _, line := range s.title.wrap(title, size*1.9, s.column()) {
		s.put(s.title, size*1.9, ink, s.left, s.y, line)
		s.y += float64(size * 2.15)
	}
	s.paragraph([]run{{s.plain, origin}}, size, faint, 0, "")
	s.right = right
	s.y += 3
	s.line(s.left, s.y, s.right, ink, 1)
	s.y += 5
}

// answer writes the sentence of a sheet that is read first.
func (s *sheet) answer(text string, size float64) {
	for _, line := range s.title.wrap(text, size, s.column()) {
		s.put(s.title, size, ink, s.left, s.y, line)
		s.y += float64(size * 1.18)
	}
	s.y += 3
}

// first writes the first sheet in a size of type.
func (s *sheet) first(r *plots.Report, options *plots.Table, size float64) {
	f := &r.Front
	right := s.right
	if s.prepared(f.Prepared, size); f.Prepared != nil {
		s.right -= 205
	}
	s.masthead(r.Kicker, r.Site, r.Dates+". Weather: "+r.Station+". "+f.Dated+".", size, right)
	s.answer(r.Answer, size*1.5)
	for _, text := range append(f.Said(), r.Basis) {
		if text != "" {
			s.paragraph([]run{{s.plain, text}}, size, ink, 0, "")
			s.y += 2
		}
	}
	s.y += 2
	s.table(gridOf(options), size)
	s.listed, s.omitted = len(options.Rows), options.Omitted
	s.y -= 2
	if options.Omitted > 0 {
		more := " more options on "
		if options.Omitted == 1 {
			more = " more option on "
		}
		s.paragraph(s.runs(itoa(options.Omitted)+more+s.pageOf(plots.NumbersID)+",",
			" with what each option does and why it fails."), size, ink, 0, "")
	} else if s.shortened {
		s.paragraph(s.runs("", "What each option does and why it fails: "+s.pageOf(plots.NumbersID)+"."), size, ink, 0, "")
	}
	notes := []run{{s.bold, r.Label + "."}}
	for _, n := range f.Notes {
		if n.Term != "" {
			notes = append(notes, run{s.bold, " " + n.Term + ":"})
		}
		notes = append(notes, run{s.plain, " " + n.Text})
	}
	s.paragraph(notes, size*0.9, faint, 0, "")
	s.y += 3
	s.warnings(r, size)
	s.columns(r, size)
	technical := []run{{s.bold, "For irrigation professionals."}}
	for _, it := range f.Technical {
		text := strings.TrimSuffix(it.Text, ".")
		if it.See != "" {
			text += ", see " + s.pageOf(it.See)
		}
		technical = append(technical, run{s.bold, " " + it.Term + ":"}, run{s.plain, " " + text + "."})
	}
	s.paragraph(technical, size*0.84, faint, 0, "")
}

// pageOf names the page of a section; the first pass does not know it yet.
func (s *sheet) pageOf(id string) string {
	if s.earlier == nil {
		return "page 00"
	}
	return "page " + itoa(s.earlier.marks[id].page)
}

// factPairs are facts with the page that says more.
func (s *sheet) factPairs(list []plots.FrontFact) (out [][2]string) {
	for _, f := range list {
		text := f.Text
		if f.See != "" {
			text = strings.TrimSuffix(text, ".") + ". See " + s.pageOf(f.See) + "."
		}
		out = append(out, [2]string{f.Term, text})
	}
	return out
}

// prepared writes who made the report, with a logo, at the upper right corner; the
// text on the left goes beside it.
func (s *sheet) prepared(p *plots.Prepared, size float64) {
	if p == nil {
		return
	}
	lines := p.Lines()
	x := s.right
	if l := p.Logo; l != nil && l.WidthPx > 0 && l.HighPx > 0 {
		high := 34.0
		wide := high * float64(l.WidthPx) / float64(l.HighPx)
		if most := 130.0; wide > most {
			wide, high = most, most*float64(l.HighPx)/float64(l.WidthPx)
		}
		x = s.right - wide
		s.picture("logo", l, "Logo of "+p.Of(), x, s.y, wide, high)
		x -= 10
	}
	y := s.y
	for i, line := range lines {
		line = s.plain.wrap(line, size*0.9, x-s.right+195)[0]
		f := s.plain
		if i == 0 {
			f = s.bold
		}
		s.put(f, size*0.9, ink, x-f.width(line, size*0.9), y, line)
		y += float64(size * 1.12)
	}
}

// warnings lists implausible values and doubts about the weather.
func (s *sheet) warnings(r *plots.Report, size float64) {
	f := &r.Front
	if len(f.Alarms) > 0 {
		s.paragraph([]run{{s.bold, plots.PleaseCheck + ":"}}, size, ink, 0, "")
		items := append([]string{}, f.Alarms...)
		if f.MoreAlarms > 0 {
			items = append(items, itoa(f.MoreAlarms)+" more on "+s.pageOf(plots.NumbersID)+".")
		}
		s.list(items, size, false)
	}
	if len(r.Weather.Heavy) > 0 {
		s.paragraph([]run{{s.bold, "The weather is in doubt:"}}, size, ink, 0, "")
		s.list(r.Weather.Heavy, size, false)
	}
}

// columns writes doubts and cautions on the left, and what to do on the right.
func (s *sheet) columns(r *plots.Report, size float64) {
	f := &r.Front
	left, right, top := s.left, s.right, s.y
	gap := 18.0
	middle := left + float64((right-left)/2)
	title := func(text string) {
		s.put(s.title, size*1.2, ink, s.left, s.y, text)
		s.y += float64(size * 1.55)
	}
	s.right = middle - gap/2
	title("Biggest uncertainties")
	var doubts []string
	for _, u := range f.Uncertainties {
		doubts = append(doubts, u+".")
	}
	s.list(doubts, size, true)
	if f.Measure != "" {
		s.paragraph(s.runs("Measure first:", " "+f.Measure), size, ink, 0, "")
		s.y += 3
	}
	title("Cautions")
	s.list(append(f.Cautions[:len(f.Cautions):len(f.Cautions)], "More on "+s.pageOf(plots.CautionsID)+"."), size, false)
	end := s.y
	s.left, s.right, s.y = middle+gap/2, right, top
	title("What to do next")
	s.list(f.Steps, size, true)
	s.terms(s.factPairs(f.Facts), size*0.92, 66)
	s.y = max(s.y, end) + 1
	s.left, s.right = left, right
}
