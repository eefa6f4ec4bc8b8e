package ledgerfile

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// header is the order of the columns as the files promise it to their readers.
const header = "date,strategy,zone,minutes,cycles,reason,eto_mm,k,activity,etc_mm,rain_mm,gross_mm,spray_loss_mm," +
	"irrigation_runoff_mm,rain_runoff_mm,rain_evaporated_mm,percolation_irrigation_mm,percolation_rain_mm,eta_mm,depletion_mm," +
	"low_quarter_depletion_mm,taw_mm,raw_mm,ks,past_raw,r7_quarter,r7_zone,stress_quarter,stress_zone," +
	"browning_quarter,browning_zone,overspray_mm,broken_mm,fill_drain_mm,leak_mm,rate_mm_h,irrigated_area_m2,soil_change_mm,filled"

func TestColumnsKeepTheirOrder(t *testing.T) {
	if got := strings.Join(keys(headings(Columns())), ","); got != header {
		t.Errorf("Columns\n got %s\nwant %s", got, header)
	}
	if got := strings.Join(namesOf(schemaOf(Columns())), ","); got != header {
		t.Errorf("Parquet\n got %s\nwant %s", got, header)
	}
	text := writeCSV(t)
	if got, _, _ := strings.Cut(text, "\n"); got != header {
		t.Errorf("CSV\n got %s\nwant %s", got, header)
	}
	for _, cols := range [][]Column{headings(Columns()), tallyColumns(tally.Measures())} {
		seen := map[string]bool{}
		for _, c := range cols {
			if seen[c.Key] || c.About == "" || strings.HasSuffix(c.Key, "_mm") != (c.Unit == "mm") {
				t.Errorf("column %+v: twice, without meaning, or unit and suffix disagree", c)
			}
			seen[c.Key] = true
		}
	}
	for _, c := range Columns() { // one function, that of its kind
		given := [...]bool{kindFloat: c.Float != nil && c.kind != kindFloatOrNone, kindInt: c.int != nil && c.kind != kindDate,
			kindBool: c.bool != nil,
			kindText: c.text != nil,
			kindDate: c.int != nil && c.kind == kindDate, kindFloatOrNone: c.Float != nil && c.kind == kindFloatOrNone}
		want := [len(given)]bool{}
		want[c.kind] = true
		if given != want {
			t.Errorf("column %s of kind %d has functions %v", c.Key, c.kind, given)
		}
	}
}

func keys(cols []Column) []string {
	names := make([]string, len(cols))
	for i, c := range cols {
		names[i] = c.Key
	}
	return names
}

