package tally

import "loamledger/sim"

// A Brief is an outcome in little room: every sum by year and over the
// record, and by month only what is shown by month. Its sums are those of the
// months added up in their order, to the last digit.
type Brief struct {
	Record sim.Sums   // excluded years left out
	Years  []sim.Sums // the years of the record in order, excluded ones too
	Months []Month    // in the order of the calendar's spans
	few    *few       // in place of Years and Months in a lean table; nil where they are there
}

// A Month is what is shown of one zone by month.
type Month struct {
	GrossMM    float64
	RainMM     float64
	StressDays int32 // of the whole zone
	BrownDays  int32 // of its driest quarter
}

// monthOf picks a month out of its sums.
func monthOf(s *sim.Sums) Month {
	return Month{GrossMM: s.GrossMM, RainMM: s.RainMM, StressDays: int32(s.StressZoneDays), BrownDays: int32(s.BrownDays)}
}

// Month returns what strategy s did to zone z in span i.
func (t *Table) Month(s, z, i int) Month {
	o := &t.Outcomes[s][z]
	if o.Brief != nil {
		return o.Brief.Months[i]
	}
	return monthOf(&o.Months[i])
}

// Fill takes a brief of months, which are those of the table's spans. Years and
// Months of b must be as long as the table has years and spans. The excluded
// years of the table must be known.
func (b *Brief) Fill(t *Table, months []sim.Sums) {
	b.Record = sim.Sums{}
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
			b.Record.Add(&months[i])
		}
		if b.few == nil {
			b.Years[t.YearOf(&t.Spans[i])-t.YearOf(&t.Spans[0])].Add(&months[i])
			b.Months[i] = monthOf(&months[i])
		}
	}
}
