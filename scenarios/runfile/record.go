// Package runfile writes a scenario as understood to run.json and reads it
// back, so that a run can be repeated from run.json and the weather files it
// names.
//
// The key scenario of run.json has the whole scenario in the form of a scenario
// file: every given number, exactly and in base units, and every parameter of
// every zone, default or not. Defaults outside the zones are listed under
// inputs, as they are in the report; [Read] rejects a record whose defaults
// differ from those of this version.
package runfile

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"math"
	"strings"

	"loamledger/scenarios"
	"loamledger/weather/diag"
)

// A Record is the part of run.json that describes the scenario.
type Record struct {
	SHA256     string     `json:"scenario_sha256"` // of the scenario below, without spaces between tokens
	Scenario   Tree       `json:"scenario"`
	Zones      []Zone     `json:"zones"`
	Strategies []Strategy `json:"strategies"`
	Inputs     []Input    `json:"inputs"`
	Defaults   int        `json:"defaults"` // how many of the inputs were not given
}

// A Zone has the declared parameters of a zone and values derived from them.
type Zone struct {
	Name         string      `json:"name"`
	Controller   string      `json:"controller,omitempty"`
	Meter        string      `json:"meter,omitempty"`
	Coefficients string      `json:"coefficients"` // set of plant coefficients
	Parameters   []Parameter `json:"parameters"`
	TAWMM        float64     `json:"taw_mm"`
	P            float64     `json:"p"`
	PAdjusted    bool        `json:"p_adjusted"`
	K            [12]float64 `json:"k"` // including density and microclimate
	RateMMH      float64     `json:"precipitation_rate_mm_h"`
	FlowLMin     float64     `json:"flow_l_min"`
	DULQ         float64     `json:"du_lq"`
	Strips       int         `json:"strips"`
	FillDrainMM  float64     `json:"fill_drain_mm"` // at each cycle
	LeakMMDay    float64     `json:"leak_mm_d"`
}

// A Parameter is one value of a zone or of a part of a strategy: a number with
// its unit, a text or a list.
type Parameter struct {
	Key     string   `json:"key"`
	Value   *float64 `json:"value,omitempty"`
	Unit    string   `json:"unit,omitempty"`
	Text    string   `json:"text,omitempty"`
	List    *Tree    `json:"list,omitempty"`
	Default bool     `json:"default,omitempty"`
}

// A Strategy lists the parts of a strategy.
type Strategy struct {
	Name    string   `json:"name"`
	Parts   []Part   `json:"parts"`
	Changes []Change `json:"changes,omitempty"`
}

// A Change is a change of a strategy to zones, with each value that it alters.
type Change struct {
	Name    string    `json:"name"`
	From    string    `json:"from,omitempty"`
	Minutes string    `json:"minutes"`
	Cost    *float64  `json:"cost,omitempty"`
	Taken   bool      `json:"removed_from_irrigation,omitempty"`
	Values  []Changed `json:"values"`
}

// A Changed is one parameter of a zone before and after a change; nil for none.
type Changed struct {
	Zone   string     `json:"zone"`
	Key    string     `json:"key"`
	Before *Parameter `json:"before"`
	After  *Parameter `json:"after"`
}

// A Part is one part of a strategy, such as hold.rain.
type Part struct {
	Part       string      `json:"part"`
	Parameters []Parameter `json:"parameters"`
}

// An Input is a value of the scenario, with the position where it was given or
// the source of its default.
type Input struct {
	Key     string   `json:"key"`
	Text    string   `json:"text"`
	ReadAs  string   `json:"read_as,omitempty"` // what Text was understood as, if written in other words
	Value   *float64 `json:"value,omitempty"`
	Unit    string   `json:"unit,omitempty"`
	Place   string   `json:"place,omitempty"`
	Default bool     `json:"default,omitempty"`
	Off     bool     `json:"leaves_out,omitempty"` // the default only turns a feature off
	Range   string   `json:"range,omitempty"`
	Source  string   `json:"source,omitempty"`
	Grade   string   `json:"grade,omitempty"`
}

// New returns the record of a scenario. It has no folders except those that the
// scenario itself names.
func New(sc *scenarios.Scenario) Record {
	out := Record{SHA256: digest(sc), Scenario: Tree{sc.Canonical}, Defaults: len(sc.Defaults())}
	defaults := map[string]bool{}
	for _, in := range sc.Inputs {
		if in.Defaulted {
			defaults[in.Key] = true
		}
	}
	for i := range sc.Zones {
		z := &sc.Zones[i]
		zone := Zone{
			Name: z.Name, Controller: z.ControllerName, Meter: z.MeterName, Coefficients: z.Coefficients,
			TAWMM: z.TAWMM, P: z.P, PAdjusted: !z.PConstant, K: z.K, RateMMH: z.PRMMH,
			FlowLMin: z.FlowLMin, DULQ: z.DULQ, Strips: z.Strips, FillDrainMM: z.FillDrainMM, LeakMMDay: z.LeakMMDay,
		}
		for _, v := range sc.ZoneValues[i] {
			p := parameterOf(&v)
			p.Default = defaults["zones."+z.Name+"."+v.Key]
			zone.Parameters = append(zone.Parameters, p)
		}
		out.Zones = append(out.Zones, zone)
	}
	for _, st := range sc.Stacks {
		s := Strategy{Name: st.Name}
		for _, part := range st.Parts {
			s.Parts = append(s.Parts, newPart(st.Name, part))
		}
		for i := range st.Changes {
			s.Changes = append(s.Changes, newChange(sc, &st.Changes[i]))
		}
		out.Strategies = append(out.Strategies, s)
	}
	for _, in := range sc.Inputs {
		out.Inputs = append(out.Inputs, newInput(in))
	}
	return out
}

