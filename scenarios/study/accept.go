package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/weather"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// refuseDoubtful refuses weather with findings that nobody has accepted, and
// codes that no finding can have. It warns of accepted codes that the weather
// does not need.
func (l *Study) refuseDoubtful() error {
	var faults diag.List
	var waiting []weather.Finding
	unused := map[string]scenarios.Accepted{}
	for _, a := range l.Scenario.Weather.Accept {
		if !isCode(a.Code) {
			faults.Add(diag.UnknownName, a.Pos, codeFix(a.Code), "weather: accept: unknown code %q", a.Code)
		}
		unused[a.Code] = a
	}
	for _, f := range l.Weather.Findings {
		delete(unused, string(f.Code))
		if l.stops(&f) && !l.accepts(f.Code) {
			waiting = append(waiting, f)
		}
	}
	list := l.acceptance(waiting)
	for i := range waiting {
		f := &waiting[i]
		at := diag.Pos{File: orElse(f.File, l.Weather.File), Line: f.Line}
		e := faults.Add(diag.DoubtfulWeather, at, "look at the file; if it is right, accept what was found: accept: "+list+
			" under weather, or --accept "+strings.Join(codesOf(waiting), ","), "%s; %s", findingText(f), l.yearlyText())
		if old := l.Scenario.Place("weather.accept"); old.Line > 0 {
			e.SuggestAt(old, diag.Value, list)
		} else {
			e.SuggestAt(l.Scenario.Weather.Pos, diag.Key, "accept: "+list)
		}
	}
	if err := faults.Err(); err != nil {
		return err
	}
	for _, a := range l.Scenario.Weather.Accept {
		if _, is := unused[a.Code]; is {
			l.Scenario.Warn(scenarios.Warning{Code: scenarios.AcceptUnused, Pos: a.Pos}, "weather: accept: the weather has no finding %s", a.Code)
		}
	}
	return nil
}

// stops reports whether finding f stops a study unless it is accepted.
func (l *Study) stops(f *weather.Finding) bool { return stops(&l.Weather.Series, f) }

// stops reports whether finding f stops the use of s unless it is accepted: its
// weight says so, it does not lie on a single day outside s, and nobody made the
// values on purpose.
func stops(s *weather.Series, f *weather.Finding) bool {
	if !f.Code.Weight().Stops() {
		return false
	}
	if f.File != "" { // another station's, or another part: its days are not known here
		return true
	}
	i := int(f.Worst - s.Start)
	if i < 0 || i >= s.Days {
		return f.Count > 1
	}
	c, ok := weather.ColumnByKey(f.Column)
	return !ok || !s.Has(c) || s.Mark[c][i] != weather.Synthetic
}

// accepts reports whether the scenario accepts findings with this code.
func (l *Study) accepts(code weather.Code) bool {
	return slices.ContainsFunc(l.Scenario.Weather.Accept, func(a scenarios.Accepted) bool { return a.Code == string(code) })
}

// acceptance returns the list, in YAML, that accepts the findings and what the
// scenario accepts already.
func (l *Study) acceptance(waiting []weather.Finding) string {
	var codes []string
	for _, a := range l.Scenario.Weather.Accept {
		codes = append(codes, a.Code)
	}
	return "[" + strings.Join(append(codes, codesOf(waiting)...), ", ") + "]"
}

// codesOf returns the codes of findings, each once.
func codesOf(found []weather.Finding) (out []string) {
	for _, f := range found {
		if !slices.Contains(out, string(f.Code)) {
			out = append(out, string(f.Code))
		}
	}
	return out
}

func isCode(code string) bool {
	return slices.ContainsFunc(weather.Codes(), func(d weather.CodeDoc) bool { return string(d.Code) == code })
}

// codeFix says which codes there are.
func codeFix(code string) string {
	var known []string
	for _, d := range weather.Codes() {
		if d.Weight.Stops() {
			known = append(known, string(d.Code))
		}
	}
	if near := diag.Nearest(code, known); near != "" {
		return "did you mean " + near + "?"
	}
	return "write codes of findings that stop a replay; it names them"
}

// findingText is a finding in full, without its file.
func findingText(f *weather.Finding) string {
	column := ""
	if f.Column != "" {
		column = f.Column + ": "
	}
	text := fmt.Sprintf("%s (%v): %s%s: ", f.Code, f.Code.Weight(), column, f.What)
	if f.Detail != "" {
		text += f.Detail + "; "
	}
	return text + fmt.Sprintf("%s, on or from %v, %s", quantity.Count(f.Count, "case", "cases"), f.Worst, f.Action)
}

// heavyLines has every finding in full that is more than a note, and then the
// yearly rain and ETo to which they led; nothing if there is none.
func (l *Study) heavyLines() (lines []string) {
	for _, f := range l.weatherGist().Findings {
		if f.Code.Weight() > weather.Note {
			lines = append(lines, "Weather: "+l.acceptedText(&f))
		}
	}
	if lines != nil {
		lines = append(lines, "Weather: "+l.yearlyText())
	}
	return lines
}

// HeavyRecords has every finding that is more than a note.
func (l *Study) HeavyRecords() []FindingRecord {
	return l.findingsJSON(slices.DeleteFunc(l.weatherGist().Findings,
		func(f weather.Finding) bool { return f.Code.Weight() == weather.Note }))
}

// acceptedText is a finding in full, and whether the scenario accepts it.
func (l *Study) acceptedText(f *weather.Finding) string {
	text := findingText(f)
	if l.stops(f) && l.accepts(f.Code) {
		text += "; accepted"
	}
	return text
}

// frontFindings has the findings that stand on page one: those that were accepted,
// and decisive ones.
func (l *Study) frontFindings(findings []weather.Finding) (out []string) {
	for i := range findings {
		if f := &findings[i]; l.stops(f) || f.Code.Weight() == weather.Decisive {
			out = append(out, l.acceptedText(f)+".")
		}
	}
	if out != nil {
		out = append(out, "With these values: "+l.yearlyText()+".")
	}
	return out
}

// yearlyText is the mean yearly rain and ETo to which the values lead.
func (l *Study) yearlyText() string { return strings.Join(strings.Fields(l.yearlyLine()), " ") }

func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}
