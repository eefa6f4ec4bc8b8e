package csvfile

import (
	"io"
	"math"
	"runtime"
	"strconv"
	"strings"
	"testing"
)

func TestRefusesWhatIsNoText(t *testing.T) {
	for name, tt := range map[string]struct{ text, want string }{
		"empty":   {"", "empty"},
		"blank":   {" \r\n\n ", "empty"},
		"gzip":    {"\x1f\x8b\x08\x00junk", "gzip"},
		"zip":     {"PK\x03\x04\x14\x00", "zip archive"},
		"utf16":   {"\xff\xfed\x00a\x00t\x00e\x00", "UTF-16"},
		"utf16le": {"d\x00a\x00t\x00e\x00,\x00t\x00", "UTF-16"},
		"html":    {"<!DOCTYPE html><html>", "web page"},
		"json":    {`{"daily": 1}`, "JSON"},
		"zero":    {"date,tmax_c\n2012-01-01,1\x002\n", "f.csv:2:13: a zero byte"},
		"unknown": {"a,b\n1,2\n", "no line near the start has the column names of daily weather"},
		"long":    {"date,tmax_c\n" + strings.Repeat("9", 3<<20), "f.csv:2: line longer than 1 MiB"},
	} {
		t.Run(name, func(t *testing.T) { checkFault(t, tt.text, Options{}, tt.want) })
	}
	late := "date,tmax_c\n2012-01-01,1\n" + strings.Repeat("\n", 400<<10) + "2012-01-02,\x00\n"
	checkFault(t, late, Options{}, "a zero byte", "f.csv:409603:12")
}

// endless gives n bytes without a line end.
type endless struct{ n int64 }

func (e *endless) Read(p []byte) (int, error) {
	if e.n <= 0 {
		return 0, io.EOF
	}
	n := min(int64(len(p)), e.n)
	for i := range p[:n] {
		p[i] = '7'
	}
	e.n -= n
	return int(n), nil
}

func TestOneGigabyteLine(t *testing.T) {
	for _, head := range []string{"", "date,tmax_c\n2012-01-01,"} {
		src := &endless{1 << 30}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Read(io.MultiReader(strings.NewReader(head), src), "f.csv", Options{})
		runtime.ReadMemStats(&after)
		if err == nil || !strings.Contains(err.Error(), "longer than") {
			t.Errorf("error %v", err)
		}
		if got := after.TotalAlloc - before.TotalAlloc; got > 16<<20 {
			t.Errorf("%d bytes allocated for a line of 1 GiB", got)
		}
		if src.n < 1<<29 {
			t.Errorf("%d bytes were read on after the fault was plain", 1<<30-src.n)
		}
	}
}

func TestNumberIsExact(t *testing.T) {
	for _, s := range []string{"0", "-0", "12.8", "-12.85", "+3", ".5", "5.", "0.1", "0.3", "152.6", "9007199254740993", "123456789012345678",
		"1234567890123456789.5",
		"0.00000000000000000000001", "5.59E-08", "1e22", "1e-7", "9.199999809", "310.3999938964844", "0.6699999999999999"} {
		got, ok := number([]byte(s))
		want, err := strconv.ParseFloat(s, 64)
		if !ok || err != nil || math.Float64bits(got) != math.Float64bits(want) {
			t.Errorf("number(%q) = %v, %v; the library reads %v", s, got, ok, want)
		}
	}
	for _, s := range []string{"", "-", ".", "1,5", "1_0", "0x10", "inf", "NaN", "1e400", "1e", "--1", "1-2", "1.2.3", "e5", " 1"} {
		if v, ok := number([]byte(s)); ok {
			t.Errorf("number(%q) = %v, want a refusal", s, v)
		}
	}
}

func FuzzNumber(f *testing.F) {
	for _, s := range []string{"12.8", "-0.5e-3", "9007199254740993", "1..2"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, ok := number([]byte(s))
		if !ok {
			return
		}
		want, err := strconv.ParseFloat(s, 64)
		if err != nil || math.Float64bits(got) != math.Float64bits(want) {
			t.Errorf("number(%q) = %v; the library reads %v, %v", s, got, want, err)
		}
	})
}

func TestSplit(t *testing.T) {
	for _, tt := range []struct {
		line  string
		texts string // joined by |
		cols  []int
	}{
		{`a, b ,,c`, "a|b||c", []int{1, 4, 7, 8}},
		{`"a","b, c",, " 12" `, "a|b, c||12", []int{2, 6, 12, 16}},
		{`"say ""x""",1`, `say "x"|1`, []int{2, 13}},
		{``, "", []int{1}},
	} {
		got, bad := split(nil, []byte(tt.line), ',')
		if bad != nil || strings.Join(cellNames(got), "|") != tt.texts {
			t.Errorf("split(%q) = %q, %v", tt.line, cellNames(got), bad)
			continue
		}
		for i, f := range got {
			if f.col != tt.cols[i] {
				t.Errorf("split(%q): cell %d at column %d, want %d", tt.line, i, f.col, tt.cols[i])
			}
		}
	}
	for line, col := range map[string]int{`a,"b`: 3, `"a"x,b`: 4} {
		if _, bad := split(nil, []byte(line), ','); bad == nil || bad.col != col {
			t.Errorf("split(%q): %v, want a fault at column %d", line, bad, col)
		}
	}
}
