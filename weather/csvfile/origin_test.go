package csvfile

import (
	"bytes"
	"strings"
	"testing"

	"loamledger/weather"
)

const originText = `date,tmax_c,tmin_c,rain_mm,origin
2031-05-01,20,5,0,observed
2031-05-02,21,6,1.5,filled tmin_c rain_mm
2031-05-03,22,7,0,filled
2031-05-04,23,8,2,synthetic
2031-05-05,24,,0,
`

// What a file says of the origin of its values survives reading and writing.
func TestOriginSurvives(t *testing.T) {
	rec, err := Read(strings.NewReader(originText), "f.csv", Options{})
	if err != nil {
		t.Fatal(err)
	}
	o, e, v := weather.Observed, weather.Earlier, weather.Synthetic
	want := map[weather.Column][]weather.Mark{
		weather.Tmax: {o, o, e, v, o}, weather.Tmin: {o, e, e, v, weather.Missing}, weather.Rain: {o, e, e, v, o},
	}
	for c, marks := range want {
		for i, m := range marks {
			if got := rec.Mark[c][i]; got != m {
				t.Errorf("%s of day %d is %v, want %v", c.Key(), i+1, got, m)
			}
		}
	}
	checkFindings(t, rec, map[string]int{"synthetic-days": 1, "filled-earlier tmax_c": 1, "filled-earlier tmin_c": 2,
		"filled-earlier rain_mm": 2, "missing-values tmin_c": 1})
	var out bytes.Buffer
	if err := WriteOwn(&out, &rec.Series); err != nil {
		t.Fatal(err)
	}
	again, err := Read(&out, "f.csv", Options{})
	if err != nil {
		t.Fatal(err)
	}
	for c := range want {
		for i := range rec.Days {
			if rec.Mark[c][i] != again.Mark[c][i] {
				t.Errorf("%s of day %d was %v and is %v after writing", c.Key(), i+1, rec.Mark[c][i], again.Mark[c][i])
			}
		}
	}
}

// Rain presumed zero keeps its mark, and reference ET that was computed does not
// read back as supplied.
func TestPresumedAndComputedSurvive(t *testing.T) {
	const text = "date,tmax_c,tmin_c,rain_mm,eto_mm,origin\n" +
		"2031-05-01,20,5,0,4.1,presumed rain_mm; computed eto_mm\n" +
		"2031-05-02,21,6,0,4.2,filled tmin_c; trace rain_mm\n"
	rec, err := Read(strings.NewReader(text), "f.csv", Options{})
	if err != nil {
		t.Fatal(err)
	}
	if m := rec.Mark[weather.Rain]; m[0] != weather.Presumed || m[1] != weather.Trace {
		t.Errorf("rain is marked %v", m)
	}
	if v := rec.Data[weather.ETo]; v[0] == v[0] || v[1] != 4.2 {
		t.Errorf("ETo %v", v)
	}
	checkFindings(t, rec, map[string]int{"presumed-zero rain_mm": 1, "eto-computed-earlier eto_mm": 1, "filled-earlier tmin_c": 1,
		"trace-rain rain_mm": 1, "missing-values eto_mm": 1})
	rec.Set(weather.ETo, 0, 4.1, weather.Computed)
	var out bytes.Buffer
	if err := WriteOwn(&out, &rec.Series); err != nil {
		t.Fatal(err)
	}
	if out.String() != text {
		t.Errorf("wrote\n%s, want\n%s", out.String(), text)
	}
}

// A record of observed values is written without the column.
func TestNoOriginWithoutNeed(t *testing.T) {
	const text = "date,tmax_c,rain_mm\n2031-05-01,20,0\n"
	rec, err := Read(strings.NewReader(text), "f.csv", Options{})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := WriteOwn(&out, &rec.Series); err != nil {
		t.Fatal(err)
	}
	if out.String() != text {
		t.Errorf("wrote %q, want %q", out.String(), text)
	}
}

func TestOriginFaults(t *testing.T) {
	checkFault(t, strings.Replace(originText, "synthetic", "invented", 1), Options{}, `f.csv:5:19: unknown origin "invented"`,
		"write observed, filled or synthetic")
	checkFault(t, strings.Replace(originText, "filled tmin_c", "filled tmn_c", 1), Options{}, `origin names the unknown column "tmn_c"`)
}
