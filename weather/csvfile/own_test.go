package csvfile

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// A want is what a reader must make of one cell of a file; the values are read
// off the file by eye.
type want struct {
	date string
	col  weather.Column
	v    float64 // NaN: missing
}

// check reads text and compares cells, the number of days and the findings.
func check(t *testing.T, name, text string, o Options, days int, cells []want, findings map[string]int) *weather.Record {
	t.Helper()
	rec, err := Read(strings.NewReader(text), name, o)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if rec.Days != days {
		t.Errorf("%s: %d days, want %d", name, rec.Days, days)
	}
	for _, w := range cells {
		checkCell(t, rec, w)
	}
	checkFindings(t, rec, findings)
	return rec
}

func checkCell(t *testing.T, rec *weather.Record, w want) {
	t.Helper()
	d, err := cal.Parse(w.date)
	if err != nil || d < rec.Start || d > rec.End() {
		t.Errorf("%s: no day %s in %v to %v", rec.File, w.date, rec.Start, rec.End())
		return
	}
	got := rec.At(w.col, int(d-rec.Start))
	if math.IsNaN(w.v) != math.IsNaN(got) || math.Abs(got-w.v) > 1e-9*max(1, math.Abs(w.v)) {
		t.Errorf("%s: %s on %s is %v, want %v", rec.File, w.col.Key(), w.date, got, w.v)
	}
	if math.IsNaN(got) && rec.Has(w.col) && rec.Mark[w.col][d-rec.Start] != weather.Missing {
		t.Errorf("%s: %s on %s is NaN but not marked missing", rec.File, w.col.Key(), w.date)
	}
}

// checkFindings compares counts by "code" or "code column"; a finding that is
// not named must not be there.
func checkFindings(t *testing.T, rec *weather.Record, findings map[string]int) {
	t.Helper()
	got := map[string]int{}
	for _, f := range rec.Findings {
		got[strings.TrimSpace(string(f.Code)+" "+f.Column)] = f.Count
		if f.Code == "" || f.What == "" || f.Action == "" || f.Count == 0 {
			t.Errorf("%s: finding without its parts: %+v", rec.File, f)
		}
	}
	for k, n := range findings {
		if got[k] != n {
			t.Errorf("%s: finding %q counted %d, want %d", rec.File, k, got[k], n)
		}
	}
	for k, n := range got {
		if _, ok := findings[k]; !ok {
			t.Errorf("%s: finding %q (%d) not expected", rec.File, k, n)
		}
	}
}

// checkFault reads text and wants every part in the error.
func checkFault(t *testing.T, text string, o Options, parts ...string) {
	t.Helper()
	rec, err := Read(strings.NewReader(text), "f.csv", o)
	if err == nil {
		t.Errorf("no error but %d days; want one with %q", rec.Days, parts)
		return
	}
	for _, p := range parts {
		if !strings.Contains(err.Error(), p) {
			t.Errorf("error\n%v\nlacks %q", err, p)
		}
	}
}

var na = math.NaN()

func TestOwn(t *testing.T) {
	text := "\xef\xbb\xbfdate,tmax_c,tmin_c,rain_mm\r\n2012-01-01,12.8,5,0\n2012-01-02,10.6,,10.9\r\n\n2012-01-05,\"11.7\", 7.2 ,NaN"
	rec := check(t, "own", text, Options{}, 5, []want{
		{"2012-01-01", weather.Tmax, 12.8}, {"2012-01-02", weather.Tmin, na}, {"2012-01-02", weather.Rain, 10.9},
		{"2012-01-03", weather.Tmax, na}, {"2012-01-05", weather.Tmin, 7.2}, {"2012-01-05", weather.Rain, na},
	}, map[string]int{"missing-days": 2, "missing-values tmin_c": 1, "missing-values rain_mm": 1})
	var out bytes.Buffer
	if err := WriteOwn(&out, &rec.Series); err != nil {
		t.Fatal(err)
	}
	wantText := "date,tmax_c,tmin_c,rain_mm\n2012-01-01,12.8,5,0\n2012-01-02,10.6,,10.9\n2012-01-03,,,\n2012-01-04,,,\n2012-01-05,11.7,7.2,\n"
	if out.String() != wantText {
		t.Errorf("written:\n%swant:\n%s", out.String(), wantText)
	}
}

func TestOwnSortsAndDropsDoubles(t *testing.T) {
	text := "date,tmax_c\n2012-01-03,3\n2012-01-01,1\n2012-01-02,2\n2012-01-02,2\n"
	check(t, "own", text, Options{}, 3, []want{{"2012-01-01", weather.Tmax, 1}, {"2012-01-02", weather.Tmax, 2},
		{"2012-01-03", weather.Tmax, 3}},
		map[string]int{"dates-out-of-order": 3, "duplicate-rows": 1})
}

func TestUnitsThatNobodyAsked(t *testing.T) {
	rec := check(t, "own", "date,tmax_c\n2031-01-03,3\n", Options{Units: "us"}, 1, []want{{"2031-01-03", weather.Tmax, 3}}, nil)
	checkAssumed(t, rec, "the units given (us) are ignored: layout own states its own")
}

func TestOwnFaults(t *testing.T) {
	head := "date,tmax_c,tmin_c\n"
	checkFault(t, head+"2012-02-30,1,2\n2012-03-01,1x,2\n2012-03-02,1,2\n2012-03-02,1,3\n2012-03-03,1\n2012-03-04,1,\"2\n",
		Options{}, `f.csv:2:1: "2012-02-30" is not a calendar date`, `f.csv:3:12: tmax_c "1x" is not a number`,
		`f.csv:5:14: duplicate date 2012-03-02: tmin_c is "3" here but differs on line 4`, "f.csv:6:12: the row has 2 cells, the header 3",
		"f.csv:7:14: a quote is not closed")
	checkFault(t, "date,tmax_c,rain\n2012-01-01,1,2\n", Options{}, `f.csv:1:13: unknown column "rain"`, "did you mean rain_mm?")
	checkFault(t, head, Options{}, "but no days")
	checkFault(t, "station,date,tmax_c\na,2012-01-01,1\nb,2012-01-01,2\n", Options{}, "2 stations: a, b")
	checkFault(t, "station,date,tmax_c\na,2012-01-01,1\nb,2012-01-01,2\n", Options{Station: "c"}, `no station "c"`, "a, b")
}
