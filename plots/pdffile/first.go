package pdffile

import (
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
	for {
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

// shorten omits the last option that is neither named nor the first, and says so; false
// if there is none.
func shorten(t *plots.Table) bool {
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

// first writes the first sheet in a size of type.
func (s *sheet) first(r *plots.Report, options *plots.Table, size float64) {
	f := &r.Front
	right := s.right
	if s.prepared(f.Prepared, size); f.Prepared != nil {
		s.right -= 205
	}
	s.paragraph([]run{{s.plain, r.Kicker}}, size, faint, 0, "")
	for _, line := range s.title.wrap(r.Site, size*1.9, s.column()) {
		s.put(s.title, size*1.9, ink, s.left, s.y, line)
		s.y += float64(size * 2.15)
	}
	s.paragraph([]run{{s.plain, r.Dates + ". Weather: " + r.Station + "."}}, size, faint, 0, "")
	s.right = right
	s.y += 3
	s.line(s.left, s.y, s.right, ink, 1)
	s.y += 5
	big := size * 1.5
	for _, line := range s.title.wrap(r.Answer, big, s.column()) {
		s.put(s.title, big, ink, s.left, s.y, line)
		s.y += float64(big * 1.18)
	}
	s.y += 3
	for _, text := range []string{f.Ranges, f.WhyNot, r.Basis} {
		if text != "" {
			s.paragraph([]run{{s.plain, text}}, size, ink, 0, "")
			s.y += 2
		}
	}
	s.y += 2
	s.table(gridOf(options), size)
	s.y -= 2
	notes := ""
	for _, n := range f.Notes {
		notes += " " + n
	}
	if options.Omitted > 0 {
		notes += " Options not shown here: " + itoa(options.Omitted) + "; see The numbers in full."
	}
	s.paragraph([]run{{s.bold, r.Label + "."}, {s.plain, notes}}, size*0.86, faint, 0, "")
	s.y += 3
	s.warnings(r, size)
	s.columns(r, size)
	technical := ""
	for i, it := range f.Technical {
		if i > 0 {
			technical += "; "
		}
		technical += it.Term + ": " + it.Text
	}
	s.paragraph([]run{{s.bold, "For irrigation professionals."}, {s.plain, " " + technical + "."}}, size*0.8, faint, 0, "")
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
		s.paragraph([]run{{s.bold, "Implausible. Check these first:"}}, size, ink, 0, "")
		items := append([]string{}, f.Alarms...)
		if f.MoreAlarms > 0 {
			items = append(items, itoa(f.MoreAlarms)+" more under The numbers in full.")
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
		s.paragraph(s.runs("Measure this first:", " "+f.Measure), size, ink, 0, "")
		s.y += 3
	}
	title("Cautions")
	s.list(f.Cautions, size, false)
	end := s.y
	s.left, s.right, s.y = middle+gap/2, right, top
	title("What to do next")
	s.list(f.Steps, size, true)
	s.terms(pairs(f.Facts), size*0.92, 66)
	s.y = max(s.y, end) + 1
	s.left, s.right = left, right
}
