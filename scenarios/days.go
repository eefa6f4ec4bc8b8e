package scenarios

import (
	"slices"
	"strings"

	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

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
			d, found := weekday(item.Text)
			found = found && item.Kind == Scalar
			two, unclear := unclearDays[strings.ToLower(strings.TrimSpace(item.Text))]
			switch {
			case unclear:
				g.several(item, g.where+": "+key+":", []string{weekdays[two[0]], weekdays[two[1]]})
				ok = false
			case !found:
				g.fault(diag.UnknownName, item.Pos, g.didYouMean(item.Text, weekdays[:]), "%s: %s: %s is not a weekday", g.where, key, item.what())
				ok = false
			case rule.Weekdays[d]:
				g.fault(diag.Duplicate, item.Pos, "remove one", "%s: %s: duplicate day %s", g.where, key, item.Text)
				ok = false
			default:
				rule.Weekdays[d] = true
				g.understand(item, weekdays[d])
			}
		}
		g.givenList(g.path(key), n, n.Items)
		return rule, ok
	}
	if n.Kind != Scalar {
		g.fault(
			diag.NotADate,
			n.Pos,
			"write any, odd, even, a list of weekdays or an interval",
			"%s: %s is %s, not a rule for days",
			g.where,
			key,
			n.what(),
		)
		return rule, false
	}
	form := strings.ToLower(strings.TrimSpace(n.Text))
	if d, found := weekday(form); found {
		form = weekdays[d]
	} else if !slices.Contains(ruleWords[:], form) {
		forms, clear := daysMeant(n.Text)
		switch {
		case clear:
			form = forms[0]
		case len(forms) > 1:
			g.severalForms(n, g.where+": "+key+":", forms)
			return rule, false
		case len(forms) == 1:
			g.fault(diag.NotADate, n.Pos, "write "+forms[0]+", where from is a watering day", "%s: %s: %s is not a rule for days", g.where, key,
				n.what()).Suggest(diag.Value, forms...)
			return rule, false
		default:
			words := slices.Concat(ruleWords[:], weekdays[:])
			g.fault(diag.NotADate, n.Pos, g.didYouMean(n.Text, words), "%s: %s: %s is not a rule for days", g.where, key, n.what())
			return rule, false
		}
	}
	switch form {
	case "any":
		rule.Kind = strategy.AnyDay
	case "odd":
		rule.Kind = strategy.OddDays
	case "even":
		rule.Kind = strategy.EvenDays
	default:
		rule.Kind = strategy.Weekdays
		for _, w := range strings.Split(strings.Trim(form, "[]"), ", ") {
			d, _ := weekday(w)
			rule.Weekdays[d] = true
		}
	}
	g.understand(n, form)
	g.givenWord(g.path(key), n)
	return rule, true
}

// ruleWords are the rules for days that are one word.
var ruleWords = [3]string{"any", "odd", "even"}

func (g group) interval(n *Node, key string) (strategy.DayRule, bool) {
	rule := strategy.DayRule{Kind: strategy.Interval, Every: 1}
	r := g.open(n, g.where+": "+key, g.path(key), "every", "from")
	every, ok := r.number(want{key: "every", shape: shape{dim: quantity.Days}, min: 1, max: 366, whole: true})
	if ok {
		rule.Every = int(every)
	}
	from := r.has("from")
	if from == nil {
		r.missing("from", "add from, a watering day, as in from: 2012-01-01", "from: 2012-01-01")
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