func writeCSV(t *testing.T, sheets ...*replay.Sheet) string {
	t.Helper()
	var b bytes.Buffer
	c := NewCSV(&b, Columns())
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
	p := NewParquet(&b, meta, Columns())
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

// readCSV reads a CSV of the columns with the standard library.
func readCSV(t testing.TB, text string, columns []DayColumn) *Ledger {
	t.Helper()
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	l := &Ledger{Rows: len(lines) - 1, columns: columns, numbers: make([][]float64, len(columns)), texts: make([][]string, len(columns))}
	for i, c := range columns {
		if lines[0][i] != c.Key {
			t.Fatalf("column %d is %q, want %q", i, lines[0][i], c.Key)
		}
		for _, line := range lines[1:] {
			cell, x := line[i], 0.0
			switch c.kind {
			case kindText:
				l.texts[i] = append(l.texts[i], cell)
				continue
			case kindDate:
				date, err := cal.Parse(cell)
				if err != nil {
					t.Fatal(err)
				}
				x = float64(date)
			case kindBool:
				yes, err := strconv.ParseBool(cell)
				if err != nil || len(cell) != 1 {
					t.Fatalf("%s is %q", c.Key, cell)
				}
				if yes {
					x = 1
				}
			default:
				if cell == "" && c.kind == kindFloatOrNone {
					x = math.NaN()
					break
				}
				if x, err = strconv.ParseFloat(cell, 64); err != nil || !finite(x) {
					t.Fatalf("%s: %q is no number", c.Key, cell)
				}
			}
			l.numbers[i] = append(l.numbers[i], x)
		}
	}
	return l
}

// said gathers what sheets say in the columns, without any file.
func said(columns []DayColumn, sheets ...*replay.Sheet) *Ledger {
	l := &Ledger{columns: columns, numbers: make([][]float64, len(columns)), texts: make([][]string, len(columns))}
	for _, s := range sheets {
		for i := range s.Days() {
			l.Rows++
			d := &Day{Row: s.Row(i), Sheet: s, Index: i}
			for k, c := range columns {
				x := 0.0
				switch c.kind {
				case kindText:
					l.texts[k] = append(l.texts[k], c.text(d))
					continue
				case kindFloat, kindFloatOrNone:
					x = c.Float(d)
				case kindInt, kindDate:
					x = float64(c.int(d))
				case kindBool:
					if c.bool(d) {
						x = 1
					}
				}
				l.numbers[k] = append(l.numbers[k], x)
			}
		}
	}
	return l
}

// differs names the first column in which two ledgers differ by more than
// their rounding; empty where none does.
func differs(got, want *Ledger, off float64) string {
	if got.Rows != want.Rows {
		return fmt.Sprintf("%d rows, want %d", got.Rows, want.Rows)
	}
	for k, c := range want.columns {
		if !slices.Equal(got.texts[k], want.texts[k]) || len(got.numbers[k]) != len(want.numbers[k]) {
			return c.Key
		}
		for i, x := range want.numbers[k] {
			room := 0.0
			if (c.kind == kindFloat || c.kind == kindFloatOrNone) && off > 0 {
				room = off*(1+1e-9) + 1e-15*math.Abs(x) // the float nearest to what is written
			}
			if g := got.numbers[k][i]; math.Abs(g-x) > room || math.IsNaN(g) != math.IsNaN(x) {
				return fmt.Sprintf("%s, row %d: %v, want %v", c.Key, i+1, got.numbers[k][i], x)
			}
		}
	}
	return ""
}

// rounding is the most by which a number in CSV is off: half of 0.0001.
const rounding = 0.00005

func TestFilesHoldWhatTheReplaySaid(t *testing.T) {
	var sheets []*replay.Sheet
	replaySite(t, 3000, 2, func(s *replay.Sheet) error { // more than one batch of rows and one flush of the buffer
		sheets = append(sheets, cloned(s))
		return nil
	})
	want := said(Columns(), sheets...)
	if want.Rows != 3000*2*4 {
		t.Fatalf("%d rows, want 3000 days of 2 zones under 2 strategies and 2 references", want.Rows)
	}
	fromCSV := readCSV(t, writeCSV(t, sheets...), Columns())
	if off := differs(fromCSV, want, rounding); off != "" {
		t.Error("CSV: differs from the replay in " + off)
	}
	file := writeParquet(t, map[string]string{"version": "1", "scenario": "abc"}, sheets...)
	got, err := ReadParquet(bytes.NewReader(file), int64(len(file)), Columns())
	if err != nil {
		t.Fatal(err)
	}
	if off := differs(got, want, 0); off != "" {
		t.Error("Parquet: differs from the replay in " + off)
	}
	if off := got.Imbalance(); off > 1e-9 {
		t.Errorf("Parquet: the balance of a day misses by %g mm", off)
	}
	if off := fromCSV.Imbalance(); off > 0.002 || off < 1e-6 {
		t.Errorf("CSV: the balance of a day misses by %g mm, want a rounding", off)
	}
	if meta := got.Meta; meta["scenario"] != "abc" || meta["version"] != "1" || !strings.HasSuffix(meta["column.eta_mm"], "[mm]") ||
		len(meta) != len(Columns())+2 {
		t.Errorf("metadata %v", meta)
	}
	if again := writeParquet(t, map[string]string{"scenario": "abc", "version": "1"}, sheets...); !bytes.Equal(file, again) {
		t.Error("Parquet: the same replay gave other bytes")
	}
	seen := map[string]int{}
	for i := range want.Rows {
		seen[want.Texts("reason")[i]]++
		for key, yes := range map[string]bool{
			"stress": want.Floats("stress_zone")[i] == 1, "browning": want.Floats("browning_quarter")[i] == 1,
			"past RAW": want.Floats("past_raw")[i] == 1, "no R7": math.IsNaN(want.Floats("r7_zone")[i]),
			"runoff":            want.Floats("irrigation_runoff_mm")[i] > 0,
			"irrigation drains": want.Floats("percolation_irrigation_mm")[i] > 0,
			"rain drains":       want.Floats("percolation_rain_mm")[i] > 0, "rain runs off": want.Floats("rain_runoff_mm")[i] > 0,
			"short": want.Floats("ks")[i] < 1,
		} {
			if yes {
				seen[key]++
			}
		}
	}
	for _, key := range []string{"watered", "sensor wet", "not scheduled", "least water", "stress", "browning", "past RAW", "no R7",
		"runoff", "irrigation drains",
		"rain drains", "rain runs off", "short"} {
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
		want := said(Columns(), s)
		if off := differs(readCSV(t, writeCSV(t, s), Columns()), want, rounding); off != "" {
			rt.Fatalf("CSV: %s", off)
		}
		file := writeParquet(t, nil, s)
		got, err := ReadParquet(bytes.NewReader(file), int64(len(file)), Columns())
		if err != nil {
			rt.Fatal(err)
		}
		if off := differs(got, want, 0); off != "" {
			rt.Fatalf("Parquet: %s", off)
		}
	})
}

