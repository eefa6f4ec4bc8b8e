package runfile

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/weather/diag"
)

// maxBytes is the maximum size of a run.json [bytes].
const maxBytes = 1 << 27

// A Run is a recorded run that can be repeated.
type Run struct {
	Scenario *scenarios.Scenario
	Name     string // of the scenario file
	version  string // of the loamledger that wrote the record
	Files    []File // that the run read
	// Changed reports that the scenario in the record was edited after the run.
	Changed bool
}

// A File is a file that a run has read. Bytes is its size.
type File struct {
	Name, SHA256 string
	Bytes        int64
}

// Read reads the run.json in r, which is called name in messages, and rebuilds
// its scenario. more lists zone parameters in addition to those of
// [scenarios.ZoneParams]. If the record is not valid, or a default has changed
// since, [diag.IsInput] recognizes the error; other errors are system errors.
func Read(r io.Reader, name string, more ...scenarios.ZoneParam) (*Run, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	top, err := tree(data, name)
	if err != nil {
		return nil, err
	}
	root := top.Get("scenario")
	if root == nil || root.Kind != scenarios.Map {
		return nil, &diag.Error{
			Pos: diag.Pos{File: name}, Msg: "this file has no scenario",
			Fix: "name a run.json written by this version, or a scenario in YAML",
		}
	}
	sc, err := scenarios.Build(root, name, more...)
	if err != nil {
		return nil, err
	}
	if err := sameDefaults(top.Get("inputs"), sc, name); err != nil {
		return nil, err
	}
	run := &Run{
		Scenario: sc, Name: textOf(top.Get("scenario_file")), version: textOf(top.Get("version")),
		Changed: digest(sc) != textOf(top.Get("scenario_sha256")),
	}
	if !run.Changed {
		restore(sc, top)
	}
	if files := top.Get("files"); files != nil {
		for _, f := range files.Items {
			size, _ := strconv.ParseInt(textOf(f.Get("bytes")), 10, 64)
			run.Files = append(run.Files, File{textOf(f.Get("name")), textOf(f.Get("sha256")), size})
		}
	}
	return run, nil
}

// restore adds what the record has besides the scenario itself: where each
// value was given or why a default was used, the coefficient sets, and the places
// that warnings name.
func restore(sc *scenarios.Scenario, top *scenarios.Node) {
	if list := top.Get("inputs"); list != nil {
		sc.Inputs = sc.Inputs[:0]
		for _, n := range list.Items {
			sc.Inputs = append(sc.Inputs, inputOf(n))
		}
		sc.RestoreDoubts()
	}
	if list := top.Get("zones"); list != nil && len(list.Items) == len(sc.Zones) {
		for i, n := range list.Items {
			sc.Zones[i].Coefficients = textOf(n.Get("coefficients"))
		}
	}
	if list := top.Get("warnings"); list != nil {
		placed := map[string]diag.Pos{}
		for _, n := range list.Items {
			at := diag.Pos{File: textOf(n.Get("file"))}
			at.Line, _ = strconv.Atoi(textOf(n.Get("line")))
			at.Col, _ = strconv.Atoi(textOf(n.Get("column")))
			placed[textOf(n.Get("text"))] = at
		}
		for i := range sc.Warnings {
			if at, ok := placed[sc.Warnings[i].Text]; ok {
				sc.Warnings[i].Pos = at
			}
		}
	}
}

func inputOf(n *scenarios.Node) scenarios.Input {
	in := scenarios.Input{
		Key: textOf(n.Get("key")), Text: textOf(n.Get("text")), ReadAs: textOf(n.Get("read_as")), Unit: textOf(n.Get("unit")),
		Defaulted: textOf(n.Get("default")) == "true", Off: textOf(n.Get("leaves_out")) == "true",
		Range: textOf(n.Get("range")), Source: textOf(n.Get("source")), Pos: posOf(textOf(n.Get("place"))),
	}
	if v, err := strconv.ParseFloat(textOf(n.Get("value")), 64); err == nil {
		in.Value, in.Numeric = v, true
	}
	for g := range catalog.Grades {
		if g.String() == textOf(n.Get("grade")) {
			in.Grade = g
		}
	}
	return in
}

// posOf reads a position such as yard.yaml:3:5; line and column are optional.
func posOf(text string) diag.Pos {
	var numbers []int
	for len(numbers) < 2 {
		i := strings.LastIndexByte(text, ':')
		if i < 0 {
			break
		}
		n, err := strconv.Atoi(text[i+1:])
		if err != nil {
			break
		}
		text, numbers = text[:i], append(numbers, n)
	}
	pos := diag.Pos{File: text}
	switch len(numbers) {
	case 1:
		pos.Line = numbers[0]
	case 2:
		pos.Col, pos.Line = numbers[0], numbers[1]
	}
	return pos
}

func textOf(n *scenarios.Node) string {
	if n == nil {
		return ""
	}
	return n.Text
}

