package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios/names"
	"loamledger/sim/meter"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A MeterUse is what is known of the use that a meter has seen.
type MeterUse struct {
	People    float64      // who live there; 0 if not given
	Base      meter.Method // of base use; empty for the default
	BaseM3Day float64      // base use that is stated [m³/d]; 0 if not given
	Changed   cal.Date     // day from which other settings ran; 0 for none
	ChangedTo int          // index of the strategy that has run since; -1 if not given
	Events    []meter.Event
	// EventsStated is set if events are given, be it that there were none.
	EventsStated bool

	changedTo *Node
}

// Limits of what a meter can be told.
const (
	mostPeople  = 10000
	leastBaseM3 = 1e-4
	mostBaseM3  = 1e5
	mostEvents  = 200
	mostEventM3 = 1e6
)

// meterUseKeys are the keys of a meter that [group.meterUse] reads.
func meterUseKeys() []string {
	return []string{"people", "base", "base_use", "changed", "changed_to", "events"}
}

// meterUse reads what is known of the use. The strategy that ran after a change is
// found by [builder.changedTo].
func (g group) meterUse() MeterUse {
	u := MeterUse{ChangedTo: -1}
	people := want{key: "people", shape: shape{bare: true}, min: 0.5, max: mostPeople, quiet: true,
		fix: fmt.Sprintf("write how many people live there, from 0.5 to %d", mostPeople)}
	if v, ok := g.number(people); ok {
		u.People = v
	}
	var known []string
	for _, m := range meter.Methods() {
		known = append(known, m.Key)
	}
	if word, ok := g.choice("base", known); ok {
		u.Base = meter.Methods()[slices.Index(known, word)].Method
	}
	g.baseUse(&u)
	if d, ok := g.date("changed"); ok {
		u.Changed = d
	}
	if n, ok := g.word("changed_to"); ok {
		g.givenWord(g.path("changed_to"), n)
		if u.changedTo = n; g.node.Get("changed") == nil {
			g.fault(diag.MissingKey, n.Pos, "add changed, the day from which it ran", "%s: changed_to requires changed", g.where)
		}
	}
	g.events(&u)
	return u
}

// baseUse reads the base use of a day; it counts unless another method is named.
func (g group) baseUse(u *MeterUse) {
	n := g.has("base_use")
	switch {
	case n != nil:
		u.BaseM3Day, _ = g.number(want{key: "base_use", shape: shape{dim: quantity.Volume}, min: leastBaseM3, max: mostBaseM3,
			fix: "write the volume of a day, such as 160 gal"})
		if u.Base == "" {
			u.Base = meter.Stated
		}
	case u.Base == meter.Stated:
		g.fault(diag.MissingKey, g.node.Get("base").Pos, "add base_use, the volume of a day, such as 160 gal",
			"%s: base: stated requires base_use",
			g.where)
	}
}

// noEvents is the word for the statement that there were none.
const noEvents = "none"

// events reads the list of events, or the word that there were none.
func (g group) events(u *MeterUse) {
	n := g.has("events")
	if n == nil {
		return
	}
	const fix = "write none, or a list such as [{kind: pool-fill, from: 2023-06-01, to: 2023-06-03, volume: 4000 gal, reason: new liner}]"
	switch {
	case n.Kind == Scalar && strings.EqualFold(strings.TrimSpace(n.Text), noEvents):
		g.givenWord(g.path("events"), n)
		u.EventsStated = true
		return
	case n.Kind != List:
		g.fault(diag.WrongShape, n.Pos, fix, "%s: events is %s, not a list", g.where, n.what())
		return
	case len(n.Items) > mostEvents:
		g.fault(diag.TooLarge, n.Items[mostEvents].Pos, "list the largest", "%s: events has %d entries; the maximum is %d", g.where, len(n.Items),
			mostEvents)
		return
	}
	u.EventsStated = true
	var kinds []string
	for _, k := range meter.EventKinds() {
		kinds = append(kinds, string(k.Kind))
	}
	for i, item := range n.Items {
		e := g.open(item, fmt.Sprintf("%s: event %d", g.where, i+1), fmt.Sprintf("%s.%d", g.path("events"), i+1), "kind", "from", "to", "volume",
			"reason")
		if e.node == nil {
			continue
		}
		var ev meter.Event
		kind, ok := e.choice("kind", kinds)
		if ev.Kind = meter.EventKind(kind); !ok {
			e.missing("kind", "add kind, one of: "+strings.Join(kinds, ", "))
		}
		if ev.From, ok = e.date("from"); !ok {
			e.missing("from", "add from, its first day")
		}
		if ev.To = ev.From; e.node.Get("to") != nil {
			ev.To, ok = e.date("to")
			if ok && ev.To < ev.From {
				e.fault(diag.WrongOrder, e.node.Get("to").Pos, "write a date on or after "+ev.From.String(), "%s: to %v is before from %v", e.where,
					ev.To, ev.From)
			}
		}
		if e.node.Get("volume") != nil {
			ev.AdjustM3, ev.Adjust = e.number(want{key: "volume", shape: shape{dim: quantity.Volume}, min: -mostEventM3, max: mostEventM3})
		}
		if w, ok := e.word("reason"); ok {
			ev.Reason = strings.TrimSpace(w.Text)
			e.givenWord(e.path("reason"), w)
		} else {
			e.missing("reason", "add reason, why it is removed or adjusted")
		}
		u.Events = append(u.Events, ev)
	}
}

// changedTo finds the strategies that have run since a change at a meter. The
// strategies are known.
func (b *builder) changedTo() {
	var known []string
	for i := range b.sc.Strategies {
		known = append(known, b.sc.Strategies[i].Name)
	}
	for i := range b.sc.Meters {
		m := &b.sc.Meters[i]
		n := m.changedTo
		if n == nil {
			continue
		}
		if m.ChangedTo = names.Find(n.Text, known); m.ChangedTo < 0 {
			b.fault(diag.UnknownName, n.Pos, b.didYouMean(n.Text, known), "meter %q: no strategy is called %s", m.Name, quoted(n.Text))
			continue
		}
		b.understand(n, known[m.ChangedTo])
	}
}
