package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/sim/strategy"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// args reads the parameters of a part of kind k from node n, which is under key
// in g.
func (g group) args(k strategy.Kind, n *Node, key string) (*strategy.Blank, bool) {
	blank := k.Blank()
	if len(k.Params) == 1 && k.Params[0].Key == "" {
		before := g.faults.Len()
		blank.Set(0, g.value(k.Params[0], n, key))
		return blank, g.faults.Len() == before
	}
	known := make([]string, len(k.Params))
	for i, p := range k.Params {
		known[i] = p.Key
	}
	before := g.faults.Len()
	s := g.open(n, g.where+": "+key, g.path(key), known...)
	if s.node == nil {
		return blank, false
	}
	for i, p := range k.Params {
		at := s.has(p.Key)
		switch {
		case at != nil:
			blank.Set(i, s.value(p, at, p.Key))
		case p.Required:
			s.lacks(p, k.Example)
		default:
			blank.Set(i, s.dflt(p))
		}
	}
	return blank, g.faults.Len() == before
}

// lacks reports a missing required parameter; example is its part in YAML.
func (g group) lacks(p strategy.Param, example string) {
	if g.node == nil || g.node.Get(p.Key) != nil || g.underOldName(p.Key) {
		return // reported already
	}
	fix := fmt.Sprintf("add it: %s; for example %s", p.Doc, example)
	if strings.Contains(example, "\n") {
		fix = fmt.Sprintf("add it: %s; for example:", p.Doc)
	}
	g.fault(diag.MissingKey, g.node.Pos, fix, "%s: %s is missing", g.where, p.Key).Suggest(diag.Strategy, example)
}

// paramShape says how the number of p is written.
func paramShape(p strategy.Param) shape {
	return shape{dim: p.Dim, bare: p.Type == strategy.Number}
}

// value reads node n as parameter p and reports errors.
func (g group) value(p strategy.Param, n *Node, key string) strategy.Value {
	v := strategy.Value{Given: true}
	switch p.Type {
	case strategy.Quantity, strategy.Number:
		if word, ok := g.choiceOf(p, n); ok {
			v.Word = word
			g.givenWord(g.path(key), n)
			return v
		}
		w := want{key: key, shape: paramShape(p), min: p.Min, max: p.Max, whole: p.Whole || p.Type == strategy.Quantity && p.Dim == quantity.Days}
		v.Number, _ = g.measured(n, w)
	case strategy.Flag:
		if on, ok := g.flag(n, key); ok {
			if on {
				v.Number = 1
			}
			g.givenWord(g.path(key), n)
		}
	case strategy.Choice:
		word, ok := g.choiceOf(p, n)
		if !ok {
			g.fault(diag.UnknownName, n.Pos, g.didYouMean(n.Text, p.Choices), "%s: %s is %s, which is not a valid choice", g.where, key, n.what())
			return v
		}
		v.Word = word
		g.givenWord(g.path(key), n)
	case strategy.TwelveShares:
		if word, ok := g.choiceOf(p, n); ok {
			v.Word = word
			g.givenWord(g.path(key), n)
			return v
		}
		v.Months = g.twelve(p, n, key)
	case strategy.ZoneShares:
		v.Shares = g.zoneShares(p, n, key)
	case strategy.CalendarDay:
		v.Date, _ = g.dateOf(n, key)
	case strategy.YearDay:
		v.YearDay, _ = g.yearDay(n, key)
	case strategy.ClockTime:
		v.Clock, _ = g.clockTime(n, key)
	case strategy.DaysOfWatering:
		v.Days, _ = g.dayRule(n, key)
	case strategy.ZoneNames:
		v.Zones = g.zoneNames(n, key)
	case strategy.ZoneName:
		if n.Kind != Scalar {
			g.fault(diag.WrongShape, n.Pos, "write the name of a zone", "%s: %s is %s, not a zone", g.where, key, n.what())
			return v
		}
		v.Zone = g.zone(n.Text, n.Pos)
		g.givenWord(g.path(key), n)
	case strategy.ProgramNames:
		v.Programs = g.programNames(n, key)
	default:
		panic("scenarios: a parameter type without a reader")
	}
	return v
}

// choiceOf returns the choice of p that node n names, if it is one.
func (b *builder) choiceOf(p strategy.Param, n *Node) (string, bool) {
	if n.Kind != Scalar {
		return "", false
	}
	if i := b.known(n, p.Choices); i >= 0 {
		return p.Choices[i], true
	}
	return "", false
}

