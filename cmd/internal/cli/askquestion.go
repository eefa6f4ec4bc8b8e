package cli

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios/ask"
)

// question prints one row, its choices and what Enter means. A question with one row has
// no heading besides.
func (d *dialog) question(r ask.Row) {
	_, q, p := ask.Find(r.At(0))
	d.printf("\n")
	text := p.Text
	if isNames(r) {
		text = "Names, or how many"
	}
	if q.ID != d.shown {
		n, of := d.number(r)
		head := ""
		if n > 0 {
			head = fmt.Sprintf("%d of %d. ", n, of)
		}
		several := 0
		for _, other := range d.turns() {
			if other.Question == r.Question {
				several++
			}
		}
		if several > 1 && n > 0 {
			d.printf("%s%s\n", head, q.Text)
		} else {
			text = head + text
		}
		d.shown = q.ID
	}
	if unit := p.Unit.In(&d.a); unit != "" && unit != "min" {
		text += ", in " + unit
	}
	if example := p.Example.In(&d.a); example != "" {
		if isNames(r) {
			example += ", side, beds"
		}
		text += ", such as " + example
	}
	if len(r.Zones) > 1 && (p.Kind == ask.Days || p.Kind == ask.Times) {
		text += ", zones separated by semicolons"
	}
	if names := d.someZones(r); names != "" {
		text = names + ": " + text
	}
	d.say(text)
	for i, o := range p.Choices {
		line := o.Text
		if o.Help != "" {
			line += " (" + strings.TrimSuffix(o.Help, ".") + ")"
		}
		d.printf("  %d  %s\n", i+1, line)
	}
	if now := d.kept(r); now != "" {
		d.printf("Enter keeps: %s. To forget it, type -\n", now)
		return
	}
	d.say("Enter: " + d.unsaid(r))
}

// number returns the number of the question of a row among those that are asked in turn,
// and how many these are; 0 for a row that is not.
func (d *dialog) number(r ask.Row) (n, of int) {
	last := ""
	for _, other := range d.turns() {
		if other.Question != last {
			of++
			last = other.Question
		}
		if other.Same(r) {
			n = of
		}
	}
	return n, of
}

// kept writes the answers of a row as they could be typed; empty if there are none.
func (d *dialog) kept(r ask.Row) string {
	var all []string
	for i := range r.Zones {
		all = append(all, d.a.Answer(r.At(i)))
	}
	if strings.Join(all, "") == "" {
		return ""
	}
	if len(slices.Compact(slices.Clone(all))) == 1 {
		return all[0]
	}
	for i := range all {
		if all[i] == "" {
			all[i] = "-"
		}
	}
	if strings.Contains(strings.Join(all, ""), ",") {
		return strings.Join(all, "; ")
	}
	return strings.Join(all, ", ")
}

// unsaid says what is used if a row is not answered.
func (d *dialog) unsaid(r ask.Row) string {
	var all []string
	for i := range r.Zones {
		all = append(all, d.a.Default(r.At(i)).Text)
	}
	if isNames(r) {
		return "one zone"
	}
	if len(slices.Compact(slices.Clone(all))) == 1 {
		return all[0]
	}
	return strings.Join(all, ", ")
}

// help explains a part.
func (d *dialog) help(q *ask.Question, p *ask.Part) {
	d.sayUnder("  ", q.Help)
	if p.Help != "" {
		d.sayUnder("  ", p.Help)
	}
	if len(p.Choices) > 0 {
		d.sayUnder("  ", "Type a number, or the words.")
	}
}
