package scenarios

import (
	"fmt"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/weather/diag"
)

// soilRead is what the other parts of a zone need to know about its soil.
type soilRead struct {
	ok         bool    // the soil can be used
	groupGiven bool    // its hydrologic group is given
	awcOK      bool    // its available water capacity can be used
	cn         float64 // curve number as given; 0 where not given
}

// soil reads a catalog name, or values with a named soil for the rest.
func (g *zoneReader) soil(z *Zone) (read soilRead) {
	node, given := g.has("soil"), false
	if node == nil {
		if g.node.Get("soil") != nil {
			return read
		}
		node = &Node{Pos: g.node.Pos, Kind: Scalar, Text: catalog.DefaultSoil}
		g.defaultedWord(g.path("soil.name"), catalog.DefaultSoil, catalog.Guess, catalog.DefaultSoilSource)
	} else {
		given = true
	}
	if node.Kind == Scalar {
		node = &Node{Pos: node.Pos, Kind: Map, Entries: []Entry{{"name", node.Pos, node}}}
	}
	s := g.under("soil", node)
	if s.node == nil {
		return read
	}
	read.groupGiven = s.node.Get("group") != nil
	g.bad["soil"] = true // until its name is known
	var base catalog.Soil
	z.Soil = Custom
	if n, ok := s.word("name"); ok {
		switch found := catalog.FindSoils(n.Text); len(found) {
		case 1:
			base = found[0]
		case 0:
			s.fault(diag.UnknownName, n.Pos, s.didYouMean(n.Text, catalog.SoilNames()), "%s %s is not in the catalog", s.where, quoted(n.Text))
			return read
		default:
			var options []string
			for _, f := range found {
				options = append(options, f.Name)
			}
			s.several(n, s.where, options)
			return read
		}
		s.understand(n, base.Name)
		if given {
			s.givenWord(s.path("name"), n)
		}
		z.Soil = base.Name
	} else if s.node.Get("name") != nil {
		return read
	}
	needs := func(key, what string) string {
		return fmt.Sprintf("add %s, %s, or name a soil from the catalog", key, what)
	}
	g.basis.Soil, g.bad["soil"] = base, false
	awc, intake := g.param("soil.awc").want(g.basis), g.param("soil.intake").want(g.basis)
	storage := g.param("soil.surface_storage").want(g.basis)
	if z.Soil == Custom {
		for _, w := range []struct {
			w    *want
			what string
		}{{&awc, "such as 150 mm/m"}, {&intake, "such as 9 mm/h"}, {&storage, "such as 6 mm"}} {
			if s.node.Get(w.w.key) == nil {
				w.w.fix = needs(w.w.key, w.what)
			}
		}
	}
	var intakeOK, storageOK bool
	if z.Soil == Custom && g.plainStore() && s.node.Get("awc") == nil {
		read.awcOK = true // storage gives its capacity
	} else {
		_, read.awcOK = g.numberAs(g.param("soil.awc"), awc)
	}
	_, intakeOK = g.numberAs(g.param("soil.intake"), intake)
	_, storageOK = g.numberAs(g.param("soil.surface_storage"), storage)
	if s.node.Get("curve_number") != nil {
		var ok bool
		if read.cn, ok = g.number("soil.curve_number"); !ok {
			return read
		}
	}
	read.ok = read.awcOK && intakeOK && storageOK && s.hydrologic(z, base)
	return read
}

// hydrologic determines the hydrologic soil group.
func (g group) hydrologic(z *Zone, base catalog.Soil) bool {
	if n, ok := g.word("group"); ok {
		c := strings.ToUpper(strings.TrimSpace(n.Text))
		if len(c) != 1 || c[0] < 'A' || c[0] > 'D' {
			g.fault(diag.UnknownName, n.Pos, "write A, B, C or D", "%s: group %s is not a hydrologic soil group", g.where, quoted(n.Text))
			return false
		}
		z.Group = c[0]
		g.givenWord(g.path("group"), n)
		return true
	} else if g.node.Get("group") != nil {
		return false
	}
	source, grade := catalog.GroupSource, catalog.GeneralTable
	z.Group = base.Group
	if z.Soil == Custom {
		z.Group = catalog.GroupFromIntake(z.IntakeMMH)
		source, grade = "from the intake rate, by the transmission rates of NRCS TR-55 (1986) appendix A", catalog.Guess
	}
	if g.node.Get("curve_number") == nil {
		g.defaultedWord(g.path("group"), string(rune(z.Group)), grade, source)
	}
	return true
}
