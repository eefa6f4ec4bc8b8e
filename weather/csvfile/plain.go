package csvfile

import (
	"loamledger/weather"
	"loamledger/weather/diag"
)

// settlePlain decides the units of temperatures and rain in a layout that
// usually has °C and mm but does not state them: as the user says, or °C and mm
// unless the values contradict that. usual names the layout's units for the
// record.
func (r *reading) settlePlain(b *builder, usual string) error {
	var si, us verdict
	for _, u := range unitSystems() {
		v := b.judge(u)
		switch u.name {
		case unitsSI:
			si = v
		case unitsUS:
			us = v
		default:
			continue // this layout is never in tenths
		}
		b.evidence = append(b.evidence, v.votes...)
	}
	switch {
	case r.o.Units == unitsUS:
		b.contradicted(us)
		b.apply(weather.Tmax, fahrenheit)
		b.apply(weather.Tmin, fahrenheit)
		b.apply(weather.Rain, inches)
		b.assumed = append(b.assumed, "units °F, inches and mph as given")
	case r.o.Units == unitsSI:
		b.contradicted(si)
		b.assumed = append(b.assumed, "units "+usual+" as given")
	case !si.fits():
		return &diag.Error{Code: diag.WrongUnits, Pos: diag.Pos{File: r.scan.name, Line: b.firstLine()},
			Msg: "the layout's units, " + usual + ", do not fit the values: " + si.against(), Fix: "set the units: us (°F, inches, mph) or si"}
	default:
		b.assumed = append(b.assumed, "units "+usual+", the layout's own, not in the file; the values agree, "+si.odds())
	}
	return nil
}
