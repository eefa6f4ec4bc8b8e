package cli_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/rogpeppe/go-internal/txtar"

	"loamledger/cmd/internal/cli"
	"loamledger/weather/cal"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"loamledger": func() {
		os.Exit(cli.Main(context.Background(), os.Args[1:], cli.Streams{Out: os.Stdout, Err: os.Stderr, In: os.Stdin}))
	}})
}

// update reports whether to record the texts that scripts compare with.
func update() bool { return os.Getenv("UPDATE") == "1" }

const scripts = "testdata/script"

// Every script starts with yard.yaml, a valid scenario, weather.csv with two
// years of synthetic weather, eto.csv with the same but no temperatures, and
// flood.csv with too much rain, and changes what it tests.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 scripts,
		UpdateScripts:       update(),
		RequireUniqueNames:  true,
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			yard, err := os.ReadFile("testdata/yard.yaml")
			if err != nil {
				return err
			}
			return errors.Join(
				os.WriteFile(filepath.Join(e.WorkDir, "yard.yaml"), yard, 0o666),
				os.WriteFile(filepath.Join(e.WorkDir, "weather.csv"), synthetic(cal.Of(2013, 1, 1), 730), 0o666),
				os.WriteFile(filepath.Join(e.WorkDir, "flood.csv"), flood(synthetic(cal.Of(2013, 1, 1), 730)), 0o666),
				os.WriteFile(filepath.Join(e.WorkDir, "eto.csv"), noTemperatures(synthetic(cal.Of(2013, 1, 1), 730)), 0o666))
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"code": code, "edit": edit, "without": without, "clean": clean, "same": same, "holds": holds, "bytes": bytesFile, "told": told,
		},
	})
}

// synthetic returns n days of synthetic weather: a dry, warm summer, and rain on
// every fifth day of the other months.
func synthetic(from cal.Date, n int) []byte {
	var b strings.Builder
	b.WriteString("date,tmax_c,tmin_c,rain_mm,eto_mm\n")
	for i := range n {
		d := from + cal.Date(i)
		_, month, _ := d.YMD()
		summer := month >= 5 && month <= 9
		tmax, rain, eto := 14, 0.0, 2.0
		if summer {
			tmax, eto = 31, 6.5
		}
		if i%5 == 0 && !summer {
			rain, eto = 9, 1.1
		}
		fmt.Fprintf(&b, "%v,%d,%d,%g,%g\n", d, tmax+i%4, tmax-11-i%3, rain, eto)
	}
	return []byte(b.String())
}

// flood gives every wet day of synthetic weather ten times its rain.
func flood(csv []byte) []byte { return bytes.ReplaceAll(csv, []byte(",9,1.1"), []byte(",90,1.1")) }

// noTemperatures removes the two columns of temperature from synthetic weather.
func noTemperatures(csv []byte) []byte {
	var b strings.Builder
	for line := range strings.Lines(string(csv)) {
		cells := strings.Split(line, ",")
		b.WriteString(strings.Join(slices.Delete(cells, 1, 3), ","))
	}
	return []byte(b.String())
}

// code N command args... runs a command that must end with exit code N.
func code(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: code N command args...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var exit *exec.ExitError
	switch err := ts.Exec(args[1], args[2:]...); {
	case errors.As(err, &exit):
		got = exit.ExitCode()
	case err != nil:
		ts.Fatalf("%v", err)
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// edit FROM TO OLD NEW copies FROM to TO and replaces OLD, which must occur once,
// with NEW. In OLD and NEW, \n means a newline.
func edit(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 4 {
		ts.Fatalf("usage: edit FROM TO OLD NEW")
	}
	line := strings.NewReplacer(`\n`, "\n")
	text, was := ts.ReadFile(args[0]), line.Replace(args[2])
	if n := strings.Count(text, was); n != 1 {
		ts.Fatalf("%q occurs %d times in %s", was, n, args[0])
	}
	text = strings.Replace(text, was, line.Replace(args[3]), 1)
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(text), 0o666))
}

