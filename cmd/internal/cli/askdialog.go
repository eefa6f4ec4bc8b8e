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
	shown  string // the question whose heading was printed last
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
	d.say("Enter alone means that you don't know: what follows \"Enter:\" is used. ? is help, back goes back.")
	for i := 0; i >= 0; {
		rows := d.turns()
		if i >= len(rows) {
			if back, err := d.review(ctx); err != nil || !back {
				return err
			}
			i--
			continue
		}
		back, err := d.ask(ctx, rows[i])
		switch {
		case err != nil:
			return err
		case !back:
			i++
		case i > 0:
			i--
		default:
			d.say("This is the first question.")
		}
	}
	return nil
}

// turns lists what is asked in turn.
func (d *dialog) turns() []ask.Row {
	return slices.DeleteFunc(d.a.Rows(), func(r ask.Row) bool { _, _, p := ask.Find(r.At(0)); return p.Later })
}

// prompt reads one answer.
func (d *dialog) prompt(ctx context.Context) (string, error) {
	d.printf("> ")
	line, err := d.next(ctx)
	return strings.TrimSpace(line), err
}

// ended says where the input ended, if that is what went wrong.
func (d *dialog) ended(err error, question int) error {
	if !errors.Is(err, errEnded) {
		return err
	}
	return &usageError{diag.Interrupted, fmt.Sprintf("the input ended at question %d; nothing was written", question),
		"answer every line; an empty line is \"don't know\""}
}

// ask asks for one row until it has an answer that can be used.
func (d *dialog) ask(ctx context.Context, r ask.Row) (back bool, err error) {
	_, q, p := ask.Find(r.At(0))
	for {
		d.question(r)
		text, err := d.prompt(ctx)
		if err != nil {
			n, _ := d.number(r)
			return false, d.ended(err, n)
		}
		switch strings.ToLower(text) {
		case "back":
			return true, nil
		case "?":
			d.help(q, p)
			continue
		case "":
			return false, nil // not known, or kept
		}
		b := d.a
		b.Zones = slices.Clone(d.a.Zones)
		if f := d.enter(&b, r, text); f != nil {
			d.refuse(f)
			continue
		}
		d.a = b
		d.used(r)
		return false, nil
	}
}

// enter puts an answer into a, and returns what is wrong with it.
func (d *dialog) enter(a *ask.Answers, r ask.Row, text string) *ask.Fault {
	if isNames(r) {
		if text == "-" {
			a.Zones = nil
			return nil
		}
		a.SetZones(text)
		return faultAt(a, r.At(0))
	}
	items, f := a.Split(r, text)
	if f != nil {
		return f
	}
	_, _, p := ask.Find(r.At(0))
	for i, item := range items {
		if item != "" || a.Answer(r.At(i)) != "" {
			a.Set(r.At(i), item)
		}
	}
	for i, item := range items {
		if item == "" {
			continue
		}
		if f := d.check(a, r.At(i), p); f != nil {
			return f
		}
	}
	return nil
}

// isNames reports whether a row is that of the names of the zones, which say how many there
// are.
func isNames(r ask.Row) bool { return r.Question == "zones" && r.Part == "name" }

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

// used says what is unusual about an answer.
func (d *dialog) used(r ask.Row) {
	result, _ := ask.Scenario(d.a)
	if isNames(r) && len(d.a.Zones) > 1 {
		d.printf("\n")
		d.say("One answer for all zones, or one for each in this order, with commas.")
	}
	var said []string
	add := func(text string) {
		if !slices.Contains(said, text) {
			d.sayUnder("  ", text)
		}
		said = append(said, text)
	}
	for i := range r.Zones {
		for _, w := range result.Warnings {
			if w.At == r.At(i) && d.a.Answer(r.At(i)) != "" {
				add("Unusual: " + w.Text + ". To correct it, type back.")
			}
		}
	}
}
