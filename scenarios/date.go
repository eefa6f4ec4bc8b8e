package scenarios

import (
	"strings"

	"loamledger/weather/cal"
)

// date reads a calendar day; ok is false where it is not there or not a day.
func (g group) date(key string) (d cal.Date, ok bool) {
	n := g.has(key)
	if n == nil {
		return 0, false
	}
	d, err := cal.Parse(strings.TrimSpace(n.Text))
	if n.Kind != Scalar || err != nil {
		g.fault(n.Pos, "write a day as in 2012-06-30", "%s: %s is %s, not a calendar day", g.where, key, n.what())
		return 0, false
	}
	g.givenWord(g.path(key), n)
	return d, true
}

// period reads the keys from and to, either of which may be left out and is
// then 0.
func (g group) period() (from, to cal.Date) {
	from, okFrom := g.date("from")
	to, okTo := g.date("to")
	if okFrom && okTo && to < from {
		g.fault(g.node.Get("to").Pos, "write a day on or after "+from.String(), "%s: to %v is before from %v", g.where, to, from)
	}
	return from, to
}
