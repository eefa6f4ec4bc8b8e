package readsfile_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"loamledger/sim/meter"
	"loamledger/sim/readsfile"
	"loamledger/weather/diag"
)

func rowsOf(t *testing.T, text string) []readsfile.Row {
	t.Helper()
	rows, err := readsfile.Read(strings.NewReader(text), "reads.csv")
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// Published: twelve equal estimates of 885 units, then a read of −4,132 (AWWA M36, as
// reproduced in a text on loss control). Hand: 6488 units of 100 ft³, 2.831684659 m³
// each, are 18,371.97 m³. A unit of volume is never guessed: HCF here.
func TestEstimatesAndCorrection(t *testing.T) {
	text := "date,volume (HCF),read_type\n2023-01-01,,\n"
	for m := 2; m <= 13; m++ {
		text += fmt.Sprintf("%04d-%02d-01,885,estimated\n", 2023+(m-1)/12, (m-1)%12+1)
	}
	h, err := readsfile.History(rowsOf(t, text+"2024-02-01,-4132,actual\n"), "main")
	if err != nil || len(h.Periods) != 1 || len(h.Reads) != 13 {
		t.Fatal(h, err)
	}
	p := h.Periods[0]
	if p.Kind != meter.Corrected || p.Why != meter.TooLong || math.Abs(p.M3-6488*2.8316846592) > 1e-6 ||
		math.Abs(h.UnitM3-2.8316846592) > 1e-9 {
		t.Errorf("%+v, unit %g m³", p, h.UnitM3)
	}
}

// Hand: the register rises by 12 in January and 30 in February. In March the meter is
// replaced: the old one ends at 1050, 8 after 1042, and the new one starts at 3 and
// shows 10, 7 more: 15. In April the register is reset and nobody knows the use. In May
// it turns over: 9990 to the end of its four digits at 10000, and on to 6: 16.
func TestRegisters(t *testing.T) {
	rows := rowsOf(t, `date,register (kgal),replaced,old_end,new_start,notes
2023-01-01,1000,,,,
2023-02-01,1012,,,,
2023-03-01,1042,,,,
2023-04-01,10,yes,1050,3,
2023-05-01,9990,yes,,,
2023-06-01,6,yes,10000,0,turned over
`)
	var got []string
	for i := range rows {
		got = append(got, rows[i].Volume.String(), fmt.Sprint(rows[i].Replaced, rows[i].Unknown))
	}
	want := "12 false false 30 false false 15 true false 0 true true 16 true false"
	if strings.Join(got, " ") != want {
		t.Errorf("%v, want %s", got, want)
	}
	h, err := readsfile.History(rows, "")
	if err != nil || h.Periods[3].Why != meter.Reset || h.Periods[2].Left {
		t.Errorf("%+v, %v", h.Periods, err)
	}
}

// A register may fall after an estimate: the read corrects it. Hand: 1000 to 1040 by
// estimate, then read as 1025: −15, together 25.
func TestRegisterAfterEstimate(t *testing.T) {
	rows := rowsOf(t, "date,register (kgal),read_type\n2023-01-01,1000,\n2023-02-01,1040,estimated\n2023-03-01,1025,actual\n")
	h, err := readsfile.History(rows, "")
	if err != nil || rows[1].Volume.String() != "-15" || math.Abs(h.Periods[0].M3-25*3.785411784) > 1e-9 {
		t.Errorf("%+v, %v", rows, err)
	}
}

func TestFaultsOfRegisters(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"date,register (kgal)\n2023-01-01,1000\n2023-02-01,990\n", "reads.csv:3:12: the register fell from 1000 to 990"},
		{"date,volume (HCF),register\n2023-01-01,,1000\n2023-02-01,22,1012\n", "reads.csv:3:12: volume 22 differs from the 12 by which"},
		{"date,register (HCF),replaced,old_end,new_start\n2023-01-01,10,,,\n2023-02-01,3,yes,8,0\n",
			"reads.csv:3:18: old_end makes the use negative: -2"},
		{"date,register (HCF),replaced,old_end\n2023-01-01,10,,\n2023-02-01,13,,12\n", "reads.csv:3:16: old_end is given, and the meter was"},
		{"date,register (HCF),replaced\n2023-01-01,10,\n2023-02-01,13,maybe\n", `reads.csv:3:15: replaced "maybe" is neither`},
		{"date,volume (HCF),read_type\n2023-01-01,,\n2023-02-01,5,estimated\n2023-03-01,-6,actual\n",
			"reads.csv:4:12: volume -6 takes off more than the 5 that"},
		{"date,volume (HCF),read_type\n2023-01-01,,\n2023-02-01,-5,estimated\n", "reads.csv:3:12: volume -5: an estimate is not below 0"},
		{"date,volume (HCF),from,read_type\n2023-01-01,,,\n2023-02-01,5,,estimated\n2023-04-01,-2,2023-03-01,\n",
			"reads.csv:4:12: volume -2 is below 0 and corrects no estimate"},
		{"date,volume (HCF),register (kgal)\n2023-01-01,,\n", "reads.csv:1:19: the headings name HCF and kgal"},
		{"date,volume (HCF)\n2023-01-01,\n2023-02-01,\n", "reads.csv:3:12: volume: nothing is given"},
		{"date,volume (HCF),read_type\n2023-01-01,,\n2023-02-01,5,guessed\n", `reads.csv:3:14: unknown read_type "guessed"`},
		{"date,volume,unit,read_type\n2023-01-01,,,\n2023-02-01,900,gal,estimated\n2023-03-01,-1,kgal,actual\n",
			"reads.csv:4:12: volume -1 is in kgal, and the estimates it corrects in gal"},
		{"date,unit\n2023-01-01,gal\n", "missing column volume"},
	} {
		if _, err := readsfile.Read(strings.NewReader(tt.text), "reads.csv"); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%q: no %q in %v", tt.text, tt.want, err)
		}
	}
}

