package pdffile

import (
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"loamledger/plots"
)

// A piece is a paragraph, an item of a list, or a term of the fixed text of every
// report.
type piece struct {
	section string
	kind    string // p, li or dd; ol before the items of a numbered list
	number  int    // of an item in a numbered list; 0 in others
	term    string // before a dd
	runs    []textRun
}

type textRun struct {
	bold bool
	text string
}

// fixedText reads [plots.Words] into pieces.
func fixedText() ([]piece, error) {
	d := xml.NewDecoder(strings.NewReader("<all>" + plots.Words + "</all>"))
	var out []piece
	var open []string
	var now *piece
	section, number, term := "", -1, ""
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, fmt.Errorf("the fixed text of the report: %w", err)
		}
		switch t := tok.(type) {
		case xml.StartElement:
			open = append(open, t.Name.Local)
			switch t.Name.Local {
			case "section":
				for _, a := range t.Attr {
					if a.Name.Local == "id" {
						section = a.Value
					}
				}
			case "ol":
				number = 0
			case "ul":
				number = -1
			case "p", "li", "dd":
				now = &piece{section: section, kind: t.Name.Local, term: term}
				if t.Name.Local == "li" && number >= 0 {
					number++
					now.number = number
				}
			case "dt":
				term = ""
			}
		case xml.EndElement:
			open = open[:len(open)-1]
			switch t.Name.Local {
			case "p", "li", "dd":
				out, now = append(out, *now), nil
			}
		case xml.CharData:
			switch in := open[len(open)-1]; {
			case in == "dt":
				term += string(t)
			case now != nil:
				now.runs = append(now.runs, textRun{in == "b", string(t)})
			}
		}
	}
}

// fixed writes the pieces of one section.
func (s *sheet) fixed(all []piece, section string) {
	var terms [][2]string
	for _, p := range all {
		if p.section != section {
			continue
		}
		var list []run
		text := ""
		for _, r := range p.runs {
			f := s.plain
			if r.bold {
				f = s.bold
			}
			list, text = append(list, run{f, r.text}), text+r.text
		}
		switch {
		case p.kind == "dd":
			terms = append(terms, [2]string{p.term, text})
		case p.kind == "li":
			mark := "•"
			if p.number > 0 {
				mark = itoa(p.number) + "."
			}
			s.item(list, body, mark)
		default:
			s.paragraph(list, body, ink, 0, "")
			s.y += paraGap
		}
	}
	if len(terms) > 0 {
		s.terms(terms, small, 130)
	}
}
