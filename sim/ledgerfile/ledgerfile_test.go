package ledgerfile

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/parquet-go/parquet-go"
	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/weather/cal"
)

// header is the order of the columns as the files promise it to their readers.
const header = "date,strategy,zone,minutes,cycles,reason,eto_mm,k,etc_mm,rain_mm,gross_mm,spray_loss_mm,irrigation_runoff_mm,rain_runoff_mm,rain_evaporated_mm,percolation_irrigation_mm,percolation_rain_mm,eta_mm,depletion_mm,low_quarter_depletion_mm,taw_mm,raw_mm,ks,stress"

func TestColumnsKeepTheirOrder(t *testing.T) {
	if got := strings.Join(keys(Columns()), ","); got != header {
		t.Errorf("Columns\n got %s\nwant %s", got, header)
	}
	var schema []string
	for _, f := range parquet.SchemaOf(parquetRow{}).Fields() {
		schema = append(schema, f.Name())
	}
	if got := strings.Join(schema, ","); got != header {
		t.Errorf("Parquet\n got %s\nwant %s", got, header)
	}
	text := writeCSV(t)
	if got, _, _ := strings.Cut(text, "\n"); got != header {
		t.Errorf("CSV\n got %s\nwant %s", got, header)
	}
	for _, cols := range [][]Column{Columns(), TallyColumns()} {
		seen := map[string]bool{}
		for _, c := range cols {
			if seen[c.Key] || c.About == "" || strings.HasSuffix(c.Key, "_mm") != (c.Unit == "mm") {
				t.Errorf("column %+v: twice, without meaning, or unit and suffix disagree", c)
			}
			seen[c.Key] = true
		}
	}
}

