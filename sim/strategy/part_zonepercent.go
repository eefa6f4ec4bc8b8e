package strategy

import "math"

func zonePercentKind() Kind {
	return Kind{
		Key:     "zone_percent",
		Doc:     "multiplies the minutes of single zones by a percentage, on top of any other",
		Example: "zone_percent: {front lawn: 80 %}",
		Params:  []Param{{Type: ZoneShares, Required: true, Min: 0, Max: 10, Doc: "percentage of each zone named"}},
		Make:    func(a Args) Part { return ZonePercent{a[""].Shares} },
	}
}

// ZonePercent multiplies the minutes of zones by a share each; NaN leaves a
// zone as it is.
type ZonePercent struct{ Share []float64 }

// Stage returns [Scale].
func (ZonePercent) Stage() Stage { return Scale }

// Apply multiplies the factors of the zones.
func (p ZonePercent) Apply(d *Draft) {
	for z, share := range p.Share {
		if math.IsNaN(share) {
			continue
		}
		scale := d.zoneScale(z)
		for i := range scale {
			scale[i] *= share
		}
	}
}
