package ask

import (
	"errors"
	"fmt"
	"slices"
	"sort"
	"strings"

	"loamledger/scenarios"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// Scenario makes a scenario of answers, with a default for each "don't know". If
// answers cannot be used, it returns every one of them as a fault, and no scenario.
// It needs nothing but the answers: files are only named, and whether they exist is
// for the caller to find out.
func Scenario(a Answers) (Result, []Fault) {
	a.Zones = slices.Clone(a.Zones)
	for len(a.Zones) < a.ZoneCount() {
		a.Zones = append(a.Zones, Zone{})
	}
	w := newWriter(&a)
	if n := len(a.Zones); n > MaxZones {
		w.fault(At{Question: "zones", Part: "name", Zone: MaxZones}, diag.TooLarge, "write the rest into the scenario afterwards",
			"%d zones are more than %d", n, MaxZones)
		return Result{}, w.faults
	}
	root := w.scenario()
	if today, err := scenarios.Build(onlyToday(root), "answers"); err == nil && len(w.faults) == 0 {
		if lawful := lawfulPrograms(today); lawful != nil { // what runs today breaks the rules: options do not
			w = newWriter(&a)
			w.lawful = lawful
			root = w.scenario()
		}
	}
	sc, err := scenarios.Build(root, "answers")
	if err != nil {
		w.errors(err)
	} else {
		w.warnings = w.located(sc.Warnings)
		w.mark(root, sc)
	}
	if len(w.faults) > 0 {
		return Result{}, w.sorted()
	}
	sort.SliceStable(w.assumed, func(a, b int) bool { return rank(w.assumed[a].At) < rank(w.assumed[b].At) })
	return Result{YAML: w.render(root), Assumed: w.assumed, Warnings: w.warnings, Files: w.files}, nil
}

func newWriter(a *Answers) *writer {
	return &writer{a: a, comments: map[*scenarios.Node][]string{}, defaults: map[At]Default{}, inline: map[*scenarios.Node]bool{}}
}

// A writer turns answers into the tree of a scenario. The position of a node is the
// number of the answer that it was made of, so that what the reader of scenarios
// rejects can be traced back.
type writer struct {
	a         *Answers
	places    []At
	faults    []Fault
	assumed   []Assumption
	defaults  map[At]Default // of the places that they are the answers of
	warnings  []Warning
	files     []NamedFile
	comments  map[*scenarios.Node][]string
	inline    map[*scenarios.Node]bool // written on one line
	zoneNames []string
	lawful    []lawfulProgram // by program; nil if what runs today keeps the rules
}

// pos returns the position that stands for an answer.
func (w *writer) pos(at At) diag.Pos {
	i := slices.Index(w.places, at)
	if i < 0 {
		i = len(w.places)
		w.places = append(w.places, at)
	}
	return diag.Pos{File: "answers", Line: i + 1}
}

// said returns an answer, or what replaces it; in the latter case d is the default,
// which is recorded. The text is empty if the default writes nothing.
func (w *writer) said(at At) (text string, d *Default) {
	if text = strings.TrimSpace(w.a.Answer(at)); text != "" {
		return text, nil
	}
	def := w.a.Default(at)
	if !def.None && def.Source != "" {
		w.assume(at, def)
	}
	return def.Answer, &def
}

// number is like said, with the unit that the question states after a bare number.
func (w *writer) number(at At) (text string, d *Default) {
	text, d = w.said(at)
	if _, err := quantity.ParseNumber(text); err == nil {
		text += " " + find(at).Unit.In(w.a)
	}
	return text, d
}

// assume records a default as the answer at a place.
func (w *writer) assume(at At, d Default) {
	w.defaults[at] = d
	w.note(at, d)
}

// note lists a default.
func (w *writer) note(at At, d Default) {
	w.assumed = append(w.assumed, Assumption{At: at, ZoneName: w.nameOf(at.Zone), Text: d.Text, Source: d.Source, Grade: d.Grade,
		Derived: d != w.a.Default(at)})
}

// nameOf returns the name of a zone, "" for no zone.
func (w *writer) nameOf(z int) string {
	if z < 0 {
		return ""
	}
	return w.a.ZoneName(z)
}

// errors traces what the reader of scenarios rejects back to the answers.
func (w *writer) errors(err error) {
	var all *diag.Errors
	if !errors.As(err, &all) {
		w.faults = append(w.faults, Fault{At: At{Zone: -1}, Code: diag.System, Msg: err.Error()})
		return
	}
	own := len(w.faults)
	if all.More > 0 {
		defer func() {
			w.faults = append(w.faults, Fault{At: At{Zone: -1}, Code: diag.TooLarge, Msg: fmt.Sprintf("and %d more errors", all.More),
				Fix: "correct these first"})
		}()
	}
	for _, e := range all.List {
		f := Fault{At: At{Zone: -1}, Code: e.Code, Msg: w.withoutPlace(e.Msg), Fix: e.Fix}
		if i := e.Pos.Line - 1; i >= 0 && i < len(w.places) {
			f.At = w.places[i]
		}
		follows := f.Question == "" && own > 0 // of an answer that was not passed on
		if follows || slices.ContainsFunc(w.faults, func(g Fault) bool { return g.At == f.At }) {
			continue
		}
		w.faults = append(w.faults, f)
	}
}

// withoutPlace removes from a message where in a scenario it is: the answer says so.
func (w *writer) withoutPlace(msg string) string {
	places := []string{"site: ", "limits: ", "timer: ", "weather: "}
	for i, name := range w.zoneNames {
		places = append(places, fmt.Sprintf("zone %q: ", name), fmt.Sprintf("program %q: ", programName(i)))
	}
	for _, place := range places {
		msg = strings.TrimPrefix(msg, place)
	}
	return msg
}

// mark lists the values that are defaults in the scenario itself, so that reports
// count them and give their sources.
func (w *writer) mark(root *scenarios.Node, sc *scenarios.Scenario) {
	l := list()
	for _, in := range sc.Inputs {
		i := in.Pos.Line - 1
		copied := strings.HasPrefix(in.Key, "strategies.") && !strings.HasPrefix(in.Key, "strategies.as found.")
		if i < 0 || i >= len(w.places) || in.Defaulted || copied {
			continue
		}
		d, is := w.defaults[w.places[i]]
		if !is {
			continue
		}
		g := group()
		w.put(g, "key", word(in.Key))
		w.put(g, "value", word(in.Text))
		w.put(g, "source", word(d.Source))
		l.Items = append(l.Items, w.onOneLine(g))
	}
	if len(l.Items) > 0 {
		w.put(root, "assumed", l, "The values marked ASSUMED, with their sources. Reports list them with the defaults, for as long as "+
			"they are as here. Replace those that matter, first run times and areas.")
	}
}

// located traces warnings back to the answers; those that no single answer is the
// cause of are left to the commands that read the scenario.
func (w *writer) located(list []scenarios.Warning) (out []Warning) {
	for _, v := range list {
		if i := v.Pos.Line - 1; i >= 0 && i < len(w.places) && v.Text != "" {
			out = append(out, Warning{At: w.places[i], Text: w.withoutPlace(v.Text)})
		}
	}
	return out
}

// sorted returns the faults in the order of the questions. A default that has one
// follows from an answer that has one.
func (w *writer) sorted() []Fault {
	answered := func(f Fault) bool { return f.Question == "" || strings.TrimSpace(w.a.Answer(f.At)) != "" }
	if slices.ContainsFunc(w.faults, answered) {
		w.faults = slices.DeleteFunc(w.faults, func(f Fault) bool { return !answered(f) })
	}
	sort.SliceStable(w.faults, func(a, b int) bool { return rank(w.faults[a].At) < rank(w.faults[b].At) })
	return w.faults
}

// rank orders places as the questions are.
func rank(at At) int {
	for q := range questions {
		for p := range questions[q].Parts {
			if questions[q].ID == at.Question && questions[q].Parts[p].ID == at.Part {
				return 1e6*q + 1e3*(at.Zone+1) + p
			}
		}
	}
	return 1e9
}
