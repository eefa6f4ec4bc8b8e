package study

import (
	"fmt"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/weather/quantity"
)

// owner splits the key of an input into its owner, such as the name of a zone,
// and the rest. Names may contain periods, so the key is not cut there.
func owner(sc *scenarios.Scenario, key string) (name, rest string) {
	name, rest = "site", key
	best := 0
	try := func(group, candidate string) {
		prefix := group + "." + candidate + "."
		if after, ok := strings.CutPrefix(key, prefix); ok && len(prefix) > best {
			best, name, rest = len(prefix), candidate, after
		}
	}
	for i := range sc.Zones {
		try("zones", sc.Zones[i].Name)
	}
	for i := range sc.Programs {
		try("programs", sc.Programs[i].Name)
	}
	for i := range sc.Strategies {
		try("strategies", sc.Strategies[i].Name)
	}
	return name, rest
}

// defaults lists the values that were not given, one by one.
func (l *Study) defaults() (out []plots.Default) {
	for _, in := range l.Scenario.Defaults() {
		where, key := owner(l.Scenario, in.Key)
		text := in.Text
		if in.Key == "start.depletion" {
			text = l.startText()
		}
		out = append(out, plots.Default{Where: where, Key: key, Value: text, Range: in.Range, Source: in.Source, Grade: in.Grade})
	}
	return out
}

// defaultLines lists the defaults used, each with its value, source and grade. As in
// the report, equal ones of several zones are one.
func (l *Study) defaultLines() []string {
	all := l.defaults()
	if len(all) == 0 {
		return nil
	}
	lines := []string{fmt.Sprintf("Defaults used: %s. Equal ones of several places share an entry; each source appears below the first "+
		"value it "+
		"covers.", quantity.Count(len(all), "value", "values"))}
	list := plots.Grouped(all, l.Job.Zones, l.StrategyNames())
	// Entries of the same places come together, in the order of the first.
	var places []string
	of := map[string][]plots.Default{}
	for _, d := range list {
		if of[d.Where] == nil {
			places = append(places, d.Where)
		}
		of[d.Where] = append(of[d.Where], d)
	}
	for _, where := range places {
		lines = append(lines, "", "  "+where)
		source := ""
		for _, d := range of[where] {
			line := fmt.Sprintf("    %-22s %s", d.Key, d.Value)
			if d.Range != "" {
				line += "  (usually " + d.Range + ")"
			}
			lines = append(lines, line)
			if from := fmt.Sprintf("%v: %s", d.Grade, d.Source); from != source {
				source = from
				for _, part := range Wrap(from, 88) {
					lines = append(lines, "        "+part)
				}
			}
		}
	}
	return lines
}
