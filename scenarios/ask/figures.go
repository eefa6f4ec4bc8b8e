package ask

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// The synthetic weather that replaces a file: how many years, the first of them, and
// the seed.
const (
	Years     = 30
	FirstYear = 2001
	Seed      = 1
)

// base returns how the names of files begin.
func (w *writer) base() string {
	if base := strings.TrimSpace(w.a.Base); base != "" {
		return base
	}
	return "yard"
}

// weather names the weather file. Without one it makes the monthly figures from
// which weather is generated.
func (w *writer) weather() *scenarios.Node {
	g := group()
	at := once("weather", "file")
	text, _ := w.said(at)
	if text != "" {
		w.printableName(at, text)
		w.files = append(w.files, NamedFile{Name: text, Kind: Weather})
		w.put(g, "file", w.text(at, text))
		return g
	}
	name := w.base() + "-weather.csv"
	w.files = append(w.files, NamedFile{Name: w.base() + "-figures.yaml", Kind: Figures, Text: w.figures()},
		NamedFile{Name: name, Kind: Weather})
	w.put(g, "file", w.text(at, name), "Synthetic weather, generated from the monthly figures in "+w.base()+"-figures.yaml.",
		"It shows how options differ, not what happened in any year: replace it with a station's file if you can.")
	return g
}

// swing is how far each month is from the coldest to the hottest, a cosine; January
// first, north of the equator.
var swing = [12]float64{0, 0.066987, 0.25, 0.5, 0.75, 0.933013, 1, 0.933013, 0.75, 0.5, 0.25, 0.066987}

// monthDays are the mean days of the months.
var monthDays = [12]float64{31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// read returns a figure in its base unit, and the line that says where it is from.
func (w *writer) read(part string, dim quantity.Dimension, low, high float64) (v float64, source string) {
	at := once("weather", part)
	def := w.a.Default(at)
	text, d := def.Answer, &def
	if w.a.Asked(at) {
		text, d = w.number(at)
	}
	v, err := quantity.Parse(text, dim)
	if err != nil {
		f := err.(*quantity.Fault)
		w.fault(at, diag.BadQuantity, f.Fix, "%s", f.Msg)
		return math.NaN(), ""
	}
	if !(v >= low && v <= high) {
		show := func(v float64) string { return w.a.write(v, dim, 0) }
		w.fault(at, diag.OutOfRange, "write a value from "+show(low)+" to "+show(high), "%q is outside %s to %s", text, show(low), show(high))
		return math.NaN(), ""
	}
	source = find(at).Text + ": " + text
	if d != nil {
		source += " - ASSUMED (" + d.Grade.String() + "): " + d.Source
	}
	return v, source
}

// figures returns the file of monthly figures.
func (w *writer) figures() []byte {
	var lines []string
	w.said(once("weather", "figures"))
	w.choice(once("weather", "figures"), yesNo)
	read := func(part string, dim quantity.Dimension, low, high float64) float64 {
		v, line := w.read(part, dim, low, high)
		lines = append(lines, line)
		return v
	}
	summerHigh := read("summer_high", quantity.Temperature, -10, 52)
	summerLow := read("summer_low", quantity.Temperature, -25, 45)
	winterHigh := read("winter_high", quantity.Temperature, -40, 45)
	winterLow := read("winter_low", quantity.Temperature, -55, 40)
	rain := read("rain", quantity.Depth, 0, 10_000)
	w.ordered("summer_high", "summer_low", summerHigh > summerLow, "the high of the hottest month is not above its low")
	w.ordered("winter_high", "winter_low", winterHigh > winterLow, "the high of the coldest month is not above its low")
	w.ordered("winter_high", "summer_high", summerHigh >= winterHigh, "the coldest month is warmer by day than the hottest one")
	w.ordered("winter_low", "summer_low", summerLow >= winterLow, "the coldest month is warmer by night than the hottest one")
	c, _ := w.a.climate()
	var tmax, tmin, rains, wet [12]float64
	for m := range 12 {
		north := m
		if w.a.latitude() < 0 {
			north = (m + 6) % 12
		}
		tmax[m] = winterHigh + float64(swing[north]*(summerHigh-winterHigh))
		tmin[m] = winterLow + float64(swing[north]*(summerLow-winterLow))
		rains[m] = rain * c.shares[north]
		wet[m] = min(rains[m]/c.perWetDay, 0.8*monthDays[m])
		if rains[m] < leastRainMM { // too little for a wet day in most years
			rains[m], wet[m] = 0, 0
		}
	}
	return w.figuresFile(lines, c, tmax, tmin, rains, wet)
}

// ordered rejects two figures that do not fit, at the one that was answered.
func (w *writer) ordered(part, other string, fits bool, what string) {
	at := once("weather", part)
	if w.a.Answer(at) == "" {
		at.Part = other
	}
	known := !slices.ContainsFunc(w.faults, func(f Fault) bool { return f.Question == "weather" })
	if !fits && known {
		w.fault(at, diag.WrongOrder, "correct one of the two: \""+find(once("weather", part)).Text+"\" or \""+
			find(once("weather", other)).Text+"\"", "%s", what)
	}
}

// leastRainMM is the rain of a month [mm] below which it has none.
const leastRainMM = 0.5

func (w *writer) figuresFile(lines []string, c *climate, tmax, tmin, rains, wet [12]float64) []byte {
	keys := [3]string{"rain_in", "tmax_f", "tmin_f"}
	convert := [3]func(float64) float64{
		func(v float64) float64 { return v / quantity.InchMM },
		func(v float64) float64 { return float64(v*9/5) + 32 },
		func(v float64) float64 { return float64(v*9/5) + 32 },
	}
	if w.a.si() {
		same := func(v float64) float64 { return v }
		keys, convert = [3]string{"rain_mm", "tmax_c", "tmin_c"}, [3]func(float64) float64{same, same, same}
	}
	var out strings.Builder
	row := func(key string, v [12]float64, to func(float64) float64, places int) {
		var texts []string
		for _, x := range v {
			texts = append(texts, decimal(to(x), places))
		}
		fmt.Fprintf(&out, "%s: [%s]\n", key, strings.Join(texts, ", "))
	}
	out.WriteString("# Monthly figures of a usual year, January first. They were made from the answers below and are\n" +
		"# synthetic, not those of a station. Replace them with the figures of a yearbook, then run:\n" +
		"#   loamledger generate --normals " + w.base() + "-figures.yaml --seed 1 --out NEW.csv\n")
	for _, line := range append(lines, "Rain is spread over the year as in the climate: "+c.text) {
		out.WriteString("# " + printable(line) + "\n")
	}
	elevation, _ := quantity.Parse(w.elevation(), quantity.Length)
	fmt.Fprintf(&out, "name: Synthetic weather\nlatitude: %v\nelevation: %s m\n", w.a.latitude(), decimal(elevation, 1))
	row(keys[0], rains, convert[0], 3)
	row("wet_days", wet, func(v float64) float64 { return v }, 2)
	out.WriteString("wet_day: 0.25 mm\n")
	row(keys[1], tmax, convert[1], 1)
	row(keys[2], tmin, convert[2], 1)
	out.WriteString("year_spread: 25%       # how much wet and dry years differ; our choice\n")
	return []byte(out.String())
}

// elevation returns the elevation as typed, or the default.
func (w *writer) elevation() string {
	text := strings.TrimSpace(w.a.Elevation)
	if text == "" {
		return unsaidElevation(w.a, -1).Answer
	}
	if _, err := quantity.ParseNumber(text); err == nil {
		text += " " + find(once("place", "elevation")).Unit.In(w.a)
	}
	return text
}
