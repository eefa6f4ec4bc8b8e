package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/sim/draw"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Doubt is a number that is not exactly known: one written as a range in the
// scenario, or a default of the catalog that has a range.
type Doubt struct {
	// Cause names what is in doubt. Numbers of the same cause are off together, each at
	// the same place in its range: ETo, rain, soil and spray loss are the same error all
	// over the site, plants that of their group; area, rate and uniformity are of a zone
	// alone.
	Cause  string
	Key    string // the parameter, such as "sprinkler.rate"
	Zone   string // of the zone; empty for the whole site
	Whose  string // what the cause covers: a zone, a plant group, or the site
	Input  string // such as "zones.front lawn.sprinkler.rate"
	Range  draw.Range
	Replay float64 // the value that the replay has
	Given  bool    // written as a range in the scenario; else a default
	Source string
	Grade  catalog.Grade
	shape  shape
}

// Text returns the range as a person would write it in system sys.
func (d *Doubt) Text(sys quantity.System) string {
	show := func(v float64) string { return d.shape.format(v, sys) }
	if d.Range.Flat {
		return show(d.Range.Low) + to + show(d.Range.High)
	}
	return show(d.Range.Low) + to + show(d.Range.Mode) + to + show(d.Range.High)
}

// Value returns one value of the doubt as a person would write it in system sys.
func (d *Doubt) Value(v float64, sys quantity.System) string {
	if d.shape.bare {
		return quantity.Number(v, 2)
	}
	return d.shape.format(v, sys)
}

// to is between the numbers of a range.
const to = " to "

// Ranges are how far the weather may be off, and how draws are made.
type Ranges struct {
	ETo, Rain float64 // factors on ETo and rain; 1 unless the scenario says otherwise
	Draws     int     // 0 if not given
	Seed      uint64
}

// Names of the whole site, and of plants without a group.
const (
	WholeSite  = "the site"
	otherPlant = "other plants"
)

// The defaults. A tenth to either side is a standard deviation of 6%, the planning
// figure for both.
var (
	etoOff  = catalog.Figure{Value: 1, Low: 0.9, High: 1.1, Grade: catalog.Guess, Source: "the site differs from the station; our choice"}
	rainOff = catalog.Figure{Value: 1, Low: 0.9, High: 1.1, Grade: catalog.Guess,
		Source: "a gauge and the site differ; at least this over years; our choice"}
)

// MostDraws is the maximum number of draws.
const MostDraws = 100_000

// readRanges reads how far the weather may be off, and how draws are made.
func (b *builder) readRanges(top group) {
	g := b.open(top.has("ranges"), "ranges", "ranges", "eto", "rain", "draws", "seed")
	r := &b.sc.Ranges
	r.Seed = 1
	for _, v := range []struct {
		key string
		at  *float64
		f   catalog.Figure
	}{{"eto", &r.ETo, etoOff}, {"rain", &r.Rain, rainOff}} {
		doubt := Doubt{Cause: v.key, Key: v.key, Whose: WholeSite, Input: "ranges." + v.key, shape: shape{dim: quantity.Fraction}}
		n := g.has(v.key)
		if n == nil {
			doubt.Replay = 1
			*v.at = b.doubted(doubt, rangeOf(v.f), v.f)
			continue
		}
		w := want{key: v.key, shape: doubt.shape, min: 0.5, max: 1.5, fix: "write a share of what the station measures, such as 90% to 110%"}
		if span, ok := g.span(n, w); ok {
			doubt.Given, doubt.Replay = true, 1 // the replay has what the station measured
			*v.at = b.doubted(doubt, span, catalog.Figure{Value: span.Mode})
			g.given(g.path(v.key), span.Mode, w.shape, n)
			b.exact[n] = exactRange(span, w.shape)
		}
	}
	if g.node == nil {
		return
	}
	bare := shape{bare: true}
	if v, ok := g.number(want{key: "draws", shape: bare, min: 100, max: MostDraws, whole: true, quiet: true,
		fix: "write a number of draws, from 100 to 100000"}); ok {
		r.Draws = int(v)
	}
	if v, ok := g.number(want{key: "seed", shape: bare, max: 1 << 53, whole: true, quiet: true}); ok {
		r.Seed = uint64(v)
	}
}

// rangeOf returns the range of a figure, most likely at its value; not known if the
// figure has none, or its value is not in it.
func rangeOf(f catalog.Figure) draw.Range {
	if !f.Known() || f.High <= f.Low {
		return draw.Range{Mode: f.Value}
	}
	return draw.Around(f.Low, f.Value, f.High)
}

