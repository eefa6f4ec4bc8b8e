package quantity_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/weather/quantity"
)

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

// The expected values are published: NIST Special Publication 811 (2008),
// appendix B.8 (from memory) for the inch, foot, acre, gallon and mile; the
// rest follows from the definitions in the comment of each row.
func TestParseReadsEveryUnit(t *testing.T) {
	tests := []struct {
		text string
		dim  quantity.Dimension
		want float64
	}{
		{"1600 ft", quantity.Length, 487.68},
		{"6 in", quantity.Length, 0.1524},
		{"15 cm", quantity.Length, 0.15},
		{"150 mm", quantity.Length, 0.15},
		{"2 m", quantity.Length, 2},
		{"0.25 in", quantity.Depth, 6.35},
		{"2 cm", quantity.Depth, 20},
		{"1 ft2", quantity.Area, 0.09290304},
		{"1 sq ft", quantity.Area, 0.09290304},
		{"1 ft²", quantity.Area, 0.09290304},
		{"1 acre", quantity.Area, 4046.8564224},
		{"1 ha", quantity.Area, 10000},
		{"1 gal", quantity.Volume, 0.003785411784},
		{"1 kgal", quantity.Volume, 3.785411784},
		{"1 HCF", quantity.Volume, 2.8316846592},
		{"1 CCF", quantity.Volume, 2.8316846592},
		{"1 AF", quantity.Volume, 1233.48183754752},
		{"1.5 in/h", quantity.Rate, 38.1},
		{"9 mm/h", quantity.Rate, 9},
		{"12 gpm", quantity.Flow, 45.424941408},
		{"1 L/s", quantity.Flow, 60},
		{"6 m3/h", quantity.Flow, 100},
		{"180 gph", quantity.Flow, 3 * 3.785411784}, // an hour has 60 minutes: 3 gpm
		{"60 gal/h", quantity.Flow, 3.785411784},
		{"90 L/h", quantity.Flow, 1.5},
		{"12 lpm", quantity.Flow, 12},
		{"90 s", quantity.Duration, 1.5},
		{"1.5 h", quantity.Duration, 90},
		{"1 day", quantity.Days, 1},
		{"2 weeks", quantity.Days, 14},
		{"48 h", quantity.Days, 2},
		{"40 %", quantity.Fraction, 0.4},
		{"40%", quantity.Fraction, 0.4},
		{"0.4 share", quantity.Fraction, 0.4},
		{"37 F", quantity.Temperature, 2.7777777777777777},
		{"-40 F", quantity.Temperature, -40},
		{"212 °F", quantity.Temperature, 100},
		{"3 C", quantity.Temperature, 3},
		{"10 mph", quantity.Speed, 4.4704},
		{"36 km/h", quantity.Speed, 10},
		{"2 in/ft", quantity.Capacity, 166.66666666666666},
		{"0.17 in/in", quantity.Capacity, 170},
		{"15 %", quantity.Capacity, 150},
		{"150 mm/m", quantity.Capacity, 150},
		{"1e3 m2", quantity.Area, 1000},
	}
	for _, tt := range tests {
		got, err := quantity.Parse(tt.text, tt.dim)
		if err != nil || !near(got, tt.want, 1e-12*max(1, math.Abs(tt.want))) {
			t.Errorf("Parse(%q, %v) = %v, %v; want %v", tt.text, tt.dim, got, err, tt.want)
		}
	}
}

