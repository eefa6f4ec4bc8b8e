package weatherfile_test

import (
	"errors"
	"strings"
	"testing"

	"loamledger/scenarios/weatherfile"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
)

// suggested returns the declaration shown when a file is rejected.
func suggested(t *testing.T, text string) string {
	t.Helper()
	_, err := csvfile.Read(strings.NewReader(text), "station.csv", csvfile.Options{})
	if !diag.IsInput(err) {
		t.Fatalf("error %v, want a fault of the input", err)
	}
	var one *diag.Error
	var many *diag.Errors
	if errors.As(err, &many) {
		one = many.List[0]
	} else if !errors.As(err, &one) {
		t.Fatal(err)
	}
	if n := strings.Count(err.Error(), "fix:"); n != 1 || !strings.Contains(err.Error(), "--layout-file map.yaml") {
		t.Fatalf("%d faults without a declaration to copy:\n%v", n, err)
	}
	if len(one.Suggestions) != 1 || one.Suggestions[0].Place != diag.NewFile {
		t.Fatalf("suggestions %+v", one.Suggestions)
	}
	// What is printed is the same block, indented with spaces.
	block := "\n    " + strings.ReplaceAll(one.Suggestions[0].YAML, "\n", "\n    ")
	if !strings.HasSuffix(one.Error(), block) {
		t.Errorf("the printed block is not the suggestion:\n%v", one)
	}
	return strings.TrimPrefix(block, "\n")
}

// The declaration shown with an error reads the rejected file, once its open
// choices are made.
func TestSuggestedDeclarationReadsTheFile(t *testing.T) {
	tests := []struct {
		name, text string
		choose     []string // replacements of what is left open
		date       cal.Date
		tmax, rain float64
	}{
		{"own columns, month first", "date,tmax_c,tmin_c,rain_mm,rhmax_pct,wind_m_s\n1/31/2012,14,3,2.5,80,2\n2/1/2012,15,3,0,70,2\n", nil,
			cal.Of(2012, 1, 31), 14, 2.5},
		{"own columns, day first, told later", "date,tmax_c,tmin_c,rain_mm\n01/02/2012,14,3,2.5\n13/02/2012,15,3,0\n", nil, cal.Of(2012, 2, 1),
			14, 2.5},
		{"own columns and a station", "station,date,tmax_c,tmin_c,rain_mm\nA,20120131,14,3,2.5\n", nil, cal.Of(2012, 1, 31), 14, 2.5},
		{"units in the names", "Day,Max Temp (°F),Min Temp (°F),Precip (in)\n2012-01-31,50,41,0.1\n", nil, cal.Of(2012, 1, 31), 10, 2.54},
		{"semicolons and commas", "Tag;TX;TN;RR\n31.01.2012;14,5;3,0;2,5\n", []string{`"C or F"`, "C", `"mm or in"`, "mm"}, cal.Of(2012, 1, 31),
			14.5, 2.5},
		{"a column called null", "null,tmax c,tmin c,rain mm\n2012-01-31,14,3,2.5\n", nil, cal.Of(2012, 1, 31), 14, 2.5},
		{"quotes and colons", "the \\ \"day\": when;tmax c;tmin c;rain mm\n2012-01-31;14;3;2.5\n", nil, cal.Of(2012, 1, 31), 14, 2.5},
		{"tabs", "when\thigh\tlow\train mm\n2012/01/31\t14\t3\t2.5\n", []string{`"C or F"`, "C"}, cal.Of(2012, 1, 31), 14, 2.5},
		{"names that say nothing", "when,a,b,c\n2012-01-31,14,3,2.5\n", []string{
			`tmax: {column: COLUMN, unit: "C or F"}`, "tmax: {column: a, unit: C}",
			`tmin: {column: COLUMN, unit: "C or F"}`, "tmin: {column: b, unit: C}",
			`rain: {column: COLUMN, unit: "mm or in"}`, "rain: {column: c, unit: mm}"}, cal.Of(2012, 1, 31), 14, 2.5},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			shown := suggested(t, tt.text)
			d, err := weatherfile.ReadDeclared(strings.NewReader(strings.NewReplacer(tt.choose...).Replace(shown)), "map.yaml")
			if err != nil {
				t.Fatalf("%v\nin\n%s", err, shown)
			}
			rec, err := csvfile.Read(strings.NewReader(tt.text), "station.csv", csvfile.Options{Declared: d})
			if err != nil {
				t.Fatalf("%v\nwith\n%s", err, shown)
			}
			near := func(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 }
			if rec.Start != tt.date || !near(rec.At(weather.Tmax, 0), tt.tmax) || !near(rec.At(weather.Rain, 0), tt.rain) {
				t.Errorf("from %v: tmax %v, rain %v; want %v, %v, %v\nwith\n%s", rec.Start, rec.At(weather.Tmax, 0), rec.At(weather.Rain, 0), tt.date,
					tt.tmax, tt.rain, shown)
			}
			if len(tt.choose) > 0 {
				if _, err := weatherfile.ReadDeclared(strings.NewReader(shown), "map.yaml"); err == nil {
					t.Error("a unit that is not known is taken as it stands")
				}
			}
		})
	}
}
