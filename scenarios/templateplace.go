package scenarios

import (
	"math"

	"loamledger/weather/quantity"
)

// The place in the template, in odd numbers that a real site hardly has, so that
// a value that nobody replaced is noticed.
const (
	templateLatDeg  = 38.8888
	templateElevUSM = 1588 * quantity.InchMM * 12 / 1000
	templateElevSIM = 484
)

// templatePlace warns of a place that is still that of the template.
func (sc *Scenario) templatePlace() {
	if s := sc.Site; s.LatDeg == templateLatDeg {
		sc.Warn(Warning{Code: TemplatePlace, Pos: sc.Place("site.latitude"), Value: s.LatDeg, Unit: "°"},
			"latitude is still that of the template; replace it with that of your site")
	}
	for _, m := range []float64{templateElevUSM, templateElevSIM} {
		if math.Abs(sc.Site.ElevM-m) < 1e-6 {
			sc.Warn(Warning{Code: TemplatePlace, Pos: sc.Place("site.elevation"), Value: sc.Site.ElevM, Unit: "m"},
				"elevation is still that of the template; replace it with that of your site")
		}
	}
}
