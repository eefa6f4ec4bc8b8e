package study

import (
	"loamledger/plots"
	"loamledger/sim/tally"
)

// markShifts are what the marks of the plants are moved by, lowest first; 0 is for
// the marks as given.
var markShifts = [...]float64{-0.1, 0, 0.1}

// A MarksRecord is the verdict with other marks of the plants, for scripts.
type MarksRecord struct {
	Shift       float64         `json:"marks_shift"`
	Same        bool            `json:"verdict_same"`
	Recommended string          `json:"recommended,omitempty"`
	Answer      string          `json:"answer"`
	Strategies  []MarksStrategy `json:"strategies"`
}

// A MarksStrategy has the figures of one strategy with those marks.
type MarksStrategy struct {
	Strategy string  `json:"strategy"`
	Figures  Ordered `json:"figures"`
}

// overMarks returns the result by the marks of the plants as given, lower and
// higher; nil if there is nothing to compare.
func (l *Study) overMarks(t *tally.Table) *plots.PlantMarks {
	if len(l.Job.Strategies) < 2 {
		return nil
	}
	m := &plots.PlantMarks{}
	for _, by := range markShifts {
		m.Cases = append(m.Cases, plots.MarksCase{Shift: by, Table: t.WithMarks(by)})
	}
	return m
}

// marksRecords returns the verdict at each shift for scripts.
func (l *Study) marksRecords(t *tally.Table) (out []MarksRecord) {
	data := l.verdictData(t)
	figures := tally.Figures(l.measures(), tally.InJSON)
	for i, a := range data.MarksAnswers(l.checks.marks) {
		row := MarksRecord{Shift: a.Shift, Same: a.Same, Recommended: a.Recommended, Answer: a.Text}
		cells := l.checks.marks.Cases[i].Table.Cells()
		for s := range l.Job.Strategies {
			one := MarksStrategy{Strategy: t.Strategies[s]}
			for f := range figures {
				one.Figures = append(one.Figures, keyed{figures[f].Key(), Number(cells.Site(figures[f].Measure, s, figures[f].Over))})
			}
			row.Strategies = append(row.Strategies, one)
		}
		out = append(out, row)
	}
	return out
}
