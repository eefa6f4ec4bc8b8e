package soilfile_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"testing/iotest"

	"loamledger/sim/soilwater/soilfile"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

const own = `date,5 cm [m3/m3],20 cm north [%],20 cm south [%],10 cm [F]
2021-05-01,0.20,30,34,50
2021-05-02,,31,35,
2021-05-05,-9999,NA,33,41
`

// TestOwnLayout: 30% and 34% average to 0.32; 50 °F are 10 °C, 41 °F are 5 °C; the
// two missing rows and the cells without a number are gaps.
func TestOwnLayout(t *testing.T) {
	f, err := soilfile.Read(strings.NewReader("\xef\xbb\xbf"+own), "own.csv")
	if err != nil {
		t.Fatal(err)
	}
	if f.Start != cal.Of(2021, 5, 1) || f.Days != 5 || len(f.Levels) != 2 || f.Layout != soilfile.OwnLayout {
		t.Fatalf("%v, %d days, %d levels, %s", f.Start, f.Days, len(f.Levels), f.Layout)
	}
	// Gaps: 4 of the first column, 3 and 2 of the others.
	if f.Gaps != 9 || f.Levels[1].Sensors != 2 || f.Levels[1].PartDays != 1 {
		t.Errorf("%d gaps; %+v", f.Gaps, f.Levels[1])
	}
	for i, want := range []float64{0.32, 0.33, math.NaN(), math.NaN(), 0.31} { // the last: 0.33 less its distance of 0.02
		if got := f.Levels[1].Theta[i]; math.Abs(got-want) > 1e-12 || math.IsNaN(got) != math.IsNaN(want) {
			t.Errorf("day %d: %g, by hand %g", i, got, want)
		}
	}
	if f.SoilTempC[0] != 10 || f.SoilTempC[4] != 5 || !math.IsNaN(f.SoilTempC[1]) {
		t.Errorf("temperatures %v", f.SoilTempC)
	}
}

const reference = `WBANNO,LST_DATE,P_DAILY_CALC,SOIL_MOISTURE_5_DAILY,SOIL_MOISTURE_10_DAILY,SOIL_TEMP_5_DAILY,SOIL_TEMP_10_DAILY
12345,20210501,0.0,0.250,0.300,9.0,8.0
12345,20210502,0.0,-99.000,0.310,9.0,-9999.0
`

// TestReferenceLayout reads the reference network with its header, and as
// published: 28 columns by position, without one.
func TestReferenceLayout(t *testing.T) {
	bare := strings.Join([]string{"12345", "20210501", "2.5", "-98.0", "35.0", "20", "8", "14", "14", "0.0", "20", "C", "25", "5", "14", "90", "40", "60",
		"0.250", "0.300", "0.310", "0.320", "-99.000", "9", "8", "8", "8", "8"}, " ") + "\n"
	for _, tt := range []struct {
		text   string
		levels int
	}{{reference, 2}, {strings.ReplaceAll(reference, ",", " "), 2}, {bare, 5}} {
		f, err := soilfile.Read(strings.NewReader(tt.text), "station.csv")
		if err != nil {
			t.Fatal(err)
		}
		if len(f.Levels) != tt.levels || f.Levels[0].DepthM != 0.05 || f.Levels[1].DepthM != 0.10 || f.Levels[0].Theta[0] != 0.25 ||
			f.Levels[1].Theta[0] != 0.30 || f.SoilTempC[0] != 8 || f.Layout != soilfile.ReferenceLayout {
			t.Errorf("%+v, %v", f.Levels, f.SoilTempC)
		}
		if f.Days == 2 && !math.IsNaN(f.Levels[0].Theta[1]) {
			t.Error("-99.000 is not a gap")
		}
	}
}

