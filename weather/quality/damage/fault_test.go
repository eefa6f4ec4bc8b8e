package damage

import (
	"math/rand/v2"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// A fault is one way in which files are wrong. Exactly one of days and text is
// set.
type fault struct {
	name  string
	years int // of made-up weather
	needs []weather.Column
	// days damages the values and returns the index of the day whose line must
	// be named; -1 for any line.
	days func(rng *rand.Rand, days []day) ([]day, int)
	// text damages the file; ok is false if the layout cannot have the fault.
	text func(rng *rand.Rand, f *file) (text string, where place, ok bool)
	// codes are those of the findings that report it; a refusal is as good.
	codes []weather.Code
	slack int // how many days the named line may be away from the damage
	// none means that the file still says the same, and must read the same.
	none bool
}

// A place is where a damage is: lines of the file, dates, or neither for the
// whole file.
type place struct {
	from, to   int // lines, inclusive; 0 for the whole file
	date, last cal.Date
}

// A file is an undamaged file that knows where its values are.
type file struct {
	l      *layout
	days   []day
	text   string
	starts []int    // where the rows of each day begin; nil if a row is not a day
	lines  []string // with their ends
}

func newFile(l *layout, days []day) *file {
	f := &file{l: l, days: days}
	if l.row == nil {
		f.text = l.write(days)
	} else {
		var b strings.Builder
		b.WriteString(l.head)
		for _, d := range days {
			f.starts = append(f.starts, b.Len())
			b.WriteString(l.row(d))
		}
		f.text = b.String()
	}
	f.lines = strings.SplitAfter(strings.TrimSuffix(f.text, "\n"), "\n")
	f.lines[len(f.lines)-1] += "\n"
	return f
}

// with is the text with the bytes from i to j replaced.
func (f *file) with(i, j int, by string) string { return f.text[:i] + by + f.text[j:] }

// lineOf is the line of byte i.
func (f *file) lineOf(i int) int { return 1 + strings.Count(f.text[:i], "\n") }

// rowsOf returns the lines of day i: its rows, or those that change with its
// values if a row is not a day.
func (f *file) rowsOf(i int) (from, to int) {
	if f.starts != nil {
		from = f.lineOf(f.starts[i])
		return from, from + max(1, strings.Count(f.l.row(f.days[i]), "\n")) - 1
	}
	for _, c := range f.l.cols {
		k := f.lineOf(f.change(i, func(d *day) { d.set(c, 7.7) }))
		if from == 0 || k < from {
			from = k
		}
		to = max(to, k)
	}
	return from, to
}

// change returns the first byte that changes with day i.
func (f *file) change(i int, how func(d *day)) int {
	was := f.days[i]
	how(&f.days[i])
	start, other := 0, ""
	if f.starts != nil {
		start, other = f.starts[i], f.l.row(f.days[i])
	} else {
		other = f.l.write(f.days)
	}
	f.days[i] = was
	k := 0
	for k < len(other) && start+k < len(f.text) && other[k] == f.text[start+k] {
		k++
	}
	return start + k
}

// cell returns the bounds of the cell with a value of day i.
func (f *file) cell(i int, c weather.Column) (from, to int) {
	return f.bounds(f.change(i, func(d *day) { d.set(c, 7.7) }))
}

// date returns the bounds of the cell of the date of day i that changes from
// day to day, and those of its digits.
func (f *file) date(i int) (from, to, digits, end int) {
	at := f.change(i, func(d *day) { d.date++ })
	from, to = f.bounds(at)
	digits, end = at, at
	isDigit := func(k int) bool { return k >= 0 && k < len(f.text) && f.text[k] >= '0' && f.text[k] <= '9' }
	for isDigit(digits - 1) {
		digits--
	}
	for isDigit(end) {
		end++
	}
	return from, to, digits, end
}

// bounds widens a place to its cell.
func (f *file) bounds(at int) (from, to int) {
	stop := func(b byte) bool { return b == '\n' || b == '"' || b == ' ' || strings.IndexByte(f.l.sep, b) >= 0 }
	for from = at; from > 0 && !stop(f.text[from-1]); from-- {
	}
	for to = at; to < len(f.text) && !stop(f.text[to]); to++ {
	}
	return from, to
}

// some returns a day that is neither near the ends nor on a day that a layout
// lacks.
func (f *file) some(rng *rand.Rand) int { return middle(rng, len(f.days)) }

// middle returns an index in the middle three fifths, on the 11th to the 27th
// of a month after April, so that no part of the date is short.
func middle(rng *rand.Rand, n int) int {
	for {
		i := n/5 + rng.IntN(3*n/5)
		d := cal.Of(firstYear, 1, 1) + cal.Date(i)
		if _, m, day := d.YMD(); m > 4 && day > 10 && day < 28 {
			return i
		}
	}
}

// at is the place of the lines of day i.
func (f *file) at(i int) place {
	from, to := f.rowsOf(i)
	if f.starts == nil { // a row is a month
		y, m, _ := f.days[i].date.YMD()
		return place{from, to, cal.Of(y, m, 1), cal.Of(y, m, cal.DaysIn(y, m))}
	}
	return place{from, to, f.days[i].date, f.days[i].date}
}

// line is the place of the line of byte i.
func (f *file) line(i, day int) place {
	n := f.lineOf(i)
	return place{n, n, f.days[day].date, f.days[day].date}
}
