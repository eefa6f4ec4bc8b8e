package csvfile

import (
	"fmt"
	"math"
	"slices"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// A builder collects one station's days. Days are indexed from base, so a gap
// in the dates is a run of days whose line is 0.
type builder struct {
	id, name string
	st       weather.Station
	base     cal.Date
	lines    []int32                    // line of each day's first row; 0 if there is none
	data     [weather.Columns][]float64 // longer than lines while reading: see room
	mark     [weather.Columns][]weather.Mark
	room     int      // length of every existing column; values after the last day are missing
	last     cal.Date // date of the previous row
	tallies  []*tally
	mute     bool                 // count nothing: the current row repeats a date
	settle   func(*builder) error // decides what is known only after the last row, such as units
	assumed  []string
	days     *int                 // total of the days kept in memory
	decimals [weather.Columns]int // how many values of the column were written with a decimal point
	evidence []weather.Evidence
	order    [weather.Columns][]float64 // the values as read, in order; made by sorted
	given    Options                    // the facts given by the user
	held     bool                       // kept until the file proves to be sorted by station
}

// day returns the index of date d, making room for it.
func (b *builder) day(d cal.Date) int {
	if len(b.lines) == 0 {
		b.base = d
	}
	i := int(d - b.base)
	switch {
	case i == len(b.lines):
		b.grow(1)
	case i > len(b.lines):
		b.grow(i + 1 - len(b.lines))
	case i < 0:
		// Grow the front in large steps, so that a record in reverse order does
		// not take quadratic time.
		b.growFront(max(-i, min(len(b.lines), int(b.base-cal.Of(firstYear, 1, 1)))))
		i = int(d - b.base)
	}
	return i
}

// names reports whether an earlier row has date d.
func (b *builder) names(d cal.Date) bool {
	i := int(d - b.base)
	return i >= 0 && i < len(b.lines) && b.lines[i] != 0
}

func (b *builder) grow(n int) {
	*b.days += n
	b.lines = append(b.lines, make([]int32, n)...)
	if len(b.lines) > b.room {
		b.lengthen(0, max(len(b.lines), 2*b.room, 4)-b.room)
	}
}

func (b *builder) growFront(n int) {
	*b.days += n
	b.base -= cal.Date(n)
	b.lines = slices.Concat(make([]int32, n), b.lines)
	b.lengthen(n, 0)
}

// lengthen adds front missing days before the first day of every column and
// back days after its last. It doubles capacity, as append does, but for all
// columns together, so that adding a day is cheap.
func (b *builder) lengthen(front, back int) {
	b.room += front + back
	for c := range b.data {
		if b.data[c] == nil {
			continue
		}
		v, m := missing(b.room)
		copy(v[front:], b.data[c])
		copy(m[front:], b.mark[c])
		b.data[c], b.mark[c] = v, m
	}
}

// missing returns a column of n missing days.
func missing(n int) ([]float64, []weather.Mark) {
	v, m := make([]float64, n), make([]weather.Mark, n)
	for i := range v {
		v[i], m[i] = nan, weather.Missing
	}
	return v, m
}

// column creates c.
func (b *builder) column(c weather.Column) {
	if b.data[c] == nil {
		b.data[c], b.mark[c] = missing(b.room)
	}
}

// set stores v on day i of c, creating c if needed.
func (b *builder) set(c weather.Column, i int, v float64, m weather.Mark) {
	b.column(c)
	if v != v {
		m = weather.Missing
	}
	b.data[c][i], b.mark[c][i] = v, m
}

// record returns the collected days as a record, without rowless days at its
// ends, and adds the findings about gaps.
func (b *builder) record(r *reading) (*weather.Record, error) {
	first := max(0, slices.IndexFunc(b.lines, func(l int32) bool { return l != 0 }))
	days := len(b.lines)
	b.lines, b.base = b.lines[first:], b.base+cal.Date(first)
	for c := range b.data {
		if b.data[c] != nil {
			b.data[c], b.mark[c] = b.data[c][first:days:days], b.mark[c][first:days:days]
		}
	}
	b.room = len(b.lines)
	if b.settle != nil {
		b.given = r.o
		if err := b.settle(b); err != nil {
			return nil, err
		}
	}
	b.noteHoles()
	b.noteValues()
	rec := &weather.Record{File: r.scan.name, Layout: r.layout.Name}
	rec.Start, rec.Days, rec.Data, rec.Mark = b.base, len(b.lines), b.data, b.mark
	rec.Station = b.st
	rec.Station.ID, rec.Station.Name = b.id, b.name
	rec.Assumptions = slices.Concat(r.assumed, b.assumed)
	rec.OtherET = slices.Clone(r.otherET)
	rec.Evidence = b.evidence
	rec.Rows = []weather.Rows{{File: r.scan.name, Start: b.base, Line: b.lines}}
	override(rec, r.o)
	for _, t := range b.tallies {
		rec.Findings = append(rec.Findings, t.finding())
	}
	return rec, nil
}

// override applies the facts given by the user and records that.
func override(rec *weather.Record, o Options) {
	put := func(to *float64, v *float64, what, unit string) {
		if v == nil {
			return
		}
		old := "the file states none"
		if !math.IsNaN(*to) {
			old = fmt.Sprintf("instead of %g %s", *to, unit)
		}
		*to = *v
		rec.Assumptions = append(rec.Assumptions, fmt.Sprintf("%s %g %s as given (%s)", what, *v, unit, old))
	}
	put(&rec.Station.LatDeg, o.LatDeg, "latitude", "°")
	put(&rec.Station.LonDeg, o.LonDeg, "longitude", "°")
	put(&rec.Station.ElevM, o.ElevM, "elevation", "m")
	put(&rec.Station.WindHeightM, o.WindHeightM, "wind height", "m")
}

// noteHoles counts the dates without a row and shows the longest run of them.
func (b *builder) noteHoles() {
	n, holes, run := 0, 0, 0
	worst, worstAt := 0, 0
	for i, l := range b.lines {
		if l != 0 {
			run = 0
			continue
		}
		if run == 0 {
			holes++
		}
		n++
		run++
		if run > worst {
			worst, worstAt = run, i-run+1
		}
	}
	if n == 0 {
		return
	}
	at := b.base + cal.Date(worstAt)
	text := fmt.Sprintf("gaps: %d; the longest is from %v to %v", holes, at, at+cal.Date(worst)-1)
	b.tallies = append(b.tallies, &tally{kind: missingDays, whole: true, count: n, date: at, found: text})
}

// noteValues counts, per column, the days with a row but no value, and removes
// columns without any value.
func (b *builder) noteValues() {
	held := make([]bool, len(b.lines))
	for c := range weather.Columns {
		if b.data[c] == nil {
			continue
		}
		n, run, worst, worstAt := 0, 0, 0, 0
		for i, v := range b.data[c] {
			if v == v {
				held[i] = true
				run = 0
				continue
			}
			run++
			if b.lines[i] != 0 {
				n++
			}
			if run > worst {
				worst, worstAt = run, i-run+1
			}
		}
		if worst == len(b.lines) {
			b.data[c], b.mark[c] = nil, nil
			if slices.ContainsFunc(b.tallies, func(t *tally) bool { return t.column == c && t.kind.code == computedEarlier.code }) {
				continue // said already
			}
			b.tallies = append(b.tallies, &tally{kind: emptyColumn, column: c, count: n, date: b.base})
			continue
		}
		if n > 0 {
			at := b.base + cal.Date(worstAt)
			text := fmt.Sprintf("longest run without a value, including days without a row: %d days", worst)
			b.tallies = append(b.tallies, &tally{kind: missingValues, column: c, count: n, date: at, found: text})
		}
	}
	var t *tally
	for i, l := range b.lines {
		if l != 0 && !held[i] {
			if t == nil {
				t = &tally{kind: emptyRows, whole: true, date: b.base + cal.Date(i), line: int(l)}
				b.tallies = append(b.tallies, t)
			}
			t.count++
		}
	}
}