// doubted lists a doubt, if its range is one, and returns the value to use: the figure's
// or, of a drawn scenario, the drawn one.
func (b *builder) doubted(d Doubt, r draw.Range, f catalog.Figure) float64 {
	d.Range, d.Source, d.Grade = r, f.Source, f.Grade
	if d.Replay == 0 {
		d.Replay = f.Value
	}
	if !r.Known() {
		return f.Value
	}
	b.sc.Doubts = append(b.sc.Doubts, d)
	if b.pick == nil {
		return f.Value
	}
	return b.pick(&d)
}

// isRange reports whether node n is written as a range.
func isRange(n *Node) bool { return n != nil && n.Kind == Scalar && strings.Contains(n.Text, to) }

// span reads two numbers as a range in which all values are equally likely, or three as
// one with the most likely value in the middle; one number is no range. A unit after the
// last number is that of all.
func (g group) span(n *Node, w want) (r draw.Range, ok bool) {
	if !isRange(n) {
		v, ok := g.parse(n, w)
		return draw.Range{Low: v, Mode: v, High: v, Flat: true}, ok
	}
	parts := strings.Split(n.Text, to)
	if len(parts) > 3 {
		g.fault(diag.WrongShape, n.Pos, "write the lowest and the highest value, or the lowest, the most likely and the highest",
			"%s: %s has %d numbers", g.where, w.key, len(parts))
		return r, false
	}
	_, unit := quantity.Cut(parts[len(parts)-1])
	values := make([]float64, len(parts))
	for i, text := range parts {
		if number, own := quantity.Cut(text); own == "" && unit != "" {
			text = number + " " + unit
		}
		v, parsed := g.parse(&Node{Pos: n.Pos, Kind: Scalar, Text: text}, w)
		if !parsed {
			return r, false
		}
		values[i] = v
	}
	for i := 1; i < len(values); i++ {
		if values[i] < values[i-1] || values[0] == values[len(values)-1] {
			g.fault(diag.WrongOrder, n.Pos, "write the lower number first", "%s: %s %s is not a range", g.where, w.key, quoted(n.Text))
			return r, false
		}
	}
	r = draw.Between(values[0], values[len(values)-1])
	if len(values) == 3 {
		r = draw.Around(values[0], values[1], values[2])
	}
	if w.whole {
		r = draw.Counted(r)
	}
	return r, true
}

// exactRange writes a range so that reading it gives the same numbers back.
func exactRange(r draw.Range, s shape) string {
	if r.Low == r.High {
		return exact(r.Mode, s)
	}
	if r.Flat {
		return exact(r.Low, s) + to + exact(r.High, s)
	}
	return exact(r.Low, s) + to + exact(r.Mode, s) + to + exact(r.High, s)
}

// ranged reads a number that is written as a range. Its value is the middle, or the most
// likely one.
func (g group) ranged(n *Node, w want) (v float64, ok bool) {
	key := g.inputOf(w)
	if exactKey(key, orElse(w.exactAs, w.key)) != nil {
		g.refuse(n, w)
		return nan, false
	}
	r, ok := g.span(n, w)
	if !ok {
		return nan, false
	}
	g.given(key, r.Mode, w.shape, n)
	g.exact[n] = exactRange(r, w.shape)
	if g.inZone == nil {
		return g.doubted(g.ownDoubt(key, w.shape, n), r, catalog.Figure{Value: r.Mode}), true
	}
	d := g.inZone.doubt(key, w.shape)
	d.Given = true
	g.inZone.spans[d.Key] = g.exact[n]
	return g.doubted(d, r, catalog.Figure{Value: r.Mode}), true
}

// settled returns the value of a default: the figure's own, or the drawn one.
func (g group) settled(key string, s shape, f catalog.Figure) float64 {
	if g.inZone == nil || general(g.inZone.own(key)) {
		return f.Value
	}
	return g.doubted(g.inZone.doubt(key, s), rangeOf(f), f)
}

// general reports whether the range of the default of a parameter is that of all
// gardens, not what is unknown about this one.
func general(key string) bool { return key == "density" || key == "microclimate" || key == "slope" }

// General returns the number of defaults of zones that are never drawn, since their
// ranges are those of all gardens.
func (sc *Scenario) General() (n int) {
	for i := range sc.Inputs {
		in := &sc.Inputs[i]
		if !in.Defaulted || !strings.HasPrefix(in.Key, "zones.") {
			continue
		}
		if general(in.Key[strings.LastIndexByte(in.Key, '.')+1:]) {
			n++
		}
	}
	return n
}

