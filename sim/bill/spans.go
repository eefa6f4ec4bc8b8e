package bill

import (
	"slices"
	"sort"

	"loamledger/weather/cal"
)

// Between are the days of a billing period, From to the day before To.
type Between struct{ From, To cal.Date }

// nearDays is how near to a real read the end of a month may be before the month
// is joined to its neighbor: a period of few days would be charged as a whole one.
const nearDays = 15

// Periods splits the days from start to the day before end into billing periods:
// the given real ones where there are any, elsewhere calendar months, several
// together if the rates bill so. first is the month with which a year begins, 1 or
// 7. Real periods that are not wholly inside are ignored; they must not overlap.
func Periods(start, end cal.Date, months, first int, real []Between) []Between {
	var cuts []cal.Date
	inside := slices.DeleteFunc(slices.Clone(real), func(b Between) bool { return b.From < start || b.To > end })
	sort.SliceStable(inside, func(a, b int) bool { return inside[a].From < inside[b].From })
	for _, b := range inside {
		cuts = append(cuts, b.From, b.To)
	}
	read := func(d cal.Date) bool {
		return slices.ContainsFunc(inside, func(b Between) bool { return d > b.From && d < b.To }) ||
			slices.ContainsFunc(cuts, func(c cal.Date) bool { return max(c-d, d-c) < nearDays })
	}
	y, m, _ := start.YMD()
	var ends []cal.Date
	for i := 0; ; i++ {
		d := cal.Of(y, m+i, 1)
		if d >= end {
			break
		}
		if _, month, _ := d.YMD(); d > start && (month-first+12)%months == 0 && !read(d) {
			ends = append(ends, d)
		}
	}
	cuts = append(append(cuts, ends...), start, end)
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	var out []Between
	for i := 1; i < len(cuts); i++ {
		out = append(out, Between{cuts[i-1], cuts[i]})
	}
	return out
}

// Middle returns the middle day of the period, which decides the year it counts
// for.
func (b Between) Middle() cal.Date { return b.From + (b.To-b.From)/2 }
