package csvfile

import (
	"bytes"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// garden describes the fixture declared.txt.
func garden() *Declared {
	lat, wind := 50.5, 1.5
	return &Declared{
		Name: "garden", Delimiter: ";", DecimalComma: true, Date: "Datum", DateForm: "DD.MM.YYYY", LatDeg: &lat, WindHeightM: &wind,
		Missing: []string{"---"},
		Columns: map[string]DeclaredColumn{
			"tmax": {Column: "max", Unit: "C"}, "tmin": {Column: "Min", Unit: "°C"}, "rain": {Column: "Regen", Unit: "mm", Trace: "Spur"},
			"rhmean": {Column: "Feuchte", Unit: "fraction", Missing: []string{"-99"}}, "rs": {Column: "Strahlung", Unit: "J/cm2"},
			"wind": {Column: "Wind", Unit: "km/h"},
		},
	}
}

func TestDeclared(t *testing.T) {
	rec := check(t, "declared", fixture(t, "declared.txt"), Options{Declared: garden()}, 3, []want{
		{"2031-05-01", weather.Rain, 0}, {"2031-05-01", weather.Tmax, 18.5}, {"2031-05-01", weather.Tmin, 6.1},
		{"2031-05-01", weather.RHmean, 71}, {"2031-05-01", weather.Rs, 21},
		{"2031-05-01", weather.Wind, 11 / 3.6}, {"2031-05-02", weather.Rain, 0}, {"2031-05-02", weather.Tmin, na},
		{"2031-05-03", weather.Rain, 2.4}, {"2031-05-03", weather.RHmean, na},
	}, map[string]int{"trace-rain rain_mm": 1, "missing-code rhmean_pct": 1, "missing-values tmin_c": 1, "missing-values rhmean_pct": 1})
	if rec.Layout != "garden" || rec.Station.LatDeg != 50.5 || rec.Station.WindHeightM != 1.5 {
		t.Errorf("layout %q, station %+v", rec.Layout, rec.Station)
	}
	if m := rec.Mark[weather.Rain]; m[0] != weather.Observed || m[1] != weather.Trace {
		t.Errorf("rain marks %v", m)
	}
}

// Codes are written as the numbers are.
func TestDeclaredCommaInCodes(t *testing.T) {
	d := garden()
	d.Missing = []string{"-99,9"}
	d.Columns = map[string]DeclaredColumn{"tmax": {Column: "Max", Unit: "C"}, "rain": {Column: "Regen", Unit: "mm", Trace: "0,01"}}
	check(t, "codes", "Datum;Max;Regen\n01.05.2031;-99,90;0,01\n02.05.2031;12,5;1,2\n", Options{Declared: d}, 2, []want{
		{"2031-05-01", weather.Tmax, na}, {"2031-05-01", weather.Rain, 0}, {"2031-05-02", weather.Tmax, 12.5}, {"2031-05-02", weather.Rain, 1.2},
	}, map[string]int{"missing-code tmax_c": 1, "missing-values tmax_c": 1, "trace-rain rain_mm": 1})
}

func TestDeclaredWithoutHeader(t *testing.T) {
	d := &Declared{
		Delimiter: "blanks", NoHeader: true, Year: "1", YearDay: "2", Station: "3",
		Columns: map[string]DeclaredColumn{"tmax": {Column: "4", Unit: "tenths of F"}, "wind": {Column: "5", Unit: "miles/day"},
			"rain": {Column: "6", Unit: "tenths of mm", Trace: "-1"}},
	}
	check(t, "bare", "made up\n2032 366  a 680 120 -1\n2033   1  a 860  60 24\n", Options{Declared: d}, 2, []want{
		{"2032-12-31", weather.Tmax, 20}, {"2032-12-31", weather.Wind, 2.2352}, {"2032-12-31", weather.Rain, 0}, {"2033-01-01", weather.Tmax, 30},
		{"2033-01-01", weather.Rain, 2.4},
	}, map[string]int{"trace-rain rain_mm": 1})
	checkFault(t, "made up\nno days\n", Options{Declared: d}, "no line near the start of the file has a valid date")
	checkFault(t, "2031 1 a\n", Options{Declared: d}, `missing column "6"`)
}

func TestDeclaredCheck(t *testing.T) {
	if err := garden().Check(); err != nil {
		t.Error(err)
	}
	bad := &Declared{
		Delimiter: "#", Header: "x", NoHeader: true, Date: "d", Year: "y", DateForm: "DD/MM",
		Columns: map[string]DeclaredColumn{"tmx": {Column: "1", Unit: "C"}, "tmin": {Unit: "furlong", Column: "b"},
			"wind": {Unit: "m/s", Trace: "T"}, "rs": {Column: "3"}},
	}
	err := bad.Check()
	if err == nil {
		t.Fatal("no error")
	}
	for _, part := range []string{`delimiter "#"`, "header and no_header are both given", "both as one column and as several",
		`date form "DD/MM"`, "did you mean tmax?", `tmin has the unknown unit "furlong"`, "write C, F or K",
		"wind has no column", "wind has a trace; only rain can have one", `rs has the unknown unit ""`, "write MJ/m2",
		`column "b" is a name, but the file has no header`} {
		if !strings.Contains(err.Error(), part) {
			t.Errorf("error\n%v\nlacks %q", err, part)
		}
	}
	if err := new(Declared).Check(); err == nil || !strings.Contains(err.Error(), "no columns") ||
		!strings.Contains(err.Error(), "incomplete date columns") {
		t.Errorf("zero value: %v", err)
	}
	checkFault(t, "Datum;Regen\n01.05.2031;0,0\n", Options{Declared: garden()}, "the closest one lacks Feuchte, Strahlung, max, Min, Wind")
}

// A tenth of a tenth is a slip, however often the words are repeated.
func TestDeclaredTenthsOnce(t *testing.T) {
	if _, ok := declaredUnit(weather.Rain, "tenths of mm"); !ok {
		t.Error("tenths of mm are refused")
	}
	for _, unit := range []string{"tenths of tenths of mm", strings.Repeat("tenths of ", 1000) + "mm"} {
		if _, ok := declaredUnit(weather.Rain, unit); ok {
			t.Errorf("%.30q is taken for a unit", unit)
		}
	}
}

func TestDateForm(t *testing.T) {
	day := cal.Of(2031, 6, 5)
	for form, texts := range map[string][]string{
		"":                 {"2031-06-05", "2031-6-5", "2031-06-05 00:00"},
		"YYYYMMDD":         {"20310605"},
		"MM/DD/YYYY":       {"06/05/2031", "6/5/2031", "6/5/2031 0:00"},
		"DD.MM.YYYY":       {"05.06.2031", "5.6.2031"},
		"M/D/YY":           {"6/5/31"},
		"D Mon YYYY":       {"5 Jun 2031", "05 jun 2031"},
		"DDMonYY":          {"05JUN31"},
		"YYYY-DDD":         {"2031-156"},
		"YYYYDDD":          {"2031156"},
		"am DD.MM.YYYY um": {"am 05.06.2031 um"},
	} {
		f, err := parseDateForm(form)
		if err != nil {
			t.Errorf("form %q: %v", form, err)
			continue
		}
		for _, s := range texts {
			if d, ok := f.read([]byte(s)); !ok || d != day {
				t.Errorf("form %q reads %q as %v, %v", form, s, d, ok)
			}
		}
		for _, s := range []string{"", "x", "2031-02-30", "20310230", "30/02/2031", "2031-06-05 12:00", "2031156x", "0"} {
			if d, ok := f.read([]byte(s)); ok {
				t.Errorf("form %q reads %q as %v", form, s, d)
			}
		}
	}
	for _, form := range []string{"MM/DD", "YYYY", "YYYY-MM-DD-DDD", "YYYY YY-MM-DD", "YYYY-MM"} {
		if _, err := parseDateForm(form); err == nil {
			t.Errorf("form %q is taken", form)
		}
	}
	old, _ := parseDateForm("M/D/YY")
	if d, ok := old.read([]byte("1/2/70")); !ok || d != cal.Of(1970, 1, 2) {
		t.Errorf("two-digit year 70: %v, %v", d, ok)
	}
}

func FuzzReadDeclared(f *testing.F) {
	f.Add([]byte(fixture(f, "declared.txt")), "DD.MM.YYYY", ";")
	f.Add([]byte("Datum,Max\n2031-06-05,\"1,5\"\n"), "", ",")
	f.Fuzz(func(t *testing.T, b []byte, form, sep string) {
		d := garden()
		d.DateForm, d.Delimiter = form, sep
		bare := &Declared{Delimiter: sep, NoHeader: true, Date: "1", DateForm: form,
			Columns: map[string]DeclaredColumn{"tmax": {Column: "2", Unit: "F"}}}
		for _, one := range []*Declared{d, bare} {
			n := 0
			for rec, err := range ReadAll(bytes.NewReader(b), "fuzz", Options{Declared: one}) {
				if n++; (rec == nil) == (err == nil) {
					t.Fatalf("record %v and error %v", rec, err)
				}
			}
			if n == 0 {
				t.Fatal("neither a record nor an error")
			}
		}
	})
}