// TestErrors: each names its code and place.
func TestErrors(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		code       diag.Code
		line, col  int
	}{
		{"empty", "", diag.EmptyFile, 0, 1},
		{"no rows", "date,5 cm [%]\n", diag.EmptyFile, 1, 1},
		{"no date", "day,5 cm [%]\n2021-05-01,20\n", diag.UnknownUnit, 1, 1},
		{"only a date", "date\n2021-05-01\n", diag.MissingColumn, 1, 1},
		{"only temperature", "date,10 cm [C]\n2021-05-01,9\n", diag.MissingColumn, 1, 1},
		{"no unit", "date,5 cm\n2021-05-01,20\n", diag.UnknownUnit, 1, 6},
		{"unknown unit", "date,5 cm [mm]\n2021-05-01,20\n", diag.UnknownUnit, 1, 6},
		{"tension", "date,5 cm [kPa]\n2021-05-01,20\n", diag.Unsupported, 1, 6},
		{"no depth", "date,top [%]\n2021-05-01,20\n", diag.UnknownKey, 1, 6},
		{"depth 0", "date,0 cm [%]\n2021-05-01,20\n", diag.OutOfRange, 1, 6},
		{"two dates", "date,date,5 cm [%]\n", diag.Duplicate, 1, 6},
		{"bad date", "date,5 cm [%]\n1 May,20\n", diag.NotADate, 2, 1},
		{"backward", "date,5 cm [%]\n2021-05-02,20\n2021-05-01,20\n", diag.WrongOrder, 3, 1},
		{"twice", "date,5 cm [%]\n2021-05-02,20\n2021-05-02,20\n", diag.Duplicate, 3, 1},
		{"short row", "date,5 cm [%],10 cm [%]\n2021-05-02,20\n", diag.RowLength, 2, 1},
		{"word", "date,5 cm [%],10 cm [%]\n2021-05-02,20,wet\n", diag.NotANumber, 2, 15},
		{"percent as share", "date,5 cm [m3/m3]\n2021-05-02,20\n", diag.OutOfRange, 2, 12},
		{"share as percent", "date,5 cm [%]\n2021-05-02,0.2\n2021-05-03,0.3\n", diag.WrongUnits, 1, 1},
		{"binary", "date,5 cm [%]\n2021-05-02,\x00\n", diag.NotText, 2, 12},
		{"far apart", "date,5 cm [%]\n1000-05-02,20\n2021-05-02,20\n", diag.TooLarge, 3, 1},
		{"long line", "date,5 cm [%]\n" + strings.Repeat("2", 70_000), diag.TooLarge, 2, 1},
	} {
		_, err := soilfile.Read(strings.NewReader(tt.text), "f.csv")
		var one *diag.Error
		var list *diag.Errors
		if errors.As(err, &list) {
			one = list.List[0]
		} else if !errors.As(err, &one) {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if one.Code != tt.code || one.Pos.Line != tt.line || one.Pos.Col != tt.col || one.Pos.File != "f.csv" || one.Fix == "" {
			t.Errorf("%s: %+v, want %s at %d:%d", tt.name, one, tt.code, tt.line, tt.col)
		}
	}
	broken := errors.New("the cable is out")
	if _, err := soilfile.Read(iotest.ErrReader(broken), "f.csv"); !errors.Is(err, broken) {
		t.Errorf("%v", err)
	}
}

// FuzzRead: whatever the bytes, Read ends in a record of equal columns with water
// contents from 0 to 1, or in an error in the file.
func FuzzRead(f *testing.F) {
	for _, text := range []string{own, reference, strings.ReplaceAll(reference, ",", " "), "date,2 in [%]\n2021-01-01,9\n"} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		file, err := soilfile.Read(strings.NewReader(string(b)), "f.csv")
		if err != nil {
			if !diag.IsInput(err) {
				t.Fatalf("not an error in the file: %v", err)
			}
			return
		}
		if len(file.Levels) == 0 || file.Days < 1 {
			t.Fatalf("%d levels, %d days", len(file.Levels), file.Days)
		}
		for i, l := range file.Levels {
			if len(l.Theta) != file.Days || i > 0 && l.DepthM <= file.Levels[i-1].DepthM {
				t.Fatalf("level %d: %d days of %d, %g m", i, len(l.Theta), file.Days, l.DepthM)
			}
			for _, v := range l.Theta {
				// Distances from the mean are removed, so a level can pass its limits by them.
				if v < -1 || v > 2 {
					t.Fatalf("level %d: %g", i, v)
				}
			}
		}
	})
}
