package strategy

import (
	"fmt"
	"math"
	"strings"

	"loamledger/weather/quantity"
)

func zonePercentKind() Kind {
	return Spec[ZonePercent]{
		Key:       "zone_percent",
		Doc:       "multiplies the run times of individual zones by a percentage, in addition to any other percentage",
		Example:   "zone_percent: {front lawn: 80%}",
		Params:    (*ZonePercent).params,
		Sheet:     (*ZonePercent).sheet,
		Copy:      replaced[ZonePercent],
		Lines:     (*ZonePercent).lines,
		Plain:     (*ZonePercent).plain,
		YAML:      FromParams,
		Conflicts: noConflicts[ZonePercent],
		Warnings:  noWarnings[ZonePercent],
		Record:    nothingOfRecord[ZonePercent],
	}.Kind()
}

func (p *ZonePercent) params() []Param {
	return []Param{
		{Field: asZoneShares(&p.Share), Required: true, Min: 0, Max: 10, Doc: "percentage for each zone"},
	}
}

// ZonePercent multiplies the run times of each zone by its share; NaN leaves a
// zone unchanged.
type ZonePercent struct{ Share []float64 }

// Kind returns the kind of the part.
func (ZonePercent) Kind() Kind { return zonePercentKind() }

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

func (p *ZonePercent) sheet(*Site) SheetEntry { return SheetEntry{Use: Entered, Zones: p.Share} }

// lines describes the shares of a refill. On a sheet, the run times include the
// shares.
func (p *ZonePercent) lines(zones []string, _ quantity.System) []string {
	var names []string
	for z, share := range p.Share {
		if !math.IsNaN(share) {
			names = append(names, fmt.Sprintf("%s %.0f%%", zones[z], 100*share))
		}
	}
	return []string{"Share of the run time that refills the root zone at perfect uniformity: " + strings.Join(names, ", ")}
}

func (p *ZonePercent) plain() Plain { return Plain{Text: "run times of some zones changed"} }
