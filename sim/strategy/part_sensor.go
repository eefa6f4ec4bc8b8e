package strategy

import (
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"slices"

	"loamledger/sim"
	"loamledger/weather/portable"
	"loamledger/weather/quantity"
)

func sensorKind() Kind {
	return Spec[Sensor]{
		Key: "sensor",
		Doc: "permits watering only if a soil sensor reads dry enough; it interrupts the valve, which the rest " +
			"of the strategy cannot detect",
		Example:   "sensor: {permit_at: 40%, placement: average, error: 5%}",
		Many:      true,
		Params:    (*Sensor).params,
		Sheet:     onController[Sensor],
		Copy:      Kept[Sensor],
		Lines:     (*Sensor).lines,
		Plain:     (*Sensor).plain,
		YAML:      FromParams,
		Conflicts: (*Sensor).conflicts,
		Warnings:  noWarnings[Sensor],
		Record:    nothingOfRecord[Sensor],
	}.Kind()
}

func (p *Sensor) params() []Param {
	return []Param{
		{Key: "permit_at", Field: AsQuantity(&p.PermitAt, quantity.Fraction), Required: true, Min: 0, Max: 1,
			Doc: "depletion, as a share of TAW, at or above which watering is permitted"},
		{Key: "zones", Field: AsZones(&p.Zones), Word: "all", Doc: "zones with a sensor", Source: "assumption by loamledger",
			Grade: quantity.Guess, Off: true},
		{Key: "read_zone", Field: asZoneOrNone(&p.ReadZone), Word: "each zone its own",
			Doc: "the one zone whose sensor controls all these zones", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
		{Key: "placement", Field: AsChoice(&p.Placement), Word: "average", Choices: []string{"driest", "average", "wettest"},
			Doc: "sensor location by how much water the spot gets", Source: "assumption by loamledger", Grade: quantity.Guess},
		{Key: "error", Field: AsQuantity(&p.Error, quantity.Fraction), Default: 0, Min: 0, Max: 0.5,
			Doc: "standard deviation of the reading error, as a share of TAW", Source: "assumption by loamledger: a perfect sensor",
			Grade: quantity.Guess},
		{Key: "seed", Field: asNumber(&p.Seed), Default: 1, Min: 0, Max: 1 << 53,
			Doc: "random seed for the reading error", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
	}
}

// Sensor puts a soil sensor in each of its zones, or one sensor in ReadZone that
// controls them all. It reads the true depletion of its strip at the end of
// yesterday, with a seeded normal error.
type Sensor struct {
	PermitAt  float64 // share of the TAW of the zone it is in
	Zones     []bool  // by zone: whether it controls the zone
	ReadZone  int     // 1 + index of the zone it is in; 0 for a sensor in each
	Placement string  // driest, average or wettest
	Error     float64 // standard deviation, share of TAW
	Seed      uint64
}

// Kind returns the kind of the part.
func (Sensor) Kind() Kind { return sensorKind() }

// Stage returns [Sense].
func (Sensor) Stage() Stage { return Sense }

// Apply sets the gate of each zone, or adds a probe to the draft.
func (s Sensor) Apply(d *Draft) {
	if s.ReadZone > 0 {
		p := probe{zone: s.ReadZone - 1, governs: s.Zones}
		p.gate.Weights = make([]float64, d.Site.Zones[p.zone].Strips)
		s.set(d.Site, p.zone, &p.gate)
		d.probes = append(d.probes, p)
		return
	}
	for z := range d.Site.Zones {
		if s.Zones[z] {
			s.set(d.Site, z, d.gate(z))
		}
	}
}

// set makes g, whose weights are 0, the sensor in zone z.
func (s Sensor) set(site *Site, z int, g *sim.Gate) {
	zone := &site.Zones[z]
	g.PermitAtMM = float64(s.PermitAt*zone.TAWMM) - hair // the mean of equal strips may be off by a rounding
	switch s.Placement {
	case "driest":
		g.Weights[0] = 1
	case "wettest":
		g.Weights[zone.Strips-1] = 1
	default:
		for i := range g.Weights {
			g.Weights[i] = 1 / float64(zone.Strips)
		}
	}
	if s.Error > 0 {
		// The seed uses the name, so the order of zones does not matter.
		name := fnv.New64a()
		name.Write([]byte(zone.Name))
		r := rand.New(rand.NewPCG(s.Seed, name.Sum64()))
		g.ErrorMM = slices.Grow(g.ErrorMM, site.Days())
		for range site.Days() {
			g.ErrorMM = append(g.ErrorMM, portable.Normal(r)*s.Error*zone.TAWMM)
		}
	}
}

func (p *Sensor) lines([]string, quantity.System) []string {
	return []string{fmt.Sprintf("Soil sensor, %s spot: permits watering at a depletion of at least %.0f%% of the available water",
		p.Placement, 100*p.PermitAt)}
}

func (p *Sensor) conflicts(Given) Conflicts {
	return Conflicts{Checked: true, Claim: &Claim{Zones: p.Zones,
		Twice: &Collision{Text: "two soil sensors control", Fix: "name each zone under only one sensor"}}}
}

func (p *Sensor) plain() Plain {
	return Plain{Text: "only when a soil sensor reads dry", needs: SoilSensor}
}
