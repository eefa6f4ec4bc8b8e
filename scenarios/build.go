package scenarios

import (
	"fmt"
	"strings"
	"unicode"

	"loamledger/scenarios/catalogue"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// builder collects what Build learns.
type builder struct {
	faults diag.List
	sc     *Scenario
	zones  []string // names of the zones, in order; "" where a zone has none
	site   siteRules
	// plantsListed says that a fault lists all plants already.
	plantsListed bool
}

// Build gives meaning to the tree of a scenario file called name. The error is
// a [*diag.Errors] with every fault found.
func Build(root *Node, name string) (*Scenario, error) { return BuildOf(root, name, strategy.Kinds()) }

// BuildOf is [Build] with strategies made of the given kinds of parts.
func BuildOf(root *Node, name string, kinds []strategy.Kind) (*Scenario, error) {
	b := &builder{sc: &Scenario{File: name}}
	if root == nil || root.Kind == Empty {
		b.fault(diag.EmptyFile, diag.Pos{File: name}, "start from a template, which the init command writes", "the scenario is empty")
		return nil, b.faults.Err()
	}
	g := b.open(root, "scenario", "", "site", "units", "weather", "zones", "programs", "strategies", "start", "limits", "forecast")
	b.units(g)
	b.readSite(g)
	b.readWeather(g)
	b.readForecast(g)
	b.readStart(g)
	b.nameZones(g)
	b.readZones(g)
	b.readPrograms(g)
	b.readLimits(g)
	b.readStrategies(g, kinds)
	b.missForecast()
	if err := b.faults.Err(); err != nil {
		return nil, err
	}
	b.sc.lookOver()
	return b.sc, nil
}

func (b *builder) units(g group) {
	b.sc.Units = quantity.SI
	if g.node.Get("units") == nil {
		b.defaultedWord("units", "si", catalogue.Guess, "files are in SI; our choice")
		return
	}
	if word, ok := g.choice("units", []string{"us", "si"}); ok && word == "us" {
		b.sc.Units = quantity.US
	}
}

func (b *builder) readStart(g group) {
	if g.node.Get("start") == nil {
		b.defaultedWord("start.depletion", "spin-up over the first 365 days", catalogue.Guess, "the same strategy, from a full root zone; our choice")
		return
	}
	s := b.open(g.has("start"), "start", "start", "depletion")
	if s.node == nil {
		return
	}
	v, ok := s.number(want{key: "depletion", shape: shape{dim: quantity.Fraction}, max: 1, fix: "write the depletion of all zones on the first day as a share of TAW, such as 30 %"})
	if ok {
		b.sc.NoSpinUp, b.sc.StartShare = true, v
	}
}

// unique refuses a name that was taken before; taken maps names, in lower
// case, to their places.
func (b *builder) unique(taken map[string]diag.Pos, what string, n *Node) bool {
	key := strings.ToLower(strings.TrimSpace(n.Text))
	if first, ok := taken[key]; ok {
		b.fault(diag.Duplicate, n.Pos, "give each its own name", "%s name %s is taken already at %v", what, quoted(n.Text), first)
		return false
	}
	taken[key] = n.Pos
	return true
}

// reserved refuses the names of the reference strategies, which every replay
// adds itself.
func (b *builder) reserved(n *Node) bool {
	for _, r := range []string{tally.NoWater, tally.LeastWater} {
		if strings.EqualFold(strings.TrimSpace(n.Text), r) {
			b.fault(diag.Duplicate, n.Pos, "choose another name", "strategy name %s is that of a reference strategy, which is in every replay", quoted(n.Text))
			return false
		}
	}
	return true
}

// name reads the name of entry i of a list such as zones. Names go into file
// columns and messages, so they are short and on one line.
func (b *builder) name(node *Node, what string, i int) (n *Node, where string) {
	where = fmt.Sprintf("%s %d", what, i+1)
	if node.Kind != Map {
		b.fault(diag.WrongShape, node.Pos, "write its keys, such as name", "%s is %s, not a group of keys", where, node.what())
		return nil, where
	}
	g := group{b, node, where, ""}
	n, ok := g.word("name")
	if !ok {
		g.missing("name", "add name, by which the rest of the scenario calls it")
		return nil, where
	}
	text := strings.TrimSpace(n.Text)
	if !g.tidy(n) {
		return nil, where
	}
	if strings.ContainsRune("=+-@", rune(text[0])) {
		g.fault(diag.BadName, n.Pos, "begin it with a letter or a figure", "%s: a spreadsheet that opens the ledger would take the name %s for a formula", g.where, quoted(text))
		return nil, where
	}
	n.Text = text
	return n, fmt.Sprintf("%s %q", what, text)
}

// The most zones, and the most programs and strategies: they bound the work
// that a hostile file can ask for.
const (
	mostZones = 5000
	mostLists = 500
)

// tidy refuses a name that is no short text on one line.
func (g group) tidy(n *Node) bool {
	hidden := func(r rune) bool { return !unicode.IsPrint(r) || r == unicode.ReplacementChar }
	if len(n.Text) > 80 || strings.ContainsFunc(strings.TrimSpace(n.Text), hidden) {
		g.fault(diag.BadName, n.Pos, "write a short name on one line", "%s: name %s is longer than 80 bytes or holds a character that cannot be printed", g.where, quoted(n.Text))
		return false
	}
	return true
}

// entries returns the list under a required key of the scenario.
func (g group) entries(key string, most int, fix string) []*Node {
	n := g.has(key)
	if n == nil {
		g.missing(key, fix)
		return nil
	}
	if n.Kind != List {
		g.fault(diag.WrongShape, n.Pos, "write a list, each entry after a dash", "%s is %s, not a list", key, n.what())
		return nil
	}
	if len(n.Items) == 0 {
		g.fault(diag.EmptyValue, n.Pos, fix, "%s is empty", key)
	}
	if len(n.Items) > most {
		g.fault(diag.TooLarge, n.Items[most].Pos, "part the site", "%s lists %d, more than %d", key, len(n.Items), most)
		return nil
	}
	return n.Items
}
