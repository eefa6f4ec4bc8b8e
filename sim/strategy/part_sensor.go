package strategy

import (
	"fmt"
	"hash/fnv"
	"math/rand/v2"

	"loamledger/sim"
	"loamledger/weather/quantity"
)

func sensorKind() Kind {
	return Spec[Sensor]{
		Key: "sensor",
		Doc: "permits watering only when a soil sensor reads the root zone as dry enough; it cuts the valve, and the rest " +
			"of the strategy does not know",
		Example:   "sensor: {permit_at: 40 %, placement: average, error: 5 %}",
		Many:      true,
		Params:    (*Sensor).params,
		Sheet:     OnController[Sensor],
		Copy:      Kept[Sensor],
		Lines:     (*Sensor).lines,
		YAML:      FromParams,
		Conflicts: (*Sensor).conflicts,
		Warnings:  NoWarnings[Sensor],
		Record:    NothingOfRecord[Sensor],
	}.Kind()
}

func (p *Sensor) params() []Param {
	return []Param{
		{Key: "permit_at", Field: AsQuantity(&p.PermitAt, quantity.Fraction), Required: true, Min: 0, Max: 1,
			Doc: "depletion, as a share of TAW, at which watering is permitted"},
		{Key: "zones", Field: AsZones(&p.Zones), Word: "all", Doc: "zones with a sensor", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		{Key: "read_zone", Field: AsZoneOrNone(&p.ReadZone), Word: "each zone its own",
			Doc: "the one zone whose sensor governs all the zones named", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		{Key: "placement", Field: AsChoice(&p.Placement), Word: "average", Choices: []string{"driest", "average", "wettest"},
			Doc: "the part of the zone in which the sensor sits", Source: "assumption of this program", Grade: quantity.Guess},
		{Key: "error", Field: AsQuantity(&p.Error, quantity.Fraction), Default: 0, Min: 0, Max: 0.5,
			Doc: "standard deviation of the reading, as a share of TAW", Source: "assumption of this program: a perfect sensor", Grade: quantity.Guess},
		{Key: "seed", Field: AsNumber(&p.Seed), Default: 1, Min: 0, Max: 1 << 53,
			Doc: "seed of the reading error", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
	}
}

// Sensor puts a soil sensor into zones, or one sensor into the zone it reads
// that governs them all. It reads the true depletion at the end of yesterday,
// in the strip it sits in, with a seeded normal error.
type Sensor struct {
	PermitAt  float64 // share of TAW of the zone it sits in
	Zones     []bool  // by zone: those it governs
	ReadZone  int     // 1 + index of the zone it sits in; 0 for a sensor in each
	Placement string  // driest, average or wettest
	Error     float64 // standard deviation, share of TAW
	Seed      uint64
}

// Kind returns the kind of the part.
func (Sensor) Kind() Kind { return sensorKind() }

// Stage returns [Sense].
func (Sensor) Stage() Stage { return Sense }

// Apply gives each zone named its gate, or the draft its probe.
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
	g.PermitAtMM = s.PermitAt * zone.TAWMM
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
		// By name, so that the order of zones changes nothing.
		name := fnv.New64a()
		name.Write([]byte(zone.Name))
		r := rand.New(rand.NewPCG(s.Seed, name.Sum64()))
		for range site.Days() {
			g.ErrorMM = append(g.ErrorMM, r.NormFloat64()*s.Error*zone.TAWMM)
		}
	}
}

func (p *Sensor) lines([]string, quantity.System) []string {
	return []string{fmt.Sprintf("Soil sensor in the %s-watered part: permit watering when %.0f %% of the available water is used up",
		p.Placement, 100*p.PermitAt)}
}

func (p *Sensor) conflicts(Given) Conflicts {
	return Conflicts{Checked: true, Claim: &Claim{Zones: p.Zones,
		Twice: &Collision{Text: "two soil sensors govern", Fix: "name each zone under one sensor only"}}}
}
