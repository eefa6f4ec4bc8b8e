package csvfile

import (
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// The extremes used to check a unit.
const (
	hottestC    = 56.7  // °C, 1913-07-10, World Meteorological Organization, archive of extremes
	coldestC    = -89.2 // °C, 1983-07-21, the same
	wettestMM   = 1825  // mm in 24 h, 1966-01, the same
	noSummerC   = 15    // °C; a site whose hottest day is below this has no garden: common practice, no source
	desertC     = 45    // °C; hotter only in deserts, so a cool site in °F is not mistaken for one: common practice, no source
	aSeasonDays = 300   // days with values that must include a summer
)

// A unitSystem is one interpretation of a file without units.
type unitSystem struct {
	name, words             string
	temperature, rain, wind func(float64) float64
}

func unitSystems() []unitSystem {
	same := func(v float64) float64 { return v }
	return []unitSystem{
		{unitsUS, "°F, inches, mph", fahrenheit, inches, mph},
		{unitsSI, "°C, mm, m/s", same, same, same},
		{unitsTenths, "tenths of °C, of mm and of m/s", tenths, tenths, tenths},
	}
}

// settleUnits decides the units of a station without stated units and converts
// its values. usual is the layout's usual system, "" if there is none.
func (r *reading) settleUnits(b *builder, usual string) error {
	if r.o.Units != "" {
		for _, u := range unitSystems() {
			if u.name == r.o.Units {
				if why := b.impossible(u); why != "" {
					return &diag.Error{Code: diag.WrongUnits, Pos: diag.Pos{File: r.scan.name}, Msg: "the units are given as " + u.words + ", but " + why,
						Fix: "choose other units, or correct the value"}
				}
				b.assumed = append(b.assumed, "units "+u.words+" as given")
				b.convert(u)
			}
		}
		return nil
	}
	var left []unitSystem
	var against []string
	for _, u := range unitSystems() {
		if why := b.against(u); why != "" {
			against = append(against, "not "+u.words+": "+why)
		} else {
			left = append(left, u)
		}
	}
	for _, u := range left {
		if u.name == usual && len(left) > 1 {
			b.assumed = append(b.assumed, "units "+u.words+", the layout's own; the values agree")
			b.convert(u)
			return nil
		}
	}
	if len(left) == 1 {
		b.assumed = append(b.assumed, fmt.Sprintf("units %s, inferred from the values: %s", left[0].words, strings.Join(against, "; ")))
		b.convert(left[0])
		return nil
	}
	msg := "the file states no units and its values fit " + wordsOf(left)
	if len(left) == 0 {
		msg = "the values fit no system of units: " + strings.Join(against, "; ")
	} else if len(against) > 0 {
		msg += " (" + strings.Join(against, "; ") + ")"
	}
	return &diag.Error{Code: diag.UnitsUnclear, Pos: diag.Pos{File: r.scan.name}, Msg: msg,
		Fix: "set the units: us (°F, inches), si (°C, mm) or tenths (of °C and mm)"}
}

func wordsOf(list []unitSystem) string {
	var words []string
	for _, u := range list {
		words = append(words, u.words)
	}
	return strings.Join(words, " and also ")
}

// against says why the values cannot be in the units of u, "" if they can.
func (b *builder) against(u unitSystem) string {
	if u.name == unitsTenths {
		for _, c := range []weather.Column{weather.Tmax, weather.Tmin, weather.Rain, weather.Wind} {
			if b.decimals[c] {
				return c.Label() + " is written with decimals, which tenths never are"
			}
		}
	}
	if why := b.impossible(u); why != "" {
		return why
	}
	_, high, n := b.extent(weather.Tmax)
	if n < aSeasonDays || u.temperature(high.v) >= noSummerC || u.name == unitsUS && high.v > desertC {
		return ""
	}
	return fmt.Sprintf("the hottest of %d days, %g on %v, would be only %.1f °C", n, high.v, high.date, u.temperature(high.v))
}

// impossible names a value beyond the world records in the units of u.
func (b *builder) impossible(u unitSystem) string {
	for _, c := range []weather.Column{weather.Tmax, weather.Tmin} {
		low, high, n := b.extent(c)
		switch {
		case n == 0:
		case u.temperature(high.v) > hottestC+0.05:
			return fmt.Sprintf("%g on %v would be %.1f °C, above the world record of %.1f", high.v, high.date, u.temperature(high.v), hottestC)
		case u.temperature(low.v) < coldestC-0.05:
			return fmt.Sprintf("%g on %v would be %.1f °C, below the world record of %.1f", low.v, low.date, u.temperature(low.v), coldestC)
		}
	}
	if _, high, n := b.extent(weather.Rain); n > 0 && u.rain(high.v) > wettestMM {
		return fmt.Sprintf("%g on %v would be %.0f mm of rain, above the world record of %d", high.v, high.date, u.rain(high.v), wettestMM)
	}
	return ""
}

type extreme struct {
	v    float64
	date cal.Date
}

// extent returns the lowest and highest values of c and the number of values.
func (b *builder) extent(c weather.Column) (low, high extreme, n int) {
	for i, v := range b.data[c] {
		if v != v {
			continue
		}
		if n == 0 || v < low.v {
			low = extreme{v, b.base + cal.Date(i)}
		}
		if n == 0 || v > high.v {
			high = extreme{v, b.base + cal.Date(i)}
		}
		n++
	}
	return low, high, n
}

// convert converts the station from the units of u to those of the columns.
func (b *builder) convert(u unitSystem) {
	b.apply(weather.Tmax, u.temperature)
	b.apply(weather.Tmin, u.temperature)
	b.apply(weather.Rain, u.rain)
	b.apply(weather.Wind, u.wind)
	b.apply(weather.Sun, minutes)
}

// apply converts column c where it exists.
func (b *builder) apply(c weather.Column, to func(float64) float64) {
	for i, v := range b.data[c] {
		b.data[c][i] = to(v)
	}
}
