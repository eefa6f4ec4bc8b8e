package scenarios

import (
	"fmt"
	"strconv"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// maxK is the maximum plant coefficient; FAO-56 table 12 ends near 1.3.
const maxK = 2

// plant reads the planting and the coefficients of zone z.
func (g *zoneReader) plant(z *Zone) (catalog.Plant, bool) {
	node := g.has("plant")
	if node == nil {
		g.missing("plant", "add plant, a name from the catalog, as in plant: "+catalog.PlantNames()[0], "plant: "+catalog.PlantNames()[0])
		return catalog.Plant{}, false
	}
	plant, ok := g.planting(node, z)
	g.basis.Plant = plant
	fOK := g.factors(z)
	return plant, ok && fOK
}

func (g *zoneReader) planting(node *Node, z *Zone) (catalog.Plant, bool) {
	z.Plant = Custom
	none := catalog.Plant{RootDepth: catalog.Figure{}, Cover: "lawn, good"}
	switch node.Kind {
	case List: // twelve numbers
		k, ok := g.months(node, "plant")
		z.PlantK, z.Coefficients = k, Custom
		dflt := g.param("plant.p").want(ZoneBasis{}).dflt
		g.defaulted(g.path("plant.p"), shape{bare: true}, dflt)
		z.P = g.settled(g.path("plant.p"), shape{bare: true}, dflt)
		g.marksOf(z)
		return none, ok
	case Scalar:
		node = &Node{Pos: node.Pos, Kind: Map, Entries: []Entry{{"name", node.Pos, node}}}
	}
	s := g.under("plant", node)
	if s.node == nil {
		return none, false
	}
	plant, ok := none, true
	if n, found := s.word("name"); found {
		plant, found = s.plantNamed(n, s.where)
		if !found {
			return none, false
		}
		z.Plant, z.PlantGroup = plant.Name, plant.Group
		s.givenWord(s.path("name"), n)
	} else if s.node.Get("name") != nil {
		return none, false
	}
	groupOK := s.plantGroup(z)
	plant.Group = z.PlantGroup
	ramp := false
	switch k := s.has("k"); {
	case k != nil && k.Kind == Scalar && strings.EqualFold(strings.TrimSpace(k.Text), constantWord):
		if z.Plant == Custom {
			s.fault(diag.MissingKey, k.Pos, "name a plant from the catalog, or write a number",
				"%s: k: constant is the catalog's value of a plant, and none is named", s.where)
			ok = false
			break
		}
		s.givenWord(s.path("k"), k)
		ok = g.coefficients(z, plant)
	case k != nil && k.Kind == List:
		z.PlantK, ok = s.months(k, "k")
		z.Coefficients = Custom
	case k != nil:
		var v float64
		v, ok = g.number("plant.k")
		for i := range z.PlantK {
			z.PlantK[i] = v
		}
		z.Coefficients = Custom
	case s.node.Get("k") != nil:
		ok = false
	case z.Plant == Custom:
		s.missing("k", "add k, a number or twelve of them, or name a plant from the catalog")
		ok = false
	default:
		// A set named in the scenario is used as it stands.
		ramp = g.has("coefficients") == nil && g.builder.site.coefficients == nil
		ok = g.coefficients(z, plant)
	}
	g.basis.Plant = plant
	seasonOK := g.season(s, z, plant, ramp)
	var pOK bool
	z.P, pOK = g.number("plant.p")
	if n := s.has("p_adjust"); n != nil {
		adjust, flagOK := s.flag(n, "p_adjust")
		z.PConstant = flagOK && !adjust
		pOK = pOK && flagOK
		s.givenWord(s.path("p_adjust"), n)
	} else {
		g.defaultedWord(g.path("plant.p_adjust"), "true", catalog.GeneralTable, "FAO-56 chapter 8: p = table p + 0.04 (5 − ETc), 0.1 to 0.8")
	}
	return plant, ok && pOK && groupOK && seasonOK
}

// plantGroup reads the plant group of a custom planting.
func (g group) plantGroup(z *Zone) (ok bool) {
	n, given := g.word("group")
	if !given {
		return g.node.Get("group") == nil
	}
	z.PlantGroup, ok = catalog.FindGroup(n.Text)
	if ok {
		g.understand(n, z.PlantGroup.String())
	} else {
		g.fault(diag.UnknownName, n.Pos, g.didYouMean(n.Text, catalog.GroupNames()), "%s: unknown group %s", g.where, quoted(n.Text))
		return false
	}
	g.givenWord(g.path("group"), n)
	return true
}

// plantNamed returns the planting of the catalog that node n names.
func (g group) plantNamed(n *Node, where string) (catalog.Plant, bool) {
	switch found := catalog.FindPlants(n.Text); len(found) {
	case 1:
		g.understand(n, found[0].Name)
		return found[0], true
	case 0:
		e := g.fault(diag.UnknownName, n.Pos, g.plantFix(n.Text), "%s %s is not in the catalog", where, quoted(n.Text))
		for _, p := range catalog.LikePlants(n.Text) {
			e.Suggest(diag.Value, strconv.Quote(p))
		}
	default:
		var options []string
		for _, p := range found {
			options = append(options, p.Name)
		}
		g.several(n, where, options)
	}
	return catalog.Plant{}, false
}

// plantFix suggests a planting for an unknown name. If none is similar, it
// lists all plantings, once per scenario.
func (b *builder) plantFix(name string) string {
	if b.faults.Len() >= diag.Most {
		return ""
	}
	if near := catalog.LikePlants(name); len(near) > 0 {
		texts := make([]string, len(near))
		for i, p := range near {
			texts[i] = strconv.Quote(p)
		}
		return "did you mean " + listed(texts) + "?"
	}
	names := catalog.PlantNames()
	if near := nearest(name, names); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	if b.plantsListed {
		return "write one of the plants listed by the catalog command, or give k and p instead"
	}
	b.plantsListed = true
	return "write one of: " + parted(names) + "; or give k and p instead"
}

// coefficients takes K from the set named by the zone or the site, or from the
// plant's first set.
func (g *zoneReader) coefficients(z *Zone, plant catalog.Plant) bool {
	n := g.has("coefficients")
	if n == nil {
		n = g.builder.site.coefficients
	}
	c := plant.Coefficients[0]
	if n != nil {
		set, ok := g.set(n)
		if !ok {
			return false
		}
		if c, ok = plant.Coefficient(set); !ok {
			at, place, yaml := n.Pos, diag.Value, plant.SetNames()[0]
			if g.node.Get("coefficients") == nil { // it is under site
				at, place, yaml = g.node.Pos, diag.Key, "coefficients: "+yaml
			}
			g.fault(diag.UnknownName, n.Pos, fmt.Sprintf("write coefficients: %s in this zone, or give k", listed(plant.SetNames())),
				"%s: set %s has no coefficient for %s", g.where, set, plant.Name).
				SuggestAt(at, place, yaml)
			return false
		}
		g.givenWord(g.path("coefficients"), n)
	} else {
		g.defaultedWord(g.path("coefficients"), c.Set, c.Grade, c.Source)
	}
	z.Coefficients, z.PlantK = c.Set, c.K
	if c.K == constant(c.K[0]) {
		g.defaulted(g.path("plant.k"), shape{bare: true},
			catalog.Figure{Value: c.K[0], Low: c.Low, High: c.High, Source: c.Source, Grade: c.Grade})
		z.PlantK = constant(g.settled(g.path("plant.k"), shape{bare: true},
			catalog.Figure{Value: c.K[0], Low: c.Low, High: c.High, Source: c.Source, Grade: c.Grade}))
		return true
	}
	months := make([]string, len(c.K))
	for m, k := range c.K {
		months[m] = quantity.Number(k, 2)
	}
	g.defaultedWord(g.path("plant.k"), strings.Join(months, ", "), c.Grade, c.Source)
	return true
}

func constant(k float64) (m [12]float64) {
	for i := range m {
		m[i] = k
	}
	return m
}

// months reads twelve plant coefficients, January first.
func (g group) months(n *Node, key string) (k [12]float64, ok bool) {
	if len(n.Items) != 12 {
		g.fault(diag.WrongShape, n.Pos, "write 12 numbers, one for each month, starting with January", "%s: %s has %d numbers, not twelve",
			g.where, key, len(n.Items))
		return k, false
	}
	ok = true
	for i, item := range n.Items {
		v, itemOK := g.parse(item, want{key: key, shape: shape{bare: true}, max: maxK, exactAs: monthlyK})
		k[i] = v
		ok = ok && itemOK
	}
	g.givenList(g.path(key), n, n.Items)
	return k, ok
}

// factors multiplies K by density and microclimate.
func (g *zoneReader) factors(z *Zone) bool {
	_, dOK := g.number("density")
	_, mOK := g.number("microclimate")
	for i, k := range z.PlantK {
		z.K[i] = k * z.Density * z.Microclimate
	}
	z.Season = z.PlantSeason.of(z.Density * z.Microclimate)
	g.overseed(z)
	return dOK && mOK
}
