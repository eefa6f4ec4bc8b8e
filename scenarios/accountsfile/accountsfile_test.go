package accountsfile

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"

	"loamledger/scenarios/accounts"
	"loamledger/sim/ledgerfile"
	"loamledger/weather/diag"
)

// read reads all accounts of a CSV text, with the errors of each as text.
func read(t testing.TB, text string) (list []*accounts.Account, faults []string, err error) {
	t.Helper()
	r, err := NewReader(CSV(strings.NewReader(text), "a.csv"), "a.csv")
	if err != nil {
		return nil, nil, err
	}
	for {
		a, fault, err := r.Next(nil)
		if err != nil || a == nil {
			return list, faults, err
		}
		list = append(list, a)
		text := ""
		if fault != nil {
			if !diag.IsInput(fault) {
				t.Errorf("not an error of the input: %v", fault)
			}
			text = fault.Error()
		}
		faults = append(faults, text)
	}
}

// IDs are text, cells know their place, units come from the heading, and zones stand together.
func TestAccountsAreReadAsWritten(t *testing.T) {
	const text = "\ufeffAccount;zone;like;latitude;class;outdoor_use (HCF);outdoor_use_2019 (m3);area (ft2);uniformity (%);notes\n" +
		"007;;;38.5;home;10;120;2400;45 to 65;ours\n\n;;;;;;;;;\n" +
		"0012;\"north; lawn\";front lawn;;;;;\" 900 m2 \";;\n0012;bed;;;;;;100;;\n"
	list, faults, err := read(t, text)
	if err != nil || len(list) != 2 || faults[0]+faults[1] != "" {
		t.Fatalf("%v, %q, %v", list, faults, err)
	}
	a, b := list[0], list[1]
	if a.ID != "007" || a.LatDeg != 38.5 || a.Class != "home" || len(a.Zones) != 0 || len(a.Use) != 2 {
		t.Errorf("%+v", a)
	}
	// 10 HCF are 28.3168 m³ (1 ft³ is 0.0283168 m³).
	if u := a.Use; u[0].Year != 0 || u[0].M3 < 28.31 || u[0].M3 > 28.32 || u[1].Year != 2019 || u[1].M3 != 120 {
		t.Errorf("%+v", u)
	}
	if v := a.Values; len(v) != 2 || v[0].Node.Text != "2400 ft2" || v[0].Node.Pos.String() != "a.csv:2:24" ||
		v[1].Node.Text != "45 to 65 %" || v[1].Key != "sprinkler.uniformity" {
		t.Errorf("%+v %+v", v[0].Node, v[1].Node)
	}
	if len(b.Zones) != 2 || b.Zones[0].Name != "north; lawn" || b.Zones[0].Like != "front lawn" || b.Zones[1].Like != "bed" ||
		b.Zones[0].Values[0].Node.Text != "900 m2" {
		t.Errorf("%+v", b.Zones)
	}
}

