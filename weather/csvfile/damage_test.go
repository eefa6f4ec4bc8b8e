package csvfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// cleanRows returns the lines of a clean record of n days, the header first.
func cleanRows(n int) []string {
	lines := []string{"date,tmax_c,tmin_c,rain_mm"}
	for i := range n {
		lines = append(lines, fmt.Sprintf("%v,%.1f,%.1f,%.1f", cal.Of(1990, 1, 1)+cal.Date(i), 15+float64(i*37%170)/10, float64(i*53%120)/10,
			float64(i*29%40)/10))
	}
	return lines
}

// Every error inserted into a clean record is reported at its line and column.
func TestEveryInjectedFaultIsReported(t *testing.T) {
	damages := []struct {
		name string
		do   func(row string) (damaged string, col int)
		says string
	}{
		{"number", func(r string) (string, int) { return r[:11] + "1O.5" + r[11+strings.IndexByte(r[11:], ','):], 12 }, "is not a number"},
		{"date", func(r string) (string, int) { return r[:5] + "13-41" + r[10:], 1 }, "is not a calendar date"},
		{"short", func(r string) (string, int) {
			cut := r[:strings.LastIndexByte(r, ',')]
			return cut, strings.LastIndexByte(cut, ',') + 2
		}, "the row has 3 cells, the header 4"},
		{"long", func(r string) (string, int) { return r + ",7", len(r) + 2 }, "the row has an extra cell"},
		{"quote", func(r string) (string, int) { return r[:11] + "\"" + r[11:], 12 }, "a quote is not closed"},
	}
	rng := rand.New(rand.NewPCG(3, 3))
	for range 200 {
		lines := cleanRows(400)
		wants := map[diag.Pos]string{}
		for _, at := range rng.Perm(399)[:1+rng.IntN(diag.Most)] {
			d := damages[rng.IntN(len(damages))]
			row, col := d.do(lines[at+1])
			lines[at+1] = row
			wants[diag.Pos{File: "f.csv", Line: at + 2, Col: col}] = d.says
		}
		rec, err := Read(strings.NewReader(strings.Join(lines, "\n")), "f.csv", Options{})
		var all *diag.Errors
		if !errors.As(err, &all) || rec != nil {
			t.Fatalf("record %v, error %v", rec, err)
		}
		if len(all.List) != len(wants) {
			t.Fatalf("%d faults reported of %d:\n%v", len(all.List), len(wants), err)
		}
		for _, e := range all.List {
			if says, ok := wants[e.Pos]; !ok || !strings.Contains(e.Msg, says) || e.Fix == "" {
				t.Fatalf("%v was not put there (want %q)", e, says)
			}
		}
	}
}

// Rows that are shuffled, doubled or lost change no value of the days left.
func TestShuffledRowsGiveTheSameDays(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	for range 100 {
		lines := cleanRows(120)
		clean, err := Read(strings.NewReader(strings.Join(lines, "\n")), "clean", Options{})
		if err != nil {
			t.Fatal(err)
		}
		rows := lines[1:]
		lost := map[int]bool{}
		for range rng.IntN(20) {
			lost[1+rng.IntN(118)] = true
		}
		var kept []string
		doubled := 0
		for i, row := range rows {
			if lost[i] {
				continue
			}
			kept = append(kept, row)
			if rng.IntN(10) == 0 {
				kept = append(kept, row)
				doubled++
			}
		}
		rng.Shuffle(len(kept), func(i, j int) { kept[i], kept[j] = kept[j], kept[i] })
		rec, err := Read(strings.NewReader(lines[0]+"\r\n"+strings.Join(kept, "\r\n")), "dirty", Options{})
		if err != nil {
			t.Fatal(err)
		}
		if rec.Days != clean.Days || rec.Start != clean.Start {
			t.Fatalf("%d days from %v", rec.Days, rec.Start)
		}
		for c := range weather.Columns {
			for i := range rec.Data[c] {
				got, was := rec.Data[c][i], clean.Data[c][i]
				if lost[i] != (got != got) || !lost[i] && got != was {
					t.Fatalf("%s on %v is %v, was %v, lost %v", c.Key(), rec.Date(i), got, was, lost[i])
				}
			}
		}
		counts := map[string]int{}
		for _, f := range rec.Findings {
			counts[string(f.Code)] = f.Count
		}
		if counts["missing-days"] != len(lost) || counts["duplicate-rows"] != doubled || counts["dates-out-of-order"] == 0 {
			t.Fatalf("findings %v; %d lost, %d doubled", counts, len(lost), doubled)
		}
	}
}

