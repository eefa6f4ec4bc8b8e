package scenarios

import (
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Change is one change of a strategy to hardware, planting, soil or area.
type Change struct {
	Name  string // as given, or the keys that it changes
	pos   diag.Pos
	Zones []bool   // by zone
	From  cal.Date // first day; 0 for the whole record
	// minutes says what becomes of run times, and share is their factor for a
	// percentage.
	minutes minutesRule
	share   float64
	Cost    float64 // in the money of the site; NaN if not given
	// RemovalDays is the number of days before From on which the old plants are dead.
	RemovalDays int
	Establish   *Establish // nil for plants that are established at once
	Taken       bool       // the zones are taken out of irrigation
	planting    bool       // other plants are planted
	Values      []Changed  // what it changes, in order, for the strategy's changes so far

	entries []Entry // keys of a zone
	item    *Node
}

// A minutesRule says what a change does to run times.
type minutesRule uint8

// The rules.
const (
	sameDepth   minutesRule = iota // run times change so that gross depth does not
	sameMinutes                    // run times stay
	byPercent                      // run times are multiplied
)

// minutesRules are the words for rules that are not a percentage.
func minutesRules() []string { return []string{"same depth", "same minutes"} }

// An Establish is how new plants grow in: each value runs linearly, in steps of a
// week, from what it is on the first day to what it is when they are established.
type Establish struct {
	Days       int
	rootDepthM float64 // on the first day; NaN for the full depth
	KShare     float64 // share of the full coefficient on the first day
	Minutes    float64 // factor on run times on the first day
}

// A Changed is one parameter of a zone, before and after a change. An empty text
// means that it has none.
type Changed struct {
	Zone          int
	Key           string
	Before, After ZoneValue
}

// NewPlantTolerance is the tolerance of plants until they are established; deadK is the coefficient of ground
// whose plants are dead.
const (
	NewPlantTolerance = 0.9
	deadK             = 0.15
)

const (
	establishingSource = "plants need nearly all of their need met until their roots are down; our choice"
	deadSource         = "bare ground between rains; our choice, from memory of FAO-56 chapter 7"
)

// A ChangeDoc describes a key of a change.
type ChangeDoc struct{ Key, Doc string }

// ChangeDocs lists the keys of a change that are not those of a zone. The last entry is
// for the keys of a zone.
func ChangeDocs() []ChangeDoc {
	return []ChangeDoc{
		{"name", "what to call it (default: its keys)"},
		{"zones", "all, or a list of zones (required)"},
		{"from", "first day, such as 2015-04-01 (default: the whole record)"},
		{"minutes", "same depth, so that run times follow the rate; same minutes; or a percentage of run times (default: same depth)"},
		{"cost", "in the money of the site, without a unit"},
		{"removal", "days before from on which the old plants are dead: not watered, not judged, and little evaporates"},
		{establishKey, "how new plants grow in from that day: days, root_depth, k and minutes on the first day; all end at their full value"},
		{"(a key of a zone)", "its new value: sprinkler, plant, density, soil, root_depth, leak and others; area: none ends its irrigation"},
	}
}

// ChangesExample is YAML that can be pasted into a strategy.
const ChangesExample = "changes: [{zones: all, sprinkler: {uniformity: 70%}, minutes: same depth, cost: 900}]"

// inChange are the keys of a change that are not those of a zone.
func inChange() []string {
	var keys []string
	docs := ChangeDocs()
	for _, d := range docs[:len(docs)-1] {
		keys = append(keys, d.Key)
	}
	return keys
}

// unchangeable are the keys of a zone that are no property of the place.
func unchangeable() []string {
	return []string{"name", "controller", "meter", "strips", "balance", "storage"}
}

// changesKey is the key of changes in a strategy.
const changesKey = "changes"

// readChanges reads the changes of a strategy; nil if it has none, or one has an
// error.
func (b *builder) readChanges(g group, name string) []Change {
	node := g.has(changesKey)
	if node == nil {
		return nil
	}
	items := g.items(node)
	if node.Kind == Scalar || len(items) == 0 {
		g.fault(diag.WrongShape, node.Pos, "write a list, with a dash before each change", "%s: changes is %s, not a list of changes", g.where,
			node.what())
		return nil
	}
	if len(items) > mostChanges {
		g.fault(diag.TooLarge, items[mostChanges].Pos, "split the strategy", "%s: changes has %d entries; the maximum is %d", g.where, len(items),
			mostChanges)
		return nil
	}
	before := b.faults.Len()
	var out []Change
	for i, item := range items {
		out = append(out, b.readChange(g, item, i))
	}
	if b.faults.Len() > before {
		return nil
	}
	return out
}

// mostChanges limits the changes of a strategy.
const mostChanges = 50

func (b *builder) readChange(strategy group, item *Node, i int) Change {
	number := quantity.Number(float64(i+1), 0)
	known := inChange()
	for _, key := range zoneKeys(b.params, "") {
		if !slices.Contains(unchangeable(), key) && !slices.Contains(known, key) {
			known = append(known, key)
		}
	}
	c := Change{pos: item.Pos, item: item, Cost: nan}
	g := b.open(item, strategy.where+": change "+number, strategy.path(changesKey)+"."+number, known...)
	if g.node == nil {
		return c
	}
	for _, e := range g.node.Entries {
		if !slices.Contains(inChange(), e.Key) && g.has(e.Key) != nil {
			c.entries = append(c.entries, e)
		}
	}
	c.Name = c.keysText()
	if n, ok := g.word("name"); ok && g.tidy(n) {
		c.Name = strings.TrimSpace(n.Text)
		g.givenWord(g.path("name"), n)
	}
	if n := g.has("zones"); n != nil {
		c.Zones = g.zoneNames(n, "zones")
	} else {
		g.missing("zones", "add zones: all, or a list of zones", "zones: all")
	}
	c.From, _ = g.date("from")
	g.readMinutes(&c)
	if v, ok := g.number(want{key: "cost", shape: shape{bare: true}, max: 1e12, quiet: true}); ok {
		c.Cost = v
	}
	if n := g.node.Get("area"); n != nil && n.Kind == Scalar && strings.EqualFold(strings.TrimSpace(n.Text), "none") {
		c.Taken = true
		g.givenWord(g.path("area"), n)
		c.entries = slices.DeleteFunc(c.entries, func(e Entry) bool { return e.Key == "area" })
	}
	g.readPlanting(&c)
	if len(c.entries) == 0 && !c.Taken && g.node.Get("minutes") == nil {
		g.fault(diag.MissingKey, item.Pos, "add what changes, such as sprinkler: {uniformity: 70%}, or minutes: 80%", "%s changes nothing",
			g.where)
	}
	return c
}

// readMinutes reads what becomes of run times.
func (g group) readMinutes(c *Change) {
	n := g.has("minutes")
	if n == nil {
		if g.node.Get("minutes") == nil {
			g.defaultedWord(g.path("minutes"), minutesRules()[sameDepth], quantity.Guess, "run times follow the rate; our choice")
		}
		return
	}
	if n.Kind == Scalar {
		if i := g.known(n, minutesRules()); i >= 0 {
			c.minutes = minutesRule(i)
			g.givenWord(g.path("minutes"), n)
			return
		}
		if number, unit := quantity.Cut(n.Text); number == "" || unit == "" {
			g.fault(diag.UnknownName, n.Pos, "write same depth, same minutes, or a percentage such as 80%", "%s: minutes is %s", g.where, n.what())
			return
		}
	}
	w := want{key: "minutes", shape: shape{dim: quantity.Fraction}, max: 10, exactAs: changedMinutes,
		fix: "write same depth, same minutes, or a percentage from 0% to 1000%"}
	if v, ok := g.measured(n, w); ok {
		c.minutes, c.share = byPercent, v
	}
}

// readPlanting reads how old plants are removed and new ones established.
func (g group) readPlanting(c *Change) {
	plants := slices.ContainsFunc(c.entries, func(e Entry) bool { return e.Key == "plant" })
	for _, key := range []string{"removal", establishKey} {
		n := g.has(key)
		switch {
		case n == nil:
		case !plants && !(key == "removal" && c.Taken):
			g.fault(diag.NoEffect, n.Pos, "add plant, or remove "+key, "%s: %s has no effect without plant", g.where, key)
		case c.From == 0 && g.node.Get("from") == nil:
			g.fault(diag.MissingKey, n.Pos, "add from, the day of the planting, or remove "+key, "%s: %s requires from", g.where, key).
				SuggestAt(g.node.Pos, diag.Key, "from: 2015-10-01")
		}
	}
	days := shape{dim: quantity.Days}
	if v, ok := g.number(want{key: "removal", shape: days, max: 3650, whole: true, quiet: true}); ok {
		c.RemovalDays = int(v)
		g.defaulted(g.path("removal.k"), shape{bare: true}, ourChoice(deadK, deadSource))
	}
	n := g.has(establishKey)
	if n == nil {
		return
	}
	e := g.open(n, g.where+": establish", g.path(establishKey), "days", "root_depth", "k", "minutes")
	if e.node == nil {
		return
	}
	out := &Establish{rootDepthM: nan}
	length, lengthOK := e.number(want{key: "days", shape: days, min: 1, max: 3650, whole: true,
		fix: "add days, the length of the establishment, such as 90 days"})
	out.rootDepthM, _ = e.number(want{key: "root_depth", shape: shape{dim: quantity.Length}, min: leastRootsM, max: 5,
		dflt: ourChoice(0.05, "roots of sod or of a root ball; our choice")})
	out.KShare, _ = e.number(want{key: "k", shape: shape{dim: quantity.Fraction}, min: 0.05, max: 2,
		dflt: ourChoice(1, "new plants use what established ones use; our choice")})
	out.Minutes, _ = e.number(want{key: "minutes", shape: shape{dim: quantity.Fraction}, max: 10,
		dflt: ourChoice(1, "no extra water; our choice")})
	g.defaulted(e.path("tolerance"), shape{dim: quantity.Fraction}, ourChoice(NewPlantTolerance, establishingSource))
	if lengthOK {
		out.Days = int(length)
		c.Establish = out
	}
}

func ourChoice(v float64, source string) catalog.Figure {
	return catalog.Figure{Value: v, Grade: catalog.Guess, Source: source}
}

// keysText names what a change changes by its keys.
func (c *Change) keysText() string {
	var keys []string
	for _, e := range c.entries {
		keys = append(keys, strings.ReplaceAll(e.Key, "_", " "))
	}
	if len(keys) == 0 {
		return "minutes"
	}
	return strings.Join(keys, ", ")
}

// factor returns the factor on run times of programs of a zone with the given rates
// before and after the change, and the part of it that a refill follows.
func (c *Change) factor(before, after *Zone) (run, percent float64) {
	switch {
	case c.Taken:
		return 0, 0
	case c.minutes == sameMinutes:
		return 1, 1
	case c.minutes == byPercent:
		return c.share, c.share
	case before.PRMMH == after.PRMMH:
		return 1, 1
	}
	return before.PRMMH / after.PRMMH, 1
}

// MinutesText returns what the change does to run times, as a scenario has it.
func (c *Change) MinutesText() string {
	if c.minutes == byPercent {
		return quantity.Format(c.share, quantity.Fraction, quantity.SI)
	}
	return minutesRules()[c.minutes]
}

// Until returns the first day on which everything that the change begins is
// complete; 0 for a change of the whole record.
func (c *Change) Until() cal.Date {
	if c.From == 0 || c.Establish == nil {
		return c.From
	}
	return c.From + cal.Date(c.Establish.Days)
}

// Nothing reports whether the change leaves everything as it is: it restates values.
func (c *Change) Nothing() bool {
	return len(c.Values) == 0 && !c.Taken && !c.planting && c.RemovalDays == 0 && c.Establish == nil &&
		(c.minutes != byPercent || c.share == 1)
}

// A Stage is a strategy's zones as its changes leave them from a date on: those of
// the stretch with the same index.
type Stage struct {
	From   cal.Date
	Zones  []Zone
	Values [][]ZoneValue
}

// An Effect is the strategy with only one of its changes, and with all up to that
// one.
type Effect struct{ Alone, UpTo []strategy.Stretch }

// settled writes the change on one line, for the whole record and without a change of
// run times.
func (c *Change) settled() string {
	var keys []string
	for _, e := range c.item.Entries {
		switch e.Key {
		case "from", "minutes", "removal", establishKey:
			continue
		}
		keys = append(keys, e.Key+": "+onOneLine(e.Value))
	}
	return "{" + strings.Join(append(keys, "minutes: "+minutesRules()[sameMinutes]), ", ") + "}"
}

// onOneLine writes a tree as YAML on one line.
func onOneLine(n *Node) string {
	var parts []string
	switch n.Kind {
	case List:
		for _, item := range n.Items {
			parts = append(parts, onOneLine(item))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case Map:
		for _, e := range n.Entries {
			parts = append(parts, inQuotes(e.Key)+": "+onOneLine(e.Value))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	}
	return inQuotes(n.Text)
}
