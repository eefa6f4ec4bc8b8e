package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"loamledger/scenarios/ask"
	"loamledger/scenarios/studyfile"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// runAsk asks the questions and writes the scenario with the files that it names.
// Nothing is written before the last answer.
func runAsk(ctx context.Context, s Streams, o *initOptions) error {
	if o.Out == "" {
		o.Out = "yard.yaml"
	}
	if s.In == nil {
		return &usageError{diag.Unsupported, "there is nowhere to read answers from", "run it in a terminal, or pipe the answers in"}
	}
	d := &dialog{Streams: s, lines: readLines(ctx, s.In), folder: filepath.Dir(o.Out)}
	d.a.Units = strings.ToLower(o.Units)
	d.a.Base = strings.TrimSuffix(filepath.Base(o.Out), filepath.Ext(o.Out))
	r, faults := ask.Scenario(d.a)
	if len(faults) > 0 {
		return &usageError{diag.BadName, fmt.Sprintf("%s: %s", o.Out, faults[0].Msg), "choose a plain name, such as yard.yaml"}
	}
	for _, name := range append(d.made(r), o.Out) { // before anybody has typed anything
		if err := keepIt.free(name); err != nil {
			return err
		}
	}
	if err := d.run(ctx); err != nil {
		return err
	}
	if r, faults = ask.Scenario(d.a); len(faults) > 0 {
		return fmt.Errorf("answers that were accepted one by one do not fit together: %s", faults[0].Msg)
	}
	if err := d.write(o.Out, r); err != nil {
		return err
	}
	d.finish(o.Out, r)
	return d.offer(ctx, o.Out)
}

// made lists the files that are made in addition to the scenario; rates may come
// with the answers.
func (d *dialog) made(r ask.Result) (out []string) {
	for _, f := range r.Files {
		if f.Text != nil || f.Kind == ask.Weather && d.a.WeatherFile == "" {
			out = append(out, filepath.Join(d.folder, f.Name))
		}
	}
	return out
}

// write writes all files, or none: the scenario last.
func (d *dialog) write(scenario string, r ask.Result) (err error) {
	var written []string
	defer func() {
		if err != nil {
			for _, name := range written {
				_ = os.Remove(name) // the first error is the one to report
			}
		}
	}()
	put := func(name string, write func(io.Writer) error) error {
		err := writeWhole(name, keepIt, write)
		if err == nil {
			written = append(written, name)
		}
		return err
	}
	var figures ask.NamedFile
	for _, f := range r.Files {
		name := filepath.Join(d.folder, f.Name)
		switch {
		case f.Text != nil:
			err = put(name, func(w io.Writer) error { _, err := w.Write(f.Text); return err })
			if f.Kind == ask.Figures {
				figures = f
			}
		case f.Kind == ask.Weather && figures.Text != nil:
			err = put(name, func(w io.Writer) error { return studyfile.Generated(w, figures) })
		}
		if err != nil {
			return err
		}
	}
	return put(scenario, func(w io.Writer) error { _, err := w.Write(r.YAML); return err })
}

// finish says what was written, what was assumed, and what to do next.
func (d *dialog) finish(scenario string, r ask.Result) {
	d.printf("\nWrote %s", scenario)
	for _, name := range d.made(r) {
		d.printf(", %s", name)
	}
	d.printf(".\n")
	if d.a.WeatherFile == "" {
		d.say(fmt.Sprintf("The weather is synthetic: %d years from monthly figures, to compare settings. It says nothing about any one year.",
			ask.Years))
	}
	if n := len(r.Assumed); n > 0 {
		d.say(fmt.Sprintf("%s marked ASSUMED in it. %s", quantity.Count(n, "default is", "defaults are"), d.first(r)))
	}
}

// weighty lists the parts whose defaults decide the results, first the most.
var weighty = [...]struct{ question, part, advice string }{
	{"schedule", "minutes", "read the minutes off the timer"},
	{"zones", "area", "pace off the zones"},
	{"place", "climate", "choose the climate"},
	{"zones", "flow", "read the water meter while one zone runs"},
	{"zones", "plant", "find out what grows there"},
	{"soil", "ribbon", "feel the soil"},
}

// first says which defaults to replace first, at most three.
func (d *dialog) first(r ask.Result) string {
	var advice []string
	for _, w := range weighty {
		for _, a := range r.Assumed {
			if a.Question == w.question && a.Part == w.part && len(advice) < 3 {
				advice = append(advice, w.advice)
				break
			}
		}
	}
	if len(advice) == 0 {
		return ""
	}
	return "First of all: " + strings.Join(advice, "; ") + "."
}

// offer names the next command, and runs it if that is wanted.
func (d *dialog) offer(ctx context.Context, scenario string) error {
	d.printf("\nNext: loamledger replay %s\n", quotedArg(scenario))
	d.printf("Run it now? Enter is yes, n is no.\n> ")
	line, err := d.next(ctx)
	if err != nil || ctx.Err() != nil {
		return ctx.Err() // the input has ended: the files are written
	}
	if answer := strings.ToLower(strings.TrimSpace(line)); answer != "" && answer != "y" && answer != "yes" {
		return nil
	}
	d.printf("\n")
	replay := newReplay(d.Streams)
	replay.SilenceErrors, replay.SilenceUsage = true, true
	replay.SetArgs([]string{"--", scenario})
	return replay.ExecuteContext(ctx)
}

// quotedArg writes a file name as a shell takes it.
func quotedArg(name string) string {
	if strings.ContainsAny(name, " '\"()&;<>|$*?") {
		return `"` + name + `"`
	}
	return name
}
