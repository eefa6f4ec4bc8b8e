package cli

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"loamledger/scenarios/ask"
	"loamledger/scenarios/study"
	"loamledger/weather/diag"
)

// A dialog asks questions, one line at a time, so that it works in any terminal,
// with a screen reader and from a file.
type dialog struct {
	Streams
	lines  <-chan string
	folder string // of the scenario
	a      ask.Answers
	shown  int // number of the question whose heading was printed last
}

// readLines reads lines until the input ends or the context does.
func readLines(ctx context.Context, in io.Reader) <-chan string {
	lines := make(chan string)
	go func() {
		defer close(lines)
		scan := bufio.NewScanner(in)
		for scan.Scan() {
			select {
			case lines <- strings.TrimSuffix(scan.Text(), "\r"):
			case <-ctx.Done():
				return
			}
		}
	}()
	return lines
}

// errEnded is the end of the input.
var errEnded = errors.New("the input has ended")

// next returns the next line.
func (d *dialog) next(ctx context.Context) (string, error) {
	select {
	case <-ctx.Done():
		return "", ctx.Err()
	case line, ok := <-d.lines:
		if !ok {
			d.printf("\n")
			return "", errEnded
		}
		if !d.Typed {
			d.printf("%s\n", line)
		}
		return line, nil
	}
}

func (d *dialog) printf(format string, args ...any) { fmt.Fprintf(d.Out, format, args...) }

// sayWidth is the width of paragraphs.
const sayWidth = 78

// say prints a paragraph.
func (d *dialog) say(text string) { d.sayUnder("", text) }

// sayUnder prints a paragraph whose lines begin with indent.
func (d *dialog) sayUnder(indent, text string) {
	for _, line := range study.Wrap(text, sayWidth-len(indent)) {
		d.printf("%s%s\n", indent, line)
	}
}

// run asks until everything is answered.
func (d *dialog) run(ctx context.Context) error {
	d.say("Ten questions about the yard. For each line, type an answer and press Enter. Enter alone is \"don't know\": the default below " +
		"the question is used, with a grade and a source. Type ? " +
		"for an explanation, back for the question before. Nothing is written before the end.")
	for i := 0; i >= 0; {
		places := d.a.Places()
		if i >= len(places) {
			return nil
		}
		at := places[i]
		back, err := d.ask(ctx, at)
		switch {
		case errors.Is(err, errEnded):
			n, _, _ := ask.Find(at)
			return &usageError{diag.Interrupted, fmt.Sprintf("the input ended at question %d of %d; nothing was written", n, len(ask.Questions())),
				"answer every line; an empty line is \"don't know\""}
		case err != nil:
			return err
		case back && i > 0:
			i--
		case back:
			d.say("This is the first question.")
		default:
			more, err := d.more(ctx, at)
			if err != nil {
				return err
			}
			if i++; more {
				i++ // its name is known
			}
		}
	}
	return nil
}

// more asks for another zone after the last part of the last one.
func (d *dialog) more(ctx context.Context, at ask.At) (bool, error) {
	_, q, _ := ask.Find(at)
	if !q.Many || at.Part != q.Parts[len(q.Parts)-1].ID || at.Zone != d.a.ZoneCount()-1 || at.Zone+1 >= ask.MaxZones {
		return false, nil
	}
	for len(d.a.Zones) <= at.Zone {
		d.a.Zones = append(d.a.Zones, ask.Zone{})
	}
	name := ask.At{Question: at.Question, Part: q.Parts[0].ID, Zone: at.Zone + 1}
	for {
		d.printf("\nName of zone %d. Enter alone: there are no more zones.\n", name.Zone+1)
		text, err := d.prompt(ctx, name)
		if errors.Is(err, errEnded) {
			return false, &usageError{diag.Interrupted, "the input ended in the list of zones; nothing was written",
				"end the list with an empty line"}
		}
		if err != nil {
			return false, err
		}
		if text == "" || text == "back" {
			return false, nil
		}
		if text == "?" {
			d.sayUnder("  ", q.Help)
			continue
		}
		b := d.a
		b.Zones = slices.Clone(d.a.Zones)
		b.Set(name, text)
		if f := faultAt(&b, name); f != nil {
			d.refuse(f)
			continue
		}
		d.a = b
		return true, nil
	}
}

// prompt reads one answer; the line before it says where we are.
func (d *dialog) prompt(ctx context.Context, at ask.At) (string, error) {
	n, _, _ := ask.Find(at)
	d.printf("%d of %d> ", n, len(ask.Questions()))
	line, err := d.next(ctx)
	return strings.TrimSpace(line), err
}

