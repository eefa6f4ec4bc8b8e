package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim/calibrate"
	"loamledger/weather/quantity"
)

// mostLeverStrategies is the number of strategies that fit on a screen.
const mostLeverStrategies = 5

// calibrationLevers shows what the meter can and cannot teach, by replays.
func (l *Study) calibrationLevers(c *Calibration) meterTable {
	t := meterTable{caption: "What the meter can teach: the change of metered irrigation if one number of the scenario changes",
		head: []string{"changed"}}
	if len(c.levers) == 0 {
		return t
	}
	list := slices.Clone(c.levers)
	slices.SortStableFunc(list, func(a, b leverage) int {
		switch {
		case a.found && !b.found:
			return -1
		case b.found && !a.found:
			return 1
		}
		return 0
	})
	more := len(list) - mostLeverStrategies
	list = list[:min(len(list), mostLeverStrategies)]
	for _, s := range list {
		head := s.strategy
		if s.found {
			head += ", metered"
		}
		t.head = append(t.head, head)
	}
	for k, lever := range levers() {
		row := []string{lever.doc}
		for _, s := range list {
			cell := "none"
			switch {
			case s.m3 == 0:
				cell = "-"
			case s.change[k] != 0:
				cell = fmt.Sprintf("%+.1f%%", 100*s.change[k])
			}
			row = append(row, cell)
		}
		t.rows = append(t.rows, row)
	}
	t.notes = []string{"none: the same volume to the last digit. What is none in the first column and not in another is tested by no " +
		"read of this " +
		"meter, yet decides the water of that strategy."}
	if more > 0 {
		t.notes = append(t.notes, fmt.Sprintf("%s more in --json.", quantity.Count(more, "strategy", "strategies")))
	}
	return t
}

// calibrationNotes says what the meter cannot teach.
func (l *Study) calibrationNotes(c *Calibration) meterTable {
	t := meterTable{caption: "What this does and does not show"}
	support := c.metered.supports.Text()
	t.notes = append(t.notes, "The meter tests "+support.Doc+".", sentence(support.Not),
		"A pass on the strategy as found does not validate a proposed strategy. A second test would: a period in which it already ran, a sister "+
			"site, or measured soil water.")
	for _, f := range c.Findings {
		i := slices.IndexFunc(calibrate.Findings(), func(d calibrate.FindingDoc) bool { return d.Finding == f })
		t.notes = append(t.notes, fmt.Sprintf("%s: %s.", f, calibrate.Findings()[i].Doc))
	}
	for _, a := range c.Alike {
		t.notes = append(t.notes, fmt.Sprintf("The meter hardly tells %s from %s: the two estimates have a correlation of %s in the resamples.",
			a.A, a.B, fixedNumber(a.R, 2)))
	}
	if c.Memory {
		t.notes = append(t.notes, "The water of a day depends on that of days before, so months were switched off by replays, and dated "+
			"changes of "+
			"run times were not tried.")
	}
	return t
}

// sentence writes a text as a sentence.
func sentence(text string) string { return strings.ToUpper(text[:1]) + text[1:] + "." }
