package scenarios

import (
	"loamledger/scenarios/catalog"
	"loamledger/sim/allowance"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// An Allowance is the water that a rule of the place allows the site. It does not
// limit strategies: it is what they are compared with.
type Allowance struct {
	pos     diag.Pos
	Form    string // name of a form in the catalog; empty for a rule of the scenario's own
	Rule    allowance.Rule
	EToMM   *[12]float64 // ETo of each month in the rule; nil for that of the record
	MeanETo bool         // of the record: its mean of each month, the same in every year
}

// The defaults of allowances.
var (
	allowancePeriod = [2]string{"year", "month"}
	allowanceETo    = [2]string{"mean", "record"}
	noRainShare     = catalog.Figure{Source: "no rain is subtracted; our choice", Grade: catalog.Guess}
	plainSpecial    = catalog.Figure{Value: 1, Source: "as in ordinances; our choice", Grade: catalog.Guess}
	noSpecialArea   = catalog.Figure{Source: "no area has a factor of its own; our choice", Grade: catalog.Guess}
	maxSiteM2       = 1e8
)

// readAllowance reads how much water a rule allows. The zones are known.
func (b *builder) readAllowance(top group) {
	n := top.has("allowance")
	if n == nil {
		return
	}
	g := b.open(n, "allowance", "allowance", "form", "factor", "area", "special_area", "special_factor", "rain", "period", "eto", "conversion")
	if g.node == nil {
		return
	}
	a := &Allowance{pos: n.Pos}
	var form catalog.AllowanceForm
	forms := catalog.AllowanceForms()
	var names []string
	for _, f := range forms {
		names = append(names, f.Name)
	}
	if g.has("form") != nil {
		name, ok := g.choice("form", names)
		if !ok {
			return
		}
		for _, f := range forms {
			if f.Name == name {
				form, a.Form = f, f.Name
			}
		}
	}
	r := &a.Rule
	share := shape{dim: quantity.Fraction}
	r.Factor, _ = g.number(want{key: "factor", shape: share, max: 2, dflt: form.Factor,
		fix: "add factor, the share of ETo that is allowed, such as 80%; or a form: " + listed(names)})
	g.allowanceArea(r, form)
	r.RainShare, _ = g.number(want{key: "rain", shape: share, max: 1, dflt: noRainShare})
	if g.has("conversion") != nil || form.Conversion.Known() {
		r.Conversion, _ = g.number(want{key: "conversion", shape: shape{bare: true}, min: 0.6, max: 0.65, dflt: form.Conversion,
			fix: "write gallons per inch and square foot, such as 0.62"})
	}
	r.ByMonth = g.eitherWord("period", allowancePeriod, form.ByMonth, "most such rules count the year; our choice")
	g.allowanceETo(a, form)
	b.sc.Allowance = a
}

// allowanceArea reads the areas.
func (g group) allowanceArea(r *allowance.Rule, form catalog.AllowanceForm) {
	area := shape{dim: quantity.Area}
	sum := 0.0
	for i := range g.sc.Zones {
		sum += g.sc.Zones[i].AreaM2
	}
	r.AreaM2, _ = g.number(want{key: "area", shape: area, min: 0.1, max: maxSiteM2,
		dflt: catalog.Figure{Value: sum, Source: "the areas of all zones; our choice", Grade: catalog.Guess}})
	r.SpecialM2, _ = g.number(want{key: "special_area", shape: area, max: maxSiteM2, dflt: noSpecialArea})
	if n := g.has("special_area"); n != nil && r.SpecialM2 > r.AreaM2 {
		g.fault(diag.OutOfRange, n.Pos, "write the part of area with a factor of its own", "allowance: special_area is larger than area")
	}
	if r.SpecialM2 > 0 {
		dflt := form.Special
		if !dflt.Known() {
			dflt = plainSpecial
		}
		r.Special, _ = g.number(want{key: "special_factor", shape: shape{dim: quantity.Fraction}, max: 2, dflt: dflt})
	} else if n := g.has("special_factor"); n != nil {
		g.fault(diag.NoEffect, n.Pos, "add special_area, or remove it", "allowance: special_factor requires special_area")
	}
}

// eitherWord reads one of two words and reports whether it is the second, which is
// the default if second is set.
func (g group) eitherWord(key string, words [2]string, second bool, why string) bool {
	if g.has(key) != nil {
		word, ok := g.choice(key, words[:])
		return ok && word == words[1]
	}
	word := words[0]
	if second {
		word = words[1]
	}
	g.defaultedWord(g.path(key), word, catalog.Guess, why)
	return second
}

// allowanceETo reads which reference ET the rule counts.
func (g group) allowanceETo(a *Allowance, form catalog.AllowanceForm) {
	n := g.has("eto")
	if n == nil || n.Kind != List {
		a.MeanETo = !g.eitherWord("eto", allowanceETo, !form.MeanETo, "the rule may have a table of its own: give its 12 depths; our choice")
		return
	}
	if len(n.Items) != 12 {
		g.fault(diag.WrongShape, n.Pos, "write record, mean, or 12 depths, starting with January", "allowance: eto has %d values, not 12",
			len(n.Items))
		return
	}
	a.EToMM = new([12]float64)
	for i, item := range n.Items {
		if v, ok := g.parse(item, want{key: "eto", shape: shape{dim: quantity.Depth}, max: 600}); ok {
			a.EToMM[i] = v
			g.exact[item] = exact(v, shape{dim: quantity.Depth})
		}
	}
	g.givenList(g.path("eto"), n, n.Items)
}
