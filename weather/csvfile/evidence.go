package csvfile

import (
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
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
// its values. usual is the layout's usual system, "" if there is none. Units
// that the user declares always win; a contradiction is then a finding.
func (r *reading) settleUnits(b *builder, usual string) error {
	all := unitSystems()
	judged := make([]verdict, len(all))
	for k, u := range all {
		judged[k] = b.judge(u)
		b.evidence = append(b.evidence, judged[k].votes...)
	}
	if r.o.Units != "" {
		for k, u := range all {
			if u.name == r.o.Units {
				b.assumed = append(b.assumed, "units "+u.words+" as given")
				b.contradicted(judged[k])
				b.convert(u)
				b.oddCells()
			}
		}
		return nil
	}
	var left []verdict
	var against, brief []string
	for _, v := range judged {
		if v.fits() {
			left = append(left, v)
		} else {
			against = append(against, "not "+v.words+": "+v.against())
			brief = append(brief, "not "+v.words+": "+v.brief())
		}
	}
	chosen := -1
	for k, v := range left {
		if len(left) == 1 || v.name == usual {
			chosen = k
		}
	}
	if chosen < 0 {
		return r.unclear(b, left, against)
	}
	u := left[chosen]
	if len(left) == 1 {
		b.assumed = append(b.assumed, fmt.Sprintf("units %s, inferred from the values, %s: %s", u.words, u.odds(), strings.Join(brief, "; ")))
	} else {
		b.assumed = append(b.assumed, fmt.Sprintf("units %s, the layout's own; the values agree, %s", u.words, u.odds()))
	}
	b.convert(u.unitSystem)
	b.oddCells()
	return nil
}

// unclear reports that no system of units, or more than one, fits the values,
// at the first line with a value.
func (r *reading) unclear(b *builder, left []verdict, against []string) error {
	msg := "the evidence on units is divided: " + strings.Join(against, "; ")
	if len(left) > 0 {
		var words []string
		for _, v := range left {
			words = append(words, v.words)
		}
		msg = "the file states no units and its values fit " + strings.Join(words, " and also ")
		if len(against) > 0 {
			msg += " (" + strings.Join(against, "; ") + ")"
		}
	}
	return &diag.Error{Code: diag.UnitsUnclear, Pos: diag.Pos{File: r.scan.name, Line: b.firstLine()}, Msg: msg,
		Fix: "set the units: us (°F, inches), si (°C, mm) or tenths (of °C and mm)"}
}

// contradicted notes that the declared units do not fit the values.
func (b *builder) contradicted(v verdict) {
	if v.fits() {
		return
	}
	b.tallies = append(b.tallies, &tally{kind: unitsContradicted, whole: true, count: 1, date: b.base,
		found: "declared " + v.words + ", but " + v.against()})
}

// firstLine returns the line of the first day.
func (b *builder) firstLine() int {
	for _, l := range b.lines {
		if l != 0 {
			return int(l)
		}
	}
	return 0
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
