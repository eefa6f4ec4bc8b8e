package pdffile

import "strings"

// A run is a piece of text in one face.
type run struct {
	face *face
	text string
}

// runs are a text with a bold beginning, if it has one.
func (s *sheet) runs(lead, text string) []run {
	if lead == "" {
		return []run{{s.plain, text}}
	}
	return []run{{s.bold, lead}, {s.plain, text}}
}

// A word is one word of a paragraph in its face.
type word struct {
	face  *face
	text  string
	wide  float64
	glued bool // no space before it
}

// words splits runs at spaces.
func words(list []run, size float64) (out []word) {
	glue := false
	for _, r := range list {
		if r.text == "" {
			continue
		}
		for i, w := range strings.Fields(r.text) {
			out = append(out, word{r.face, w, r.face.width(w, size), glue && i == 0 && !strings.HasPrefix(r.text, " ")})
		}
		glue = !strings.HasSuffix(r.text, " ")
	}
	return out
}

// lines arranges words in lines no wider than width.
func (s *sheet) lines(list []word, size, width float64) (out [][]word) {
	var line []word
	at, space := 0.0, s.plain.width(" ", size)
	for _, w := range list {
		gap := space
		if w.glued || len(line) == 0 {
			gap = 0
		}
		if len(line) > 0 && at+gap+w.wide > width && !w.glued {
			out, line, at, gap = append(out, line), nil, 0, 0
		}
		for w.wide > width && len(w.text) > 1 {
			head, tail := w.face.split(w.text, size, width)
			if tail == "" {
				break
			}
			out = append(out, append(line, word{w.face, head, w.face.width(head, size), w.glued}))
			line, at, gap = nil, 0, 0
			w.text, w.wide = tail, w.face.width(tail, size)
		}
		line, at = append(line, w), at+gap+w.wide
	}
	if len(line) > 0 {
		out = append(out, line)
	}
	return out
}

// paragraph writes runs as a paragraph, indented, with a mark before its first line.
func (s *sheet) paragraph(list []run, size float64, gray int, indent float64, mark string) {
	lines := s.lines(words(list, size), size, s.column()-indent)
	space := s.plain.width(" ", size)
	if len(lines) > 1 {
		s.need(2 * size * leading) // no single line at the end of a page
	}
	for i, line := range lines {
		s.need(size * leading)
		if i == 0 && mark != "" {
			s.put(s.plain, size, gray, s.left+max(indent-4-s.plain.width(mark, size), 0), s.y, mark)
		}
		x := s.left + indent
		for k, w := range line {
			if k > 0 && !w.glued {
				x += space
			}
			s.put(w.face, size, gray, x, s.y, w.text)
			x += w.wide
		}
		s.y += float64(size * leading)
		s.fresh = false
	}
}

// para writes a paragraph of running text; nothing for an empty one.
func (s *sheet) para(text string, size float64, gray int) {
	if text == "" {
		return
	}
	s.paragraph([]run{{s.plain, text}}, size, gray, 0, "")
	s.y += paraGap
}

// list writes items, numbered or with a bullet.
func (s *sheet) list(items []string, size float64, numbered bool) {
	for i, item := range items {
		s.item(s.runs("", item), size, bullet(i, numbered))
	}
	s.y += paraGap / 2
}

func bullet(i int, numbered bool) string {
	if numbered {
		return itoa(i+1) + "."
	}
	return "•"
}

// item writes one item of a list.
func (s *sheet) item(list []run, size float64, mark string) {
	s.paragraph(list, size, ink, size*1.6, mark)
	s.y += float64(size * 0.15)
}

// heading writes the title of a section or part of one, kept with what follows.
func (s *sheet) heading(id, title string, level int) {
	size, rule, follows := headSize, 1.0, 120.0
	if level > 0 {
		size, rule, follows = subSize, 0, 80
	}
	s.skip(size * 0.9)
	s.need(size*2 + follows)
	if rule > 0 {
		s.line(s.left, s.y, s.right, ink, rule)
		s.y += 5
	}
	s.mark(id, title, level)
	if !s.dry {
		s.headings = append(s.headings, title)
	}
	for _, line := range s.title.wrap(title, size, s.column()) {
		s.put(s.title, size, ink, s.left, s.y, line)
		s.y += float64(size * 1.2)
	}
	s.y += float64(size * 0.25)
	s.fresh = false
}

// terms writes terms with their texts in two columns, a line below each.
func (s *sheet) terms(items [][2]string, size, first float64) {
	for _, it := range items {
		a, b := s.bold.wrap(it[0], size, first-6), s.plain.wrap(it[1], size, s.column()-first)
		if high := float64(float64(max(len(a), len(b))) * size * leading); high < 120 {
			s.need(high + 2)
		}
		for k := range max(len(a), len(b)) {
			s.need(size * leading)
			if k < len(a) {
				s.put(s.bold, size, ink, s.left, s.y, a[k])
			}
			if k < len(b) {
				s.put(s.plain, size, ink, s.left+first, s.y, b[k])
			}
			s.y += float64(size * leading)
			s.fresh = false
		}
		s.line(s.left, s.y+0.5, s.right, hair, 0.4)
		s.y += 2.5
	}
	s.y += paraGap
}
