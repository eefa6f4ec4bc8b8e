package weatherfile_test

import (
	"math"
	"strings"
	"testing"

	"loamledger/scenarios/weatherfile"
	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
)

// The example's table, made by hand.
func TestDeclaredExampleReads(t *testing.T) {
	d, err := weatherfile.ReadDeclared(strings.NewReader(weatherfile.DeclaredExample), "map.yaml")
	if err != nil {
		t.Fatal(err)
	}
	const table = "Datum;TX;TN;RR\n01.07.2031;25,5;12;0\n02.07.2031;26;-99;-1\n03.07.2031;24;11;7,5\n"
	rec, err := csvfile.Read(strings.NewReader(table), "t.csv", csvfile.Options{Declared: d})
	if err != nil {
		t.Fatal(err)
	}
	if rec.Days != 3 || rec.Start.String() != "2031-07-01" || rec.At(weather.Tmax, 0) != 25.5 || !math.IsNaN(rec.At(weather.Tmin, 1)) ||
		rec.Mark[weather.Rain][1] != weather.Trace || rec.At(weather.Rain, 2) != 7.5 {
		t.Errorf("read %+v", rec.Series)
	}
	if st := rec.Station; st.LatDeg != 47.1 || st.ElevM != 480 || st.WindHeightM != 10 {
		t.Errorf("station %+v", st)
	}
}

func TestNormalsExampleReads(t *testing.T) {
	n, st, err := weatherfile.ReadNormals(strings.NewReader(weatherfile.NormalsExample), "normals.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if n.RainMM[0] != 52 || n.TmaxC[6] != 32.8 || n.DewC[11] != -3.8 || n.YearSpread != 0.25 || n.WetMM != 0.25 ||
		st.Name != "Juniper Flat" || st.ElevM != 490 {
		t.Errorf("%+v at %+v", n, st)
	}
	if _, err := n.Params(); err != nil {
		t.Error(err)
	}
}

// 1 in is 25.4 mm, 50 °F is 10 °C, 1 mph is 0.44704 m/s: by definition.
func TestNormalsInOtherUnits(t *testing.T) {
	row := func(v string) string { return "[" + strings.Repeat(v+", ", 11) + v + "]" }
	text := "rain_in: " + row("2") + "\nwet_days: " + row("5") + "\ntmax_f: " + row("68") + "\ntmin_f: " + row("50") + "\nwind_mph: " +
		row("10") + "\ntmax_sd_f: " + row("9") + "\n"
	n, _, err := weatherfile.ReadNormals(strings.NewReader(text), "n.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if n.RainMM[3] != 50.8 || n.TmaxC[0] != 20 || n.TminC[11] != 10 || math.Abs(n.WindMS[0]-4.4704) > 1e-12 || n.TmaxSD[0] != 5 {
		t.Errorf("%+v", n)
	}
}

func TestFaultsHavePlaceAndFix(t *testing.T) {
	tests := []struct {
		declared       bool
		old, new, want string
	}{
		{true, "date_form", "date_from", "map.yaml:5:1: unknown key \"date_from\"\n\tfix: did you mean date_form?"},
		{true, "unit: mm", "unit: furlong", "has the unknown unit \"furlong\"\n\tfix: write mm, cm or in"},
		{true, "tmax:", "tmx:", "map.yaml:8:3: unknown key \"tmx\"\n\tfix: did you mean tmax?"},
		{true, "elevation: 480 m", "elevation: 480", "map.yaml:12:12: elevation: 480 has no unit"},
		{true, "delimiter: \";\"", "delimiter: x", "delimiter \"x\"\n\tfix: use \",\", \";\""},
		{true, "{column: TN, unit: C}", "{column: TN}", "map.yaml:9:9: unit is missing"},
		{false, "wet_days:", "wetdays:", "unknown key \"wetdays\"\n\tfix: did you mean wet_days?"},
		{false, "[52, 46, ", "[52, ", "map.yaml:7:11: rain_mm has 11 figures, not twelve"},
		{false, "32.8, 32.0", "328, 32.0", "tmax_c of month 7: 328 is outside the range of any place"},
		{false, "latitude: 38.9", "latitude: 138.9", "map.yaml:4:11: latitude 138.9 is outside -90 to 90"},
		{false, "wet_day:  0.25 mm", "wet_day:  0.25", "map.yaml:9:11: wet_day: 0.25 has no unit"},
		{false, "tmin_c:", "tmn_c:", "tmin_c is missing"},
	}
	for _, tt := range tests {
		text := weatherfile.NormalsExample
		if tt.declared {
			text = weatherfile.DeclaredExample
		}
		if !strings.Contains(text, tt.old) {
			t.Fatalf("the example has no %q", tt.old)
		}
		err := read(tt.declared, strings.Replace(text, tt.old, tt.new, 1))
		if err == nil || !diag.IsInput(err) || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got\n%v\nwant\n%s", tt.new, err, tt.want)
		}
	}
}

func read(declared bool, text string) (err error) {
	if declared {
		_, err = weatherfile.ReadDeclared(strings.NewReader(text), "map.yaml")
	} else {
		_, _, err = weatherfile.ReadNormals(strings.NewReader(text), "map.yaml")
	}
	return err
}

func FuzzDeclared(f *testing.F) { fuzz(f, true, weatherfile.DeclaredExample) }
func FuzzNormals(f *testing.F)  { fuzz(f, false, weatherfile.NormalsExample) }

// For any bytes, reading ends with values or with an input error.
func fuzz(f *testing.F, declared bool, example string) {
	for _, s := range []string{example, "", "a", "- x", "columns: x", "columns: {tmax: 1}", "rain_mm: 5", "rain_mm: [[1]]",
		"missing: {a: b}"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if err := read(declared, text); err != nil && !diag.IsInput(err) {
			t.Errorf("not a fault of the input: %v", err)
		}
	})
}
