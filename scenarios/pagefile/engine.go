// Package pagefile is the engine of the page that computes: it reads a scenario and its
// files from memory and answers requests of the page in JSON. It has no rules of its own:
// files are read by the readers of the commands, and results are those of package study.
//
// # Promises
//
// A move of a slider is a change of the scenario's text. What the page shows is
// therefore what a command computes from the text that the page saves, to the last
// digit. An [Engine] is not safe for concurrent use.
package pagefile

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/ask"
	"loamledger/scenarios/study"
	"loamledger/scenarios/studyfile"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/tally"
	"loamledger/weather/diag"
)

// An Engine has the files of a page and what was worked out from them. The zero value
// has no files.
type Engine struct {
	// Step is called in long work with the steps done so far and all steps; nil for none.
	Step func(done, all int)
	// Version is that of the program, for the record of a study.
	Version string

	files     map[string][]byte // by name without folders
	name      string            // of the scenario
	doc       *yamlfile.Doc     // the scenario as opened
	opened    *scenarios.Scenario
	weather   *study.Weather
	forecasts *study.Forecasts
	controls  []Control
	glancer   study.Glancer
	rates     studyfile.KeptRates

	now     map[string][]byte // files with what moves have changed, the scenario among them
	nowDoc  *yamlfile.Doc     // that scenario
	checked *study.Study      // of the last check
	table   *tally.Table
}

// Put adds a file, or replaces it.
func (e *Engine) Put(name string, data []byte) {
	if e.files == nil {
		e.files = map[string][]byte{}
	}
	e.files[bareName(name)] = data
}