func writeCSV(t *testing.T, sheets ...*replay.Sheet) string {
	t.Helper()
	var b bytes.Buffer
	c := NewCSV(&b)
	for _, s := range sheets {
		if err := c.Write(s); err != nil {
			t.Fatal(err)
		}
	}
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func writeParquet(t *testing.T, meta map[string]string, sheets ...*replay.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	p := NewParquet(&b, meta)
	for _, s := range sheets {
		if err := p.Write(s); err != nil {
			t.Fatal(err)
		}
	}
	if err := p.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// parse reads a line of the CSV with the standard library, by name of column.
func parse(t testing.TB, names, line []string) replay.Row {
	t.Helper()
	at := map[string]string{}
	for i, n := range names {
		at[n] = line[i]
	}
	num := func(key string) float64 {
		v, err := strconv.ParseFloat(at[key], 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%s: %q is no number", key, at[key])
		}
		return v
	}
	date, err := cal.Parse(at["date"])
	if err != nil {
		t.Fatal(err)
	}
	cycles, err := strconv.Atoi(at["cycles"])
	if err != nil {
		t.Fatal(err)
	}
	stress, err := strconv.ParseBool(at["stress"])
	if err != nil {
		t.Fatal(err)
	}
	return replay.Row{
		Date: date, Strategy: at["strategy"], Zone: at["zone"], Minutes: num("minutes"), Cycles: cycles, Reason: at["reason"],
		EToMM: num("eto_mm"), K: num("k"), ETcMM: num("etc_mm"), RainMM: num("rain_mm"), GrossMM: num("gross_mm"), SprayLossMM: num("spray_loss_mm"),
		IrrRunoffMM: num("irrigation_runoff_mm"), RainRunoffMM: num("rain_runoff_mm"), RainEvapMM: num("rain_evaporated_mm"),
		PercIrrMM: num("percolation_irrigation_mm"), PercRainMM: num("percolation_rain_mm"), ETaMM: num("eta_mm"), DepletionMM: num("depletion_mm"),
		LowQuarterMM: num("low_quarter_depletion_mm"), TAWMM: num("taw_mm"), RAWMM: num("raw_mm"), Ks: num("ks"), Stress: stress,
	}
}

func readCSV(t testing.TB, text string) []replay.Row {
	t.Helper()
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []replay.Row
	for _, line := range lines[1:] {
		rows = append(rows, parse(t, lines[0], line))
	}
	return rows
}

// rowsOf lists what a sheet says, in its own words.
func rowsOf(sheets ...*replay.Sheet) []replay.Row {
	var rows []replay.Row
	for _, s := range sheets {
		for i := range s.Days() {
			rows = append(rows, s.Row(i))
		}
	}
	return rows
}

func TestFilesHoldWhatTheReplaySaid(t *testing.T) {
	sheets, _ := site(3000) // more than one batch of rows and one flush of the buffer
	want := rowsOf(sheets...)
	if got := readCSV(t, writeCSV(t, sheets...)); !slices.Equal(got, want) {
		t.Error("CSV: rows differ from the replay")
	}
	file := writeParquet(t, map[string]string{"version": "1", "scenario": "abc"}, sheets...)
	got, meta, err := ReadParquet(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(got, want) {
		t.Error("Parquet: rows differ from the replay")
	}
	if meta["scenario"] != "abc" || meta["version"] != "1" || !strings.HasSuffix(meta["column.eta_mm"], "[mm]") || len(meta) != len(Columns())+2 {
		t.Errorf("metadata %v", meta)
	}
	if again := writeParquet(t, map[string]string{"scenario": "abc", "version": "1"}, sheets...); !bytes.Equal(file, again) {
		t.Error("Parquet: the same replay gave other bytes")
	}
	kinds := map[string]int{}
	for _, r := range want {
		kinds[r.Reason]++
		if r.Stress {
			kinds["stress"]++
		}
		if r.IrrRunoffMM > 0 && r.PercIrrMM > 0 {
			kinds["wet"]++
		}
	}
	if len(kinds) < 4 {
		t.Errorf("the invented site is too tame to test with: %v", kinds)
	}
}

// Every column holds every finite number and every name, whatever it is: one
// day whose values are drawn at random goes through both files.
func TestRoundTripOfAnyDay(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		depth := rapid.OneOf(rapid.Float64Range(0, 1e3), rapid.SampledFrom([]float64{0, 1, 0.1, 1e-300, 5e-324, math.MaxFloat64, 123456789}))
		name := rapid.StringMatching(`[ -~äß°,"\n]{0,12}`)
		num := func(label string) float64 { return depth.Draw(rt, label) }
		z := &sim.Zone{Name: name.Draw(rt, "zone"), TAWMM: num("taw")}
		for m := range z.K {
			z.K[m] = num("k")
		}
		start := rapid.Int32Range(-40000, 60000).Draw(rt, "date")
		s := &replay.Sheet{
			Strategy: name.Draw(rt, "strategy"), Zone: z, Calendar: sim.NewCalendar(cal.Date(start), 1),
			// The parting of rain is worked out anew by the sheet; it must stay finite.
			Weather: sim.Weather{Start: cal.Date(start), RainMM: []float64{rapid.Float64Range(0, 500).Draw(rt, "rain")}, EToMM: []float64{num("eto")}},
			Forcing: []sim.Day{{ETcMM: num("etc"), RAWMM: num("raw")}},
			Plan: &sim.Plan{
				Dose: []int32{1}, Reason: []sim.Reason{sim.Reason(rapid.IntRange(0, int(sim.Reasons)-1).Draw(rt, "reason"))},
				Doses: []sim.Dose{{}, {Minutes: num("minutes"), Cycles: rapid.IntRange(0, 1<<20).Draw(rt, "cycles"), GrossMM: num("gross"), SprayLossMM: num("spray"), RunoffMM: num("runoff")}},
			},
			Trace: &sim.Trace{
				Dose: []int32{1}, PercIrrMM: []float64{num("pi")}, PercRainMM: []float64{num("pr")}, ETaMM: []float64{num("eta")},
				DepletionMM: []float64{num("dr")}, LowQuarterMM: []float64{num("lq")}, Ks: []float64{num("ks")},
			},
		}
		z.Rain.CN = 74
		want := rowsOf(s)
		if got := readCSV(t, writeCSV(t, s)); !reflect.DeepEqual(got, want) {
			rt.Fatalf("CSV\n got %+v\nwant %+v", got, want)
		}
		file := writeParquet(t, nil, s)
		got, _, err := ReadParquet(bytes.NewReader(file), int64(len(file)))
		if err != nil || !reflect.DeepEqual(got, want) {
			rt.Fatalf("Parquet %v\n got %+v\nwant %+v", err, got, want)
		}
	})
}

// The types are those of the Parquet format's logical types, DATE among them.
func TestParquetTypes(t *testing.T) {
	want := map[string]string{"date": "DATE", "strategy": "STRING", "zone": "STRING", "reason": "STRING", "cycles": "INT32", "stress": "BOOLEAN"}
	for _, f := range parquet.SchemaOf(parquetRow{}).Fields() {
		kind := f.Type().String()
		if w := cmp.Or(want[f.Name()], "DOUBLE"); !strings.HasPrefix(kind, w) && !(w == "INT32" && strings.HasPrefix(kind, "INT(32")) {
			t.Errorf("%s is %s, want %s", f.Name(), kind, w)
		}
		if !f.Required() {
			t.Errorf("%s may be null", f.Name())
		}
	}
}

// A value that is no number is refused in every float column, and names its column.
func TestNoNumberIsRefused(t *testing.T) {
	cols := []struct {
		key string
		set func(*replay.Sheet, float64)
	}{
		{"minutes", func(s *replay.Sheet, v float64) { s.Plan.Doses[0].Minutes = v }},
		{"eto_mm", func(s *replay.Sheet, v float64) { s.Weather.EToMM[1] = v }},
		{"k", func(s *replay.Sheet, v float64) { s.Zone.K[10] = v }},
		{"etc_mm", func(s *replay.Sheet, v float64) { s.Forcing[1].ETcMM = v }},
		{"rain_mm", func(s *replay.Sheet, v float64) { s.Weather.RainMM[1] = v }},
		{"gross_mm", func(s *replay.Sheet, v float64) { s.Plan.Doses[0].GrossMM = v }},
		{"spray_loss_mm", func(s *replay.Sheet, v float64) { s.Plan.Doses[0].SprayLossMM = v }},
		{"irrigation_runoff_mm", func(s *replay.Sheet, v float64) { s.Plan.Doses[0].RunoffMM = v }},
		{"percolation_irrigation_mm", func(s *replay.Sheet, v float64) { s.Trace.PercIrrMM[1] = v }},
		{"percolation_rain_mm", func(s *replay.Sheet, v float64) { s.Trace.PercRainMM[1] = v }},
		{"eta_mm", func(s *replay.Sheet, v float64) { s.Trace.ETaMM[1] = v }},
		{"depletion_mm", func(s *replay.Sheet, v float64) { s.Trace.DepletionMM[1] = v }},
		{"low_quarter_depletion_mm", func(s *replay.Sheet, v float64) { s.Trace.LowQuarterMM[1] = v }},
		{"taw_mm", func(s *replay.Sheet, v float64) { s.Zone.TAWMM = v }},
		{"raw_mm", func(s *replay.Sheet, v float64) { s.Forcing[1].RAWMM = v }},
		{"ks", func(s *replay.Sheet, v float64) { s.Trace.Ks[1] = v }},
	}
	for _, c := range cols {
		for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			s := invented(3, 4, 0, "s", "z").sheet
			c.set(s, v)
			var text, file bytes.Buffer
			a, b := NewCSV(&text), NewParquet(&file, nil)
			errA, errB := a.Write(s), b.Write(s)
			closeA, closeB := a.Close(), b.Close()
			for _, err := range []error{errA, errB, closeA, closeB} {
				if err == nil || !strings.Contains(err.Error(), c.key+" is ") || !strings.Contains(err.Error(), `zone "z"`) {
					t.Errorf("%s = %g: error %v", c.key, v, err)
				}
			}
			if strings.Contains(text.String(), "NaN") || strings.Contains(text.String(), "Inf") {
				t.Errorf("%s = %g went into the CSV:\n%s", c.key, v, text.String())
			}
		}
	}
}

