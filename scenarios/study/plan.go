package study

import (
	"context"
	"fmt"
	"strings"

	"loamledger/plots"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A Plan is what to do next: what to repair and to measure, what to do when, and how to
// measure the saving.
type Plan struct {
	Strategy     string              `json:"strategy"` // that the reminders and the verification are about
	Start        string              `json:"start"`
	Measure      []plots.Measurement `json:"measure_first"` // the most important first
	Repairs      []Repair            `json:"repairs"`
	Reminders    []Reminder          `json:"reminders"`
	Verification []plots.Item        `json:"verification"`
}

// Plan makes the plan for strategy s from a date on; metered is that of [Study.MeteredFact].
// An error is from ctx.
func (l *Study) Plan(ctx context.Context, t *tally.Table, s int, from cal.Date, metered string) (*Plan, error) {
	repairs, err := l.repairs(ctx)
	if err != nil {
		return nil, err
	}
	data := l.ChartData(t, &Season{})
	return &Plan{Strategy: t.Strategies[s], Start: from.String(), Measure: data.Measurements(l.Facts(t, 0)), Repairs: repairs,
		Reminders: l.reminders(t, s, from), Verification: l.verification(t, s, from, metered)}, nil
}

// PlanStart is the first day of a plan if none is given: the day for the decision or, if
// the scenario has none, the day after the record.
func (l *Study) PlanStart() cal.Date {
	if d := l.Scenario.Decision; d != nil && d.By != nil {
		return *d.By
	}
	return l.Weather.End() + 1
}

// PlanFor returns the strategy that a plan is for if none is given: the one that the
// verdict recommends or names as the best trade-off, or else the baseline.
func (l *Study) PlanFor(t *tally.Table) int {
	data := l.verdictData(t)
	for s := range t.NoWaterIndex() {
		if data.Named(s) {
			return s
		}
	}
	return t.Baseline
}

// NextViews show what to measure, to repair and to do when.
func (l *Study) NextViews(p *Plan) []View {
	measure := View{Head: []string{"", "Measure first, the most important first:", ""}}
	for i, m := range p.Measure {
		measure.Notes = append(measure.Notes, fmt.Sprintf("%d. %s Why: %s.", i+1, quantity.Capital(m.What), m.Why))
	}
	views := []View{measure}
	if v := l.repairView(p.Repairs); v != nil {
		views = append(views, *v)
	}
	return append(views, reminderView(p.Reminders))
}

// VerificationViews show how to measure the saving.
func (l *Study) VerificationViews(p *Plan) []View {
	v := View{Head: []string{"", "How to measure the saving, for “" + p.Strategy + "”:", ""}}
	for _, it := range p.Verification {
		v.Notes = append(v.Notes, it.Term+": "+it.Text)
	}
	return []View{v}
}

// NextPart and VerificationPart are the same as sections of the report.
func (l *Study) NextPart(p *Plan) *plots.TextPart {
	first := plots.Table{Caption: "What to measure, the most important first", First: "Measure", Head: []string{"Why"}, Words: []bool{true}}
	for _, m := range p.Measure {
		first.Rows = append(first.Rows, plots.TableRow{Name: quantity.Capital(m.What), Cells: []string{quantity.Capital(m.Why) + "."}})
	}
	views := []View{reminderView(p.Reminders)}
	var notes []string
	if v := l.repairView(p.Repairs); v != nil {
		if v.Grid == nil {
			notes = append(notes, strings.TrimSpace(strings.Join(v.Head, " ")))
		}
		notes, v.Notes = append(notes, strings.Join(v.Notes, " ")), nil
		if v.Grid != nil {
			views = append(views, *v)
		}
	}
	part := textPart(views)
	part.Tables, part.Notes = append([]plots.Table{first}, part.Tables...), append(part.Notes, notes...)
	return part
}

// VerificationPart is the section on how to measure the saving.
func (l *Study) VerificationPart(p *Plan) *plots.TextPart {
	table := plots.Table{First: "Item", Head: []string{"Plan"}, Words: []bool{true}}
	for _, it := range p.Verification {
		table.Rows = append(table.Rows, plots.TableRow{Name: it.Term, Cells: []string{quantity.Capital(it.Text)}})
	}
	return &plots.TextPart{Lead: "A plan to measure savings, for “" + p.Strategy + "”. Agree on it before anything changes.",
		Tables: []plots.Table{table}}
}
