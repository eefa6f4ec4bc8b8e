package explain

import (
	"reflect"
	"regexp"
	"slices"
	"strings"

	"loamledger/sim/replay"
	"loamledger/weather/quantity"
)

// inInches returns the moment with every depth and rate in inches. The arithmetic
// of a day is the same in any unit of depth.
func inInches(m *replay.Moment) *replay.Moment {
	out := *m
	out.MorningMM, out.InfiltMM = scaled(m.MorningMM), scaled(m.InfiltMM)
	out.Readings = slices.Clone(m.Readings)
	for i := range out.Readings {
		scaleDepths(&out.Readings[i])
	}
	for _, s := range []any{&out.Row, &out.Zone, &out.Day, &out.Dose} {
		scaleDepths(s)
	}
	out.Day.Slope *= quantity.InchMM
	if m.Seen.Refill != nil {
		own := *m.Seen.Refill              // a copy
		per := own.PerMM * quantity.InchMM // minutes for an inch
		scaleDepths(&own)
		own.PerMM = per
		out.Seen.Refill = &own
	}
	return &out
}

func scaled(mm []float64) []float64 {
	out := make([]float64, len(mm))
	for i, v := range mm {
		out[i] = v / quantity.InchMM
	}
	return out
}

// scaleDepths converts the fields of a struct that are depths or rates, which
// their names say, to inches.
func scaleDepths(s any) {
	v := reflect.ValueOf(s).Elem()
	for i := range v.NumField() {
		name, f := v.Type().Field(i).Name, v.Field(i)
		if f.Kind() != reflect.Float64 || !f.CanSet() {
			continue
		}
		if strings.HasSuffix(name, "MM") || strings.HasSuffix(name, "MMH") || strings.HasSuffix(name, "MMDay") {
			f.SetFloat(f.Float() / quantity.InchMM)
		}
	}
}

var (
	tenths = regexp.MustCompile(`%([+]?\d*)\.1f mm`)
	coarse = regexp.MustCompile(`%([+]?\d*)\.2f`)
	fine   = regexp.MustCompile(`%([+]?\d*)\.3f`)
	unit   = regexp.MustCompile(`\bmm\b`)
)

// say returns the format of a text in the units of the writer: with inches in
// place of millimeters, and more decimals.
func (w *writer) say(format string) string {
	if w.sys == quantity.SI {
		return format
	}
	format = tenths.ReplaceAllString(format, "%$1.2f mm")
	format = fine.ReplaceAllString(format, "%$1.4f")
	format = coarse.ReplaceAllString(format, "%$1.3f")
	return unit.ReplaceAllString(strings.ReplaceAll(format, "in mm", "in inches"), "in")
}
