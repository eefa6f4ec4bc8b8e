package scenarios

import (
	"fmt"
	"strings"
	"unicode"

	"loamledger/scenarios/catalog"
	"loamledger/scenarios/names"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// builder collects the results and errors of Build.
type builder struct {
	faults diag.List
	sc     *Scenario
	zones  []string // names of the zones, in order; "" for a zone without one
	site   siteRules
	params []ZoneParam      // of a zone
	exact  map[*Node]string // numbers and words read, written exactly
	readAs map[*Node]string // what words were understood as, where written otherwise
	// unnamed is set if a controller or meter has no valid name.
	unnamed bool
	shut    map[int]bool         // programs reported as outside the limits
	inZone  *zoneReader          // whose numbers are read; nil outside of zones
	owner   owner                // of numbers that are not of a zone
	causes  map[diag.Pos]string  // of ranges outside of zones, by where they are written
	pick    func(*Doubt) float64 // of a drawn scenario; else nil
	// plantsListed is set once an error has listed all plants.
	plantsListed bool
}

// Build interprets the tree of a scenario file called name. The error is a
// [*diag.Errors] with every error found. more lists zone parameters in addition
// to those of [ZoneParams].
func Build(root *Node, name string, more ...ZoneParam) (*Scenario, error) {
	return BuildOf(root, name, strategy.Kinds(), more...)
}

// BuildOf is like [Build], with strategies made of the given kinds of parts.
func BuildOf(root *Node, name string, kinds []strategy.Kind, more ...ZoneParam) (*Scenario, error) {
	return build(root, name, kinds, nil, more)
}

// BuildDrawn is like [Build], with the value of every doubt chosen by pick. It omits what
// only a record of the run needs, [Scenario.Canonical] and the check of rate against flow.
func BuildDrawn(root *Node, name string, pick func(*Doubt) float64) (*Scenario, error) {
	sc, err := build(root, name, strategy.Kinds(), pick, nil)
	if err == nil {
		sc.lookOver()
	}
	return sc, err
}

// build is BuildOf with what chooses the values of doubts, nil for their middle.
func build(root *Node, name string, kinds []strategy.Kind, pick func(*Doubt) float64, more []ZoneParam) (*Scenario, error) {
	b := &builder{sc: &Scenario{File: name}, params: append(ZoneParams(), more...), exact: map[*Node]string{}, readAs: map[*Node]string{},
		shut: map[int]bool{}, causes: map[diag.Pos]string{}, pick: pick}
	b.sc.again = func(pick func(*Doubt) float64) (*Scenario, error) {
		return build(root.cloned(), name, kinds, pick, more)
	}
	if root == nil || root.Kind == Empty {
		b.fault(diag.EmptyFile, diag.Pos{File: name}, "start from the template that the init command writes", "the scenario is empty")
		return nil, b.faults.Err()
	}
	if root.Kind != Map { // a file of another kind: its content is not repeated
		b.fault(diag.WrongShape, root.Pos, "start from the template that the init command writes", "this is not a scenario: it has no keys")
		return nil, b.faults.Err()
	}
	g := b.open(root, "scenario", "", "site", "units", "weather", "zones", "programs", "strategies", "baseline", "start", "limits",
		"timer", "controllers", "meters", "forecast", "verdict", "money", "allowance", "ranges",
		"prepared_by", "decision", "assumed")
	b.units(g)
	b.readSite(g)
	b.readWeather(g)
	b.readForecast(g)
	b.readStart(g)
	b.nameZones(g)
	b.readDevices(g)
	b.readZones(g)
	b.readPrograms(g)
	b.readLimits(g)
	b.readTimer(g)
	b.fullControllers()
	b.readStrategies(g, kinds)
	b.sc.fitMonthly()
	b.readBaseline(g)
	b.changedTo()
	b.schedules()
	b.readVerdict(g)
	b.readMoney(g)
	b.readAllowance(g)
	b.readRanges(g)
	b.readPrepared(g)
	b.readDecision(g)
	b.missForecast()
	b.readAssumed(g)
	if err := b.faults.Err(); err != nil {
		return nil, err
	}
	if pick != nil { // nobody reads the rest
		return b.sc, nil
	}
	b.sc.Canonical = b.canonical(root)
	b.sc.lookOver()
	return b.sc, nil
}

func (b *builder) units(g group) {
	b.sc.Units = quantity.SI
	if g.node.Get("units") == nil {
		b.defaultedWord("units", "si", catalog.Guess, "output files are in SI; our choice")
		return
	}
	if word, ok := g.choice("units", []string{"us", "si"}); ok && word == "us" {
		b.sc.Units = quantity.US
	}
}

func (b *builder) readStart(g group) {
	if g.node.Get("start") == nil {
		b.defaultedWord("start.depletion", "spin-up over the first 365 days", catalog.Guess,
			"the same strategy, from a full root zone; a shorter record has no spin-up and starts from a full root zone; our choice")
		return
	}
	s := b.open(g.has("start"), "start", "start", "depletion")
	if s.node == nil {
		return
	}
	v, ok := s.number(want{key: "depletion", shape: shape{dim: quantity.Fraction}, max: 1,
		fix: "write the depletion of all zones on the first day as a share of TAW, such as 30%"})
	if ok {
		b.sc.NoSpinUp, b.sc.StartShare = true, v
	}
}

// everything is the word for all zones, and no name.
const everything = "all"

// unique rejects a name that is reserved or in use; taken maps names, by their
// keys, to their positions.
func (b *builder) unique(taken map[string]diag.Pos, what string, n *Node) bool {
	key := names.Key(n.Text)
	if first, ok := taken[key]; ok {
		b.fault(diag.Duplicate, n.Pos, "give each its own name; case, spaces, hyphens and the form of accented letters make no difference",
			"duplicate %s name %s, see %v", what, quoted(n.Text), first)
		return false
	}
	if key == everything {
		b.fault(diag.BadName, n.Pos, "choose another name", "%s name %s is reserved: it means every %s", what, quoted(n.Text), what)
		return false
	}
	taken[key] = n.Pos
	return true
}

// reserved rejects the names of the reference strategies, which every replay
// adds.
func (b *builder) reserved(n *Node) bool {
	for _, r := range []string{tally.NoWater, tally.LeastWater} {
		if names.Key(n.Text) == names.Key(r) {
			b.fault(diag.Duplicate, n.Pos, "choose another name", "strategy name %s is reserved for a reference strategy", quoted(n.Text))
			return false
		}
	}
	return true
}

// name reads the name of entry i of a list such as zones. Names appear in file
// columns and messages, so they must be short and on one line.
func (b *builder) name(node *Node, what string, i int) (n *Node, where string) {
	where = fmt.Sprintf("%s %d", what, i+1)
	if node.Kind != Map {
		b.fault(diag.WrongShape, node.Pos, "write its keys, such as name", "%s is %s, not a group of keys", where, node.what())
		return nil, where
	}
	g := group{b, node, where, ""}
	n, ok := g.word("name")
	if !ok {
		g.missing("name", "add name; the rest of the scenario refers to it")
		return nil, where
	}
	text := strings.TrimSpace(n.Text)
	if !g.tidy(n) {
		return nil, where
	}
	if strings.ContainsRune("=+-@", rune(text[0])) {
		g.fault(diag.BadName, n.Pos, "begin it with a letter or a digit", "%s: a spreadsheet would read the name %s as a formula", g.where,
			quoted(text))
		return nil, where
	}
	n.Text = text
	return n, fmt.Sprintf("%s %q", what, text)
}

// Maximum numbers of zones, and of programs and strategies. They bound the work
// that a hostile file can cause.
const (
	mostZones = 5000
	mostLists = 500
)

// tidy rejects a name that is too long or not printable on one line.
func (g group) tidy(n *Node) bool {
	hidden := func(r rune) bool { return !unicode.IsPrint(r) || r == unicode.ReplacementChar }
	if len(n.Text) > 80 || strings.ContainsFunc(strings.TrimSpace(n.Text), hidden) {
		g.fault(diag.BadName, n.Pos, "write a short name on one line", "%s: name %s is longer than 80 bytes or has a nonprintable character",
			g.where, quoted(n.Text))
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
		g.fault(diag.WrongShape, n.Pos, "write a list, with a dash before each entry", "%s is %s, not a list", key, n.what())
		return nil
	}
	if len(n.Items) == 0 {
		g.fault(diag.EmptyValue, n.Pos, fix, "%s is empty", key)
	}
	if len(n.Items) > most {
		g.fault(diag.TooLarge, n.Items[most].Pos, "split the site", "%s has %d entries; the maximum is %d", key, len(n.Items), most)
		return nil
	}
	return n.Items
}
