package scenarios

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/scenarios/names"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// nan marks unknown values.
var nan = math.NaN()

// A group is a Map node being read, with its name in messages and in input
// keys. A nil node reads as an empty group.
type group struct {
	*builder
	node  *Node
	where string // such as `zone "front lawn"`, put before messages
	key   string // such as "zones.front lawn", put before input keys
}

// open starts reading node as a group with the given keys. An unknown key is an
// error, as is a node of another kind.
func (b *builder) open(node *Node, where, key string, known ...string) group {
	g := group{b, node, where, key}
	if node == nil {
		return g
	}
	if node.Kind != Map {
		b.fault(diag.WrongShape, node.Pos, fmt.Sprintf("write keys under it: %s", strings.Join(known, ", ")), "%s is %s, not a group of keys",
			where, node.what())
		g.node = nil
		return g
	}
	for _, e := range node.Entries {
		if old, is := renamed(key, e.Key, known); is {
			b.fault(diag.UnknownKey, e.Pos, old.fix(e.Value), "%s: %s is called %s now", where, old.Old, old.New)
		} else if !slices.Contains(known, e.Key) {
			b.fault(diag.UnknownKey, e.Pos, keyFix(e.Key, known), "%s: unknown key %s", where, quoted(e.Key))
		}
	}
	return g
}

// elsewhere gives the right place for keys that are often misplaced.
var elsewhere = map[string]string{
	"strips": "put it under site or in a zone", "rain": "put it under site or in a zone", "coefficients": "put it under site or in a zone",
	"latitude": "put it under site", "elevation": "put it under site", "wind_height": "put it under weather",
	"rate": "put it under sprinkler", "flow": "put it under sprinkler", "uniformity": "put it under sprinkler",
	"spray_loss": "put it under sprinkler", "loss": "write it under sprinkler, as spray_loss",
	"awc": "put it under soil", "intake": "put it under soil", "surface_storage": "put it under soil", "curve_number": "put it under soil",
	"k": "put it under plant", "p": "put it under plant", "mad": "put it under refill, in a strategy", "depletion": "put it under start",
	"cycle": "put it in a program", "soak": "put it in a program", "minutes": "put it in a program",
}

func keyFix(key string, known []string) string {
	if _, digits := whole(key); digits {
		return "write a decimal point; a comma ends a value here"
	}
	if near := diag.Nearest(key, known); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	if fix, ok := elsewhere[key]; ok {
		return fix
	}
	return "valid keys: " + strings.Join(known, ", ")
}

func (b *builder) fault(code diag.Code, pos diag.Pos, fix, format string, args ...any) *diag.Error {
	return b.faults.Add(code, pos, fix, format, args...)
}

// has returns the value of a key, or nil. A key without a value is an error,
// since a forgotten value must not become a default.
func (g group) has(key string) *Node {
	n := g.node.Get(key)
	if n == nil || n.Kind == Broken {
		return nil
	}
	if n.Kind == Empty {
		g.fault(diag.EmptyValue, n.Pos, "write a value, or remove the key", "%s: %s has no value", g.where, key)
		return nil
	}
	return n
}

// missing reports a missing required key.
func (g group) missing(key, fix string, yaml ...string) {
	if g.node == nil || g.node.Get(key) != nil || g.underOldName(key) {
		return // reported already
	}
	g.fault(diag.MissingKey, g.node.Pos, fix, "%s: %s is missing", g.where, key).Suggest(diag.Key, yaml...)
}

func (g group) path(key string) string {
	if key == "" {
		return g.key
	}
	if g.key == "" {
		return key
	}
	return g.key + "." + key
}

// A want describes a number in a scenario.
type want struct {
	key      string
	shape    shape
	min, max float64
	whole    bool           // only whole numbers
	dflt     catalog.Figure // used if not given, unless its Source is empty
	quiet    bool           // optional: NaN if not given and without a default
	fix      string         // for a missing or out-of-range value, if the usual text is not enough
	input    string         // path of the input, if it is not that of key
	exactAs  string         // its name in [exactKeys], if it is not key
}

// number reads one number. ok is false if the value has an error, which has
// been reported, or if an optional value is not given.
func (g group) number(w want) (v float64, ok bool) {
	n := g.has(w.key)
	if n == nil {
		if g.node != nil && g.node.Get(w.key) != nil {
			return nan, false
		}
		switch {
		case w.dflt.Known():
			g.defaulted(g.path(w.key), w.shape, w.dflt)
			return g.settled(g.path(w.key), w.shape, w.dflt), true
		case !w.quiet:
			g.missing(w.key, w.give())
		}
		return nan, false
	}
	return g.measured(n, w)
}

// measured reads node n as the number w, which may be a range unless [exactKeys] has it,
// and lists it as given.
func (g group) measured(n *Node, w want) (v float64, ok bool) {
	if isRange(n) {
		return g.ranged(n, w)
	}
	if v, ok = g.parse(n, w); ok {
		g.given(g.inputOf(w), v, w.shape, n)
	}
	return v, ok
}

// give is the fix for a missing value.
func (w want) give() string {
	if w.fix != "" {
		return w.fix
	}
	if w.shape.bare {
		return fmt.Sprintf("add %s, a number from %s to %s", w.key, quantity.Number(w.min, 4), quantity.Number(w.max, 4))
	}
	return fmt.Sprintf("add %s with a unit: %s", w.key, quantity.Names(w.shape.dim))
}