// own returns the key of a parameter of the zone from that of an input.
func (r *zoneReader) own(key string) string { return strings.TrimPrefix(key, r.key+".") }

// doubt describes the doubt about a number of the zone.
func (r *zoneReader) doubt(key string, s shape) Doubt {
	d := Doubt{Key: r.own(key), Zone: r.z.Name, Input: key, shape: s}
	outer, _, _ := strings.Cut(d.Key, ".")
	plants := r.z.PlantGroup.String()
	if r.z.PlantGroup == catalog.NoGroup {
		plants = otherPlant
	}
	switch cause := sameError(d.Key); {
	case outer == "soil" || outer == "rain" || d.Key == "sprinkler.spray_loss":
		d.Cause, d.Whose = cause, WholeSite
	case outer == "plant" || d.Key == "root_depth":
		d.Cause, d.Whose = cause+" of "+plants, plants
	default:
		d.Cause, d.Whose = cause+" of "+r.z.Name, r.z.Name
		if strings.HasPrefix(r.key, "strategies.") { // new heads are off in their own way
			d.Cause, d.Whose = d.Cause+", changed", r.z.Name+", changed"
		}
	}
	return d
}

// sameError names the parameters that one error moves together.
func sameError(key string) string {
	switch key {
	case "plant.k_growing", "plant.k_resting":
		return "plant.k"
	case "plant.browning":
		return "plant.tolerance"
	case "plant.grows_above":
		return "plant.rests_below"
	}
	return key
}

// Drawn returns the scenario as it would be if pick chose the value of every doubt: its
// zones, those of its changes, and its ranges. pick gets each doubt as often as its
// number is read. Warnings and inputs of a drawn scenario mean nothing. An error says
// that values within the ranges do not fit together.
func (sc *Scenario) Drawn(pick func(*Doubt) float64) (*Scenario, error) {
	out, err := sc.again(pick)
	if err != nil {
		return nil, fmt.Errorf("numbers within the ranges do not fit together: %w", err)
	}
	return out, nil
}

// Clone returns a deep copy of a tree.
func (n *Node) Clone() *Node { return n.cloned() }

// cloned returns a deep copy of a tree.
func (n *Node) cloned() *Node {
	if n == nil {
		return nil
	}
	out := &Node{Pos: n.Pos, Kind: n.Kind, Text: n.Text}
	for _, item := range n.Items {
		out.Items = append(out.Items, item.cloned())
	}
	for _, e := range n.Entries {
		out.Entries = append(out.Entries, Entry{Key: e.Key, Pos: e.Pos, Value: e.Value.cloned()})
	}
	return out
}

// RecordRanges writes every doubt into the scenario as understood, with the number of
// draws: a run with draws can then be repeated from its record, which states every number
// of a zone.
func (sc *Scenario) RecordRanges(draws int) {
	zones, own := sc.zoneTree(), &Node{Kind: Map}
	for i := range sc.Doubts {
		d := &sc.Doubts[i]
		text := scalar(exactRange(d.Range, d.shape))
		if d.Input == "ranges."+d.Key {
			own.set(d.Key, text)
			continue
		}
		for z := range sc.Zones {
			if sc.Zones[z].Name == d.Zone && d.Input == "zones."+d.Zone+"."+d.Key {
				zones.Items[z].putOver(d.Key, text)
			}
		}
	}
	own.set("draws", scalar(quantity.Number(float64(draws), 0)))
	own.set("seed", scalar(exact(float64(sc.Ranges.Seed), shape{bare: true})))
	tree := &Node{Kind: Map, Entries: slices.Clone(sc.Canonical.Entries)}
	tree.set("zones", zones)
	tree.set("ranges", own)
	sc.Canonical = tree
}

// RestoreDoubts marks again as defaults the doubts of a scenario read from the record of
// a run, which states them, by its inputs, which say what was given.
func (sc *Scenario) RestoreDoubts() {
	inputs := map[string]*Input{}
	for i := range sc.Inputs {
		inputs[sc.Inputs[i].Key] = &sc.Inputs[i]
	}
	for i := range sc.Doubts {
		d := &sc.Doubts[i]
		in := inputs[d.Input]
		switch {
		case in != nil && in.Defaulted:
			d.Given, d.Source, d.Grade = false, in.Source, in.Grade
		case in == nil && d.Key == "eto":
			d.Given, d.Source, d.Grade = false, etoOff.Source, etoOff.Grade
		case in == nil && d.Key == "rain":
			d.Given, d.Source, d.Grade = false, rainOff.Source, rainOff.Grade
		}
	}
}
