package scenarios

import (
	"strings"

	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// date reads a calendar date; ok is false if it is missing or not a date.
func (g group) date(key string) (d cal.Date, ok bool) {
	n := g.has(key)
	if n == nil {
		return 0, false
	}
	return g.dateOf(n, key)
}

// dateOf reads node n as a calendar date.
func (g group) dateOf(n *Node, key string) (d cal.Date, ok bool) {
	d, err := cal.Parse(strings.TrimSpace(n.Text))
	if n.Kind == Scalar && err != nil {
		if days := yearDays(n.Text); len(days) > 0 {
			g.everyYear(n, key, days[0])
			return 0, false
		}
	}
	if n.Kind != Scalar || err != nil {
		g.fault(diag.NotADate, n.Pos, "write a date as in 2012-06-30", "%s: %s is %s, not a date", g.where, key, n.what())
		return 0, false
	}
	g.givenWord(g.path(key), n)
	return d, true
}

// yearDay reads a day that recurs every year, such as 04-15, as 100·month +
// day.
func (g group) yearDay(n *Node, key string) (day int, ok bool) {
	var days []int
	if n.Kind == Scalar {
		days = yearDays(n.Text)
	}
	switch len(days) {
	case 1:
		g.understand(n, yearDayForm(days[0]))
		g.givenWord(g.path(key), n)
		return days[0], true
	case 2:
		g.severalForms(n, g.where+": "+key, []string{yearDayForm(days[0]), yearDayForm(days[1])})
		return 0, false
	}
	fix, like := "write month and day as in 04-15", "04-15"
	if date, err := cal.Parse(strings.TrimSpace(n.Text)); err == nil {
		_, m, d := date.YMD()
		like = yearDayForm(100*m + d)
		fix = "write month and day, " + like + ", which are for every year"
	}
	g.fault(diag.NotADate, n.Pos, fix, "%s: %s is %s, not a day of the year", g.where, key, n.what()).Suggest(diag.Value, like)
	return 0, false
}

// clockTime reads a time of day in minutes after midnight.
func (g group) clockTime(n *Node, key string) (minutes int, ok bool) {
	if minutes, ok = g.clock(n, key); !ok {
		return 0, false
	}
	g.givenWord(g.path(key), n)
	return minutes, true
}

// period reads the optional keys from and to.
func (g group) period() (p cal.Period) {
	from, okFrom := g.date("from")
	to, okTo := g.date("to")
	if okFrom {
		p = p.From(from)
	}
	if okTo {
		p = p.To(to)
	}
	if okFrom && okTo && to < from {
		g.fault(diag.WrongOrder, g.node.Get("to").Pos, "write a date on or after "+from.String(), "%s: to %v is before from %v", g.where, to,
			from)
	}
	return p
}

// dates is like period, for types that store the ends as plain dates, with 0
// for an open end. Date number 0 itself is therefore not allowed.
func (g group) dates() (from, to cal.Date) {
	p := g.period()
	from, okFrom := p.First()
	to, okTo := p.Last()
	for key, day := range map[string]bool{"from": okFrom && from == 0, "to": okTo && to == 0} {
		if day {
			g.fault(diag.NotADate, g.node.Get(key).Pos, "write the date before or after", "%s: %s cannot be %v", g.where, key, cal.Date(0))
		}
	}
	return from, to
}