// share reports whether a bare number is near 1, so that a percentage means the
// same: a coefficient, a factor or a fraction.
func (w want) share() bool { return w.shape.bare && !w.whole && w.max <= maxK }

// parse reads node n as the number w.
func (g group) parse(n *Node, w want) (float64, bool) {
	name := w.key
	if name != "" {
		name += " "
	}
	if n.Kind != Scalar {
		g.fault(diag.WrongShape, n.Pos, w.give(), "%s: %sis %s, not a single value", g.where, name, n.what())
		return nan, false
	}
	if isRange(n) {
		g.refuse(n, w)
		return nan, false
	}
	var v float64
	if w.shape.bare {
		var err error
		if v, err = quantity.Parse(n.Text, quantity.Fraction); err == nil && w.share() {
			g.understand(n, exact(v, w.shape)) // 40% is 0.4
		} else if v, err = quantity.ParseNumber(strings.TrimSpace(n.Text)); err != nil {
			g.fault(diag.NotANumber, n.Pos, w.bareFix(n.Text), "%s: %s%s", g.where, name, err).
				Suggest(diag.Value, w.bareValue(n.Text)...)
			return nan, false
		}
	} else {
		var err error
		if v, err = quantity.Parse(n.Text, w.shape.dim); err != nil {
			f := err.(*quantity.Fault)
			g.fault(diag.BadQuantity, n.Pos, f.Fix, "%s: %s%s", g.where, name, f.Msg)
			return nan, false
		}
	}
	const slack = 1e-9 // a limit written in another unit must not fail by rounding
	low, high := w.min-float64(slack*math.Abs(w.min)), w.max+float64(slack*math.Abs(w.max))
	show := w.shower(n.Text, g.sc.Units)
	fix := w.fix
	switch {
	case v < low || v > high:
		if fix == "" {
			fix = fmt.Sprintf("write a value from %s to %s", show(w.min), show(w.max))
		}
		g.fault(diag.OutOfRange, n.Pos, fix, "%s: %s%s is outside %s to %s", g.where, name, n.Text, show(w.min), show(w.max))
		return nan, false
	case w.whole && math.Abs(v-math.Round(v)) > slack:
		g.fault(diag.OutOfRange, n.Pos, "write a whole number", "%s: %s%s is not a whole number", g.where, name, n.Text)
		return nan, false
	}
	if w.whole {
		v = math.Round(v)
	}
	return min(max(v, w.min), w.max), true
}

// shower returns a function that writes limits in the unit of text, the value
// they are shown with.
func (w want) shower(text string, sys quantity.System) func(float64) string {
	if !w.shape.bare && w.shape.dim != quantity.Days { // days have a plural
		if _, name := quantity.Cut(text); name != "" {
			if u, ok := quantity.Find(name, w.shape.dim); ok {
				space := " "
				if u.Name == "%" {
					space = ""
				}
				return func(v float64) string { return quantity.Number(u.Of(v), 3) + space + u.Name }
			}
		}
	}
	return func(v float64) string { return w.shape.format(v, sys) }
}

// word reads a nonempty text. ok is false if it is missing.
func (g group) word(key string) (n *Node, ok bool) {
	n = g.has(key)
	if n == nil {
		return nil, false
	}
	if n.Kind != Scalar {
		g.fault(diag.WrongShape, n.Pos, "write a single word or text", "%s: %s is %s, not a single value", g.where, key, n.what())
		return nil, false
	}
	if strings.TrimSpace(n.Text) == "" {
		g.fault(diag.EmptyValue, n.Pos, "write a text, or remove the key", "%s: %s is empty", g.where, key)
		return nil, false
	}
	return n, true
}

// systemNames maps other names of the two unit systems to si and us. Imperial
// means us; the imperial gallon is not supported.
var systemNames = map[string]string{"metric": "si", "english": "us", "imperial": "us"}

// choice reads one of the given words.
func (g group) choice(key string, known []string) (word string, ok bool) {
	n, ok := g.word(key)
	if !ok {
		return "", false
	}
	text := strings.TrimSpace(n.Text)
	if other := systemNames[strings.ToLower(text)]; key == "units" && other != "" {
		text = other
	}
	if i := names.Find(text, known); i >= 0 {
		g.understand(n, known[i])
		g.givenWord(g.path(key), n)
		return known[i], true
	}
	g.fault(diag.UnknownName, n.Pos, g.didYouMean(n.Text, known), "%s: unknown %s %s", g.where, key, quoted(n.Text))
	return "", false
}

// flag reads true or false.
func (g group) flag(n *Node, key string) (v, ok bool) {
	if n.Kind == Scalar {
		switch strings.ToLower(n.Text) {
		case "true", "yes", "on":
			return true, true
		case "false", "no", "off":
			return false, true
		}
	}
	g.fault(diag.WrongShape, n.Pos, "write true or false", "%s: %s is %s, not true or false", g.where, key, n.what())
	return false, false
}

// items returns the entries of a list; a single value counts as a list of one.
func (g group) items(n *Node) []*Node {
	if n.Kind == List {
		return n.Items
	}
	return []*Node{n}
}