// A file that mixes line ends, quotes numbers and pads them reads as the plain one.
func TestDressDoesNotMatter(t *testing.T) {
	lines := cleanRows(500)
	clean, err := Read(strings.NewReader(strings.Join(lines, "\n")), "clean", Options{})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	b.WriteString("\xef\xbb\xbf")
	for i, l := range lines {
		cells := strings.Split(l, ",")
		for k := range cells {
			switch (i + k) % 3 {
			case 1:
				cells[k] = `"` + cells[k] + `"`
			case 2:
				cells[k] = "  " + cells[k] + "\t"
			}
		}
		b.WriteString(strings.Join(cells, ",") + []string{"\n", "\r\n", "\n\n", "\r\n \r\n"}[i%4])
	}
	b.WriteString(strings.Repeat(" ", 1024))
	for _, text := range []string{b.String(), strings.Join(lines, "\r")} {
		rec, err := Read(iotestOneByte{strings.NewReader(text)}, "dressed", Options{})
		if err != nil {
			t.Fatal(err)
		}
		var got, was bytes.Buffer
		if err := errors.Join(WriteOwn(&got, &rec.Series), WriteOwn(&was, &clean.Series)); err != nil {
			t.Fatal(err)
		}
		if got.String() != was.String() || len(rec.Findings) > 0 {
			t.Errorf("differs from the plain file; findings %v", rec.Findings)
		}
	}
}

// iotestOneByte gives one byte a read.
type iotestOneByte struct{ r io.Reader }

func (o iotestOneByte) Read(p []byte) (int, error) { return o.r.Read(p[:min(len(p), 1)]) }

// manyStations writes n stations one after the other, a row at a time.
type manyStations struct {
	n, days, row int
	left         []byte
}

func (m *manyStations) Read(p []byte) (int, error) {
	for len(m.left) < 4096 && m.row < m.n*m.days {
		m.left = fmt.Appendf(m.left, "XX%09d,%v,PRCP,%d,,,W,\n", m.row/m.days,
			strings.ReplaceAll((cal.Of(1990, 1, 1)+cal.Date(m.row%m.days)).String(), "-", ""), m.row%300)
		m.row++
	}
	k := copy(p, m.left)
	m.left = m.left[:copy(m.left, m.left[k:])]
	if k == 0 {
		return 0, io.EOF
	}
	return k, nil
}

func TestMemoryStaysFlatOverManyStations(t *testing.T) {
	heap := func() int64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return int64(m.HeapAlloc)
	}
	before, most, n := heap(), int64(0), 0
	for rec, err := range ReadAll(&manyStations{n: 1000, days: 730}, "many", Options{}) {
		if err != nil || rec.Days != 730 {
			t.Fatal(rec, err)
		}
		if n++; n%200 == 0 {
			most = max(most, heap()-before)
		}
	}
	// 1,000 stations of 730 days with one column would be 10 MB held together.
	if n != 1000 || most > 2<<20 {
		t.Errorf("%d stations, %d bytes held", n, most)
	}
}

// A caller may stop whenever it likes.
func TestReadAllStops(t *testing.T) {
	n := 0
	for range ReadAll(&manyStations{n: 1000, days: 30}, "many", Options{}) {
		if n++; n == 3 {
			break
		}
	}
	if n != 3 {
		t.Errorf("%d stations", n)
	}
}
