package csvfile

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// outliers are the kinds of wrong cell: what a hand, a sensor or a spreadsheet
// makes of a value.
func outliers() map[string]func(v float64) float64 {
	constant := func(c float64) func(float64) float64 { return func(float64) float64 { return c } }
	return map[string]func(float64) float64{
		"58": constant(58), "99.9": constant(99.9), "150": constant(150), "300": constant(300), "999": constant(999),
		"1000.5": constant(1000.5), "-60": constant(-60), "-95": constant(-95), "0.01": constant(0.01), "12345": constant(12345),
		"°F of a °C": func(v float64) float64 { return v*1.8 + 32 }, "°C of a °F": fahrenheit,
		"decimal point moved right": func(v float64) float64 { return v * 10 },
		"decimal point moved left":  tenths, "inch read as mm": inches, "mm read as inch": func(v float64) float64 { return v / 25.4 },
		"K": func(v float64) float64 { return v + 273.15 }, "sign lost": func(v float64) float64 { return -v },
	}
}

// otherDays returns an error if a value of rec differs from base on a date
// other than day, in any column.
func otherDays(base, rec *weather.Record, day cal.Date) error {
	for c := range weather.Columns {
		for i := range base.Days {
			d := base.Date(i)
			k := int(d - rec.Start)
			if d == day || k < 0 || k >= rec.Days {
				continue
			}
			if a, b := base.At(c, i), rec.At(c, k); math.Float64bits(a) != math.Float64bits(b) {
				return fmt.Errorf("%s on %v was %g and is %g", c.Key(), d, a, b)
			}
		}
	}
	return nil
}

var numberIn = regexp.MustCompile(`-?\d+(\.\d+)?`)

// In no layout does a single wrong cell change another day: the file is either
// read with the other days as they were, or refused.
func TestOneCellChangesNoOtherDay(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "weather", "*.*"))
	if err != nil {
		t.Fatal(err)
	}
	read, refused, layouts := 0, 0, map[string]bool{}
	for _, name := range files {
		file := filepath.Base(name)
		o := Options{}
		switch file {
		case "README.md":
			continue
		case "declared.txt":
			o.Declared = garden()
		case "fawn.csv":
			o.Station = "Quiet Grove"
		}
		text := fixture(t, file)
		base, err := Read(strings.NewReader(text), "f", o)
		if err != nil {
			continue // several stations: a fixture for another test
		}
		layouts[base.Layout] = true
		first := math.MaxInt
		for _, l := range base.Rows[0].Line {
			if l > 0 {
				first = min(first, int(l))
			}
		}
		lines := strings.SplitAfter(text, "\n")
		rng := rand.New(rand.NewPCG(7, uint64(len(text))))
		for _, kind := range slices.Sorted(maps.Keys(outliers())) {
			to := outliers()[kind]
			for range 12 {
				at := first - 1 + rng.IntN(len(lines)-first+1)
				cells := numberIn.FindAllStringIndex(lines[at], -1)
				if len(cells) == 0 {
					continue
				}
				cell := cells[rng.IntN(len(cells))]
				v, _ := strconv.ParseFloat(lines[at][cell[0]:cell[1]], 64)
				row := lines[at][:cell[0]] + strconv.FormatFloat(to(v), 'f', -1, 64) + lines[at][cell[1]:]
				rec, err := Read(strings.NewReader(strings.Join(lines[:at], "")+row+strings.Join(lines[at+1:], "")), "f", o)
				if err != nil {
					refused++
					continue
				}
				if rec.Start != base.Start || rec.Days != base.Days || rec.Station.ID != base.Station.ID {
					continue // a cell of the date or the station
				}
				read++
				day := cal.Date(0)
				for i, l := range base.Rows[0].Line {
					if l > 0 && int(l) <= at+1 {
						day = base.Rows[0].Start + cal.Date(i)
					}
				}
				if base.Layout == "tmy3" || base.Layout == "epw" || strings.HasPrefix(base.Layout, "bom") || base.Layout == "ghcn-dly" {
					day = -1 // a row is an hour or a month
				}
				if err := otherDays(base, rec, day); err != nil && day >= 0 {
					t.Errorf("%s, line %d, %s: %q for %q: %v", file, at+1, kind, row, lines[at], err)
				}
			}
		}
	}
	if len(layouts) < 20 || read < 1000 || refused < 100 {
		t.Errorf("%d layouts, %d read, %d refused", len(layouts), read, refused)
	}
}

