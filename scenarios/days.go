package scenarios

import (
	"strings"

	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

var weekdays = [7]string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}

var weekdayNames = [7]string{"sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday"}

// dayRule reads a rule for days: any, odd, even, weekdays or an interval.
func (g group) dayRule(n *Node, key string) (strategy.DayRule, bool) {
	rule := strategy.DayRule{}
	switch n.Kind {
	case Map:
		return g.interval(n, key)
	case List:
		rule.Kind = strategy.Weekdays
		if len(n.Items) == 0 {
			g.fault(diag.EmptyValue, n.Pos, "write at least one weekday", "%s: %s is empty", g.where, key)
			return rule, false
		}
		ok := true
		for _, item := range n.Items {
			d, found := weekday(item)
			switch {
			case !found:
				g.fault(diag.UnknownName, item.Pos, g.didYouMean(item.Text, weekdays[:]), "%s: %s: %s is not a weekday", g.where, key, item.what())
				ok = false
			case rule.Weekdays[d]:
				g.fault(diag.Duplicate, item.Pos, "remove one", "%s: %s: duplicate day %s", g.where, key, item.Text)
				ok = false
			default:
				rule.Weekdays[d] = true
			}
		}
		g.givenList(g.path(key), n, n.Items)
		return rule, ok
	}
	words := []string{"any", "odd", "even"}
	switch strings.ToLower(strings.TrimSpace(n.Text)) {
	case "any":
		rule.Kind = strategy.AnyDay
	case "odd":
		rule.Kind = strategy.OddDays
	case "even":
		rule.Kind = strategy.EvenDays
	default:
		d, found := weekday(n)
		if !found {
			fix := daysFix(n.Text)
			if fix == "" {
				fix = g.didYouMean(n.Text, append(words, weekdays[:]...))
			}
			g.fault(diag.NotADate, n.Pos, fix, "%s: %s: %s is not a rule for days", g.where, key, n.what())
			return rule, false
		}
		rule.Kind = strategy.Weekdays
		rule.Weekdays[d] = true
	}
	g.givenWord(g.path(key), n)
	return rule, true
}

func weekday(n *Node) (int, bool) {
	if n.Kind != Scalar {
		return 0, false
	}
	for i := range weekdays {
		if strings.EqualFold(n.Text, weekdays[i]) || strings.EqualFold(n.Text, weekdayNames[i]) {
			return i, true
		}
	}
	return 0, false
}

func (g group) interval(n *Node, key string) (strategy.DayRule, bool) {
	rule := strategy.DayRule{Kind: strategy.Interval, Every: 1}
	r := g.open(n, g.where+": "+key, g.path(key), "every", "from")
	every, ok := r.number(want{key: "every", shape: shape{dim: quantity.Days}, min: 1, max: 366, whole: true})
	if ok {
		rule.Every = int(every)
	}
	from := r.has("from")
	if from == nil {
		r.missing("from", "add from, a watering day, as in from: 2012-01-01")
		return rule, false
	}
	d, err := cal.Parse(strings.TrimSpace(from.Text))
	if from.Kind != Scalar || err != nil {
		r.fault(diag.NotADate, from.Pos, "write a date as in 2012-01-01", "%s: from is %s, not a date", r.where, from.what())
		return rule, false
	}
	rule.From = d
	r.givenWord(r.path("from"), from)
	return rule, ok
}
