package replay

import (
	"loamledger/sim"
	"loamledger/sim/tally"
)

// briefs is the memory that the briefs of a table share.
type briefs struct {
	list   []tally.Brief
	years  []sim.Sums
	months []tally.Month
}

// layOut gives every outcome of the table a brief.
func (b *briefs) layOut(t *tally.Table) {
	all, _ := t.Years()
	years, spans, zones := len(all), len(t.Spans), len(t.Zones)
	n := zones * len(t.Strategies)
	b.list, b.years, b.months = grow(b.list, n), grow(b.years, n*years), grow(b.months, n*spans)
	for i := range b.list {
		b.list[i].Years = b.years[i*years:][:years:years]
		b.list[i].Months = b.months[i*spans:][:spans:spans]
		t.Outcomes[i/zones][i%zones] = tally.Outcome{Brief: &b.list[i]}
	}
}
