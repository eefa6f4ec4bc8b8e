package zonefile_test

import (
	"errors"
	"io"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/zonefile"
	"loamledger/weather/diag"
)

func TestCellsKnowTheirPlace(t *testing.T) {
	const table = "name,area (ft2),sprinkler,soil,awc\n\n\"front\nlawn\", 2400 ,spray,loam,\nbed,600 m2,drip,,150 mm/m\n"
	list, err := zonefile.Read(strings.NewReader(table), "zones.csv")
	if err != nil {
		t.Fatal(err)
	}
	if list.Kind != scenarios.List || len(list.Items) != 2 {
		t.Fatalf("read %+v", list)
	}
	a, b := list.Items[0], list.Items[1]
	check := func(n *scenarios.Node, text, pos string) {
		t.Helper()
		if n == nil || n.Text != text || n.Pos.String() != pos {
			t.Errorf("got %+v, want %q at %s", n, text, pos)
		}
	}
	check(a.Get("name"), "front\nlawn", "zones.csv:3:1")
	check(a.Get("area"), "2400 ft2", "zones.csv:4:8") // the unit of the column's head
	check(a.Get("sprinkler").Get("kind"), "spray", "zones.csv:4:14")
	check(a.Get("soil").Get("name"), "loam", "zones.csv:4:20")
	if a.Get("soil").Get("awc") != nil {
		t.Error("an empty cell was taken for a value")
	}
	check(b.Get("area"), "600 m2", "zones.csv:5:5") // its own unit wins
	check(b.Get("soil").Get("awc"), "150 mm/m", "zones.csv:5:18")
}

func TestSeparators(t *testing.T) {
	for _, sep := range []string{",", ";", "\t"} {
		table := strings.ReplaceAll("name|area|sprinkler\nlawn|5 m2|spray\n", "|", sep)
		list, err := zonefile.Read(strings.NewReader(table), "zones.csv")
		if err != nil || len(list.Items) != 1 || list.Items[0].Get("area").Text != "5 m2" {
			t.Errorf("separator %q: %+v, %v", sep, list, err)
		}
	}
}

// Spreadsheets leave rows of separators, and people add their own columns.
func TestRowsAndColumnsForPeople(t *testing.T) {
	const table = "name,Notes,area,sprinkler,remarks,Comment\n,,,,,\nlawn,\"mow, often\",5 m2,spray,,\n  \n\"a\n,,,,,\nb\",,6 " +
		"m2,drip,x,y\n,,\n,,,,,"
	list, err := zonefile.Read(strings.NewReader(table), "zones.csv")
	if err != nil {
		t.Fatal(err)
	}
	if len(list.Items) != 2 {
		t.Fatalf("%d zones, want 2", len(list.Items))
	}
	a, b := list.Items[0], list.Items[1]
	if got := a.Get("area"); len(a.Entries) != 3 || got.Text != "5 m2" || got.Pos.String() != "zones.csv:3:19" {
		t.Errorf("first zone %+v, area %+v", a, got)
	}
	if got := b.Get("name"); got.Text != "a\n,,,,,\nb" || got.Pos.String() != "zones.csv:5:1" {
		t.Errorf("second zone's name %+v", got)
	}
}

func TestFaults(t *testing.T) {
	const head = "name,area,sprinkler\n"
	tests := []struct{ name, text, want string }{
		{"empty", "", "zones.csv: the table is empty\n\tfix: write a row of column names, then a row for each zone"},
		{"no rows", head, "zones.csv:1:1: the table has no zones\n\tfix: add a row for each zone"},
		{"missing columns", "name,soil\nlawn,loam\n", "zones.csv:1:1: missing column area\n\tfix: add the column " +
			"area\nzones.csv:1:1: missing column sprinkler\n\tfix: add the column sprinkler"},
		{"unknown column", "name,area,sprinkler,sloope\na,1 m2,spray,3 %\n",
			"zones.csv:1:21: unknown column \"sloope\"\n\tfix: did you mean \"slope\"?"},
		{"column twice", "name,area (ft2),sprinkler,area\na,1,spray,2\n", "zones.csv:1:27: duplicate column area\n\tfix: remove one"},
		{"short row", head + "a,1 m2\nb,2 m2,spray\n", "zones.csv:2:1: this row does not have 3 cells like the first row\n\tfix: " +
			"give every row as many cells as the first row"},
		{"two short rows", head + "a,1 m2\nb,2 m2\n", "zones.csv:2:1: this row does not have 3 cells like the first row\n\tfix: " +
			"give every row as many cells as the first row\nzones.csv:3:1: this row does not have 3 cells like the first row\n\tfix: " +
			"give every row as many cells as the first row"},
		{"only blank rows", head + ",,\n , ,\n", "zones.csv:1:1: the table has no zones\n\tfix: add a row for each zone"},
		{"a row of a note only", "name,area,sprinkler,notes\na,1 m2,spray,\n,,,see north\n",
			"zones.csv:3:1: this row names no zone\n\tfix: remove the row"},
		{"stray quote", head + "a,1 m2,sp\"ray\n", "zones.csv:2:10: invalid CSV: bare \" in non-quoted-field\n\tfix: put the whole " +
			"cell in quotes, and double any quotes inside it"},
		{"open quote", head + "a,1 m2,\"spray\n", "zones.csv:2:15: invalid CSV: extraneous or missing \" in quoted-field\n\tfix: " +
			"put the whole cell in quotes, and double any quotes inside it"},
		{"binary", "\x00\x01\x02", "zones.csv: this is not a UTF-8 text file\n\tfix: save it as UTF-8 CSV"},
		{"too large", head + strings.Repeat("a,1 m2,spray\n", 100_000), "zones.csv: the table is larger than 1024 KiB\n\tfix: split the site"},
	}
	for _, tt := range tests {
		_, err := zonefile.Read(strings.NewReader(tt.text), "zones.csv")
		if !diag.IsInput(err) || err.Error() != tt.want {
			t.Errorf("%s: got\n%v\nwant\n%s", tt.name, err, tt.want)
		}
	}
}

// A failing reader is a system error, not an input error.
func TestMachineFault(t *testing.T) {
	broken := errors.New("the disk is gone")
	_, err := zonefile.Read(io.MultiReader(strings.NewReader("name,"), failing{broken}), "zones.csv")
	if !errors.Is(err, broken) || diag.IsInput(err) {
		t.Errorf("got %v", err)
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// For any bytes, reading ends with rows whose values have text and position, or
// with input errors.
func FuzzRead(f *testing.F) {
	for _, s := range []string{"", "name,area,sprinkler\na,1 m2,spray\n", "name;area (ft2);sprinkler\na;1;spray\n",
		"\ufeffname,area,sprinkler\n\"a\nb\",1 m2,spray\n", "name,area,sprinkler\n,,\n", "name,area [],sprinkler()\na,1,b", "(,(,)"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		list, err := zonefile.Read(strings.NewReader(s), "zones.csv")
		if err != nil {
			if !diag.IsInput(err) {
				t.Fatalf("not a fault of the input: %v", err)
			}
			return
		}
		if len(list.Items) == 0 {
			t.Fatal("no zones and no fault")
		}
		for _, z := range list.Items {
			for _, e := range z.Entries {
				if e.Value.Pos.Line == 0 || e.Value.Pos.Col == 0 || e.Value.Kind == scenarios.Scalar && e.Value.Text == "" {
					t.Errorf("%s: %+v", e.Key, e.Value)
				}
			}
		}
	})
}