// A plainDay is one day of made-up weather in °C, mm and m/s.
type plainDay struct{ tmax, tmin, rain, wind, rh, rs, eto float64 }

// plainYears returns four made-up years of a temperate place.
func plainYears() []plainDay {
	rng := rand.New(rand.NewPCG(11, 13))
	days := make([]plainDay, 1461)
	for i := range days {
		season := -math.Cos(2 * math.Pi * float64(i-20) / 365.25)
		mean := 12 + 11*season + 2.5*rng.NormFloat64()
		half := 3 + 4*rng.Float64()
		d := plainDay{tmax: mean + half, tmin: mean - half, wind: 1.5 + 3*rng.Float64(), rh: 75 + 25*rng.Float64(),
			rs: (17 + 11*season) * (0.4 + 0.6*rng.Float64()), eto: max(0.2, 2.7+2.4*season+0.6*rng.NormFloat64())}
		if rng.Float64() < 0.3 {
			d.rain = 0.3 + 8*rng.ExpFloat64()
		}
		days[i] = d
	}
	return days
}

// A bareLayout writes the made-up days in a layout that states no units.
type bareLayout struct {
	name, head string
	row        func(date cal.Date, d plainDay) string
	o          Options
	us, tenths bool // the layout may be in °F and inches, or in tenths
}

func bareLayouts() []bareLayout {
	lat := 45.0
	return []bareLayout{
		{"vega", "date,precipitation,temp_max,temp_min,wind\n", func(d cal.Date, p plainDay) string {
			return fmt.Sprintf("%v,%.2f,%.1f,%.1f,%.1f\n", d, p.rain, p.tmax, p.tmin, p.wind)
		}, Options{}, true, false},
		{"ncei-wide", "STATION,NAME,DATE,AWND,PRCP,TMAX,TMIN\n", func(d cal.Date, p plainDay) string {
			return fmt.Sprintf("XX1,Q,%v,%.1f,%.2f,%.1f,%.1f\n", d, p.wind, p.rain, p.tmax, p.tmin)
		}, Options{}, true, true},
		{"ghcn-wide", "STATION,DATE,LATITUDE,LONGITUDE,ELEVATION,NAME,PRCP,PRCP_ATTRIBUTES,TMAX,TMAX_ATTRIBUTES,TMIN,TMIN_ATTRIBUTES\n",
			func(d cal.Date, p plainDay) string {
				return fmt.Sprintf(`XX1,%v,45,-100,300,Q,%.2f,",,X",%.1f,",,X",%.1f,",,X"`+"\n", d, p.rain, p.tmax, p.tmin)
			}, Options{}, true, true},
		{"wide-flags", "DATE,ID,YEAR,MONTH,DAY,TMIN,TMIN_FLAGS,PRCP,PRCP_FLAGS,TMAX,TMAX_FLAGS\n", func(d cal.Date, p plainDay) string {
			y, m, day := d.YMD()
			return fmt.Sprintf("%v,XX1,%d,%d,%d,%.1f,__0,%.2f,__0,%.1f,__0\n", d, y, m, day, p.tmin, p.rain, p.tmax)
		}, Options{}, true, true},
		{"coagmet", "name,date,tavg,tmax,tmin,pp,rhmax,rhmin,solar,windrun,et_asce,et_pk,et_asce0\n", func(d cal.Date, p plainDay) string {
			return fmt.Sprintf("q,%v,0,%.2f,%.2f,%.2f,%.3f,0.4,%.1f,%.1f,0,0,%.2f\n", d, p.tmax, p.tmin, p.rain, p.rh/100, p.rs/0.0864,
				p.wind*86.4, p.eto)
		}, Options{LatDeg: &lat}, false, false},
		{"meteostat", "date,tavg,tmin,tmax,prcp,snow,wdir,wspd,wpgt,pres,tsun\n", func(d cal.Date, p plainDay) string {
			return fmt.Sprintf("%v,,%.1f,%.1f,%.2f,,,%.1f,,,\n", d, p.tmin, p.tmax, p.rain, p.wind*3.6)
		}, Options{}, false, false},
	}
}

