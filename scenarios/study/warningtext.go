package study

import (
	"fmt"
	"strings"

	"loamledger/scenarios"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A joinedWarning is what one sentence of the report says: one warning, or those of one
// kind about several strategies.
type joinedWarning struct {
	worst      *scenarios.Warning // with the highest value
	strategies []string
}

// warningTexts returns the warnings as sentences for the report, those of one kind about
// several strategies as one. Places in files are for whoever writes the scenario: the
// terminal and run.json have them.
func (l *Study) warningTexts() []string {
	return joinedTexts(l.Scenario.Warnings)
}

// joinedTexts joins warnings that have the same code, zone and place, and whose texts
// have a part to join.
func joinedTexts(list []scenarios.Warning) []string {
	type kind struct {
		code scenarios.WarningCode
		zone string
		pos  diag.Pos
	}
	at := map[kind]int{}
	var all []joinedWarning
	for i := range list {
		w := &list[i]
		k := kind{w.Code, w.Zone, w.Pos}
		if known, is := at[k]; is && w.Joint != "" {
			j := &all[known]
			j.strategies = append(j.strategies, w.Strategy)
			if w.Value > j.worst.Value {
				j.worst = w
			}
			continue
		}
		if w.Joint != "" {
			at[k] = len(all)
		}
		all = append(all, joinedWarning{worst: w, strategies: []string{w.Strategy}})
	}
	var out []string
	for i := range all {
		out = append(out, all[i].text())
	}
	return out
}

func (j *joinedWarning) text() string {
	if len(j.strategies) == 1 {
		return quantity.Capital(j.worst.Text) + "."
	}
	var names []string
	for _, name := range j.strategies {
		names = append(names, "“"+name+"”")
	}
	const most = 3
	if n := len(names) - most + 1; n > 1 {
		names = append(names[:most-1], fmt.Sprintf("and %d others", n))
	}
	return fmt.Sprintf("Under %s (worst under “%s”): %s.", strings.Join(names, ", "), j.worst.Strategy, j.worst.Joint)
}