// sameDefaults rejects a record whose defaults outside the zones differ from
// the current ones. The record has all zone parameters in full.
func sameDefaults(recorded *scenarios.Node, sc *scenarios.Scenario, name string) error {
	type dflt struct {
		key, text string
		pos       diag.Pos
	}
	var then, now []dflt
	if recorded != nil {
		for _, in := range recorded.Items {
			if key := textOf(in.Get("key")); textOf(in.Get("default")) == "true" && !ofZone(key) {
				text := textOf(in.Get("text"))
				if v := in.Get("value"); v != nil {
					text = sameText(v.Text) + " " + textOf(in.Get("unit"))
				}
				then = append(then, dflt{key, strings.TrimSpace(text), in.Pos})
			}
		}
	}
	for _, in := range sc.Inputs {
		if in.Defaulted && !ofZone(in.Key) {
			text := in.Text
			if in.Numeric {
				text = strconv.FormatFloat(in.Value, 'g', -1, 64) + " " + in.Unit
			}
			now = append(now, dflt{in.Key, strings.TrimSpace(text), diag.Pos{File: name}})
		}
	}
	var faults diag.List
	const fix = "replay the scenario file itself, or use the version that wrote this record"
	for i := range max(len(then), len(now)) {
		switch {
		case i >= len(now) || i < len(then) && then[i].key != now[i].key:
			faults.Add(diag.OtherDefault, then[min(i, len(then)-1)].pos, fix, "%s no longer has a default", then[min(i, len(then)-1)].key)
		case i >= len(then):
			faults.Add(diag.OtherDefault, now[i].pos, fix, "%s has a default that is not in the record: %s", now[i].key, now[i].text)
		case then[i].text != now[i].text:
			faults.Add(diag.OtherDefault, then[i].pos, fix, "the default of %s was %s and is now %s", then[i].key, then[i].text, now[i].text)
			continue
		default:
			continue
		}
		break
	}
	return faults.Err()
}

func ofZone(key string) bool { return strings.HasPrefix(key, "zones.") }

// sameText writes a JSON number as the shortest text of its value.
func sameText(s string) string {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return s
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

// tree reads JSON as a tree with positions.
func tree(data []byte, name string) (*scenarios.Node, error) {
	p := &parser{name: name, data: data, d: json.NewDecoder(bytes.NewReader(data))}
	p.d.UseNumber()
	for i, c := range data {
		if c == '\n' {
			p.breaks = append(p.breaks, i)
		}
	}
	if len(data) > maxBytes {
		return nil, p.fault(diag.Pos{File: name}, "the file is larger than %d MiB", maxBytes>>20)
	}
	n, err := p.value(0)
	if err != nil {
		return nil, err
	}
	if _, err := p.d.Token(); !errors.Is(err, io.EOF) {
		return nil, p.fault(p.next(), "unexpected text after the record")
	}
	return n, nil
}

// deepest is the maximum nesting of groups and lists; a record needs about ten
// levels.
const deepest = 32

type parser struct {
	name   string
	data   []byte
	d      *json.Decoder
	breaks []int // offsets of line breaks
}

// next returns the position of the next token.
func (p *parser) next() diag.Pos {
	at := int(p.d.InputOffset())
	for at < len(p.data) && strings.IndexByte(" \t\r\n,:", p.data[at]) >= 0 {
		at++
	}
	line, _ := slices.BinarySearch(p.breaks, at)
	start := 0
	if line > 0 {
		start = p.breaks[line-1] + 1
	}
	return diag.Pos{File: p.name, Line: line + 1, Col: at - start + 1}
}

func (p *parser) fault(pos diag.Pos, format string, args ...any) error {
	return &diag.Error{Pos: pos, Msg: fmt.Sprintf(format, args...), Fix: "name a run.json written by a replay"}
}

func (p *parser) value(depth int) (*scenarios.Node, error) {
	n := &scenarios.Node{Pos: p.next()}
	if depth > deepest {
		return nil, p.fault(n.Pos, "lists and groups are nested too deeply")
	}
	token, err := p.d.Token()
	if err != nil {
		return nil, p.fault(n.Pos, "invalid JSON")
	}
	switch token := token.(type) {
	case json.Delim:
		if token == '[' {
			n.Kind = scenarios.List
			err = p.list(n, depth)
		} else {
			n.Kind = scenarios.Map
			err = p.group(n, depth)
		}
		if err != nil {
			return nil, err
		}
	case string:
		n.Kind, n.Text = scenarios.Scalar, token
	case json.Number:
		n.Kind, n.Text = scenarios.Scalar, token.String()
	case bool:
		n.Kind, n.Text = scenarios.Scalar, strconv.FormatBool(token)
	}
	return n, nil
}

func (p *parser) list(n *scenarios.Node, depth int) error {
	for p.d.More() {
		item, err := p.value(depth + 1)
		if err != nil {
			return err
		}
		n.Items = append(n.Items, item)
	}
	return p.end()
}

func (p *parser) group(n *scenarios.Node, depth int) error {
	seen := map[string]bool{}
	for p.d.More() {
		at := p.next()
		token, err := p.d.Token()
		key, ok := token.(string)
		if err != nil || !ok {
			return p.fault(at, "invalid JSON")
		}
		if seen[key] {
			return p.fault(at, "duplicate key %q", key)
		}
		seen[key] = true
		v, err := p.value(depth + 1)
		if err != nil {
			return err
		}
		n.Entries = append(n.Entries, scenarios.Entry{Key: key, Pos: at, Value: v})
	}
	return p.end()
}

// end reads the token that closes a list or group.
func (p *parser) end() error {
	at := p.next()
	if _, err := p.d.Token(); err != nil {
		return p.fault(at, "invalid JSON")
	}
	return nil
}
