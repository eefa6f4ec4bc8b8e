package study

import (
	"slices"

	"loamledger/plots"
	"loamledger/sim/tally"
)

// A DesignRecord is one strategy at one design ETo, for scripts. Its figures are
// those of the comparison.
type DesignRecord struct {
	Strategy  string  `json:"strategy"`
	Factor    float64 `json:"design_eto_factor"`
	DesignMM  float64 `json:"design_eto_mm"`
	Auto      bool    `json:"design_eto_auto"` // of the record's peak month: hindsight
	Figures   Ordered `json:"figures"`
	Hindsight string  `json:"note,omitempty"`
}

// A CycleRecord is a zone whose runoff shorter cycles at least halve.
type CycleRecord struct {
	Strategy string  `json:"strategy"`
	Zone     string  `json:"zone"`
	CycleMin float64 `json:"cycle_min"`
	SoakMin  float64 `json:"soak_min"`
	BeforeM3 float64 `json:"runoff_m3_per_year"`
	AfterM3  float64 `json:"runoff_m3_per_year_with_cycles"`
}

// A RunoffRecord is the irrigation runoff of a zone under a strategy.
type RunoffRecord struct {
	Strategy string  `json:"strategy"`
	Zone     string  `json:"zone"`
	M3       float64 `json:"runoff_m3_per_year"`
	Events   float64 `json:"runoff_events_per_year"`
	Nights   float64 `json:"runoff_nights_per_week"`
}

// ChecksRecord is what the further replays say, for scripts.
type ChecksRecord struct {
	Verdict VerdictRecord  `json:"verdict"`
	Design  []DesignRecord `json:"design_eto,omitempty"`
	Marks   []MarksRecord  `json:"plant_marks,omitempty"`
	Runoff  []RunoffRecord `json:"runoff_by_zone,omitempty"` // of each strategy, worst first
	Cycles  []CycleRecord  `json:"shorter_cycles,omitempty"`
	// Changes are what the changes of strategies do, one by one and together.
	Changes []ChangesRecord `json:"changes,omitempty"`
	// Lives are the parts with a stated life, by year since installation.
	Lives []LifeRecord `json:"lives,omitempty"`
}

// ChecksRecord returns the checks of a result for scripts; runoff is there even
// if none were made.
func (l *Study) ChecksRecord(t *tally.Table) (out ChecksRecord) {
	out.Verdict = l.verdictRecord(t)
	for s := range l.Job.Strategies {
		for _, r := range plots.Runoff(t, l.measures(), s) {
			out.Runoff = append(out.Runoff, RunoffRecord{t.Strategies[s], t.Zones[r.Zone].Name, r.M3, r.Events, r.Nights})
		}
	}
	if l.checks == nil {
		return out
	}
	for _, c := range l.checks.cycles {
		out.Cycles = append(out.Cycles, CycleRecord{t.Strategies[c.Strategy], t.Zones[c.Zone].Name, c.CycleMin, c.SoakMin, c.BeforeM3, c.AfterM3})
	}
	out.Marks, out.Changes, out.Lives = l.marksRecords(t), l.changeRecords(t), l.lifeRecords(t)
	d := l.checks.design
	if d == nil {
		return out
	}
	figures := tally.Figures(l.measures(), tally.InJSON)
	all := d.Cells()
	for i, s := range d.Strategies {
		for k, cells := range all {
			c := &d.Cases[k]
			row := DesignRecord{Strategy: t.Strategies[s], Factor: c.Factor, DesignMM: c.Factor * d.MM[i], Auto: d.Auto[i]}
			if row.Auto {
				row.Hindsight = plots.HindsightNote
			}
			for f := range figures {
				row.Figures = append(row.Figures, keyed{figures[f].Key(), Number(cells.Site(figures[f].Measure, s, figures[f].Over))})
			}
			out.Design = append(out.Design, row)
		}
	}
	return out
}

// DesignGrid compares the strategies over their design ETo; nil if none has one.
func (l *Study) DesignGrid(t *tally.Table) *Grid {
	if l.checks == nil || l.checks.design == nil {
		return nil
	}
	d, sys := l.checks.design, l.Scenario.Units
	basis := t.Basis()
	figures := basis.Figures(tally.FrontFigures(l.measures()))
	figures = slices.DeleteFunc(figures, func(f tally.Figure) bool { return f.Measure.Key == billKey }) // only the replay itself has bills
	g := &Grid{Head: []string{"design ETo x 0.75, 1, 1.25", "design\nETo a day"}, Columns: toTheRight(2, 2+len(figures))}
	g.Columns[0].Width = 30
	for i := range figures {
		head, broken := printedHead(&figures[i], &basis, sys)
		g.Head = append(g.Head, head)
		if !broken {
			g.Columns[2+i].HeadWidth = headWidth
		}
	}
	all := d.Cells()
	for i, s := range d.Strategies {
		for k, cells := range all {
			row := []any{t.Strategies[s], l.chartUnits().DesignText(d.Cases[k].Factor*d.MM[i], d.Auto[i])}
			for f := range figures {
				row = append(row, printedFigure(figures[f].Measure, cells.Site(figures[f].Measure, s, figures[f].Over), sys))
			}
			g.add(row...)
		}
	}
	return g
}

// checkLines says what the comparison shows, as the report does, and what the
// further replays came to; the first line is empty. The
// grid of the design ETo, if there is one, comes before them.
func (l *Study) checkLines(t *tally.Table) []string {
	if l.checks == nil {
		return nil
	}
	data := l.verdictData(t)
	found := data.Verdict()
	lines := []string{"", found.Text}
	if found.Try != "" {
		lines = append(lines, found.Try)
	}
	if text := data.DesignVerdict(l.checks.design); text != "" {
		lines = append(lines, "", text)
		if slices.Contains(l.checks.design.Auto, true) {
			lines = append(lines, plots.HindsightNote)
		}
	}
	if text := data.MarksVerdict(l.checks.marks); text != "" {
		lines = append(lines, "", text)
	}
	if runoff := data.RunoffLines(l.checks.cycles); len(runoff) > 0 {
		lines = append(append(lines, ""), runoff...)
	}
	for i := range l.checks.lives {
		if text := data.LifeText(&l.checks.lives[i]); text != "" {
			lines = append(lines, "", text)
		}
	}
	return append(lines, l.changeLines(t)...)
}
