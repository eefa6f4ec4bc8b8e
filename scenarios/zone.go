package scenarios

import (
	"fmt"
	"math"
	"strings"

	"loamledger/scenarios/catalogue"
	"loamledger/sim"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// nameZones reads the names of the zones first, since programs and strategies
// may be judged although a zone has other faults.
func (b *builder) nameZones(top group) {
	n := top.node.Get("zones")
	if n == nil || n.Kind != List {
		return
	}
	for _, item := range n.Items {
		name := ""
		if v := item.Get("name"); v != nil {
			name = strings.TrimSpace(v.Text)
		}
		b.zones = append(b.zones, name)
	}
}

func (b *builder) readZones(top group) {
	items := top.entries("zones", mostZones, "add at least one zone, or name a CSV table of zones")
	taken := map[string]diag.Pos{}
	for i, item := range items {
		n, where := b.name(item, "zone", i)
		if n == nil {
			continue
		}
		b.unique(taken, "zone", n)
		b.readZone(item, n.Text, where)
	}
}

func (b *builder) readZone(node *Node, name, where string) {
	g := b.open(node, where, "zones."+name, "name", "area", "plant", "soil", "slope", "root_depth", "sprinkler", "strips", "rain", "coefficients", "density", "microclimate", "cover", "leak", "balance", "storage")
	z := Zone{Pos: node.Pos}
	z.Name = name
	areaOK := false
	z.AreaM2, areaOK = g.number(want{key: "area", shape: shape{dim: quantity.Area}, above: true, max: 1e7})
	plant, plantOK := g.plant(&z)
	z.SlopeShare, _ = g.number(want{key: "slope", shape: shape{dim: quantity.Fraction}, max: 1.5, dflt: catalogue.DefaultSlope()})
	soil := g.soil(&z)
	rootOK := !g.plainStore() && g.rootDepth(&z, plant, plantOK)
	g.sprinkler(&z, areaOK)
	g.losses(&z, areaOK)
	g.zoneStrips(&z)
	g.zoneRain(&z, plant, soil)
	if rootOK && soil.awcOK {
		z.TAWMM = z.AWCMMPerM * z.RootDepthM // FAO-56 eq. 82
		if z.TAWMM < 0.5 {
			b.fault(diag.OutOfRange, node.Pos, "check awc and root_depth", "%s: TAW is %s: the soil would hold next to no water", where, quantity.Format(z.TAWMM, quantity.Depth, b.sc.Units))
		}
	}
	g.store(&z)
	b.sc.Zones = append(b.sc.Zones, z)
}

func (g group) rootDepth(z *Zone, plant catalogue.Plant, plantOK bool) bool {
	w := want{key: "root_depth", shape: shape{dim: quantity.Length}, above: true, max: 5, dflt: plant.RootDepth,
		fix: "write the depth that holds most of the roots, such as 6 in or 15 cm"}
	if !plantOK && g.node.Get("root_depth") == nil {
		return false // the plant is at fault, and would have said
	}
	var ok bool
	z.RootDepthM, ok = g.number(w)
	return ok
}

func (g group) zoneStrips(z *Zone) {
	n := g.has("strips")
	if n == nil {
		n = g.builder.site.strips
	}
	if n == nil {
		z.Strips = 8
		g.defaulted(g.path("strips"), shape{bare: true}, catalogue.Figure{Value: 8, Grade: catalogue.Guess, Source: "enough for the low quarter to be two strips; our choice"})
		return
	}
	if k, ok := g.strips(n); ok {
		z.Strips = k
		g.given(g.path("strips"), float64(k), shape{bare: true}, n)
	}
}

// zoneRain settles the rain rule and, where it needs one, the curve number.
func (g group) zoneRain(z *Zone, plant catalogue.Plant, soil soilRead) {
	n := g.has("rain")
	if n == nil {
		n = g.builder.site.rain
	}
	z.Rain = sim.Rain{Method: sim.CurveNumber}
	if n == nil {
		g.defaultedWord(g.path("rain.method"), "curve number", catalogue.GeneralTable, "NRCS TR-55 (1986), initial abstraction 0.2 S")
	} else {
		r, ok := g.rain(n)
		if !ok {
			return
		}
		z.Rain = r
	}
	cover, coverGiven := plant.Cover, false
	if c := g.has("cover"); c != nil {
		coverGiven = true
		cover = ""
		if c.Kind == Scalar {
			if found, ok := catalogue.FindCover(c.Text); ok {
				cover = found.Name
				g.givenWord(g.path("cover"), c)
			}
		}
		if cover == "" {
			g.fault(diag.UnknownName, c.Pos, g.didYouMean(c.Text, catalogue.CoverNames()), "%s: cover is %s, which is not known", g.where, c.what())
			return
		}
	}
	switch {
	case z.Rain.Method != sim.CurveNumber || !soil.ok:
		return
	case soil.cn > 0:
		z.Rain.CN, z.Group, z.Cover = soil.cn, 0, ""
		return
	case cover == "":
		return // the plant is at fault
	}
	if !coverGiven {
		g.defaultedWord(g.path("cover"), cover, catalogue.Guess, catalogue.CoverGuess)
	}
	c, _ := catalogue.FindCover(cover)
	z.Cover, z.Rain.CN = cover, c.CurveNumber(z.Group)
	g.defaulted(g.path("soil.curve_number"), shape{bare: true}, catalogue.Figure{
		Value: z.Rain.CN, Grade: catalogue.GeneralTable,
		Source: fmt.Sprintf("%s: %s on group %c", catalogue.CoverSource, cover, z.Group)})
}

// RateFromFlow returns the gross precipitation rate [mm/h] of a flow [L/min]
// on an area [m²]: 1 L on 1 m² is 1 mm. In US units this is
// PR [in/h] = 96.25 gpm/ft².
func RateFromFlow(flowLMin, areaM2 float64) float64 { return 60 * flowLMin / areaM2 }

// FlowFromRate is the inverse of [RateFromFlow].
func FlowFromRate(rateMMH, areaM2 float64) float64 { return rateMMH * areaM2 / 60 }

// disagree is how far a stated rate may be from the one that flow and area give.
const disagree = 0.10

func (g group) sprinkler(z *Zone, areaOK bool) {
	node := g.has("sprinkler")
	if node == nil {
		g.missing("sprinkler", "add sprinkler: {kind: ...}, one of "+listed(catalogue.SprinklerNames()))
		return
	}
	if node.Kind == Scalar { // only a kind
		node = &Node{Pos: node.Pos, Kind: Map, Entries: []Entry{{"kind", node.Pos, node}}}
	}
	s := g.open(node, g.where+": sprinkler", g.path("sprinkler"), "kind", "rate", "flow", "uniformity", "cans", "loss", "overspray", "broken", "fill_drain")
	if s.node == nil {
		return
	}
	n, ok := s.word("kind")
	if !ok {
		s.missing("kind", "add kind, one of "+listed(catalogue.SprinklerNames()))
		return
	}
	kind, ok := catalogue.FindSprinkler(n.Text)
	if !ok {
		s.fault(diag.UnknownName, n.Pos, s.didYouMean(n.Text, catalogue.SprinklerNames()), "%s: kind %s is not known", s.where, quoted(n.Text))
		return
	}
	z.Sprinkler = kind.Name
	s.givenWord(s.path("kind"), n)
	s.rate(z, kind, areaOK)
	s.uniformity(z, kind)
	z.LossShare, _ = s.number(want{key: "loss", shape: shape{dim: quantity.Fraction}, max: 0.5, dflt: kind.Loss,
		fix: "write the share of the water lost in the air, from 0 % to 50 %"})
}

// uniformity settles DU_LQ: stated, from the catches of a test, or the kind's.
func (g group) uniformity(z *Zone, kind catalogue.Sprinkler) {
	cans := g.has("cans")
	switch {
	case cans != nil && g.node.Get("uniformity") != nil:
		g.fault(diag.Conflict, cans.Pos, "leave one of the two out", "%s: both uniformity and cans are given", g.where)
	case cans != nil:
		z.DULQ, _ = g.cans(cans)
	default:
		z.DULQ, _ = g.number(want{key: "uniformity", shape: shape{dim: quantity.Fraction}, min: 0.25, max: 1, dflt: kind.DU,
			fix: "write the low-quarter distribution uniformity, from 25 % to 100 %"})
	}
}

// rate settles rate and flow, of which either follows from the other.
func (g group) rate(z *Zone, kind catalogue.Sprinkler, areaOK bool) {
	rate := want{key: "rate", shape: shape{dim: quantity.Rate}, above: true, max: 500, quiet: true}
	flow := want{key: "flow", shape: shape{dim: quantity.Flow}, above: true, max: 20000, quiet: true}
	r, rateOK := g.number(rate)
	f, flowOK := g.number(flow)
	hasRate, hasFlow := g.node.Get("rate") != nil, g.node.Get("flow") != nil
	switch {
	case hasRate && !rateOK || hasFlow && !flowOK:
		return // reported
	case !hasRate && !hasFlow:
		if !kind.Rate.Known() {
			g.fault(diag.MissingKey, g.node.Pos, "add rate, such as 0.5 in/h, or flow, such as 4 gpm", "%s: a rate cannot be presumed for %s", g.where, kind.Name)
			return
		}
		r, _ = g.number(want{key: "rate", shape: shape{dim: quantity.Rate}, dflt: kind.Rate})
		f = FlowFromRate(r, z.AreaM2)
	case !areaOK:
		return
	case hasRate && hasFlow:
		implied := RateFromFlow(f, z.AreaM2)
		if math.Abs(implied-r) > disagree*r {
			sys := g.sc.Units
			g.fault(diag.Conflict, g.node.Get("rate").Pos, "correct rate, flow (at "+g.node.Get("flow").Pos.String()+") or area; leave out the one you trust least",
				"%s: rate %s and flow %s disagree: that flow on %s is %s", g.where, g.node.Get("rate").Text, g.node.Get("flow").Text,
				quantity.Format(z.AreaM2, quantity.Area, sys), quantity.Format(implied, quantity.Rate, sys))
			return
		}
	case hasFlow:
		r = RateFromFlow(f, z.AreaM2)
		if r > rate.max {
			g.fault(diag.OutOfRange, g.node.Get("flow").Pos, "check flow and area", "%s: flow %s on %s is %s, more than any sprinkler puts down", g.where,
				g.node.Get("flow").Text, quantity.Format(z.AreaM2, quantity.Area, g.sc.Units), quantity.Format(r, quantity.Rate, g.sc.Units))
			return
		}
	default:
		f = FlowFromRate(r, z.AreaM2)
	}
	z.PRMMH, z.FlowLMin = r, f
}
