package scenarios

import (
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	simclock "loamledger/sim/clock"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// ruleKeys are the keys of a rule, directly under limits and in each stage.
var ruleKeys = []string{"days", "window", "max_minutes", "ban", "exempt"}

// leastMainLMin is the lowest flow of a main [L/min], that of a few emitters. Less is a
// slip of the pen.
const leastMainLMin = 0.1

// readLimits reads the site's rules and plumbing.
func (b *builder) readLimits(top group) {
	node := top.has("limits")
	if node == nil {
		if rules := b.ownWindows(); top.node.Get("limits") == nil && rules != nil {
			b.sc.Limits = &strategy.Limits{Exempt: make([]bool, len(b.zones)), Stages: rules}
		}
		return
	}
	g := b.open(node, "limits", "limits", append([]string{"from", "exempt_manual", "flow", "on_conflict", "stages"}, ruleKeys...)...)
	if g.node == nil {
		return
	}
	l := &strategy.Limits{Exempt: make([]bool, len(b.zones))}
	l.From = g.limitsFrom()
	l.Always = g.rule("local rules")
	// A zone that is exempt from the permanent rules is exempt from every stage.
	if l.Always.Exempt != nil {
		l.Exempt, l.Always.Exempt = l.Always.Exempt, nil
	}
	if n := g.has("exempt_manual"); n != nil {
		l.ExemptManual, _ = g.flag(n, "exempt_manual")
		g.givenWord(g.path("exempt_manual"), n)
	}
	g.limitsFlow()
	word := "omit"
	if g.node.Get("on_conflict") != nil {
		word, _ = g.choice("on_conflict", []string{"omit", "flag"})
	} else {
		g.defaultedWord(g.path("on_conflict"), word, catalog.Guess, "water that breaks a rule is not applied; our choice")
	}
	l.FlagOnly = word == "flag"
	if n := g.has("stages"); n != nil {
		for i, item := range g.items(n) {
			name, where := b.name(item, "stage", i)
			if name == nil {
				continue
			}
			s := b.open(item, "limits: "+where, "limits.stages."+name.Text, append([]string{"name", "from", "to"}, ruleKeys...)...)
			r := s.rule(name.Text)
			r.From, r.To = s.dates()
			if s.node != nil && s.node.Get("from") == nil {
				s.missing("from", "add from, the first day of the stage, as in from: 2014-06-01", "from: 2014-06-01")
			}
			if s.node != nil && s.node.Get("to") == nil {
				s.missing("to", "add to, the last day of the stage, as in to: 2014-09-30", "to: 2014-09-30")
			}
			if s.node != nil && !slices.ContainsFunc(ruleKeys[:4], func(key string) bool { return s.node.Get(key) != nil || s.underOldName(key) }) {
				s.fault(diag.NoEffect, item.Pos, "add days, window, max_minutes or ban", "%s has no effect", s.where)
			}
			l.Stages = append(l.Stages, r)
		}
	}
	l.Stages = append(l.Stages, b.ownWindows()...)
	b.sc.Limits = l
}

// ownWindows returns the hours of controllers as rules, which bind no zone of another
// controller.
func (b *builder) ownWindows() (rules []strategy.Rule) {
	for c := range b.sc.Controllers {
		of := &b.sc.Controllers[c]
		if len(of.Windows) == 0 {
			continue
		}
		rule := strategy.Rule{Name: of.Name, Windows: of.Windows, Exempt: make([]bool, len(b.zones))}
		for z := range b.sc.Zones {
			rule.Exempt[z] = b.sc.Zones[z].Controller != c
		}
		rules = append(rules, rule)
	}
	return rules
}

// limitsFrom reads the first day of the rules; 0 means the whole record.
func (g group) limitsFrom() cal.Date {
	from, ok := g.date("from")
	if ok && from == 0 { // which stands for none
		g.fault(diag.NotADate, g.node.Get("from").Pos, "write the date before or after", "%s: from cannot be %v", g.where, from)
	}
	return from
}

// rule reads one set of limits.
func (g group) rule(name string) strategy.Rule {
	r := strategy.Rule{Name: name}
	if n := g.has("days"); n != nil {
		r.Days, _ = g.dayRule(n, "days")
	}
	if n := g.has("window"); n != nil {
		r.Windows = g.windows(n)
	}
	if g.node.Get("max_minutes") != nil {
		r.MaxMinutes, _ = g.number(want{key: "max_minutes", shape: shape{dim: quantity.Duration}, min: 0.5, max: dayMinutes,
			fix: "write the longest run allowed, from 0.5 min to 1,440 min"})
	}
	if n := g.has("ban"); n != nil {
		r.Ban, _ = g.flag(n, "ban")
		g.givenWord(g.path("ban"), n)
	}
	if n := g.has("exempt"); n != nil {
		r.Exempt = g.zoneNames(n, "exempt")
	}
	return r
}

// windows reads the parts of the day in which watering is allowed.
func (g group) windows(n *Node) (out []simclock.Window) {
	for _, item := range g.items(n) {
		if w, ok := g.window(item); ok {
			out = append(out, w)
		}
	}
	for i, w := range out {
		for _, v := range out[:i] {
			if overlap(w, v) {
				g.fault(diag.Conflict, n.Pos, "write windows that do not overlap", "%s: two windows overlap", g.where)
			}
		}
	}
	g.givenList(g.path("window"), n, g.items(n))
	return out
}

// window reads a part of the day such as 20:00-06:00.
func (g group) window(n *Node) (simclock.Window, bool) {
	from, to, cut := strings.Cut(strings.ReplaceAll(n.Text, " ", ""), "-")
	a, ok1 := clockText(from)
	b, ok2 := clockText(to)
	if to == "24:00" {
		b, ok2 = dayMinutes, true
	}
	if n.Kind != Scalar || !cut || !ok1 || !ok2 || a == b {
		g.fault(diag.NotATime, n.Pos, `write two times of day, as in "20:00-06:00"`, "%s: window is %s, not a time range", g.where,
			n.what()).Suggest(diag.Value, `"20:00-06:00"`)
		return simclock.Window{}, false
	}
	if strings.ContainsAny(strings.ToLower(from+to), "apmn") {
		g.understand(n, clockTime(a)+"-"+clockTime(b))
	}
	return simclock.Window{FromMin: float64(a), ToMin: float64(b)}, true
}

// overlap reports whether two windows overlap at any time of the day.
func overlap(a, b simclock.Window) bool {
	end := func(w simclock.Window) float64 {
		if w.ToMin <= w.FromMin {
			return w.ToMin + dayMinutes
		}
		return w.ToMin
	}
	for _, shift := range []float64{-dayMinutes, 0, dayMinutes} {
		if a.FromMin < end(b)+shift && b.FromMin+shift < end(a) {
			return true
		}
	}
	return false
}