// dflt returns the default of p and records it as a default.
func (g group) dflt(p strategy.Param) strategy.Value {
	defer func() { g.sc.Inputs[len(g.sc.Inputs)-1].Off = p.Off }()
	v := strategy.Value{Number: p.Default}
	switch p.Type {
	case strategy.Choice:
		v = strategy.Value{Word: p.Word}
	case strategy.ZoneNames:
		v = strategy.Value{Zones: slices.Repeat([]bool{true}, len(g.zones))}
	case strategy.TwelveShares:
		v = strategy.Value{}
		for i := range v.Months {
			v.Months[i] = p.Default
		}
	case strategy.ClockTime:
		v.Clock = int(p.Default)
	case strategy.ZoneName:
		v.Zone = -1
	case strategy.Quantity, strategy.Number:
		if p.Word == "" {
			g.defaulted(g.path(p.Key), paramShape(p), catalog.Figure{Value: p.Default, Source: p.Source, Grade: p.Grade})
			return v
		}
	}
	word := p.Word
	if p.Type == strategy.Flag {
		word = fmt.Sprint(p.Default != 0)
	}
	g.defaultedWord(g.path(p.Key), word, p.Grade, p.Source)
	return v
}

// twelve reads twelve monthly percentages, with or without %, as shares.
func (g group) twelve(p strategy.Param, n *Node, key string) (m [12]float64) {
	if n.Kind != List || len(n.Items) != 12 {
		found := n.what()
		if n.Kind == List {
			found = fmt.Sprintf("%d values", len(n.Items))
		}
		g.fault(diag.WrongShape, n.Pos, "write 12 percentages, one for each month, starting with January",
			"%s: %s is %s, not twelve percentages", g.where, key, found)
		return m
	}
	for i, item := range n.Items {
		w := want{key: key, shape: shape{bare: true}, min: 100 * p.Min, max: 100 * p.Max}
		scale := 100.0
		if unitIn(item) != "" {
			w.shape, w.min, w.max, scale = shape{dim: quantity.Fraction}, p.Min, p.Max, 1
		}
		if isRange(item) {
			if v, ok := g.spanIn(item, w, g.path(key)); ok {
				m[i] = v / scale
			}
			continue
		}
		v, ok := g.parse(item, w)
		if !ok {
			continue
		}
		m[i] = v / scale
	}
	g.givenList(g.path(key), n, n.Items)
	return m
}

// zoneNames reads all, one zone or a list of zones.
func (g group) zoneNames(n *Node, key string) []bool {
	out := make([]bool, len(g.zones))
	if n.Kind == Scalar && strings.EqualFold(strings.TrimSpace(n.Text), "all") {
		for i := range out {
			out[i] = true
		}
		g.givenWord(g.path(key), n)
		return out
	}
	items := g.items(n)
	if n.Kind == List && len(items) == 0 {
		g.fault(diag.EmptyValue, n.Pos, "write all, or at least one zone", "%s: %s is empty", g.where, key)
		return out
	}
	if len(items) == 0 || n.Kind == Map {
		g.fault(diag.WrongShape, n.Pos, "write all, or a list of zones", "%s: %s is %s, not zones", g.where, key, n.what())
		return out
	}
	for _, item := range items {
		if item.Kind != Scalar {
			g.fault(diag.WrongShape, item.Pos, "write the name of a zone", "%s: %s is %s, not a zone", g.where, key, item.what())
			continue
		}
		if z := g.zone(item.Text, item.Pos); z >= 0 {
			out[z] = true
		}
	}
	g.givenList(g.path(key), n, items)
	return out
}

// programNames reads one program or a list of them.
func (g group) programNames(n *Node, key string) []strategy.Program {
	var out []strategy.Program
	var known []string
	for _, p := range g.sc.Programs {
		known = append(known, p.Name)
	}
	items := g.items(n)
	if n.Kind == List && len(items) == 0 {
		g.fault(diag.EmptyValue, n.Pos, "write at least one program, or remove "+key, "%s: %s is empty", g.where, key)
		return nil
	}
	if len(items) == 0 || n.Kind == Map {
		g.fault(diag.WrongShape, n.Pos, "write a list of programs", "%s: %s is %s, not programs", g.where, key, n.what())
		return nil
	}
	for _, item := range items {
		name := strings.TrimSpace(item.Text)
		i := g.known(item, known)
		switch {
		case item.Kind != Scalar:
			g.fault(diag.WrongShape, item.Pos, "write the name of a program", "%s: %s is %s, not a program", g.where, key, item.what())
		case i < 0 && len(known) == 0:
			g.fault(diag.UnknownName, item.Pos, "add programs to the scenario", "%s: unknown program %s", g.where, quoted(name))
		case i < 0:
			g.fault(diag.UnknownName, item.Pos, g.didYouMean(name, known), "%s: unknown program %s", g.where, quoted(name))
		case slices.ContainsFunc(out, func(p strategy.Program) bool { return p.Name == known[i] }):
			g.fault(diag.Duplicate, item.Pos, "remove one; to water twice, add a start to the program", "%s: duplicate program %s", g.where,
				quoted(name))
		default:
			out = append(out, g.sc.Programs[i])
		}
	}
	g.givenList(g.path(key), n, items)
	return out
}
