package tally

import "loamledger/sim"

// A Brief is an outcome in little room: every sum by year and over the
// record, and by month only what is shown by month. Its sums are those of the
// months added up in their order, to the last digit.
type Brief struct {
	record sim.Sums     // excluded years left out
	Years  []sim.Sums   // the years of the record in order, excluded ones too
	Months []BriefMonth // in the order of the calendar's spans
	RainMM []float64    // likewise; all briefs of a table may share it, for the rain of a zone is that of the site
	few    *few         // in place of Years and Months in a lean table; nil where they are there
}

// A BriefMonth is a [Month] without its rain.
type BriefMonth struct {
	grossMM               float64
	minutes               float32 // as exact as a chart needs, in room that would be empty
	stressDays, brownDays uint8
}

// A Month is what is shown of one zone by month.
type Month struct {
	GrossMM    float64
	RainMM     float64
	Minutes    float64 // of run time, to seven digits
	StressDays int     // of the whole zone
	BrownDays  int     // of its driest quarter
}

// Month returns what strategy s did to zone z in span i.
func (t *Table) Month(s, z, i int) Month {
	o := &t.Outcomes[s][z]
	if b := o.Brief; b != nil {
		m := &b.Months[i]
		return Month{GrossMM: m.grossMM, RainMM: b.RainMM[i], Minutes: float64(m.minutes),
			StressDays: int(m.stressDays), BrownDays: int(m.brownDays)}
	}
	m := &o.Months[i]
	return Month{GrossMM: m.GrossMM, RainMM: m.RainMM, Minutes: m.Minutes, StressDays: m.StressZoneDays, BrownDays: m.BrownDays}
}

// Fill takes a brief of months, which are those of the table's spans. Years of b
// and Months of b must be as long as the table has years and spans, unless it is
// lean. The excluded years of the table must be known.
func (b *Brief) Fill(t *Table, months []sim.Sums) {
	b.record = sim.Sums{}
	clear(b.Years)
	if b.few != nil {
		b.few.fill(t, months)
	}
	counts := false
	for i, last := 0, 0; i < len(months); i++ {
		y := t.Spans[i].Year
		if y != last {
			counts, last = t.Counts(y), y
		}
		if counts {
			b.record.Add(&months[i])
		}
		if b.few == nil {
			m := &months[i]
			b.Years[t.YearOf(&t.Spans[i])-t.YearOf(&t.Spans[0])].Add(m)
			b.Months[i] = BriefMonth{m.GrossMM, float32(m.Minutes), uint8(m.StressZoneDays), uint8(m.BrownDays)}
		}
	}
}

// Copy makes o the same as another outcome, of a table with the same spans that is laid out
// likewise. It keeps its own memory, and does not copy stress by moved marks.
func (o *Outcome) Copy(from *Outcome) {
	if o.Brief == nil {
		copy(o.Months, from.Months)
		return
	}
	o.Brief.record = from.Brief.record
	copy(o.Brief.Years, from.Brief.Years)
	copy(o.Brief.Months, from.Brief.Months)
}