func (l *bareLayout) lines(days []plainDay) []string {
	lines := []string{l.head}
	for i, d := range days {
		lines = append(lines, l.row(cal.Of(2001, 1, 1)+cal.Date(i), d))
	}
	return lines
}

// units writes the days in another system.
func inUnits(days []plainDay, temperature, rain, wind func(float64) float64) []plainDay {
	out := append([]plainDay(nil), days...)
	for i := range out {
		d := &out[i]
		d.tmax, d.tmin, d.rain, d.wind, d.eto = temperature(d.tmax), temperature(d.tmin), rain(d.rain), wind(d.wind), rain(d.eto)
	}
	return out
}

func inUS(days []plainDay) []plainDay {
	return inUnits(days, func(v float64) float64 { return math.Round(v*1.8 + 32) }, func(v float64) float64 { return v / 25.4 },
		func(v float64) float64 { return v / 0.44704 })
}

func inTenths(days []plainDay) []plainDay {
	whole := func(v float64) float64 { return math.Round(10 * v) }
	return inUnits(days, whole, whole, whole)
}

// noDecimals drops the decimals that formats add to whole numbers.
func noDecimals(lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = strings.ReplaceAll(strings.ReplaceAll(l, ".00,", ","), ".0,", ",")
		out[i] = strings.ReplaceAll(out[i], ".0\n", "\n")
	}
	return out
}

// Four years whose units must be inferred survive any single wrong cell: the
// units stay, every other day stays, and nothing is refused.
func TestOneCellFlipsNoUnits(t *testing.T) {
	days := plainYears()
	tries := 0
	for _, l := range bareLayouts() {
		forms := map[string][]string{"si": l.lines(days)}
		if l.us {
			forms["us"] = l.lines(inUS(days))
		}
		if l.tenths {
			forms["tenths"] = noDecimals(l.lines(inTenths(days)))
		}
		for _, form := range slices.Sorted(maps.Keys(forms)) {
			lines := forms[form]
			base, err := Read(strings.NewReader(strings.Join(lines, "")), l.name, l.o)
			if err != nil {
				t.Errorf("%s in %s: %v", l.name, form, err)
				continue
			}
			// The values are the made-up ones: rounding to °F and to 0.01 inch is within 0.3 °C and 0.13 mm.
			for i, d := range days {
				if v := base.At(weather.Tmax, i); math.Abs(v-d.tmax) > 0.3 {
					t.Fatalf("%s in %s: Tmax %g read as %g", l.name, form, d.tmax, v)
				}
				if v := base.At(weather.Rain, i); math.Abs(v-d.rain) > 0.13 {
					t.Fatalf("%s in %s: rain %g read as %g", l.name, form, d.rain, v)
				}
			}
			rng := rand.New(rand.NewPCG(17, uint64(len(l.name))))
			for _, kind := range slices.Sorted(maps.Keys(outliers())) {
				to := outliers()[kind]
				for range 5 {
					i := rng.IntN(len(days))
					// Another cell of the row each time: the value is the cell's own.
					cells := numberCells(lines[i+1])
					cell := cells[rng.IntN(len(cells))]
					v, _ := strconv.ParseFloat(lines[i+1][cell[0]:cell[1]], 64)
					row := lines[i+1][:cell[0]] + strconv.FormatFloat(to(v), 'f', -1, 64) + lines[i+1][cell[1]:]
					was := lines[i+1]
					lines[i+1] = row
					rec, err := Read(strings.NewReader(strings.Join(lines, "")), l.name, l.o)
					lines[i+1] = was
					tries++
					if err != nil {
						t.Errorf("%s in %s, %s: %q for %q: %v", l.name, form, kind, row, was, err)
						continue
					}
					if err := otherDays(base, rec, base.Date(i)); err != nil {
						t.Errorf("%s in %s, %s: %q for %q: %v", l.name, form, kind, row, was, err)
					}
				}
			}
		}
	}
	if tries < 1000 {
		t.Errorf("%d tries", tries)
	}
}

// numberCells returns the cells of a row after its date and names that hold measurements.
func numberCells(row string) (out [][]int) {
	at := 0
	for k, cell := range strings.Split(strings.TrimRight(row, "\n"), ",") {
		if _, err := strconv.ParseFloat(cell, 64); err == nil && k >= 1 && at >= dateEnd(row) && cell != "45" && cell != "-100" && cell != "300" {
			out = append(out, []int{at, at + len(cell)})
		}
		at += len(cell) + 1
	}
	return out
}

