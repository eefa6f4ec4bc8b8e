package scenarios

import (
	"fmt"
	"math"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// unusual warns of each number of the zone that lies outside its usual range.
// Defaults lie inside.
func (r *zoneReader) unusual(z *Zone) {
	warned := map[string]bool{}
	for i := range r.params {
		p := &r.params[i]
		if p.Usual == nil || z.WorkingStorage && p.recorded != nil && p.recorded(z) == nil {
			continue
		}
		if z.WorkingStorage && p.Key == "sprinkler.spray_loss" {
			continue // public test landscapes put all inefficiency there
		}
		switch p.Key { // area, flow and rate follow from each other: one warning is enough
		case "sprinkler.flow":
			if warned["area"] || warned["sprinkler.rate"] && r.groups["sprinkler"].node.Get("flow") == nil {
				continue
			}
		case "sprinkler.rate":
			if warned["area"] {
				continue
			}
		}
		usual := p.Usual(r.basis)
		for _, v := range r.valuesOf(p, z) {
			if math.IsNaN(v) || usual.Holds(v) || usual.Holds(v*rounded) || usual.Holds(v/rounded) {
				continue
			}
			warned[p.Key] = true
			sys := r.sc.Units
			w := Warning{Code: UnusualValue, Pos: r.placeOf(p), Zone: z.Name, Key: p.Key, Value: v, Unit: p.shape().label()}
			if p.Key == "area" {
				w.Code = LargeZone
				if v < usual.Low {
					w.Code = UnusualValue
				}
			}
			r.sc.Warn(w, "zone %q: %s; the usual range is %s to %s (%v: %s)", z.Name, r.statement(p, z, v),
				p.text(usual.Low, sys), p.text(usual.High, sys), usual.Grade, usual.Source)
			break // of twelve values, one warning
		}
	}
}

// rounded is how far a value may be outside the usual range, as a ratio: ranges are in
// round US units, and 15 cm is 6 in to whoever thinks in the metric system.
const rounded = 1.02

// valuesOf returns the final values of p.
func (r *zoneReader) valuesOf(p *ZoneParam, z *Zone) []float64 {
	if p.all != nil {
		return p.all(z)
	}
	if v, read := r.read[p.Key]; read {
		return []float64{v.Number}
	}
	return nil
}

// placeOf returns where p was given; for a flow or a rate that follows from other
// numbers, where one of those was.
func (r *zoneReader) placeOf(p *ZoneParam) (at diag.Pos) {
	keys := []string{p.Key}
	switch p.Key {
	case "sprinkler.flow":
		keys = append(keys, "sprinkler.rate", "area")
	case "sprinkler.rate":
		keys = append(keys, "sprinkler.flow", "area")
	case "sprinkler.uniformity":
		keys = append(keys, "sprinkler.catch_cans")
	}
	for _, key := range keys {
		if at = r.sc.Place(r.path(key)); at.File != "" {
			return at
		}
	}
	return r.z.Pos
}

// statement says what the value is and, if it follows from others, from which.
func (r *zoneReader) statement(p *ZoneParam, z *Zone, v float64) string {
	sys := r.sc.Units
	_, own := p.split()
	text := fmt.Sprintf("%s is %s", own, p.text(v, sys))
	area := quantity.Format(z.AreaM2, quantity.Area, sys)
	switch sprinkler := r.groups["sprinkler"].node; {
	case p.Key == "sprinkler.flow" && sprinkler.Get("flow") == nil:
		return fmt.Sprintf("%s at %s take a flow of %s", area, quantity.Format(z.PRMMH, quantity.Rate, sys), p.text(v, sys))
	case p.Key == "sprinkler.rate" && sprinkler.Get("rate") == nil:
		return fmt.Sprintf("a flow of %s on %s is a rate of %s", quantity.Format(z.FlowLMin, quantity.Flow, sys), area, p.text(v, sys))
	}
	return text
}

// text writes a value of p; large areas in acres or hectares.
func (p *ZoneParam) text(v float64, sys quantity.System) string {
	const largeM2 = quantity.AcreM2
	switch {
	case p.Dim != quantity.Area || p.Bare || v < largeM2:
		return p.shape().format(v, sys)
	case sys == quantity.US:
		return quantity.Number(v/quantity.AcreM2, 1) + " acres"
	}
	return quantity.Number(v/1e4, 1) + " ha"
}
