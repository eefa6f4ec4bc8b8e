package scenarios

import (
	"fmt"
	"strconv"
	"strings"

	"loamledger/scenarios/catalogue"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// maxK is the highest plant coefficient that is believed; FAO-56 table 12 ends
// near 1.3.
const maxK = 2

// plant reads the planting and the coefficients of zone z.
func (g group) plant(z *Zone) (catalogue.Plant, bool) {
	node := g.has("plant")
	if node == nil {
		g.missing("plant", "add plant, a name of the catalogue such as "+catalogue.PlantNames()[0])
		return catalogue.Plant{}, false
	}
	plant, ok := g.planting(node, z)
	fOK := g.factors(z)
	return plant, ok && fOK
}

func (g group) planting(node *Node, z *Zone) (catalogue.Plant, bool) {
	z.Plant = Custom
	none := catalogue.Plant{RootDepth: catalogue.Figure{}, Cover: "lawn, good"}
	switch node.Kind {
	case List: // twelve numbers
		k, ok := g.months(node, "plant")
		z.PlantK, z.Coefficients = k, Custom
		z.P = catalogue.DefaultP().Value
		g.defaulted(g.path("plant.p"), shape{bare: true}, catalogue.DefaultP())
		return none, ok
	case Scalar:
		node = &Node{Pos: node.Pos, Kind: Map, Entries: []Entry{{"name", node.Pos, node}}}
	}
	s := g.open(node, g.where+": plant", g.path("plant"), "name", "group", "k", "p", "p_adjust")
	if s.node == nil {
		return none, false
	}
	plant, p, ok := none, catalogue.DefaultP(), true
	if n, found := s.word("name"); found {
		plant, found = catalogue.FindPlant(n.Text)
		if !found {
			s.fault(diag.UnknownName, n.Pos, s.plantFix(n.Text), "%s %s is not known", s.where, quoted(n.Text))
			return none, false
		}
		z.Plant, z.PlantGroup, p = plant.Name, plant.Group, plant.P
		s.givenWord(s.path("name"), n)
	} else if s.node.Get("name") != nil {
		return none, false
	}
	groupOK := s.plantGroup(z)
	switch k := s.has("k"); {
	case k != nil && k.Kind == List:
		z.PlantK, ok = s.months(k, "k")
		z.Coefficients = Custom
	case k != nil:
		var v float64
		v, ok = s.number(want{key: "k", shape: shape{bare: true}, max: maxK})
		for i := range z.PlantK {
			z.PlantK[i] = v
		}
		z.Coefficients = Custom
	case s.node.Get("k") != nil:
		ok = false
	case z.Plant == Custom:
		s.missing("k", "add k, a number or twelve of them, or name a plant of the catalogue")
		ok = false
	default:
		ok = g.coefficients(z, plant)
	}
	var pOK bool
	z.P, pOK = s.number(want{key: "p", shape: shape{bare: true}, min: 0.1, max: 0.8, dflt: p})
	if n := s.has("p_adjust"); n != nil {
		adjust, flagOK := s.flag(n, "p_adjust")
		z.PConstant = flagOK && !adjust
		pOK = pOK && flagOK
		s.givenWord(s.path("p_adjust"), n)
	} else {
		g.defaultedWord(g.path("plant.p_adjust"), "true", catalogue.GeneralTable, "FAO-56 chapter 8: p = p of the table + 0.04 (5 − ETc), 0.1 to 0.8")
	}
	return plant, ok && pOK && groupOK
}

// plantGroup reads which kind of plants a planting of one's own is.
func (g group) plantGroup(z *Zone) (ok bool) {
	n, given := g.word("group")
	if !given {
		return g.node.Get("group") == nil
	}
	if z.PlantGroup, ok = catalogue.FindGroup(n.Text); !ok {
		g.fault(diag.UnknownName, n.Pos, g.didYouMean(n.Text, catalogue.GroupNames()), "%s: group %s is not known", g.where, quoted(n.Text))
		return false
	}
	g.givenWord(g.path("group"), n)
	return true
}

// plantFix suggests a planting for a name that is none. Where nothing is like
// it, the whole list is given once in a scenario and then referred to.
func (b *builder) plantFix(name string) string {
	if b.faults.Len() >= diag.Most {
		return ""
	}
	if near := catalogue.LikePlants(name); len(near) > 0 {
		texts := make([]string, len(near))
		for i, p := range near {
			texts[i] = strconv.Quote(p)
		}
		return "did you mean " + listed(texts) + "?"
	}
	names := catalogue.PlantNames()
	if near := nearest(name, names); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	if b.plantsListed {
		return "write one of the plants that the catalogue command lists, or give k and p instead"
	}
	b.plantsListed = true
	return "write one of: " + parted(names) + "; or give k and p instead"
}

// coefficients takes K from the set that zone or site names, or from the
// plant's first.
func (g group) coefficients(z *Zone, plant catalogue.Plant) bool {
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
			g.fault(diag.UnknownName, n.Pos, fmt.Sprintf("write in this zone coefficients: %s, or give k", listed(plant.SetNames())), "%s: set %s has no coefficient for %s", g.where, set, plant.Name)
			return false
		}
		g.givenWord(g.path("coefficients"), n)
	} else {
		g.defaultedWord(g.path("coefficients"), c.Set, c.Grade, c.Source)
	}
	z.Coefficients, z.PlantK = c.Set, c.K
	if c.K == constant(c.K[0]) {
		g.defaulted(g.path("plant.k"), shape{bare: true}, catalogue.Figure{Value: c.K[0], Low: c.Low, High: c.High, Source: c.Source, Grade: c.Grade})
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
		g.fault(diag.WrongShape, n.Pos, "write twelve numbers, January first", "%s: %s lists %d numbers, not twelve", g.where, key, len(n.Items))
		return k, false
	}
	ok = true
	for i, item := range n.Items {
		v, itemOK := g.parse(item, want{key: key, shape: shape{bare: true}, max: maxK})
		k[i] = v
		ok = ok && itemOK
	}
	g.givenList(g.path(key), n, n.Items)
	return k, ok
}

// factors multiplies K by density and microclimate.
func (g group) factors(z *Zone) bool {
	var dOK, mOK bool
	z.Density, dOK = g.number(want{key: "density", shape: shape{bare: true}, min: 0.2, max: 1.5, dflt: catalogue.DefaultDensity()})
	z.Microclimate, mOK = g.number(want{key: "microclimate", shape: shape{bare: true}, min: 0.2, max: 1.5, dflt: catalogue.DefaultMicroclimate()})
	for i, k := range z.PlantK {
		z.K[i] = k * z.Density * z.Microclimate
	}
	return dOK && mOK
}
