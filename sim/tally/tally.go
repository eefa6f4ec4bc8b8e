// Package tally sums a replay by zone, month and year and computes from the sums
// the measures by which strategies are compared.
package tally

import (
	"slices"
	"sort"

	"loamledger/sim"
)

// An Outcome is what one strategy did to one zone: sums for each month of the
// record, in the order of the calendar's spans, or a brief of them.
type Outcome struct {
	Months []sim.Sums
	Brief  *Brief // in place of Months; nil where they are there
	// Moved is the stress by marks moved by each of the table's MarkShifts.
	Moved []MovedStress
}

// A Table is the result of a replay: every strategy on every zone. The two
// reference strategies come last, under the names NoWater and LeastWater.
type Table struct {
	Strategies []string
	Zones      []sim.Zone
	Spans      []sim.Span
	Outcomes   [][]Outcome // by strategy, then zone
	// Breaches lists, by strategy and in order of date, the runs that the site's
	// limits forbid; empty if the site has none.
	Breaches [][]sim.Breach
	// South is set in the southern hemisphere: a year runs from July to June and has
	// the number of the calendar year in which it begins.
	South bool
	// DrynessMM ranks years: for each span, the sum of 0.8·ETo − effective rain of
	// the station [mm]. See [AppendDryness].
	DrynessMM []float64
	Baseline  int // the strategy with which the others are compared
	// Cut is the baseline as the site's rules would cut it, which is never an
	// option; 0 for none.
	Cut int
	// Excluded are calendar years that were replayed to carry the balance through
	// them and count neither in rankings nor in sums over the record.
	Excluded []int
	// LeastRows is, by strategy, the row of Outcomes with the least water that its own
	// zones need, for strategies that change zones; 0 for the reference. Such rows
	// follow those of the strategies. nil for none.
	LeastRows []int
	// MarkShifts are by how much the marks of the plants were moved to count stress
	// days by other marks, too; none for the marks as given alone.
	MarkShifts []float64

	basis  *Basis  // of a lean table, or kept; else nil
	ranked *Ranked // likewise
	moved  int     // of MarkShifts, the one whose stress sums have, counting from 1; 0 for the marks as given
}

// Counts reports whether calendar year y counts.
func (t *Table) Counts(y int) bool { return !slices.Contains(t.Excluded, y) }

// IsCut reports whether strategy s is the baseline as the site's rules would cut
// it.
func (t *Table) IsCut(s int) bool { return t.Cut > 0 && s == t.Cut }

// The names of the two reference strategies of every replay.
const (
	NoWater    = "no watering"
	LeastWater = "least water at full supply"
)

// NoWaterIndex and LeastWaterIndex find the reference strategies.
func (t *Table) NoWaterIndex() int    { return len(t.Strategies) - 2 }
func (t *Table) LeastWaterIndex() int { return len(t.Strategies) - 1 }

// LeastRow returns the row of Outcomes with what strategy s requires.
func (t *Table) LeastRow(s int) int {
	if s < len(t.LeastRows) && t.LeastRows[s] > 0 {
		return t.LeastRows[s]
	}
	return t.LeastWaterIndex()
}

// Years returns the years of the record in order, and which of them are whole:
// calendar years or, in the southern hemisphere, years from July to June.
func (t *Table) Years() (years []int, whole []bool) {
	for i := 0; i < len(t.Spans); {
		y, days := t.YearOf(&t.Spans[i]), 0
		for ; i < len(t.Spans) && t.YearOf(&t.Spans[i]) == y; i++ {
			days += t.Spans[i].To - t.Spans[i].From
		}
		from, to := YearSpan(y, t.South)
		years, whole = append(years, y), append(whole, days == int(to-from))
	}
	return years, whole
}

// WholeYears returns the whole years of the record in which no day is excluded, in
// order.
func (t *Table) WholeYears() []int {
	var out []int
	years, whole := t.Years()
	for i, y := range years {
		if whole[i] && t.Counts(y) && (!t.South || t.Counts(y+1)) {
			out = append(out, y)
		}
	}
	return out
}

// Total returns the sums of strategy s on zone z over the record without
// excluded years.
func (t *Table) Total(s, z int) sim.Sums {
	var sum sim.Sums
	o := &t.Outcomes[s][z]
	if o.Brief != nil {
		sum = o.Brief.record
	} else {
		for i := range o.Months {
			if t.Counts(t.Spans[i].Year) {
				sum.Add(&o.Months[i])
			}
		}
	}
	if t.moved > 0 && t.moved <= len(o.Moved) {
		o.Moved[t.moved-1].record.PutIn(&sum)
	}
	return sum
}

// Year returns the sums of strategy s on zone z in year y.
func (t *Table) Year(s, z, y int) sim.Sums {
	var sum sim.Sums
	o, at := &t.Outcomes[s][z], y-t.YearOf(&t.Spans[0])
	switch {
	case o.Brief == nil:
		first := sort.Search(len(t.Spans), func(i int) bool { return t.YearOf(&t.Spans[i]) >= y })
		for i := first; i < len(t.Spans) && t.YearOf(&t.Spans[i]) == y; i++ {
			sum.Add(&o.Months[i])
		}
	case o.Brief.few != nil:
		sum = o.Brief.few.year(y)
	case at >= 0 && at < len(o.Brief.Years):
		sum = o.Brief.Years[at]
	}
	if t.moved > 0 && t.moved <= len(o.Moved) && at >= 0 && at < len(o.Moved[t.moved-1].Years) {
		o.Moved[t.moved-1].Years[at].PutIn(&sum)
	}
	return sum
}

// Days returns the number of days of the record without excluded years.
func (t *Table) Days() int {
	n := 0
	for _, span := range t.Spans {
		if t.Counts(span.Year) {
			n += span.To - span.From
		}
	}
	return n
}
