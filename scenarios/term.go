package scenarios

import (
	"slices"
	"strings"

	"loamledger/sim/strategy"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A TermDoc describes a key that a part of a strategy takes besides its own.
type TermDoc struct{ Key, Doc string }

// TermDocs lists the keys that say when a part is in force.
func TermDocs() []TermDoc {
	return []TermDoc{
		{"from", "first day on which the part is in force (default: the start)"},
		{"until", "last day (default: no end); a failure or removal on a known date"},
		{"off", "a list of {from, to} on which it is switched off"},
		{"lasts", "how long it works: life or fails_at, in years; unplugged, a share each year; overridden, a share; devices, one or " +
			"one per zone, each of which fails by itself; seed"},
	}
}

// TermExample is YAML that can be pasted into a strategy.
const TermExample = "hold: {rain: {at_least: 0.25 in, from: 2014-05-01, lasts: {life: 8, unplugged: 3%, overridden: 10%}}}"

func termKeys() []string {
	var keys []string
	for _, d := range TermDocs() {
		keys = append(keys, d.Key)
	}
	return keys
}

// takesTerm reports whether a kind of part takes the keys of a term: it has named
// parameters and no dates of its own.
func takesTerm(k strategy.Kind) bool {
	return !slices.ContainsFunc(k.Params, func(p strategy.Param) bool { return p.Key == "" || slices.Contains(termKeys(), p.Key) }) &&
		!slices.ContainsFunc(k.Params, func(p strategy.Param) bool { return p.Type == strategy.CalendarDay })
}

// term reads when a part is in force and returns its node without those keys.
func (g group) term(k strategy.Kind, n *Node, key string) (own *Node, t strategy.Term) {
	given := func(e Entry) bool { return slices.Contains(termKeys(), e.Key) }
	if n.Kind != Map || !takesTerm(k) || !slices.ContainsFunc(n.Entries, given) {
		return n, t
	}
	rest, dates := *n, *n
	rest.Entries = slices.DeleteFunc(slices.Clone(n.Entries), given)
	dates.Entries = slices.DeleteFunc(slices.Clone(n.Entries), func(e Entry) bool { return !given(e) })
	s := g.open(&dates, g.where+": "+key, g.path(key), termKeys()...)
	t.From, _ = s.date("from")
	t.Until, _ = s.date("until")
	if t.Until != 0 && t.Until < t.From {
		s.fault(diag.WrongOrder, dates.Get("until").Pos, "write a date on or after from", "%s: until is before from", s.where)
	}
	if off := s.has("off"); off != nil {
		for i, item := range s.items(off) {
			o := s.open(item, s.where+": off", s.path("off")+"."+quantity.Number(float64(i+1), 0), "from", "to")
			if o.node == nil {
				continue
			}
			var d strategy.Days
			var ok [2]bool
			d.From, ok[0] = o.date("from")
			d.To, ok[1] = o.date("to")
			switch {
			case !ok[0] || !ok[1]:
				o.missing("from", "add from and to, the first and the last day")
				o.missing("to", "add from and to, the first and the last day")
			case d.To < d.From:
				o.fault(diag.WrongOrder, item.Pos, "write a to on or after from", "%s: to is before from", o.where)
			default:
				t.Off = append(t.Off, d)
			}
		}
	}
	if n := s.has("lasts"); n != nil {
		t.Lasts = s.life(n)
	}
	return &rest, t
}

// life reads how long a part works.
func (g group) life(n *Node) *strategy.Life {
	s := g.open(n, g.where+": lasts", g.path("lasts"), "life", "fails_at", "unplugged", "overridden", devicesKey, "seed")
	if s.node == nil {
		return nil
	}
	bare, share := shape{bare: true}, shape{dim: quantity.Fraction}
	var l strategy.Life
	years := func(key string) float64 {
		v, ok := s.number(want{key: key, shape: bare, min: 0.05, max: 1000, quiet: true, fix: "write a number of years, from 0.05 to 1,000"})
		if !ok {
			return 0
		}
		return v
	}
	l.Years, l.FailsAt = years("life"), years("fails_at")
	if both := s.node.Get("fails_at"); both != nil && s.node.Get("life") != nil {
		s.fault(diag.Conflict, both.Pos, "remove one", "%s: both life and fails_at are given", s.where)
	}
	const never = "assumed to be none; our choice"
	l.Unplugged, _ = s.number(want{key: "unplugged", shape: share, max: 1, dflt: ourChoice(0, never)})
	l.Overridden, _ = s.number(want{key: "overridden", shape: share, max: 1, dflt: ourChoice(0, never)})
	seed, _ := s.number(want{key: "seed", shape: bare, max: 1 << 53, whole: true, dflt: ourChoice(1, "our choice")})
	l.Seed = uint64(seed)
	if n := s.has(devicesKey); n != nil {
		if i := s.known(n, deviceWords()); i >= 0 {
			l.PerZone = i == 1
			s.givenWord(s.path(devicesKey), n)
		} else {
			s.fault(diag.UnknownName, n.Pos, "write one, or one per zone", "%s: devices is %s", s.where, n.what())
		}
	} else if s.node.Get(devicesKey) == nil {
		s.defaultedWord(s.path(devicesKey), deviceWords()[0], quantity.Guess, "one device serves all zones; our choice")
	}
	if l.Years == 0 && l.FailsAt == 0 && l.Unplugged == 0 && l.Overridden == 0 && s.node.Get("life") == nil && s.node.Get("fails_at") == nil {
		s.fault(diag.MissingKey, n.Pos, "add life: 8, the mean life in years, or unplugged: 5%, the share lost each year", "%s says nothing",
			s.where)
	}
	return &l
}

const devicesKey = "devices"

// deviceWords are the words for how many devices a part has.
func deviceWords() []string { return []string{"one", "one per zone"} }

// oneDevice rejects devices of their own in a part that has one for all zones.
func (g group) oneDevice(part strategy.Part, t *strategy.Term, n *Node) {
	if t.Lasts != nil && t.Lasts.PerZone && len(strategy.DevicesOf(part)) == 0 {
		g.fault(diag.NoEffect, n.Pos, "write devices: one", "%s: devices: one per zone has no effect on %s, which has one device for all zones",
			g.where, part.Kind().Key)
	}
}

// TermText describes when a part is in force; empty for always.
func TermText(key string, t *strategy.Term) string {
	var texts []string
	if t.From != 0 {
		texts = append(texts, "from "+t.From.String())
	}
	if t.Until != 0 {
		texts = append(texts, "until "+t.Until.String())
	}
	for _, d := range t.Off {
		texts = append(texts, "off "+d.From.String()+" to "+d.To.String())
	}
	if len(texts) == 0 {
		return ""
	}
	return key + " " + strings.Join(texts, ", ")
}