// The types are those of the Parquet format's logical types, DATE among them.
func TestParquetTypes(t *testing.T) {
	want := map[string]string{"date": "DATE", "strategy": "STRING", "zone": "STRING", "reason": "STRING", "cycles": "INT32",
		"past_raw": "BOOLEAN", "stress_quarter": "BOOLEAN", "stress_zone": "BOOLEAN", "browning_quarter": "BOOLEAN",
		"browning_zone": "BOOLEAN", "filled": "BOOLEAN"}
	for _, f := range schemaOf(Columns()).Fields() {
		kind := f.Type().String()
		if w := cmp.Or(want[f.Name()], "DOUBLE"); !strings.HasPrefix(kind, w) && !(w == "INT32" && strings.HasPrefix(kind, "INT(32")) {
			t.Errorf("%s is %s, want %s", f.Name(), kind, w)
		}
		if null := f.Name() == "r7_quarter" || f.Name() == "r7_zone"; f.Required() == null {
			t.Errorf("%s may be null: %t, want %t", f.Name(), !f.Required(), null)
		}
	}
}

// A value that is no number is refused in every float column, and names its column.
func TestNoNumberIsRefused(t *testing.T) {
	for _, c := range Columns() {
		key := c.Key
		if c.kind != kindFloat {
			continue
		}
		if key == "rain_runoff_mm" || key == "rain_evaporated_mm" {
			continue // follow from rain_mm
		}
		if slices.Contains([]string{"leak_mm", "rate_mm_h", "irrigated_area_m2", "soil_change_mm"}, key) {
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
			a, b := NewCSV(&text, Columns()), NewParquet(&file, nil, Columns())
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
		a, b := NewCSV(&fullDisk{room}, Columns()), NewParquet(&fullDisk{room}, nil, Columns())
		var errA, errB error
		table = replaySite(t, 3000, 2, func(s *replay.Sheet) error {
			errA, errB = errors.Join(errA, a.Write(s)), errors.Join(errB, b.Write(s))
			return nil
		})
		if errA, errB = errors.Join(errA, a.Close()), errors.Join(errB, b.Close()); !errors.Is(errA, errFull) || !errors.Is(errB, errFull) {
			t.Errorf("room for %d bytes: CSV %v, Parquet %v", room, errA, errB)
		}
	}
	if err := WriteTally(&fullDisk{}, table, tally.Measures(), nil); !errors.Is(err, errFull) {
		t.Errorf("tally: %v", err)
	}
}

// Bytes that are no ledger are refused, not crashed on.
func FuzzReadParquet(f *testing.F) {
	var b bytes.Buffer
	p := NewParquet(&b, nil, Columns())
	if err := errors.Join(p.Write(oneDay(5, "s", "z", sim.Watered, 1, 2, func(string) float64 { return 3 })), p.Close()); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Add([]byte("PAR1"))
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := ReadParquet(bytes.NewReader(data), int64(len(data)), Columns())
		if err != nil && l != nil {
			t.Error("rows with an error")
		}
	})
}