func TestParseSaysWhatToWrite(t *testing.T) {
	tests := []struct {
		text     string
		dim      quantity.Dimension
		msg, fix string
	}{
		{"2400", quantity.Area, "2400 has no unit", `add a unit: ft2, m2, acre or ha, as in "2400 ft2"`},
		{"0", quantity.Area, "0 has no unit", `add a unit: ft2, m2, acre or ha, as in "0 ft2"`},
		{"12 gpm", quantity.Rate, `12 gpm: "gpm" is not a unit of rate`, `use in/h or mm/h, as in "1.5 in/h"`},
		{"big", quantity.Area, `"big" is not a number with a unit`, `write a number and a unit: ft2, m2, acre or ha, as in "2400 ft2"`},
		{"", quantity.Flow, `"" is not a number with a unit`, `write a number and a unit: gpm, gph, L/min, L/h, L/s or m3/h, as in "12 gpm"`},
		{"2,400 ft2", quantity.Area, `"2,400" contains a comma or underscore`,
			`write digits with a decimal point and no separators, as in "2400 ft2"`},
		{"1.2.3 ft2", quantity.Area, `"1.2.3" is not a number`, `write digits with a decimal point and no separators, as in "2400 ft2"`},
		{"1e999 ft2", quantity.Area, `"1e999" is not a number`, `write digits with a decimal point and no separators, as in "2400 ft2"`},
		{"2,400 m2", quantity.Area, `"2,400" contains a comma or underscore`,
			`write digits with a decimal point and no separators, as in "2400 m2"`},
		{"2,400 gpm", quantity.Rate, `"2,400" contains a comma or underscore`,
			`write digits with a decimal point and no separators, as in "1.5 in/h"`},
		{"180 gallons", quantity.Flow, `180 gallons: "gallons" is not a unit of flow`, `use gpm, gph, L/min, L/h, L/s or m3/h, as in "12 gpm"`},
		{"0.5", quantity.Fraction, `0.5 has no unit`, `add a unit: % or share, as in "50%"`},
		{"0.07", quantity.Fraction, `0.07 has no unit`, `add a unit: % or share, as in "7%"`},
		{"55", quantity.Fraction, `55 has no unit`, `add a unit: % or share, as in "55%"`},
		{"1:30", quantity.Duration, `"1:30" looks like a time of day, not a duration`,
			`write "90 min" if these are hours and minutes, or "1.5 min" if minutes and seconds`},
		{"1:75", quantity.Duration, `"1:75" looks like a time of day, not a duration`, `use min, h or s, as in "20 min"`},
		{"1e307 gpm", quantity.Flow, `1e307 is too large`, `write a smaller number, as in "12 gpm"`},
		{"NaN ft2", quantity.Area, `"NaN ft2" is not a number with a unit`, `write a number and a unit: ft2, m2, acre or ha, as in "2400 ft2"`},
	}
	for _, tt := range tests {
		_, err := quantity.Parse(tt.text, tt.dim)
		var f *quantity.Fault
		if !errors.As(err, &f) {
			t.Errorf("Parse(%q, %v): error %v, want a Fault", tt.text, tt.dim, err)
			continue
		}
		if f.Msg != tt.msg || f.Fix != tt.fix {
			t.Errorf("Parse(%q, %v):\n got %s\n     %s\nwant %s\n     %s", tt.text, tt.dim, f.Msg, f.Fix, tt.msg, tt.fix)
		}
	}
}