// without FROM TO FIRST LAST copies FROM to TO without the rows for the days
// FIRST to LAST.
func without(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 4 {
		ts.Fatalf("usage: without FROM TO FIRST LAST")
	}
	var b strings.Builder
	dropped := 0
	for line := range strings.Lines(ts.ReadFile(args[0])) {
		if day, _, _ := strings.Cut(line, ","); day >= args[2] && day <= args[3] && strings.HasPrefix(day, "2") {
			dropped++
			continue
		}
		b.WriteString(line)
	}
	if dropped == 0 {
		ts.Fatalf("no day between %s and %s", args[2], args[3])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(b.String()), 0o666))
}

// bytes FILE TEXT writes TEXT, a Go string without its quotes, to FILE.
func bytesFile(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: bytes FILE TEXT")
	}
	text, err := strconv.Unquote(`"` + args[1] + `"`)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o666))
}

// clean checks that nothing was printed and that no output is left, complete or
// partial: neither the folder out nor any temporary name.
func clean(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 0 {
		ts.Fatalf("usage: clean")
	}
	if out := ts.ReadFile("stdout"); out != "" {
		ts.Fatalf("printed although it failed:\n%s", out)
	}
	for _, name := range tree(ts, ts.MkAbs(".")) {
		if base := filepath.Base(name); temporary(base) || base == "out" || base == "out.csv" {
			ts.Fatalf("%s is left behind", name)
		}
	}
}

// told copies stderr to the file told, with the script's folder written as $WORK.
func told(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 0 {
		ts.Fatalf("usage: told")
	}
	text := strings.ReplaceAll(ts.ReadFile("stderr"), ts.Getenv("WORK"), "$WORK")
	ts.Check(os.WriteFile(ts.MkAbs("told"), []byte(text), 0o666))
}

func temporary(base string) bool {
	return strings.HasPrefix(base, ".loamledger-") || strings.HasSuffix(base, ".partial")
}

// same A B checks that two folders have identical files.
func same(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: same A B")
	}
	a, b := ts.MkAbs(args[0]), ts.MkAbs(args[1])
	names := tree(ts, a)
	if other := tree(ts, b); !slices.Equal(names, other) || len(names) == 0 {
		ts.Fatalf("%s has\n%q\nand %s\n%q", args[0], names, args[1], other)
	}
	for _, name := range names {
		if strings.HasSuffix(name, "/") {
			continue
		}
		if ts.ReadFile(filepath.Join(a, name)) != ts.ReadFile(filepath.Join(b, name)) {
			ts.Fatalf("%s differs", name)
		}
	}
}

// holds FOLDER NAME... checks that a folder has exactly the named files.
func holds(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: holds FOLDER NAME...")
	}
	want := slices.Sorted(slices.Values(args[1:]))
	var got []string
	for _, name := range tree(ts, ts.MkAbs(args[0])) {
		if !strings.HasSuffix(name, "/") {
			got = append(got, name)
		}
	}
	if !slices.Equal(got, want) {
		ts.Fatalf("%s has %q, want %q", args[0], got, want)
	}
}

// tree lists the contents of a folder; folder names end with a slash.
func tree(ts *testscript.TestScript, root string) []string {
	var names []string
	ts.Check(fs.WalkDir(os.DirFS(root), ".", func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil || name == ".":
		case e.IsDir():
			names = append(names, name+"/")
		default:
			names = append(names, name)
		}
		return err
	}))
	slices.Sort(names)
	return names
}

// Every text in a script is used by a command.
func TestNoTextIsUnused(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(scripts, "*.txtar"))
	if err != nil || len(files) < 5 {
		t.Fatalf("%d scripts: %v", len(files), err)
	}
	for _, name := range files {
		archive, err := txtar.ParseFile(name)
		if err != nil {
			t.Fatal(err)
		}
		words := strings.Fields(string(archive.Comment))
		for _, f := range archive.Files {
			words = append(words, strings.FieldsFunc(string(f.Data), func(r rune) bool { return strings.ContainsRune(" {},\n", r) })...)
		}
		for _, f := range archive.Files {
			used := slices.ContainsFunc(words, func(w string) bool {
				return strings.TrimPrefix(w, "../") == f.Name || strings.HasPrefix(f.Name, w+"/")
			})
			if !used {
				t.Errorf("%s: no command uses %s", name, f.Name)
			}
		}
	}
}