func parameterOf(v *scenarios.ZoneValue) Parameter {
	p := Parameter{Key: v.Key, Unit: v.Unit()}
	switch {
	case v.Numeric:
		p.Value = &v.Number
	case v.Node.Kind == scenarios.Scalar:
		p.Text = v.Node.Text
	default:
		p.List = &Tree{v.Node}
	}
	return p
}

func newChange(sc *scenarios.Scenario, c *scenarios.Change) Change {
	out := Change{Name: c.Name, Minutes: c.MinutesText(), Cost: number(c.Cost), Taken: c.Taken, Values: []Changed{}}
	if c.From != 0 {
		out.From = c.From.String()
	}
	side := func(v *scenarios.ZoneValue) *Parameter {
		if v.Node == nil {
			return nil
		}
		p := parameterOf(v)
		return &p
	}
	for i := range c.Values {
		v := &c.Values[i]
		out.Values = append(out.Values, Changed{sc.Zones[v.Zone].Name, v.Key, side(&v.Before), side(&v.After)})
	}
	return out
}

// digest returns the hash of the scenario as understood.
func digest(sc *scenarios.Scenario) string {
	text, err := Tree{sc.Canonical}.MarshalJSON()
	if err != nil {
		return "" // every scenario text can be written as JSON
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// newPart names the parameters of a part by their keys within it.
func newPart(strategy string, part scenarios.StackPart) Part {
	out := Part{Part: part.Key, Parameters: []Parameter{}}
	for _, in := range part.Inputs {
		key := strings.TrimPrefix(in.Key, "strategies."+strategy+".")
		key = strings.TrimPrefix(strings.TrimPrefix(key, part.Key), ".")
		p := Parameter{Key: key, Default: in.Defaulted, Text: in.Text}
		if in.Numeric {
			p.Value, p.Unit, p.Text = number(in.Value), in.Unit, ""
		}
		out.Parameters = append(out.Parameters, p)
	}
	return out
}

// Readings returns the values that were understood in other words than written.
func Readings(sc *scenarios.Scenario) []Input {
	out := []Input{}
	for _, in := range sc.Readings() {
		out = append(out, newInput(in))
	}
	return out
}

// Defaults returns the values that the scenario omits.
func Defaults(sc *scenarios.Scenario) []Input {
	out := []Input{}
	for _, in := range sc.Defaults() {
		out = append(out, newInput(in))
	}
	return out
}

func newInput(in scenarios.Input) Input {
	out := Input{
		Key:     in.Key,
		Text:    in.Text,
		ReadAs:  in.ReadAs,
		Unit:    in.Unit,
		Default: in.Defaulted,
		Off:     in.Off,
		Range:   in.Range,
		Source:  in.Source,
	}
	if in.Numeric {
		out.Value = number(in.Value)
	}
	if in.Defaulted {
		out.Grade = in.Grade.String()
		return out
	}
	pos := in.Pos
	pos.File = diag.Base(pos.File)
	out.Place = pos.String()
	return out
}

// number returns nil for a value that JSON cannot represent.
func number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// A Tree is a tree of a scenario, written as JSON with its keys in order.
type Tree struct{ *scenarios.Node }

// MarshalJSON writes the tree. A text that is a number or a Boolean in JSON is
// written as such, unchanged to the character.
func (t Tree) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	if err := write(&b, t.Node); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

func write(b *bytes.Buffer, n *scenarios.Node) error {
	switch {
	case n == nil || n.Kind == scenarios.Empty || n.Kind == scenarios.Broken:
		b.WriteString("null")
	case n.Kind == scenarios.Scalar:
		if bare(n.Text) {
			b.WriteString(n.Text)
			return nil
		}
		return text(b, n.Text)
	case n.Kind == scenarios.List:
		b.WriteByte('[')
		for i, item := range n.Items {
			if i > 0 {
				b.WriteByte(',')
			}
			if err := write(b, item); err != nil {
				return err
			}
		}
		b.WriteByte(']')
	default:
		b.WriteByte('{')
		for i, e := range n.Entries {
			if i > 0 {
				b.WriteByte(',')
			}
			if err := text(b, e.Key); err != nil {
				return err
			}
			b.WriteByte(':')
			if err := write(b, e.Value); err != nil {
				return err
			}
		}
		b.WriteByte('}')
	}
	return nil
}

// bare reports whether a text can be written in JSON without quotes.
func bare(s string) bool {
	if s == "true" || s == "false" {
		return true
	}
	return s != "" && strings.Trim(s, "+-.0123456789eE") == "" && json.Valid([]byte(s))
}

func text(b *bytes.Buffer, s string) error {
	e := json.NewEncoder(b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		return err
	}
	b.Truncate(b.Len() - 1) // the line break
	return nil
}
