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
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// header is the order of the columns as the files promise it to their readers.
const header = "date,strategy,zone,minutes,cycles,reason,eto_mm,k,etc_mm,rain_mm,gross_mm,spray_loss_mm,irrigation_runoff_mm,rain_runoff_mm,rain_evaporated_mm,percolation_irrigation_mm,percolation_rain_mm,eta_mm,depletion_mm,low_quarter_depletion_mm,taw_mm,raw_mm,ks,stress,overspray_mm,broken_mm,fill_drain_mm,leak_mm,filled"

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
	filled, err := strconv.ParseBool(at["filled"])
	if err != nil {
		t.Fatal(err)
	}
	reason, known := sim.ReasonNamed(at["reason"])
	if !known {
		t.Fatalf("reason %q is not known", at["reason"])
	}
	return replay.Row{
		Date: date, Strategy: at["strategy"], Zone: at["zone"], Minutes: num("minutes"), Cycles: cycles, Reason: reason,
		EToMM: num("eto_mm"), K: num("k"), ETcMM: num("etc_mm"), RainMM: num("rain_mm"), GrossMM: num("gross_mm"), SprayLossMM: num("spray_loss_mm"),
		IrrRunoffMM: num("irrigation_runoff_mm"), RainRunoffMM: num("rain_runoff_mm"), RainEvapMM: num("rain_evaporated_mm"),
		PercIrrMM: num("percolation_irrigation_mm"), PercRainMM: num("percolation_rain_mm"), ETaMM: num("eta_mm"), DepletionMM: num("depletion_mm"),
		LowQuarterMM: num("low_quarter_depletion_mm"), TAWMM: num("taw_mm"), RAWMM: num("raw_mm"), Ks: num("ks"), Stress: stress,
		OversprayMM: num("overspray_mm"), BrokenMM: num("broken_mm"), FillDrainMM: num("fill_drain_mm"), LeakMM: num("leak_mm"), Filled: filled,
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
	var sheets []*replay.Sheet
	replaySite(t, 3000, 2, func(s *replay.Sheet) error { // more than one batch of rows and one flush of the buffer
		sheets = append(sheets, cloned(s))
		return nil
	})
	want := rowsOf(sheets...)
	if len(want) != 3000*2*4 {
		t.Fatalf("%d rows, want 3000 days of 2 zones under 2 strategies and 2 references", len(want))
	}
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
	seen := map[string]int{}
	for _, r := range want {
		seen[r.Reason.String()]++
		for key, yes := range map[string]bool{"stress": r.Stress, "runoff": r.IrrRunoffMM > 0, "irrigation drains": r.PercIrrMM > 0, "rain drains": r.PercRainMM > 0, "rain runs off": r.RainRunoffMM > 0, "short": r.Ks < 1} {
			if yes {
				seen[key]++
			}
		}
	}
	for _, key := range []string{"watered", "sensor wet", "not scheduled", "least water", "stress", "runoff", "irrigation drains", "rain drains", "rain runs off", "short"} {
		if seen[key] == 0 {
			t.Errorf("the invented site is too tame to test with: no day of %q in %v", key, seen)
		}
	}
}

// Every column holds every finite number and every name, whatever it is: one
// day whose values are drawn at random goes through both files.
func TestRoundTripOfAnyDay(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		depth := rapid.OneOf(rapid.Float64Range(0, 1e3), rapid.SampledFrom([]float64{0, 1, 0.1, 1e-300, 5e-324, math.MaxFloat64, 123456789}))
		name := rapid.StringMatching(`[ -~äß°,"\n]{0,12}`)
		s := oneDay(cal.Date(rapid.Int32Range(-40000, 60000).Draw(rt, "date")), name.Draw(rt, "strategy"), name.Draw(rt, "zone"),
			sim.Reason(rapid.IntRange(0, int(sim.Reasons)-1).Draw(rt, "reason")), rapid.IntRange(0, 1<<20).Draw(rt, "cycles"),
			rapid.Float64Range(0, 500).Draw(rt, "rain"), func(key string) float64 { return depth.Draw(rt, key) })
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
	want := map[string]string{"date": "DATE", "strategy": "STRING", "zone": "STRING", "reason": "STRING", "cycles": "INT32", "stress": "BOOLEAN", "filled": "BOOLEAN"}
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
	cols := numberKeys()
	for _, key := range cols {
		if key == "rain_runoff_mm" || key == "rain_evaporated_mm" {
			continue // follow from rain_mm
		}
		if key == "leak_mm" {
			continue // a number of the zone, not of the day
		}
		for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			rain := 3.0
			if key == "rain_mm" {
				rain = v
			}
			s := oneDay(cal.Of(2001, 7, 1), "s", "z", sim.Watered, 2, rain, func(k string) float64 {
				if k == key {
					return v
				}
				return 7
			})
			var text, file bytes.Buffer
			a, b := NewCSV(&text), NewParquet(&file, nil)
			errA, errB := a.Write(s), b.Write(s)
			closeA, closeB := a.Close(), b.Close()
			for _, err := range []error{errA, errB, closeA, closeB} {
				if err == nil || !strings.Contains(err.Error(), key+" is ") || !strings.Contains(err.Error(), `zone "z", 2001-07-01`) {
					t.Errorf("%s = %g: error %v", key, v, err)
				}
			}
			if text.String() != header+"\n" && text.Len() > 0 {
				t.Errorf("%s = %g: the CSV holds\n%s", key, v, text.String())
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
	var table *tally.Table
	for _, room := range []int{0, 1 << 10, 100 << 10} {
		a, b := NewCSV(&fullDisk{room}), NewParquet(&fullDisk{room}, nil)
		var errA, errB error
		table = replaySite(t, 3000, 2, func(s *replay.Sheet) error {
			errA, errB = errors.Join(errA, a.Write(s)), errors.Join(errB, b.Write(s))
			return nil
		})
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
	if err := errors.Join(p.Write(oneDay(5, "s", "z", sim.Watered, 1, 2, func(string) float64 { return 3 })), p.Close()); err != nil {
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
