package pdffile

import (
	"slices"

	"loamledger/plots"
)

// allOptions is the title of the options in full, if the first sheet has no room for them.
const allOptions = "All options, with what each does and why it fails"

// numbers writes every measure.
func (s *sheet) numbers(r *plots.Report) {
	s.para(r.Detail, body, ink)
	s.para(r.Diagnosis, body, ink)
	if r.Front.MoreAlarms > 0 {
		s.paragraph([]run{{s.bold, "Implausible:"}}, body, ink, 0, "")
		s.list(r.Alarms, body, false)
	}
	if s.shortened {
		s.headed(allOptions, &r.Front.Options)
	}
	s.titled(&r.Comparison)
	s.para(r.DryYears+" The two references are benchmarks, not schedules: no controller can run them. "+r.Judged, small, faint)
	for _, one := range []struct {
		title string
		table *plots.Table
	}{
		{"If the design ETo is wrong", r.Design}, {"What the strategies change", r.What}, {"What each change does", r.Changes},
		{"How long parts keep working", r.Lives}, {"Runoff, worst zones first", r.Runoff},
	} {
		if one.table != nil {
			s.headed(one.title, one.table)
		}
	}
	s.terms(pairs(r.Notes), small, 110)
}

func pairs(items []plots.Item) (out [][2]string) {
	for _, it := range items {
		out = append(out, [2]string{it.Term, it.Text})
	}
	return out
}

// zones writes a table for each zone, with its inputs.
func (s *sheet) zones(r *plots.Report) {
	for i := range r.Zones {
		z := &r.Zones[i]
		s.headed(z.Name, &z.Table)
		text := ""
		for k, in := range z.Inputs {
			if k > 0 {
				text += "; "
			}
			text += in.Term + " " + in.Text
		}
		s.para(text+".", small, faint)
	}
	if r.OtherZones != nil {
		s.headed("All other zones", r.OtherZones)
	}
}

// weather writes where the weather is from and what was done to it.
func (s *sheet) weather(r *plots.Report) {
	w := &r.Weather
	terms := [][2]string{{"Station", r.Station}, {"File", w.File}, {"Read as", w.Layout}, {"Reference ET", w.EToMethod},
		{"Likely error of reference ET", w.EToError}, {"Filled values", r.FilledShare}}
	s.terms(slices.DeleteFunc(terms, func(t [2]string) bool { return t[1] == "" }), small, 130)
	if len(w.Fills) > 0 {
		var rows [][]string
		for _, f := range w.Fills {
			rows = append(rows, []string{f.Column, f.How, itoa(f.Count)})
		}
		s.table(textGrid([]string{"Filled column", "How", "Days"}, rows), small)
	}
	if len(w.Findings) == 0 {
		s.para("The checks have no findings.", body, ink)
	} else {
		var rows [][]string
		for i := range w.Findings {
			f := &w.Findings[i]
			rows = append(rows, []string{f.What, f.Column, itoa(f.Count), f.Detail, f.Action, f.Source})
		}
		s.table(textGrid([]string{"Finding", "Column", "Days", "Example", "Action", "Source of the rule"}, rows), small)
	}
	if len(w.Assumptions) > 0 {
		s.paragraph([]run{{s.plain, "Assumed where the file is silent:"}}, body, ink, 0, "")
		s.list(w.Assumptions, body, false)
	}
}

// defaults lists every value that was not given.
func (s *sheet) defaults(r *plots.Report) {
	if len(r.Defaults) == 0 {
		s.para("No defaults: every value was given.", body, ink)
		return
	}
	s.para(itoa(r.NotGiven)+" values were not given; zones with equal values share a line. Each is an assumption about this site until it "+
		"is measured.", body, ink)
	var rows [][]string
	for i := range r.Defaults {
		d := &r.Defaults[i]
		rows = append(rows, []string{d.Where, d.Key, d.Value, d.Range, d.Grade.String(), d.Source})
	}
	s.table(textGrid([]string{"Where", "What", "Value", "Range", "Grade", "Source"}, rows), 7)
}

// origin names the inputs, with their hashes, and characters that could not be
// shown.
func (s *sheet) origin(r *plots.Report) {
	s.skip(8)
	s.need(40)
	s.line(s.left, s.y, s.right, ink, 0.8)
	s.y += 5
	s.para(r.Run(), small, faint)
	for _, f := range r.Files {
		s.paragraph([]run{{s.plain, f.Name + ", SHA-256 " + f.SHA256}}, 7, faint, 0, "")
	}
	n := len(s.lacking)
	if s.earlier != nil {
		n = len(s.earlier.lacking) // of the whole file
	}
	if n > 0 {
		s.para("Characters that the fonts of this file lack: "+itoa(n)+". They are shown as a question mark; the HTML report has them.",
			small, faint)
	}
}