// dateEnd returns where the last part of the date ends.
func dateEnd(row string) int {
	end := regexp.MustCompile(`\d{4}-\d\d-\d\d,(XX1,\d{4},\d+,\d+,)?`).FindStringIndex(row)
	return end[1]
}

// A file truly in other units is recognized or refused, and one in which the
// columns disagree is refused with the units to declare.
func TestOtherUnitsAreRecognizedOrRefused(t *testing.T) {
	days := plainYears()
	same := func(v float64) float64 { return v }
	mixed := inUnits(days, same, func(v float64) float64 { return v / 25.4 }, same)
	warm := inUnits(days, func(v float64) float64 { return v*1.8 + 32 }, same, same)
	half := append(append([]plainDay(nil), days[:730]...), inUS(days)[730:]...)
	for _, l := range bareLayouts() {
		for name, d := range map[string][]plainDay{"rain in inches, °C": mixed, "°F, rain in mm": warm, "half in °F and inches": half} {
			_, err := Read(strings.NewReader(strings.Join(l.lines(d), "")), l.name, l.o)
			checkUnclear(t, l.name+", "+name, err)
		}
		rec, err := Read(strings.NewReader(strings.Join(l.lines(inUS(days)), "")), l.name, l.o)
		if l.us {
			if err != nil || math.Abs(rec.At(weather.Tmax, 200)-days[200].tmax) > 0.3 {
				t.Errorf("%s in °F: %v", l.name, err)
			}
			continue
		}
		checkUnclear(t, l.name+" in °F", err)
	}
}

func checkUnclear(t *testing.T, what string, err error) {
	t.Helper()
	var one *diag.Error
	var all *diag.Errors
	if errors.As(err, &all) {
		one = all.List[0]
	} else if !errors.As(err, &one) {
		t.Errorf("%s is read", what)
		return
	}
	if one.Code != diag.UnitsUnclear && one.Code != diag.WrongUnits || one.Pos.Line == 0 || !strings.Contains(one.Fix, "us (°F, inches") {
		t.Errorf("%s: %v", what, err)
	}
}

// The same holds for real records.
func TestOneCellFlipsNoRealUnits(t *testing.T) {
	for _, file := range []string{"vega-seattle.csv", "cdo-tenths-seattle-tacoma.csv", "ncei-standard-death-valley.csv"} {
		text := string(sharedFile(t, file))
		base, err := Read(strings.NewReader(text), file, Options{})
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.SplitAfter(text, "\n")
		names := strings.Split(lines[0], ",")
		tmax := 0
		for k, n := range names {
			if strings.EqualFold(strings.Trim(n, `"`), "TMAX") || n == "temp_max" {
				tmax = k - len(names) // from the end: names may hold commas
			}
		}
		rng := rand.New(rand.NewPCG(19, 23))
		for _, kind := range slices.Sorted(maps.Keys(outliers())) {
			to := outliers()[kind]
			i := 1 + rng.IntN(base.Days-1)
			cells := strings.Split(lines[i], ",")
			k := len(cells) + tmax
			v, err := strconv.ParseFloat(strings.Trim(cells[k], `"`), 64)
			if err != nil {
				continue
			}
			cells[k] = strconv.FormatFloat(to(v), 'f', -1, 64)
			was := lines[i]
			lines[i] = strings.Join(cells, ",")
			rec, err := Read(strings.NewReader(strings.Join(lines, "")), file, Options{})
			lines[i] = was
			if err != nil {
				t.Errorf("%s, %s: %v", file, kind, err)
				continue
			}
			if err := otherDays(base, rec, base.Date(i-1)); err != nil {
				t.Errorf("%s, %s: %v", file, kind, err)
			}
		}
	}
}

func TestRepeatedHeader(t *testing.T) {
	if _, err := os.Stat(filepath.Join("..", "..", "testdata", "weather")); err != nil {
		t.Fatal(err)
	}
	const text = "date,tmax_c,rain_mm\n2031-05-01,20,0\ndate,tmax_c,rain_mm\n2031-05-02,20,0\n"
	checkFault(t, text, Options{}, "f.csv:3: the header is repeated in the middle of the file", "delete this line")
}