// Expected values are exact by definition and commonly quoted with these
// digits: 0.6234 gal/(ft² in), 748.05 gal/HCF, 325,851 gal and 435.6 HCF per
// acre-foot, 27,154 gal per acre-inch, 448.83 gpm per ft³/s.
func TestTradeFactors(t *testing.T) {
	base := func(text string, d quantity.Dimension) float64 {
		t.Helper()
		v, err := quantity.Parse(text, d)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	gal := base("1 gal", quantity.Volume)
	volume := func(depth, area string) float64 {
		return base(depth, quantity.Depth) / 1000 * base(area, quantity.Area)
	}
	tests := []struct {
		what      string
		got, want float64
		tol       float64 // half the last digit quoted
	}{
		{"gal in 1 in over 1 ft²", volume("1 in", "1 ft2") / gal, 0.623377, 5e-7},
		{"gal in an HCF", base("1 HCF", quantity.Volume) / gal, 748.052, 5e-4},
		{"gal in an acre-foot", base("1 AF", quantity.Volume) / gal, 325851.4, 0.05},
		{"gal in an acre-inch", volume("1 in", "1 acre") / gal, 27154.3, 0.05},
		{"HCF in an acre-foot", base("1 AF", quantity.Volume) / base("1 HCF", quantity.Volume), 435.6, 1e-9},
		{"L in 1 mm over 1 m²", 1000 * volume("1 mm", "1 m2"), 1, 1e-12},
		{"gpm in a ft³/s", base("1 HCF", quantity.Volume) / gal * 60 / 100, 448.83, 0.005},
		{"in/h of 12 gpm on 1000 ft²", base("12 gpm", quantity.Flow) * 60 / base("1000 ft2", quantity.Area) / 25.4, 1.155, 1e-9},
		{"in/h of 1 gpm on 1 ft²", base("1 gpm", quantity.Flow) * 60 / base("1 ft2", quantity.Area) / 25.4, 96.25, 1e-9},
	}
	for _, tt := range tests {
		if !near(tt.got, tt.want, tt.tol) {
			t.Errorf("%s = %.7g, want %.7g", tt.what, tt.got, tt.want)
		}
	}
}

func TestFormat(t *testing.T) {
	tests := []struct {
		v    float64
		dim  quantity.Dimension
		sys  quantity.System
		want string
	}{
		{100, quantity.Volume, quantity.US, "26,417 gal"},
		{100, quantity.Volume, quantity.SI, "100 m³"},
		{12.345, quantity.Volume, quantity.SI, "12.3 m³"},
		{222.967296, quantity.Area, quantity.US, "2,400 ft²"},
		{38.1, quantity.Rate, quantity.US, "1.5 in/h"},
		{6.35, quantity.Depth, quantity.US, "0.25 in"},
		{6.35, quantity.Depth, quantity.SI, "6.3 mm"},
		{0.01, quantity.Depth, quantity.SI, "0.01 mm"},
		{0, quantity.Depth, quantity.SI, "0 mm"},
		{math.Copysign(0, -1), quantity.Depth, quantity.SI, "0 mm"},
		{-1500, quantity.Depth, quantity.SI, "-1,500 mm"},
		{0.1524, quantity.Length, quantity.US, "6 in"},
		{0.1524, quantity.Length, quantity.SI, "15.2 cm"},
		{487.68, quantity.Length, quantity.US, "1,600 ft"},
		{2, quantity.Length, quantity.SI, "2 m"},
		{0.55, quantity.Fraction, quantity.US, "55%"},
		{1, quantity.Days, quantity.US, "1 day"},
		{2, quantity.Days, quantity.SI, "2 days"},
		{25.0 / 9, quantity.Temperature, quantity.US, "37 °F"},
		{180, quantity.Capacity, quantity.US, "2.16 in/ft"},
		{math.NaN(), quantity.Length, quantity.SI, "unknown"},
	}
	for _, tt := range tests {
		if got := quantity.Format(tt.v, tt.dim, tt.sys); got != tt.want {
			t.Errorf("Format(%v, %v, %v) = %q, want %q", tt.v, tt.dim, tt.sys, got, tt.want)
		}
	}
}

// Law: a value written in any unit and read back is the same value.
func TestUnitsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := quantity.Dimension(rapid.IntRange(0, int(quantity.Dimensions)-1).Draw(t, "dimension"))
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "v")
		tol := 1e-12 * max(100, math.Abs(v))
		for _, u := range quantity.Units(d) {
			if got := u.Of(u.Base(v)); !near(got, v, tol) {
				t.Fatalf("%v %s came back as %v", v, u.Name, got)
			}
			if got, ok := quantity.Find(u.Name, d); !ok || got.Num != u.Num {
				t.Fatalf("%s of %v is not found by its own name", u.Name, d)
			}
		}
		for _, s := range []quantity.System{quantity.SI, quantity.US} {
			shown := quantity.Convert(v, d, s)
			if !slices.ContainsFunc(quantity.Units(d), func(u quantity.Unit) bool { return near(u.Base(shown), v, tol) }) {
				t.Fatalf("%v %v is shown as %v in %v, which no unit takes back", v, d, shown, s)
			}
		}
	})
}

// Factors are fractions of whole numbers, so that common values come out as
// calculated by hand.
func TestRoundNumbersStayRound(t *testing.T) {
	for text, want := range map[string]float64{"1.5 in/h": 38.1, "0.25 in": 6.35} {
		d := quantity.Rate
		if text == "0.25 in" {
			d = quantity.Depth
		}
		if got, err := quantity.Parse(text, d); got != want || err != nil {
			t.Errorf("%s is %v, %v; want %v exactly", text, got, err, want)
		}
	}
	for text, want := range map[string]float64{"70 %": 0.7, "55 %": 0.55, "7 %": 0.07} {
		if got, err := quantity.Parse(text, quantity.Fraction); got != want || err != nil {
			t.Errorf("%s is %v, %v; want %v exactly", text, got, err, want)
		}
	}
}

// Law: the base unit of a dimension is one of its units, with factor 1.
func TestBaseUnits(t *testing.T) {
	for d := range quantity.Dimensions {
		u, ok := quantity.Find(d.BaseUnit(), d)
		if !ok || u.Num != u.Den || u.Zero != 0 {
			t.Errorf("base unit %q of %v: %+v, %v", d.BaseUnit(), d, u, ok)
		}
		if quantity.Label(d, quantity.SI) == "" || quantity.Label(d, quantity.US) == "" || d.String() == "" {
			t.Errorf("dimension %d has no label or name", d)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"2400 ft2", "40 %", "1e5 m2", "1e+ ft", "-.", "²", "1 ft2 2"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for d := range quantity.Dimensions {
			v, err := quantity.Parse(s, d)
			if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
				t.Errorf("Parse(%q, %v) = %v without an error", s, d, v)
			}
		}
	})
}
