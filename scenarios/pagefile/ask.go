package pagefile

import (
	"strings"

	"loamledger/scenarios/ask"
	"loamledger/scenarios/studyfile"
)

// A Place is one entry of the form, and what answers it if it is left empty.
type Place struct {
	ask.At
	ZoneName string `json:"zone_name,omitempty"`
	Example  string `json:"example,omitempty"`
	Text     string `json:"text"` // the default
	Source   string `json:"source,omitempty"`
	Grade    string `json:"grade,omitempty"`
	None     bool   `json:"none,omitempty"` // nothing is assumed
}

// A typed text is the answer at a place.
type typed struct {
	ask.At
	Text string `json:"text"`
}

// answers collects what is typed.
func (r *request) answers() ask.Answers {
	a := ask.Answers{Units: r.Units, Zones: make([]ask.Zone, min(max(r.Zones, 0), ask.MaxZones))}
	for _, t := range r.Typed {
		a.Set(t.At, t.Text)
	}
	return a
}

// asked lists the entries of the form, with the defaults that follow from the answers so
// far, and answers that cannot be used.
func (e *Engine) asked(a ask.Answers, reply *Reply) error {
	for _, at := range a.Places() {
		d := a.Default(at)
		p := Place{At: at, Text: d.Text, Source: d.Source, None: d.None}
		if !d.None {
			p.Grade = d.Grade.String()
		}
		if at.Zone >= 0 {
			p.ZoneName = a.ZoneName(at.Zone)
		}
		if _, _, part := ask.Find(at); part != nil {
			p.Example = part.Example.In(&a)
		}
		reply.Places = append(reply.Places, p)
	}
	var r ask.Result
	r, reply.Wrong = ask.Scenario(a)
	reply.Unusual = r.Warnings
	return nil
}

// write makes the files of the answers: the scenario first, and all that it names and the
// page does not have.
func (e *Engine) write(a ask.Answers, reply *Reply) error {
	var r ask.Result
	if r, reply.Wrong = ask.Scenario(a); len(reply.Wrong) > 0 {
		return nil
	}
	base := a.Base
	if base == "" {
		base = "yard"
	}
	reply.Saved = append(reply.Saved, Saved{base + ".yaml", string(r.YAML)})
	reply.Unusual = r.Warnings
	var figures ask.NamedFile
	for _, f := range r.Files {
		switch {
		case f.Text != nil:
			reply.Saved = append(reply.Saved, Saved{f.Name, string(f.Text)})
			if f.Kind == ask.Figures {
				figures = f
			}
		case f.Kind == ask.Weather && figures.Text != nil:
			var text strings.Builder
			if err := studyfile.Generated(&text, figures); err != nil {
				return err
			}
			reply.Saved = append(reply.Saved, Saved{f.Name, text.String()})
		}
	}
	return nil
}
