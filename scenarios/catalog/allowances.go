package catalog

import "slices"

// An AllowanceForm is a rule of law that allows a landscape so much water.
type AllowanceForm struct {
	Name       string
	Doc        string
	Factor     Figure // of ETo on the landscape area
	Special    Figure // of ETo on the part of it with a factor of its own
	Conversion Figure // gallons per inch and square foot
	ByMonth    bool   // no month may exceed its allowance; else the year counts
	MeanETo    bool   // ETo is that of past climate, the same in every year
}

const (
	modelOrdinance = "California's model water-efficient landscape ordinance, Code of Regulations title 23, section 492.4, " +
		"as in city codes that repeat it"
	olderOrdinance = "the model ordinance of 2009, as in city codes that repeat it"
)

func ordinance(name, doc string, factor float64, source string) AllowanceForm {
	fixed := func(v float64) Figure { return Figure{Value: v, Source: source, Grade: LocalTable} }
	return AllowanceForm{Name: name, Doc: doc, Factor: fixed(factor), Special: fixed(1), Conversion: fixed(0.62), MeanETo: true}
}

// AllowanceForms returns the forms that a scenario can name. Law changes, and places
// have stricter rules: they are examples to compare with the rule of the place.
func AllowanceForms() []AllowanceForm {
	return slices.Clip([]AllowanceForm{
		ordinance("model ordinance for homes", "ETo · 0.62 · (0.55 LA + 0.45 SLA) gallons a year", 0.55, modelOrdinance),
		ordinance("model ordinance for other sites", "ETo · 0.62 · (0.45 LA + 0.55 SLA) gallons a year", 0.45, modelOrdinance),
		ordinance("older model ordinance", "ETo · 0.62 · (0.7 LA + 0.3 SLA) gallons a year", 0.7, olderOrdinance),
	})
}
