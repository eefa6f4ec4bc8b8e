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
	all := unitSystems()
	switch r.o.Units {
	case unitsUS:
		b.apply(weather.Tmax, fahrenheit)
		b.apply(weather.Tmin, fahrenheit)
		b.apply(weather.Rain, inches)
		b.assumed = append(b.assumed, "units °F, inches and mph as given")
	case unitsSI:
		b.assumed = append(b.assumed, "units "+usual+" as given")
	default:
		for _, u := range all {
			if u.name != unitsSI {
				continue
			}
			if why := b.against(u); why != "" {
				return &diag.Error{Code: diag.WrongUnits, Pos: diag.Pos{File: r.scan.name},
					Msg: "the layout's units, " + usual + ", do not fit the values: " + why, Fix: "set the units: us (°F, inches, mph) or si"}
			}
		}
		b.assumed = append(b.assumed, "units "+usual+", the layout's own, not in the file; the values agree")
	}
	return nil
}
