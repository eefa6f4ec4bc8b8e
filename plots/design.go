package plots

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// A Design is what a wrong design ETo does to the verdict: the strategies that
// scale run times by it, replayed with more and with less.
type Design struct {
	Strategies []int     // those that have a design ETo, without the first
	MM         []float64 // the design ETo of each [mm/d]
	Auto       []bool    // whether it is that of the record's peak month
	Cases      []DesignCase
}

// A DesignCase is the replay with every design ETo multiplied by Factor.
type DesignCase struct {
	Factor float64
	Table  *tally.Table
}

// Cells adds up the sums of each case.
func (d *Design) Cells() (out []*tally.Cells) {
	for k := range d.Cases {
		out = append(out, d.Cases[k].Table.Cells())
	}
	return out
}

// HindsightNote says where a design ETo from the record comes from.
const HindsightNote = "A design ETo marked auto is the mean of the record's peak month: hindsight, since it uses the whole record."

// with returns the study with another table.
func (s *Study) with(t *tally.Table) *Study {
	other := *s
	other.Table = t
	return &other
}

// DesignText writes a design ETo [mm/d].
func (u Units) DesignText(mm float64, auto bool) string {
	text := fixed(u.depth(mm), u.depthDigits()+1) + " " + u.depthUnit()
	if auto {
		text += ", auto"
	}
	return text
}

// designTable shows the strategies at each design ETo; nil if none has one.
func (s *Study) designTable(d *Design) *Table {
	if d == nil || len(d.Strategies) == 0 {
		return nil
	}
	basis := s.Table.Basis()
	figures := basis.Figures(tally.FrontFigures(s.measures()))
	t := &Table{
		Caption: "The same strategies with a design ETo 25% lower and 25% higher. The first strategy stays as it is.",
		First:   "Strategy", Head: []string{"Design ETo a day"},
	}
	if slices.Contains(d.Auto, true) {
		t.Caption += " " + HindsightNote
	}
	for i := range figures {
		t.Head = append(t.Head, s.Units.withUnit(frontHead(&figures[i], &basis), &figures[i], &basis))
	}
	all := d.Cells()
	for i, st := range d.Strategies {
		for k, cells := range all {
			c := &d.Cases[k]
			row := TableRow{Name: s.Table.Strategies[st], Cells: []string{s.Units.DesignText(c.Factor*d.MM[i], d.Auto[i])}}
			if c.Factor != 1 {
				row.Note = "design ETo × " + quantity.Number(c.Factor, 2)
			}
			for f := range figures {
				row.Cells = append(row.Cells, s.with(c.Table).cell(cells, &figures[f], st))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// DesignVerdict says whether the verdict holds at every design ETo, and the range
// of each strategy; empty if no strategy has a design ETo.
func (s *Study) DesignVerdict(d *Design) string {
	if d == nil || len(d.Strategies) == 0 {
		return ""
	}
	_, at := s.verdict(s.Table.Compare())
	var texts []string
	for i, st := range d.Strategies {
		if st != at && slices.Contains(d.Strategies, at) {
			continue // the table has it
		}
		var at []string
		for k := range d.Cases {
			c := &d.Cases[k]
			at = append(at, fmt.Sprintf("%s at %s", moreOrLess(c.Table.Compare()[st].Change), s.Units.DesignText(c.Factor*d.MM[i], false)))
		}
		text := quote(s.Table.Strategies[st]) + " uses " + strings.Join(at, ", ")
		if d.Auto[i] {
			text += " (design ETo of the record's peak month, hindsight)"
		}
		texts = append(texts, text)
	}
	if len(texts) > maxNamed {
		texts = append(texts[:maxNamed-1], "the table has the others")
	}
	flips := s.designFlips(d)
	text := designHead(flips) + ": " + strings.Join(texts, "; ") + "."
	for _, flip := range flips {
		text += " " + quantity.Capital(flip)
	}
	return punctuated(text)
}

// designFlips says, for each design ETo that changes the verdict, what it becomes.
func (s *Study) designFlips(d *Design) (flips []string) {
	v, at := s.verdict(s.Table.Compare())
	for k := range d.Cases {
		c := s.with(d.Cases[k].Table)
		if w, other := c.verdict(c.Table.Compare()); w != v || other != at {
			flips = append(flips, "at "+percent(d.Cases[k].Factor)+" of it, "+outcome(c, c.Table.Compare()))
		}
	}
	return flips
}

func designHead(flips []string) string {
	head := "The verdict is the same"
	if len(flips) > 0 {
		head = "The verdict flips"
	}
	return head + " with a design ETo 25% lower or higher"
}

// designShort says whether the verdict holds at every design ETo; empty if no
// strategy has one.
func (s *Study) designShort(d *Design) string {
	if d == nil || len(d.Strategies) == 0 {
		return ""
	}
	text := designHead(s.designFlips(d))
	if slices.Contains(d.Auto, true) {
		text += " (that of the record's peak month, hindsight)"
	}
	return text + "."
}

// lowerFirst writes a sentence as part of another; one that begins with a quoted
// name stays as it is.
func lowerFirst(sentence string) string {
	first, size := utf8.DecodeRuneInString(sentence)
	return string(unicode.ToLower(first)) + sentence[size:]
}