// Whatever is wrong with an account has its place and its code, and costs that account alone.
func TestOneBadAccountStopsNoOther(t *testing.T) {
	const head = "account,zone,latitude,outdoor_use,area,notes\n"
	for _, c := range []struct{ name, rows, want string }{
		{"a short row", "b,,1\n", `a.csv:3:1: the row has 3 cells, the heading 6`},
		{"a stray quote", "b,x\"y,1,,,\n", `a.csv:3:3: a cell has a stray quote`},
		{"an open quote", "b,\"x,1,,,\n", `a.csv:3:3: a quoted cell does not end properly`},
		{"no account", ",,1,,5 m2,\n", `a.csv:3:1: the row names no account`},
		{"latitude", "b,,95,,,\n", `a.csv:3:4: latitude "95" is not valid`},
		{"no unit", "b,,1,12,,\n", `a.csv:3:6: outdoor_use: 12 has no unit`},
		{"below 0", "b,,1,-2 m3,,\n", `a.csv:3:6: outdoor_use "-2 m3" is outside 0 to 1e+09 m3`},
		{"a control character", "b\x01,,1,,,\n", `nonprintable character`},
		{"not UTF-8", "b,\xff,1,,,\n", `a.csv:3: the row is not UTF-8 text`},
		{"two plain rows", "b,,1,,5 m2,\nb,,1,,5 m2,\n", `a.csv:4:1: the account has a second row without a zone`},
		{"two latitudes", "b,x,1,,,\nb,y,2,,,\n", `a.csv:4:5: latitude is "2" here and "1" on a row above`},
		{"rows apart", "a,,1,,,\n", ``},
		{"rows really apart", "b,,1,,,\na,,1,,,\n", `a.csv:4:1: account "a" has rows further above, from row 2`},
	} {
		list, faults, err := read(t, head+"a,z,1,,5 m2,\n"+c.rows+"c,,2,3 m3,5 m2,\n")
		if err != nil || len(list) < 2 {
			t.Fatalf("%s: %d accounts, %v", c.name, len(list), err)
		}
		last := len(list) - 1
		if faults[0] != "" || faults[last] != "" || list[last].ID != "c" || list[last].Use[0].M3 != 3 {
			t.Errorf("%s: the others have %q and %q, %+v", c.name, faults[0], faults[last], list[last])
		}
		if all := strings.Join(faults, ""); !strings.Contains(all, c.want) || c.want == "" && all != "" {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, all, c.want)
		}
	}
}

// A bad heading stops the table, with all its errors.
func TestBadHeading(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "a.csv: the table is empty"},
		{"date,rain\n1,2\n", "a.csv:1:1: this is not a table of accounts: no column is known"},
		{"area,sope\n", "a.csv:1:1: missing column account"},
		{"area,sope\n", "a.csv:1:6: unknown column \"sope\"\n\tfix: did you mean \"slope\"?"},
		{"account,area,area (ft2)\n", "a.csv:1:14: duplicate column \"area (ft2)\""},
		{"account,outdoor_use_19\n", "a.csv:1:9: column \"outdoor_use_19\" does not name a year"},
		{"account,name\n", "a.csv:1:9: unknown column \"name\""},
	} {
		if _, _, err := read(t, c.text); err == nil || !diag.IsInput(err) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: got\n%v\nwant\n%s", c.text, err, c.want)
		}
	}
}

// A person has the columns of a table of two accounts in Parquet.
type person struct {
	Account string  `parquet:"account"`
	Area    float64 `parquet:"area (m2)"`
	Use     *int64  `parquet:"outdoor_use (m3),optional"`
}