// ask asks for one part until it has an answer that can be used.
func (d *dialog) ask(ctx context.Context, at ask.At) (back bool, err error) {
	n, q, p := ask.Find(at)
	if n != d.shown {
		d.printf("\nQuestion %d of %d. %s\n%s\n", n, len(ask.Questions()), q.Title, q.Text)
		d.shown = n
	}
	for {
		d.question(at, q, p)
		text, err := d.prompt(ctx, at)
		if err != nil {
			return false, err
		}
		switch strings.ToLower(text) {
		case "back":
			return true, nil
		case "?":
			d.help(q, p)
			continue
		case "":
			if d.a.Answer(at) != "" {
				return false, nil // kept
			}
		case "-":
			text = ""
		}
		b := d.a
		b.Zones = slices.Clone(d.a.Zones)
		if text != "" || d.a.Answer(at) != "" {
			b.Set(at, text)
		}
		if text != "" {
			if f := d.check(&b, at, p); f != nil {
				d.refuse(f)
				continue
			}
		}
		d.a = b
		d.used(at, text)
		return false, nil
	}
}

// question prints one part, its choices and what Enter means.
func (d *dialog) question(at ask.At, q *ask.Question, p *ask.Part) {
	text := p.Text
	if at.Zone >= 0 {
		text = d.a.ZoneName(at.Zone) + ": " + text
	}
	if unit := p.Unit.In(&d.a); unit != "" && unit != "min" {
		text += ", in " + unit
	}
	if example := p.Example.In(&d.a); example != "" {
		text += ", such as " + example
	}
	d.printf("\n")
	d.say(text)
	for i, o := range p.Choices {
		line := o.Text
		if o.Help != "" {
			line += " (" + strings.TrimSuffix(o.Help, ".") + ")"
		}
		d.printf("  %d  %s\n", i+1, line)
	}
	if now := d.a.Answer(at); now != "" {
		d.printf("Enter keeps: %s. To forget it, type -\n", now)
		return
	}
	def := d.a.Default(at)
	d.say("Enter: " + def.Text)
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

// faultAt returns what is wrong with the answer at a place, or nil.
func faultAt(a *ask.Answers, at ask.At) *ask.Fault {
	_, faults := ask.Scenario(*a)
	for i := range faults {
		if faults[i].At == at || faults[i].Question == "" {
			return &faults[i]
		}
	}
	if len(faults) > 0 { // an answer before, which this one does not fit
		return &faults[0]
	}
	return nil
}

// check returns what is wrong with an answer. A file has to exist in the folder of
// the scenario.
func (d *dialog) check(a *ask.Answers, at ask.At, p *ask.Part) *ask.Fault {
	if p.Kind == ask.File {
		in := inputs{fence: fence{folder: d.folder}}
		f, err := in.openNamed(filepath.Join(d.folder, filepath.FromSlash(a.Answer(at))))
		var e *diag.Error
		if errors.As(err, &e) {
			return &ask.Fault{At: at, Code: e.Code, Msg: e.Pos.File + ": " + e.Msg, Fix: e.Fix}
		}
		if err != nil {
			return &ask.Fault{At: at, Code: diag.System, Msg: err.Error(), Fix: "choose another file"}
		}
		if err := f.Close(); err != nil {
			return &ask.Fault{At: at, Code: diag.System, Msg: err.Error(), Fix: "choose another file"}
		}
	}
	return faultAt(a, at)
}

// refuse says why an answer cannot be used.
func (d *dialog) refuse(f *ask.Fault) {
	d.sayUnder("  ", "Not understood: "+f.Msg+".")
	if f.Fix != "" {
		d.sayUnder("  ", "Fix: "+f.Fix+".")
	}
}

// used says what replaces an answer, with its source, and what is unusual about one.
func (d *dialog) used(at ask.At, text string) {
	r, _ := ask.Scenario(d.a)
	defer d.figures(at, r)
	for _, a := range r.Assumed {
		if a.At == at {
			said := fmt.Sprintf("%v: %s.", a.Grade, a.Source)
			if a.Derived { // it was not shown with the question
				said = a.Text + "; " + said
			}
			d.sayUnder("  ", said)
		}
	}
	for _, w := range r.Warnings {
		if w.At == at && text != "" {
			d.sayUnder("  ", "Unusual: "+w.Text+". To correct it, type back.")
		}
	}
}

// figures prints the monthly figures of synthetic weather after the last of their parts.
func (d *dialog) figures(at ask.At, r ask.Result) {
	places := d.a.Places()
	next := slices.Index(places, at) + 1
	if at.Question != "weather" || next < len(places) && places[next].Question == at.Question {
		return
	}
	for _, f := range r.Files {
		if f.Kind != ask.Figures {
			continue
		}
		d.printf("\nSynthetic weather is generated from these monthly figures, January first:\n")
		for line := range strings.Lines(string(f.Text)) {
			if key, _, _ := strings.Cut(line, "_"); slices.Contains([]string{"rain", "tmax", "tmin"}, key) {
				d.printf("  %s", line)
			}
		}
	}
}
