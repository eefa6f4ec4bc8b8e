package csvfile

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/weather"
)

// fixture returns a small synthetic file from testdata/weather.
func fixture(t testing.TB, name string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "weather", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// sharedFile returns a real file if the collection is present next to the
// module's root.
func sharedFile(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "weather", name))
	if os.IsNotExist(err) {
		t.Skip("shared reference data not present")
	}
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// readShared reads a real file, wants the layout to be the named one, and
// compares cells, days and findings.
func readShared(t *testing.T, name, layout string, o Options, days int, cells []want, findings map[string]int) *weather.Record {
	t.Helper()
	rec, err := Read(bytes.NewReader(sharedFile(t, name)), name, o)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if rec.Layout != layout {
		t.Errorf("%s: recognized as %s, want %s", name, rec.Layout, layout)
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

// fuzzLayout feeds a reader with changed copies of the given texts. It must
// neither panic nor make a record that breaks its own promises.
func fuzzLayout(f *testing.F, layout string, texts ...string) {
	for _, text := range texts {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		for _, o := range []Options{{}, {Layout: layout}, {Layout: layout, Units: unitsSI}} {
			n := 0
			for rec, err := range ReadAll(bytes.NewReader(b), "fuzz", o) {
				if n++; (rec == nil) == (err == nil) {
					t.Fatalf("record %v and error %v", rec, err)
				}
				if rec == nil {
					continue
				}
				if rec.Days < 1 || rec.Days > 183_000 {
					t.Fatalf("%d days", rec.Days)
				}
				for c := range weather.Columns {
					if rec.Has(c) && (len(rec.Data[c]) != rec.Days || len(rec.Mark[c]) != rec.Days) {
						t.Fatalf("column %s has %d values and %d marks for %d days", c.Key(), len(rec.Data[c]), len(rec.Mark[c]), rec.Days)
					}
					for i, v := range rec.Data[c] {
						if (v != v) != (rec.Mark[c][i] == weather.Missing) {
							t.Fatalf("column %s day %d: value %v with mark %v", c.Key(), i, v, rec.Mark[c][i])
						}
					}
				}
			}
			if n == 0 {
				t.Fatal("neither a record nor an error")
			}
		}
	})
}

// benchLayout times the reading of text and reports rows and megabytes a second.
func benchLayout(b *testing.B, text []byte, o Options) {
	rows := bytes.Count(text, []byte{'\n'})
	b.ReportAllocs()
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := Read(bytes.NewReader(text), "bench", o); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(rows)*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
}

// Every fixture must be claimed by one layout, the one it is named after.
func TestFixturesAreRecognized(t *testing.T) {
	names, err := filepath.Glob(filepath.Join("..", "..", "testdata", "weather", "*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range names {
		base := filepath.Base(path)
		stem, _, _ := strings.Cut(base, ".")
		layout, _, _ := strings.Cut(stem, "_") // variants are called <layout>_<variant>
		if base == "README.md" || layout == "declared" {
			continue
		}
		s, err := newScanner(strings.NewReader(fixture(t, base)), base)
		if err != nil {
			t.Error(err)
			continue
		}
		l, _, err := recognize(s, Options{})
		if err != nil {
			t.Error(base, err)
		} else if l.Name != layout {
			t.Errorf("%s is recognized as %s", base, l.Name)
		}
	}
}

// Every layout has a whole page and a fixture.
func TestLayoutPages(t *testing.T) {
	for _, l := range Layouts() {
		if l.Name == "" || l.Title == "" || l.Doc == "" || l.Units == "" || l.Missing == "" || l.WindHeight == "" || l.Source == "" {
			t.Errorf("layout %q lacks a part of its page", l.Name)
		}
		if found, _ := filepath.Glob(filepath.Join("..", "..", "testdata", "weather", l.Name+"[._]*")); len(found) == 0 {
			t.Errorf("layout %s has no fixture", l.Name)
		}
	}
}

// A system error is returned unchanged.
func TestReadError(t *testing.T) {
	_, err := Read(io.MultiReader(strings.NewReader("date,tmax_c\n"), failing{}), "f.csv", Options{})
	if err == nil || !strings.Contains(err.Error(), "unplugged") {
		t.Errorf("error %v", err)
	}
}

type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, os.NewSyscallError("read", errUnplugged{}) }

type errUnplugged struct{}

func (errUnplugged) Error() string { return "unplugged" }

// Unprintable names are not suggested for a layout file, nor are tables without
// dates.
func TestNoDeclarationOfWhatIsNoTable(t *testing.T) {
	for _, text := range []string{
		"a\x01,b,c\n2012-01-31,1,2\n", strings.Repeat("x", 100) + ",b,c\n2012-01-31,1,2\n", "a,b,c\n1,2,3\n", "a,b\n2012-01-31,2\n",
		"a,b,c\n2012-01-31,1\n", "a,b,c\n",
	} {
		_, err := Read(strings.NewReader(text), "odd.csv", Options{})
		if err == nil || !strings.Contains(err.Error(), "--layouts") || strings.Contains(err.Error(), "date_form") {
			t.Errorf("%.20q: %v", text, err)
		}
	}
}
