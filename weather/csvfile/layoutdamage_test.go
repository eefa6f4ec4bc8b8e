package csvfile

import (
	"errors"
	"strings"
	"testing"

	"loamledger/weather/diag"
)

// In each layout a damaged number and a damaged date are reported together,
// each at its location.
func TestDamageInEveryLayout(t *testing.T) {
	for _, tt := range []struct {
		file         string
		o            Options
		number, date string // a cell each, met once in the file from the given text on
		badDate      string
	}{
		{"gsod.csv", Options{}, `  71.6"," ","9999.9`, "2031-05-05", "2031-05-55"},
		{"agrimet.csv", Options{}, "69.80", "05,03", "05,33"},
		{"agrimet_web.txt", Options{}, "68.00", "05/02/2031", "05/42/2031"},
		{"uscrn.csv", Options{}, "22.31", "20310503", "20310533"},
		{"uscrn_blanks.txt", Options{}, "22.31", "20310503", "20310533"},
		{"knmi.txt", Options{}, "1875", "20310503", "20310533"},
		{"siar.csv", Options{}, "70.5", "31/12/2032", "31/13/2032"},
		{"siar_latin1.csv", Options{}, "70.5", "31/12/2032", "31/13/2032"},
		{"eccc.csv", Options{}, "18.5", "2031-05-05", "2031-05-55"},
		{"eccc_older.csv", Options{}, "18.5", "2031-05-02", "2031-05-52"},
		{"bom.csv", Options{}, "42.4", "01,08", "01,38"},
		{"silo.csv", Options{}, "33.5", "2031-01-02", "2031-01-52"},
		{"silo_standard.txt", Options{}, "33.5", "20310102", "20310152"},
		{"meteostat.csv", Options{}, "18.5", "2031-05-03", "2031-05-53"},
		{"meteostat_bulk.csv", Options{}, "16.2", "2031-05-02", "2031-05-52"},
		{"coagmet.csv", Options{}, "250.0", "2031-05-03", "2031-05-53"},
		{"gridmet.csv", Options{}, "293.65", "2031-05-03", "2031-05-53"},
		{"fawn.csv", Options{Station: "Quiet Grove"}, "87.8", "2 May 2031", "2 Mai 2031"},
		{"vega.csv", Options{}, "18.5", "2031-05-02", "2031-05-52"},
		{"wide-flags.csv", Options{}, "231.0", "2031-05-06", "2031-05-36"},
		{"tmy3.csv", Options{}, "19.5", "01/01/1988,24", "01/41/1988,24"},
		{"epw.epw", Options{}, "19.5", "2019,1,1,24,", "2019,1,41,24,"},
		{"declared.txt", Options{Declared: garden()}, "18,5", "03.05.2031", "33.05.2031"},
	} {
		text := fixture(t, tt.file)
		at, dateAt := strings.Index(text, tt.number), strings.Index(text, tt.date)
		if at < 0 || dateAt < 0 {
			t.Errorf("%s: lacks %q or %q", tt.file, tt.number, tt.date)
			continue
		}
		at += len(tt.number) - len(strings.TrimLeft(tt.number, " "))
		where := map[diag.Pos]bool{posOf(text, at): true, {File: "f.csv", Line: posOf(text, dateAt).Line}: true}
		text = text[:at] + "x" + text[at+1:]
		text = text[:dateAt] + tt.badDate + text[dateAt+len(tt.date):]
		// A bulk file is detected by its rows, so damage in them hides its layout.
		if tt.file == "meteostat_bulk.csv" {
			checkFault(t, text, Options{}, "unknown layout")
			continue
		}
		_, err := Read(strings.NewReader(text), "f.csv", tt.o)
		var all *diag.Errors
		if !errors.As(err, &all) || len(all.List) != 2 {
			t.Errorf("%s: want two faults, not %v", tt.file, err)
			continue
		}
		for _, e := range all.List {
			if !where[e.Pos] && !where[diag.Pos{File: e.Pos.File, Line: e.Pos.Line}] || e.Fix == "" {
				t.Errorf("%s: %v is not where damage was done: %v", tt.file, e, where)
			}
		}
	}
}

// posOf returns the line and byte column of byte i.
func posOf(text string, i int) diag.Pos {
	line := 1 + strings.Count(text[:i], "\n")
	return diag.Pos{File: "f.csv", Line: line, Col: i - strings.LastIndexByte(text[:i], '\n')}
}
