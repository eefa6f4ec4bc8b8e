package replay

import (
	"loamledger/sim"
	"loamledger/sim/tally"
)

// briefs is the memory that the briefs of a table share.
type briefs struct {
	list   []tally.Brief
	years  []sim.Sums
	months []tally.BriefMonth
	rainMM []float64 // by span
}

// layOut gives every outcome of the table a brief.
func (b *briefs) layOut(t *tally.Table, w *sim.Weather) {
	all, _ := t.Years()
	years, spans, zones := len(all), len(t.Spans), len(t.Zones)
	b.rainMM = grow(b.rainMM, spans)
	for i, span := range t.Spans {
		b.rainMM[i] = 0
		for _, mm := range w.RainMM[span.From:span.To] {
			b.rainMM[i] += mm
		}
	}
	n := zones * len(t.Outcomes)
	b.list, b.years, b.months = grow(b.list, n), grow(b.years, n*years), grow(b.months, n*spans)
	for i := range b.list {
		b.list[i] = tally.Brief{
			Years: b.years[i*years:][:years:years], Months: b.months[i*spans:][:spans:spans], RainMM: b.rainMM[:spans:spans],
		}
		t.Outcomes[i/zones][i%zones] = tally.Outcome{Brief: &b.list[i]}
	}
}

// layOutMoved gives every outcome of the table room for stress by moved marks.
func (r *Runner) layOutMoved(shifts []float64) {
	t := &r.table
	if t.MarkShifts = shifts; len(shifts) == 0 {
		return
	}
	all, _ := t.Years()
	years, zones := len(all), len(t.Zones)
	n := zones * len(t.Strategies) * len(shifts)
	r.moved, r.movedYears = grow(r.moved, n), grow(r.movedYears, n*years)
	clear(r.movedYears)
	for i := range r.moved {
		r.moved[i] = tally.MovedStress{Years: r.movedYears[i*years:][:years:years]}
	}
	for i := range zones * len(t.Strategies) {
		t.Outcomes[i/zones][i%zones].Moved = r.moved[i*len(shifts):][:len(shifts):len(shifts)]
	}
}