func parquetOf[T any](t testing.TB, rows ...T) []byte {
	t.Helper()
	var b bytes.Buffer
	w := ledgerfile.NewRows[T](&b, nil, nil, 10)
	if err := errors.Join(w.Write(rows), w.Close()); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Parquet has the same columns; a number for an account is refused, and so is a damaged file.
func TestParquetAccounts(t *testing.T) {
	use := int64(50)
	data := parquetOf(t, person{"007", 12.5, nil}, person{"0012", 3, &use})
	rows, err := Parquet(bytes.NewReader(data), int64(len(data)), "a.parquet")
	if err != nil {
		t.Fatal(err)
	}
	r, err := NewReader(rows, "a.parquet")
	if err != nil {
		t.Fatal(err)
	}
	a, fault, err := r.Next(nil)
	if err != nil || fault != nil || a.ID != "007" || a.Values[0].Node.Text != "12.5 m2" || a.Values[0].Node.Pos.String() != "a.parquet:1:2" ||
		len(a.Use) != 0 {
		t.Errorf("%+v, %v, %v", a, fault, err)
	}
	if a, _, _ = r.Next(nil); a.ID != "0012" || a.Use[0].M3 != 50 {
		t.Errorf("%+v", a)
	}
	if a, _, err = r.Next(nil); a != nil || err != nil {
		t.Errorf("%+v, %v", a, err)
	}
	type numbered struct {
		Account int64 `parquet:"account"`
	}
	for _, bad := range [][]byte{parquetOf(t, numbered{7}), data[:len(data)/2], []byte("account\n1\n")} {
		if _, err := Parquet(bytes.NewReader(bad), int64(len(bad)), "a.parquet"); !diag.IsInput(err) {
			t.Errorf("%v", err)
		}
	}
}

// A failing disk is a system error.
func TestSystemError(t *testing.T) {
	broken := errors.New("the disk is gone")
	_, err := NewReader(CSV(io.MultiReader(strings.NewReader("account,area\n"), failing{broken}), "a.csv"), "a.csv")
	if !errors.Is(err, broken) || diag.IsInput(err) {
		t.Errorf("got %v", err)
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// What is written about failures is read again.
func TestFailuresAreReadAsWritten(t *testing.T) {
	list := []Failure{{"=7", "a.csv", 3, 0, diag.NotText, "a, \"b\"", "c"}, {"1", "", 0, 0, diag.System, "x", ""}}
	SortFailures(list)
	var b bytes.Buffer
	if err := WriteFailures(&b, list); err != nil {
		t.Fatal(err)
	}
	got, err := ReadFailures(bytes.NewReader(b.Bytes()))
	if err != nil || len(got) != 2 || got[0] != list[0] || got[1].Account != "'=7" || got[1].Reason != list[1].Reason {
		t.Errorf("%+v, %v", got, err)
	}
	if _, err := ReadFailures(strings.NewReader("a,b\n")); err == nil {
		t.Error("another table is read")
	}
}

// A manifest that does not reconcile is refused.
func TestManifest(t *testing.T) {
	m := &Manifest{Layout: ManifestVersion, Shard: 1, Of: 4, Counts: Counts{In: 6, Done: 3, Failed: 2, Excluded: 1},
		Work: Work{Program: "1", Inputs: []Input{{"a.csv", "00", 3}}}, Outputs: []Output{{"results.parquet", "11"}}}
	var b bytes.Buffer
	if err := WriteManifest(&b, m); err != nil {
		t.Fatal(err)
	}
	got, err := ReadManifest(bytes.NewReader(b.Bytes()))
	if err != nil || !got.Work.Same(&m.Work) || got.Counts != m.Counts {
		t.Errorf("%+v, %v", got, err)
	}
	for _, c := range []struct{ old, new string }{{`"done": 3`, `"done": 4`}, {`"shard": 1`, `"shard": 4`}, {`"layout": 1`, `"layout": 9`},
		{`"of"`, `"off"`}, {"{", ""}} {
		if _, err := ReadManifest(strings.NewReader(strings.Replace(b.String(), c.old, c.new, 1))); err == nil {
			t.Errorf("%s instead of %s is read", c.new, c.old)
		}
	}
}

// For any bytes, reading ends with accounts, or with errors of the input that have a place.
func FuzzRead(f *testing.F) {
	for _, s := range []string{"", "account,area (ft2)\n1,2\n", "account;zone;area\n1;a;2 m2\n1;b;3 m2\n", "account\t\"a\"\"\"\n\"",
		"account,outdoor_use_2019 (HCF),latitude,notes\n0,1,2,\n0,,3\n\n,,,\n", "(,(,)", "account ()\n\"", "account,account (\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		list, _, err := read(t, s)
		if err != nil {
			if !diag.IsInput(err) {
				t.Fatalf("not an error of the input: %v", err)
			}
			return
		}
		for _, a := range list {
			if a.Pos.Line == 0 {
				t.Errorf("%+v has no place", a)
			}
			for _, z := range append(a.Zones, accounts.Zone{Values: a.Values}) {
				for _, v := range z.Values {
					if v.Node.Text == "" || v.Node.Pos.Line == 0 {
						t.Errorf("%+v", v)
					}
				}
			}
		}
	})
}
