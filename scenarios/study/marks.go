package study

import (
	"context"
	"slices"

	"loamledger/plots"
	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
)

// markShifts are what the marks of the plants are moved by, lowest first. The
// middle one is the replay itself.
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

// tryMarks replays all strategies with lower and higher tolerance and browning
// marks; nil if there is nothing to compare.
func (l *Study) tryMarks(ctx context.Context, again *replay.Runner, t *tally.Table) (*plots.PlantMarks, error) {
	if len(l.Job.Strategies) < 2 {
		return nil, nil
	}
	m := &plots.PlantMarks{}
	for _, shift := range markShifts {
		c := plots.MarksCase{Shift: shift, Table: t}
		if shift != 0 {
			job := l.Job
			job.Step, job.Lean, job.Zones = nil, true, withMarks(l.Job.Zones, shift)
			tried, err := again.Run(ctx, &job, nil)
			if err != nil {
				return nil, err
			}
			c.Table = kept(tried)
		}
		m.Cases = append(m.Cases, c)
	}
	return m, nil
}

// withMarks returns the zones with every mark moved, within 0 to 1.
func withMarks(zones []sim.Zone, by float64) []sim.Zone {
	move := func(marks ...*float64) {
		for _, m := range marks {
			*m = min(max(*m+by, 0), 1)
		}
	}
	zones = slices.Clone(zones)
	for i := range zones {
		z := &zones[i]
		move(&z.ToleranceR7, &z.BrowningR7)
		if z.Overseed != nil {
			o := *z.Overseed
			move(&o.ToleranceR7, &o.BrowningR7)
			z.Overseed = &o
		}
	}
	return zones
}

// marksRecords returns the verdict at each shift for scripts.
func (l *Study) marksRecords(t *tally.Table) (out []MarksRecord) {
	data := l.verdictData(t)
	figures := tally.Figures(l.measures(), tally.InJSON)
	for i, a := range data.MarksAnswers(l.Checks.Marks) {
		row := MarksRecord{Shift: a.Shift, Same: a.Same, Recommended: a.Recommended, Answer: a.Text}
		cells := l.Checks.Marks.Cases[i].Table.Cells()
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
