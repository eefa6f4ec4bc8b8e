package scenarios

import (
	"fmt"
	"math"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/sim"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// nameZones reads the zone names first, so that programs and strategies can be
// checked even if a zone has other errors.
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
	z, values := b.zoneOf(node, name, where, "zones."+name)
	b.sc.Zones, b.sc.ZoneValues = append(b.sc.Zones, z), append(b.sc.ZoneValues, values)
}

// zoneOf reads a zone whose inputs are listed under the given key.
func (b *builder) zoneOf(node *Node, name, where, key string) (Zone, []ZoneValue) {
	z := Zone{Pos: node.Pos}
	z.Name = name
	g := b.open(node, where, key, zoneKeys(b.params, "")...)
	r := &zoneReader{group: g, z: &z, groups: map[string]group{"": g}, bad: map[string]bool{}, read: map[string]ZoneValue{},
		spans: map[string]string{}}
	b.inZone = r
	defer func() { b.inZone = nil }()
	_, areaOK := r.number("area")
	r.devices(&z)
	plant, plantOK := r.plant(&z)
	r.basis.Slope, _ = r.number("slope")
	soil := r.soil(&z)
	rootOK := !r.plainStore() && r.rootDepth(plantOK)
	r.sprinkler(&z, areaOK)
	r.losses(&z)
	r.zoneStrips(&z)
	r.zoneRain(&z, plant, soil)
	if rootOK && soil.awcOK {
		z.TAWMM = z.AWCMMPerM * z.RootDepthM // FAO-56 eq. 82
		if z.TAWMM < 0.5 {
			b.fault(diag.OutOfRange, node.Pos, "check awc and root_depth", "%s: TAW is %s: the soil holds almost no water", where,
				quantity.Format(z.TAWMM, quantity.Depth, b.sc.Units))
		}
	}
	r.store(&z)
	if b.faults.Len() == 0 { // else numbers may be missing
		r.unusual(&z)
	}
	return z, r.recorded()
}

func (r *zoneReader) rootDepth(plantOK bool) bool {
	if !plantOK && r.node.Get("root_depth") == nil {
		return false // the plant's error has been reported
	}
	_, ok := r.number("root_depth")
	return ok
}

func (r *zoneReader) zoneStrips(z *Zone) {
	n := r.has("strips")
	if n == nil {
		n = r.builder.site.strips
	}
	if n == nil {
		dflt := r.param("strips").want(r.basis).dflt
		z.Strips = int(dflt.Value)
		r.defaulted(r.path("strips"), shape{bare: true}, dflt)
		return
	}
	if k, ok := r.strips(n); ok {
		z.Strips = k
		r.given(r.path("strips"), float64(k), shape{bare: true}, n)
	}
}

// zoneRain determines the rain rule and, if needed, the curve number.
func (g *zoneReader) zoneRain(z *Zone, plant catalog.Plant, soil soilRead) {
	n := g.has("rain")
	if n == nil {
		n = g.builder.site.rain
	}
	z.Rain = sim.Rain{Method: sim.CurveNumber}
	if n == nil {
		g.defaultedWord(g.path("rain.method"), "curve number", catalog.GeneralTable, "NRCS TR-55 (1986), initial abstraction 0.2 S")
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
			if found, ok := catalog.FindCover(c.Text); ok {
				cover = found.Name
				g.understand(c, cover)
				g.givenWord(g.path("cover"), c)
			}
		}
		if cover == "" {
			g.fault(diag.UnknownName, c.Pos, g.didYouMean(c.Text, catalog.CoverNames()), "%s: cover is %s, which is not in the catalog", g.where,
				c.what())
			return
		}
	}
	switch {
	case z.Rain.Method != sim.CurveNumber || !soil.ok:
		return
	case soil.cn > 0:
		z.Rain.CN = soil.cn
		if !soil.groupGiven {
			z.Group = 0
		}
		if coverGiven {
			z.Cover = cover
		}
		return
	case cover == "":
		return // the plant has an error
	}
	if !coverGiven {
		g.defaultedWord(g.path("cover"), cover, catalog.Guess, catalog.CoverGuess)
	}
	c, _ := catalog.FindCover(cover)
	z.Cover, z.Rain.CN = cover, c.CurveNumber(z.Group)
	g.defaulted(g.path("soil.curve_number"), shape{bare: true}, catalog.Figure{
		Value: z.Rain.CN, Grade: catalog.GeneralTable,
		Source: fmt.Sprintf("%s: %s on group %c", catalog.CoverSource, cover, z.Group)})
}

// RateFromFlow returns the gross precipitation rate [mm/h] of a flow [L/min]
// on an area [m²]: 1 L on 1 m² is 1 mm. In US units this is
// PR [in/h] = 96.25 gpm/ft².
func RateFromFlow(flowLMin, areaM2 float64) float64 { return 60 * flowLMin / areaM2 }

// FlowFromRate is the inverse of [RateFromFlow].
func FlowFromRate(rateMMH, areaM2 float64) float64 { return rateMMH * areaM2 / 60 }

// disagree is the maximum relative difference between a stated rate and the
// rate from flow and area.
const disagree = 0.10

