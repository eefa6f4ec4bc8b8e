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
	text := strings.TrimSpace(n.Text)
	m, d, cut := strings.Cut(text, "-")
	month, ok1 := whole(m)
	dom, ok2 := whole(d)
	// 2012 was a leap year, so 02-29 is valid.
	if n.Kind != Scalar || !cut || len(m) != 2 || len(d) != 2 || !ok1 || !ok2 || !cal.Valid(2012, month, dom) {
		g.fault(diag.NotADate, n.Pos, "write month and day as in 04-15", "%s: %s is %s, not a day of the year", g.where, key, n.what())
		return 0, false
	}
	g.givenWord(g.path(key), n)
	return 100*month + dom, true
}

// clockTime reads a time of day in minutes after midnight.
func (g group) clockTime(n *Node, key string) (minutes int, ok bool) {
	minutes, ok = clock(n)
	if !ok {
		g.fault(diag.NotATime, n.Pos, `write the hour from 00 to 23 and the minute, as in "05:30"`, "%s: %s is %s, not a time of day", g.where,
			key, n.what())
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
