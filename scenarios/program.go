package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/scenarios/names"
	"loamledger/sim/strategy"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// dayMinutes is the length of a day, the maximum run time of a zone [min].
const dayMinutes = 24 * 60

func (b *builder) readPrograms(top group) {
	if top.node.Get("programs") == nil {
		return // a refill needs no program
	}
	taken := map[string]diag.Pos{}
	for i, item := range top.entries("programs", mostLists, "add a program, or remove the key") {
		n, where := b.name(item, "program", i)
		if n == nil {
			continue
		}
		b.unique(taken, "program", n)
		b.readProgram(item, n.Text, where)
	}
}

func (b *builder) readProgram(node *Node, name, where string) {
	defer b.owning("programs."+name, "program “"+name+"”")()
	g := b.open(node, where, "programs."+name, "name", "days", "starts", "minutes", "cycle", "soak", "from", "to", "ramp_to")
	p := strategy.Program{Name: name}
	if n := g.has("days"); n != nil {
		p.Days, _ = g.dayRule(n, "days")
	} else {
		g.missing("days", `add days: [mon, wed, fri], or odd, even or any, or days: {every: 3 days, from: 2012-01-01}`,
			"days: [mon, wed, fri]", "days: {every: 3 days, from: 2012-01-01}")
	}
	p.Starts = g.starts()
	p.Minutes = g.minutes()
	if g.node.Get("cycle") != nil {
		p.Cycle, _ = g.number(want{key: "cycle", shape: shape{dim: quantity.Duration}, min: 0.5, max: dayMinutes})
		p.Soak, _ = g.number(want{key: "soak", shape: shape{dim: quantity.Duration}, max: dayMinutes, dflt: catalog.Figure{
			Value: 30, Low: 30, High: 60, Grade: catalog.LocalTable, Source: "Texas A&M University, water university: restart 30 to " +
				"60 minutes apart"}})
	} else if n := g.has("soak"); n != nil {
		g.fault(diag.NoEffect, n.Pos, "add cycle, the maximum run at a time, or remove soak", "%s: soak has no effect without cycle", where)
	}
	p.From, p.To = g.dates()
	if n := g.has("ramp_to"); n != nil {
		p.RampTo, _ = g.number(want{key: "ramp_to", shape: shape{dim: quantity.Fraction}, min: 0.01, max: 10,
			fix: "write the share of the run times on the last day, such as 40%"})
		if p.From == 0 || p.To == 0 || p.To == p.From {
			g.fault(diag.MissingKey, n.Pos, "add from and to, the first and the last day of the program", "%s: ramp_to needs from and to", where)
			p.RampTo = 0
		}
	}
	b.sc.Programs = append(b.sc.Programs, p)
}

// starts reads start times.
func (g group) starts() []int {
	n := g.has("starts")
	if n == nil {
		if g.node.Get("starts") == nil {
			g.defaultedWord(g.path("starts"), "one, at 05:00", catalog.Guess, "before dawn, once a day; our choice")
		}
		return []int{5 * 60}
	}
	items := g.items(n)
	if len(items) == 0 {
		g.fault(diag.EmptyValue, n.Pos, `write at least one time, as in ["05:30"]`, "%s: starts is empty", g.where).
			Suggest(diag.Value, `["05:30"]`)
	}
	if len(items) > 24 {
		g.fault(diag.TooLarge, n.Pos, "write at most 24 times", "%s: starts has %d times", g.where, len(items))
		return nil
	}
	var out []int
	for _, item := range items {
		t, ok := g.clock(item, "start")
		if !ok {
			continue
		}
		for _, other := range out {
			if other == t {
				g.fault(diag.Duplicate, item.Pos, "remove or change one", "%s: duplicate start %s", g.where, item.Text)
			}
		}
		out = append(out, t)
	}
	g.givenList(g.path("starts"), n, items)
	return out
}