// bareName is the name of a file without folders: a page has none.
func bareName(name string) string { return path.Base(strings.ReplaceAll(name, `\`, "/")) }

// A request asks for one thing.
type request struct {
	Do       string             `json:"do"`
	Scenario string             `json:"scenario"` // of open: its name
	Set      map[string]float64 `json:"set"`      // of move: controls that are not as opened
	Draws    int                `json:"draws"`
	Strategy int                `json:"strategy"` // of sheet

	// Of questions, answers and write: what is typed, by place, in how many zones.
	Typed []typed `json:"typed"`
	Zones int     `json:"zones"`
	Units string  `json:"units"`
}

// A Reply is what the page shows. Fields that do not belong to the request are empty.
type Reply struct {
	Faults   []Fault            `json:"errors,omitempty"`
	Wants    []string           `json:"wants,omitempty"` // files that the scenario names and the page does not have
	Cards    *study.Cards       `json:"cards,omitempty"`
	Controls []Control          `json:"controls,omitempty"`
	Fixed    string             `json:"fixed,omitempty"` // why some numbers have no slider
	Assumed  []Assumed          `json:"assumed,omitempty"`
	Next     *Next              `json:"next,omitempty"`
	Ranges   *Ranges            `json:"ranges,omitempty"`
	Sheet    *study.SheetRecord `json:"sheet,omitempty"`
	SheetIs  []string           `json:"sheet_is,omitempty"` // why there is no sheet, or which timer it is for
	Saved    []Saved            `json:"saved,omitempty"`

	Questions []ask.Question `json:"questions,omitempty"`
	Places    []Place        `json:"places,omitempty"` // that are asked, given the answers
	Wrong     []ask.Fault    `json:"wrong,omitempty"`  // answers that cannot be used
	Unusual   []ask.Warning  `json:"unusual,omitempty"`
}

// A Fault is an error in an input, with its place and its remedy.
type Fault struct {
	Code    diag.Code `json:"code"`
	File    string    `json:"file,omitempty"`
	Line    int       `json:"line,omitempty"`
	Column  int       `json:"column,omitempty"`
	Message string    `json:"message"`
	Fix     string    `json:"fix,omitempty"`
}

// An Assumed value is one that was not given.
type Assumed struct {
	Where  string `json:"where"` // zone, strategy or site
	Key    string `json:"key"`
	Value  string `json:"value"`
	Range  string `json:"range,omitempty"`
	Source string `json:"source"`
	Grade  string `json:"grade"`
}

// assumed lists the values that a study was not given, equal ones as one.
func assumed(l *study.Study) (out []Assumed) {
	for _, d := range l.Assumed() {
		out = append(out, Assumed{d.Where, d.Key, d.Value, d.Range, d.Source, d.Grade.String()})
	}
	return out
}

// A Saved file is one to keep.
type Saved struct {
	Name string `json:"name"`
	Text string `json:"text"`
}

// Answer answers a request in JSON. Errors are part of the answer.
func (e *Engine) Answer(ctx context.Context, text []byte) []byte {
	var r request
	reply := &Reply{}
	err := json.Unmarshal(text, &r)
	if err == nil {
		err = e.do(ctx, &r, reply)
	}
	if err != nil {
		reply.fail(err)
	}
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(reply); err != nil {
		return []byte(`{"errors": [{"code": "system-error", "message": "the answer cannot be written"}]}`)
	}
	return out.Bytes()
}

func (e *Engine) do(ctx context.Context, r *request, reply *Reply) error {
	switch r.Do {
	case "open":
		return e.open(ctx, bareName(r.Scenario), reply)
	case "move":
		return e.move(ctx, r.Set, reply)
	case "check":
		return e.check(ctx, r.Set, reply)
	case "draw":
		return e.draw(ctx, r.Draws, reply)
	case "sheet":
		return e.sheet(ctx, r.Strategy, reply)
	case "questions":
		reply.Questions = ask.Questions()
		return e.asked(r.answers(), reply)
	case "answers":
		return e.asked(r.answers(), reply)
	case "write":
		return e.write(r.answers(), reply)
	case "sample":
		return sample(reply)
	case "save":
		return e.save(r.Set, reply)
	}
	return fmt.Errorf("unknown request %q", r.Do)
}

// fail lists every error in err.
func (r *Reply) fail(err error) {
	leaves, more := diag.Leaves(err)
	for _, leaf := range leaves {
		fault := Fault{Code: diag.System, Message: leaf.Error()}
		if one := (*diag.Error)(nil); errors.As(leaf, &one) {
			fault = Fault{one.Code, one.Pos.File, one.Pos.Line, one.Pos.Col, one.Msg, one.Remedy()}
		}
		r.Faults = append(r.Faults, fault)
	}
	if more > 0 {
		r.Faults = append(r.Faults, Fault{Code: diag.TooLarge, Message: fmt.Sprintf("and %d more errors", more)})
	}
}

// open reads a scenario and its files, and replays it.
func (e *Engine) open(ctx context.Context, name string, reply *Reply) error {
	e.name, e.doc, e.opened, e.controls, e.now, e.nowDoc, e.checked, e.table = name, nil, nil, nil, nil, nil, nil, nil
	data, is := e.files[name]
	if !is {
		return &diag.Error{Code: diag.NoSuchFile, Pos: diag.Pos{File: name}, Msg: "file not found", Fix: "add it to the page"}
	}
	var err error
	if e.doc, err = yamlfile.NewDoc(bytes.NewReader(data), name); err != nil {
		// What is right in the text may have more errors.
		_, err = yamlfile.Read(bytes.NewReader(data), name, e.tables(e.files))
		return err
	}
	sc, err := e.read(e.doc, e.files)
	if err != nil {
		return err
	}
	if reply.Wants = e.wanted(sc); len(reply.Wants) > 0 {
		return nil
	}
	files := e.named(e.files)
	records, err := files.Records(sc)
	if err != nil {
		return err
	}
	if e.weather, err = study.Prepare(sc, records); err != nil {
		return err
	}
	file, err := files.Forecast(sc)
	if err != nil {
		return err
	}
	if e.forecasts, err = study.Announce(sc, e.weather, file); err != nil {
		return err
	}
	e.opened = sc
	l, err := e.glance(ctx, sc, e.files, reply)
	if err != nil {
		return err
	}
	reply.Assumed = assumed(l)
	e.controls, reply.Fixed = e.sliders(sc)
	reply.Controls = e.controls
	return nil
}

// read reads a scenario, whose table of zones is among files.
func (e *Engine) read(doc *yamlfile.Doc, files map[string][]byte) (*scenarios.Scenario, error) {
	return doc.Scenario(e.tables(files))
}

// tables opens tables of zones among files.
func (e *Engine) tables(files map[string][]byte) func(string) (io.ReadCloser, error) {
	return func(table string) (io.ReadCloser, error) { return openIn(files, bareName(table), diag.Pos{}) }
}

// named opens what the scenario names, among files.
func (e *Engine) named(files map[string][]byte) *studyfile.Files {
	open := func(name string, at diag.Pos) (io.ReadCloser, error) { return openIn(files, name, at) }
	return &studyfile.Files{Path: bareName, Kept: &e.rates, Open: open}
}

func openIn(files map[string][]byte, name string, at diag.Pos) (io.ReadCloser, error) {
	data, is := files[name]
	if !is {
		if at.File == "" {
			at.File = name
		}
		return nil, &diag.Error{Code: diag.NoSuchFile, Pos: at, Msg: name + ": file not found", Fix: "add it to the page"}
	}
	return io.NopCloser(bytes.NewReader(data)), nil
}

// wanted lists the files that a scenario names and the page does not have.
func (e *Engine) wanted(sc *scenarios.Scenario) (out []string) {
	add := func(f *scenarios.File) {
		if f == nil {
			return
		}
		if name := bareName(f.Name); e.files[name] == nil && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	w := &sc.Weather
	for i := range w.Files {
		add(&w.Files[i])
	}
	add(w.RainFile)
	for i := range w.FillFiles {
		add(&w.FillFiles[i])
	}
	add(w.Declared)
	if f := sc.Forecast; f != nil {
		add(f.File)
		add(f.Declared)
	}
	if m := sc.Money; m != nil {
		add(&m.Rates)
	}
	for i := range sc.Meters {
		add(sc.Meters[i].Reads)
	}
	return out
}

// set sets up a scenario on the weather as opened.
func (e *Engine) set(sc *scenarios.Scenario, files map[string][]byte) (*study.Study, error) {
	l, err := study.New(sc, e.weather, e.forecasts)
	if err != nil {
		return nil, err
	}
	if err := e.named(files).Price(l); err != nil {
		return nil, err
	}
	l.Layout, l.Program = studyfile.LayoutTitle(l.Weather.Layout), e.Version
	l.Job.Workers, l.Job.Brief, l.Live = 1, true, true
	return l, nil
}

// glance replays a scenario and makes its cards.
func (e *Engine) glance(ctx context.Context, sc *scenarios.Scenario, files map[string][]byte, reply *Reply) (*study.Study, error) {
	l, err := e.set(sc, files)
	if err != nil {
		return nil, err
	}
	t, err := e.glancer.Glance(ctx, l)
	if err != nil {
		return nil, err
	}
	reply.Cards = l.Cards(t)
	return l, nil
}