func (r *zoneReader) sprinkler(z *Zone, areaOK bool) {
	node := r.has("sprinkler")
	if node == nil {
		r.missing("sprinkler", "add sprinkler: spray, or another of "+listed(catalog.SprinklerNames()), "sprinkler: spray")
		return
	}
	if node.Kind == Scalar { // only a kind
		node = &Node{Pos: node.Pos, Kind: Map, Entries: []Entry{{"kind", node.Pos, node}}}
	}
	s := r.under("sprinkler", node)
	if s.node == nil {
		return
	}
	r.bad["sprinkler"] = true // until its kind is known
	n, ok := s.word("kind")
	if !ok {
		s.missing("kind", "add kind: spray, or another of "+listed(catalog.SprinklerNames()), "kind: spray")
		return
	}
	var kind catalog.Sprinkler
	switch found := catalog.FindSprinklers(n.Text); len(found) {
	case 1:
		kind = found[0]
	case 0:
		s.fault(diag.UnknownName, n.Pos, s.didYouMean(n.Text, catalog.SprinklerNames()), "%s: unknown kind %s", s.where, quoted(n.Text))
		return
	default:
		var options []string
		for _, f := range found {
			options = append(options, f.Name)
		}
		s.several(n, s.where+": kind", options)
		return
	}
	s.understand(n, kind.Name)
	z.Sprinkler, r.basis.Kind, r.bad["sprinkler"] = kind.Name, kind, false
	s.givenWord(s.path("kind"), n)
	r.rate(z, kind, areaOK)
	r.uniformity(z)
}

// uniformity determines DU_LQ: stated, from catch cans, or the default of the
// sprinkler kind.
func (r *zoneReader) uniformity(z *Zone) {
	g := r.groups["sprinkler"]
	cans := g.has("catch_cans")
	switch {
	case cans != nil && g.node.Get("uniformity") != nil:
		g.fault(diag.Conflict, cans.Pos, "remove one", "%s: both uniformity and catch_cans are given", g.where)
	case cans != nil:
		z.DULQ, _ = g.cans(cans)
	default:
		z.DULQ, _ = r.number("sprinkler.uniformity")
	}
}

// rate determines rate and flow; each follows from the other.
func (zr *zoneReader) rate(z *Zone, kind catalog.Sprinkler, areaOK bool) {
	g := zr.groups["sprinkler"]
	r, rateOK := zr.number("sprinkler.rate")
	f, flowOK := zr.number("sprinkler.flow")
	hasRate, hasFlow := g.node.Get("rate") != nil, g.node.Get("flow") != nil
	emitters, hasEmitters, emittersOK := zr.emitterFlow(kind)
	if !emittersOK || hasEmitters && hasFlow && flowOK && !g.sameFlow(f, emitters) {
		return
	}
	flowText, flowPos := "", g.node.Pos
	if hasFlow {
		flowText, flowPos = g.node.Get("flow").Text, g.node.Get("flow").Pos
	}
	if hasEmitters {
		f, flowOK, hasFlow = emitters, true, true
		flowText, flowPos = "of all emitters, "+quantity.Format(f, quantity.Flow, g.sc.Units)+",", g.node.Get("emitters").Pos
	}
	switch {
	case hasRate && !rateOK || hasFlow && !flowOK:
		return // reported
	case !hasRate && !hasFlow:
		if !kind.Rate.Known() {
			g.fault(diag.MissingKey, g.node.Pos, "add rate, such as 0.5 in/h, flow, such as 4 gpm, or emitters: 40 with emitter_flow: 1 gph",
				"%s: no default rate for %s", g.where, kind.Name).Suggest(diag.Key, "emitters: 40", "emitter_flow: 1 gph")
			return
		}
		g.defaulted(g.path("rate"), shape{dim: quantity.Rate}, kind.Rate)
		r = g.settled(g.path("rate"), shape{dim: quantity.Rate}, kind.Rate)
		f = FlowFromRate(r, z.AreaM2)
	case !areaOK:
		return
	case hasRate && hasFlow:
		implied := RateFromFlow(f, z.AreaM2)
		if math.Abs(implied-r) > disagree*r && g.pick == nil { // drawn numbers need not agree so well
			sys := g.sc.Units
			fix := "correct rate, flow (at " + flowPos.String() + ") or area, or remove the one you trust least"
			g.fault(diag.Conflict, g.node.Get("rate").Pos, fix,
				"%s: rate %s and flow %s disagree: that flow on %s is %s", g.where, g.node.Get("rate").Text, flowText,
				quantity.Format(z.AreaM2, quantity.Area, sys), quantity.Format(implied, quantity.Rate, sys))
			return
		}
	case hasFlow:
		r = RateFromFlow(f, z.AreaM2)
		if bounds := zr.param("sprinkler.rate"); r > bounds.Max || r < bounds.Min {
			much := "more"
			if r < bounds.Min {
				much = "less"
			}
			g.fault(diag.OutOfRange, flowPos, "check flow and area", "%s: flow %s on %s is %s, %s than any sprinkler applies",
				g.where,
				flowText, quantity.Format(z.AreaM2, quantity.Area, g.sc.Units), quantity.Format(r, quantity.Rate, g.sc.Units), much)
			return
		}
	default:
		f = FlowFromRate(r, z.AreaM2)
	}
	z.PRMMH, z.FlowLMin = r, f
}