// clock reads a time of day such as 05:30 in minutes after midnight and reports
// errors.
func (g group) clock(n *Node, what string) (int, bool) {
	var times []int
	if n.Kind == Scalar {
		times = clockMeant(n.Text)
	}
	switch len(times) {
	case 0:
		g.fault(diag.NotATime, n.Pos, `write the hour from 00 to 23 and the minute, as in "05:30"`,
			"%s: %s %s is not a time of day", g.where, what,
			quoted(n.Text)).
			Suggest(diag.Value, `"05:30"`)
		return 0, false
	case 1:
		if as := clockTime(times[0]); as != strings.TrimSpace(n.Text) && "0"+strings.TrimSpace(n.Text) != as {
			g.understand(n, as)
		}
		return times[0], true
	}
	forms := make([]string, len(times))
	for i, t := range times {
		forms[i] = clockForm(t)
	}
	g.severalForms(n, g.where+": "+what, forms)
	return 0, false
}

// clockText reads a time of day that has one meaning.
func clockText(s string) (int, bool) {
	times := clockMeant(s)
	if len(times) != 1 {
		return 0, false
	}
	return times[0], true
}

func whole(s string) (n int, ok bool) {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return 0, false
		}
		n = 10*n + int(s[i]-'0')
	}
	return n, len(s) > 0
}

// minutes reads the run time of each zone in a program. The key names the unit,
// so a bare number is enough; a unit is accepted too.
func (g group) minutes() []float64 {
	out := make([]float64, len(g.zones))
	n := g.has("minutes")
	if n == nil {
		yaml := "minutes: " + g.anyZone("20")
		g.missing("minutes", "add "+yaml+", the run time of each zone", yaml)
		return out
	}
	if n.Kind != Map || len(n.Entries) == 0 {
		g.fault(diag.WrongShape, n.Pos, "write zones with their run times, as in "+g.anyZone("20"),
			"%s: minutes is %s, not zones with run times", g.where, n.what()).Suggest(diag.Value, g.anyZone("20"))
		return out
	}
	seen := map[int]diag.Pos{}
	for _, e := range n.Entries {
		z := g.zone(e.Key, e.Pos)
		w := want{key: "minutes of " + e.Key, shape: shape{bare: true}, max: dayMinutes,
			fix: fmt.Sprintf("write 0 to %d minutes per start", dayMinutes)}
		if unitIn(e.Value) != "" {
			w.shape = shape{dim: quantity.Duration}
		}
		if z >= 0 && isRange(e.Value) {
			own := *e.Value // its doubt is one in minutes, with the unit
			if w.input = g.path("minutes." + g.zones[z]); w.shape.bare {
				w.shape = shape{dim: quantity.Duration}
				own.Text += " min"
			}
			if v, ok := g.measured(&own, w); ok && g.once(seen, z, e) {
				out[z] = v
			}
			continue
		}
		v, ok := g.parse(e.Value, w)
		if z < 0 || !ok || !g.once(seen, z, e) {
			continue
		}
		out[z] = v
		g.given(g.path("minutes."+g.zones[z]), v, shape{dim: quantity.Duration}, e.Value)
	}
	return out
}

// anyZone writes a group with the first zone that has a name.
func (g group) anyZone(value string) string {
	name := "front lawn"
	if i := slices.IndexFunc(g.zones, func(z string) bool { return z != "" }); i >= 0 {
		name = g.zones[i]
	}
	if strings.Trim(strings.ToLower(name), "abcdefghijklmnopqrstuvwxyz ") != "" {
		name = inQuotes(name)
	}
	return "{" + name + ": " + value + "}"
}

// once rejects a zone that is given a second time in another spelling.
func (g group) once(seen map[int]diag.Pos, z int, e Entry) bool {
	if first, ok := seen[z]; ok {
		g.fault(diag.Duplicate, e.Pos, "remove one", "%s: duplicate zone %s, see %v", g.where, quoted(e.Key), first)
		return false
	}
	seen[z] = e.Pos
	return true
}

// zone returns the index of the named zone, or reports an error and returns -1.
func (g group) zone(name string, pos diag.Pos) int {
	if z := names.Find(name, g.zones); z >= 0 && g.zones[z] != "" {
		return z
	}
	var known []string
	for _, z := range g.zones {
		if z != "" {
			known = append(known, z)
		}
	}
	if len(known) == 0 {
		return -1 // the zones have errors
	}
	fix := g.didYouMean(name, known)
	if len(fix) > 300 { // a site may have hundreds
		fix = "write the name of one of the zones"
	}
	g.fault(diag.UnknownName, pos, fix, "%s: unknown zone %s", g.where, quoted(name))
	return -1
}