type fullDisk struct{ room int }

var errFull = errors.New("no room")

func (f *fullDisk) Write(p []byte) (int, error) {
	if f.room -= len(p); f.room < 0 {
		return 0, errFull
	}
	return len(p), nil
}

func TestFailingWriterIsReported(t *testing.T) {
	sheets, table := site(6000)
	for _, room := range []int{0, 1 << 10, 100 << 10} {
		a, b := NewCSV(&fullDisk{room}), NewParquet(&fullDisk{room}, nil)
		var errA, errB error
		for _, s := range sheets {
			errA, errB = errors.Join(errA, a.Write(s)), errors.Join(errB, b.Write(s))
		}
		if errA, errB = errors.Join(errA, a.Close()), errors.Join(errB, b.Close()); !errors.Is(errA, errFull) || !errors.Is(errB, errFull) {
			t.Errorf("room for %d bytes: CSV %v, Parquet %v", room, errA, errB)
		}
	}
	if err := WriteTally(&fullDisk{}, table); !errors.Is(err, errFull) {
		t.Errorf("tally: %v", err)
	}
}

// Bytes that are no ledger are refused, not crashed on.
func FuzzReadParquet(f *testing.F) {
	var b bytes.Buffer
	p := NewParquet(&b, nil)
	if err := errors.Join(p.Write(invented(1, 40, 3, "s", "z").sheet), p.Close()); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Add([]byte("PAR1"))
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, _, err := ReadParquet(bytes.NewReader(data), int64(len(data)))
		if err != nil && rows != nil {
			t.Error("rows with an error")
		}
	})
}