// The reads of a file with several meters are chosen by name. Hand: whole thousands of
// gallons are 3.785411784 m³; six reads show it, five do not.
func TestHistoryOfMeters(t *testing.T) {
	text := "date,from,volume (gal),meter\n"
	for m := 2; m <= 7; m++ {
		text += fmt.Sprintf("2023-%02d-01,2023-%02d-01,%d000,lawn\n", m, m-1, 7+m)
	}
	text += "2023-02-01,2023-01-01,1234,house\n"
	rows := rowsOf(t, text)
	h, err := readsfile.History(rows, "lawn")
	if err != nil || len(h.Reads) != 6 || math.Abs(h.UnitM3-3.785411784) > 1e-9 {
		t.Errorf("%+v, %v", h, err)
	}
	if h, err = readsfile.History(rows, "house"); err != nil || len(h.Reads) != 1 || h.UnitM3 != 0 {
		t.Errorf("%+v, %v", h, err)
	}
	if _, err := readsfile.History(rows, "barn"); err == nil ||
		!strings.Contains(err.Error(), `no reads of meter "barn", but of: lawn, house`) {
		t.Error(err)
	}
}

// Any text is reads in order or an input error, and periods have all of their use.
func FuzzRead(f *testing.F) {
	f.Add("date,from,volume (HCF),meter,read_type,billed,notes\n2024-03-01,2024-02-01,22,house,actual,75.69,paid\n")
	f.Add("date,volume,unit\n2024-03-01,,\n2024-04-01,3,kgal\n2024-05-01,1.5,gal\n")
	f.Add("date,volume (HCF),read_type\n2024-01-01,,\n2024-02-01,9,estimated\n2024-03-01,9,estimated\n2024-04-01,-4,actual\n")
	f.Add("date,register (kgal),replaced,old_end,new_start\n2024-01-01,5,,,\n2024-02-01,9,,,\n2024-03-01,2,yes,9.5,0\n2024-04-01,1,yes,,\n")
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := readsfile.Read(strings.NewReader(text), "reads.csv")
		if err != nil {
			if !diag.IsInput(err) {
				t.Errorf("%v is not an input error", err)
			}
			return
		}
		last := map[string]int{}
		for _, r := range rows {
			if r.To <= r.From || r.Volume.Sign() < 0 && r.Type == meter.Estimated || r.Unit == "" || int(r.From) < last[r.Meter] {
				t.Errorf("%+v", r)
			}
			last[r.Meter] = int(r.To)
		}
		for _, name := range readsfile.Meters(rows) {
			h, err := readsfile.History(rows, name)
			if err != nil {
				t.Fatal(err)
			}
			var reads, spread, periods float64
			for i := range h.Reads {
				reads, spread = reads+h.Reads[i].M3, spread+h.SpreadM3[i]
			}
			for i := range h.Periods {
				p := &h.Periods[i]
				if periods += p.M3; p.M3 < -1e-6*(1+math.Abs(reads)) || p.Days() < 1 || p.Left != (p.Why != "") {
					t.Errorf("%+v", p)
				}
			}
			if tol := 1e-6 * (1 + math.Abs(reads)); math.Abs(reads-spread) > tol || math.Abs(reads-periods) > tol {
				t.Errorf("reads %g, spread %g, periods %g", reads, spread, periods)
			}
		}
	})
}
