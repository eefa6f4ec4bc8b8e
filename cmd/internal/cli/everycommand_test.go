package cli

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// A wholeLine is a command line that works, of files in a copy of the sample sites.
type wholeLine struct {
	files []string // arguments that name files or folders to read
	rest  []string // required flags
	bare  bool     // the command also works without any argument or flag
	any   bool     // it takes any number of files
	new   bool     // its argument names a file to write
}

// wholeLines has one line for each command.
var wholeLines = map[string]wholeLine{
	"bill":       {files: []string{"rates/quail-terrace-rates.yaml"}, rest: []string{"--reads=rates/quail-terrace-reads.csv"}},
	"calibrate":  {files: []string{"tansy-court.yaml"}},
	"catalog":    {bare: true},
	"check":      {files: []string{"juniper-court.yaml"}},
	"compare":    {files: []string{"juniper-court.yaml"}, rest: []string{"--measured=juniper-court-weather.csv", "--zone=trees"}},
	"completion": {bare: true},
	"demo":       {bare: true},
	"explain":    {files: []string{"juniper-court.yaml"}, rest: []string{"--zone=lawn", "--date=2013-07-02", "--strategy=as found"}},
	"generate": {rest: []string{"--fit=juniper-court-weather.csv", "--latitude=38.9", "--elevation=490 m",
		"--seed=1", "--out=new.csv"}},
	"help":               {bare: true},
	"init":               {files: []string{"new.yaml"}, new: true},
	"meter":              {files: []string{"tansy-court.yaml"}},
	"page":               {bare: true},
	"plan":               {files: []string{"juniper-court.yaml"}},
	"portfolio":          {files: []string{"portfolio/accounts.csv"}, rest: []string{"--program=portfolio/program.yaml", "--out=new"}},
	"portfolio evaluate": {files: []string{"results"}, rest: []string{"--costs=portfolio/costs.yaml"}},
	"portfolio merge":    {files: []string{"shards"}, rest: []string{"--out=new"}},
	"ranges":             {files: []string{"juniper-court.yaml"}},
	"replay":             {files: []string{"juniper-court.yaml"}},
	"report":             {files: []string{"juniper-court.yaml"}},
	"samples":            {bare: true},
	"score":              {files: []string{"forecast.csv"}, rest: []string{"--weather=juniper-court-weather.csv"}},
	"settings":           {files: []string{"juniper-court.yaml"}, rest: []string{"--strategy=as found"}},
	"tradeoff":           {files: []string{"juniper-court.yaml"}, rest: []string{"--strategy=as found"}},
	"tune":               {files: []string{"juniper-court.yaml"}},
	"version":            {bare: true},
	"weather":            {files: []string{"juniper-court-weather.csv"}, rest: []string{"--latitude=38.9", "--elevation=490 m"}, any: true},
}

// besides has what else a flag needs.
var besides = map[string]string{
	"calendar":        "--start=2026-03-01",
	"forecast-layout": "--forecast=forecast.csv",
}

// instead has the flags that a flag excludes.
var instead = map[string][]string{"normals": {"fit", "latitude", "elevation"}}

// unopened is a flag whose file is not opened with the sample rates: none has a budget that follows the weather.
const unopened = "site"

// written lists the flags that name what a command writes.
var written = []string{"out", "plot", "plot-use", "plot-scatter", "plot-inputs", "calendar"}

// each calls f for every command below cmd, with its words.
func each(cmd *cobra.Command, words []string, f func(*cobra.Command, []string)) {
	for _, c := range cmd.Commands() {
		at := append(slices.Clone(words), c.Name())
		f(c, at)
		if c.Name() != "completion" { // the library's own, hidden
			each(c, at, f)
		}
	}
}

// A try is one command line that ends with an error.
type try struct {
	t     *testing.T
	words []string
}

// fails runs the words and args: they end with the code, print nothing but an error, and that has the text and a fix.
func (y try) fails(code int, text string, args ...string) {
	y.t.Helper()
	line := append(slices.Clone(y.words), args...)
	var out, errs bytes.Buffer
	got := Main(y.t.Context(), line, Streams{Out: &out, Err: &errs})
	said := errs.String()
	switch {
	case got != code, out.Len() > 0, !strings.Contains(said, text), !strings.Contains(said, "loamledger: "),
		code != exitMachine && !strings.Contains(said, "\n\tfix: "):
		y.t.Errorf("%q: exit code %d, want %d and %q; printed %d bytes and\n%s", line, got, code, text, out.Len(), said)
	}
}

// Every command says the same of the same mistake: an unknown flag, a word too many or too few, nothing where a name is
// needed, a folder, an empty or a missing file, an output that cannot be written. None writes anything then.
func TestEveryCommand(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.CopyFS(".", os.DirFS(examplesFolder(t))); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(
		os.Mkdir("folder", 0o777), os.Mkdir("folder/inside", 0o777), os.WriteFile("empty.csv", nil, 0o666),
		os.WriteFile("forecast.csv", []byte("issued,valid,rain_mm\n2013-06-01,2013-06-02,3\n"), 0o666),
	); err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{
		"portfolio portfolio/accounts.csv --program portfolio/program.yaml --out shards --shard 0/1",
		"portfolio merge shards --out results",
	} {
		var said bytes.Buffer
		if code := Main(t.Context(), strings.Fields(line), Streams{Out: &said, Err: &said}); code != exitDone {
			t.Fatalf("%s: exit code %d\n%s", line, code, said.String())
		}
	}
	before := everyFile(t)
	root := newRoot(Streams{Out: &bytes.Buffer{}, Err: &bytes.Buffer{}})
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd("completion")
	seen := 0
	each(root, nil, func(cmd *cobra.Command, words []string) {
		name := strings.Join(words, " ")
		t.Run(name, func(t *testing.T) {
			line, ok := wholeLines[name]
			if !ok {
				t.Fatal("wholeLines lacks this command")
			}
			seen++
			y := try{t, words}
			y.helps()
			y.fails(exitCommand, "unknown flag: --nosuch", "--nosuch")
			y.fails(exitCommand, "unknown shorthand flag", "-Z")
			y.arguments(&line)
			cmd.Flags().VisitAll(func(f *pflag.Flag) { y.flag(&line, f) })
		})
	})
	if seen != len(wholeLines) {
		t.Errorf("%d commands tried, wholeLines has %d", seen, len(wholeLines))
	}
	if after := everyFile(t); !slices.Equal(after, before) {
		t.Errorf("files are\n%q, were\n%q", after, before)
	}
}

// helps tries the three ways to a command's help, which all print it.
func (y try) helps() {
	var texts [3]string
	for i, line := range [][]string{append([]string{"help"}, y.words...),
		append(slices.Clone(y.words), "--help"), append(slices.Clone(y.words), "-h")} {
		var out, errs bytes.Buffer
		if code := Main(y.t.Context(), line, Streams{Out: &out, Err: &errs}); code != exitDone || errs.Len() > 0 || out.Len() < 100 {
			y.t.Errorf("%q: exit code %d, printed %d bytes and %s", line, code, out.Len(), errs.String())
		}
		texts[i] = out.String()
	}
	if texts[0] != texts[1] || texts[1] != texts[2] {
		y.t.Errorf("help, --help and -h print different texts")
	}
	y.t.Run("help of nothing", func(t *testing.T) {
		try{t, nil}.fails(exitCommand, "command \"nosuch\"", append(append([]string{"help"}, y.words...), "nosuch")...)
	})
}

// arguments tries too few, too many and wrong arguments.
func (y try) arguments(line *wholeLine) {
	whole := append(slices.Clone(line.files), line.rest...)
	switch {
	case line.any:
		y.fails(exitInput, "nosuch.csv: file not found", append(whole, "nosuch.csv")...)
	case y.words[0] == "help", y.words[0] == "completion":
		y.fails(exitCommand, "nosuch", "nosuch")
	default:
		y.fails(exitCommand, "write: loamledger "+strings.Join(y.words, " "), append(whole, "one", "too", "many")...)
	}
	if !line.bare {
		y.fails(exitCommand, "")
	}
	if len(line.files) == 0 {
		return
	}
	y.fails(exitCommand, "an argument is empty", append([]string{""}, line.rest...)...)
	if line.new {
		y.fails(exitCommand, "already exists", "folder")
		y.fails(exitCommand, "already exists", "empty.csv")
		y.fails(exitCommand, "does not exist", "nosuch/new.yaml")
		return
	}
	for _, name := range []string{"folder", "empty.csv", "nosuch.csv", "empty.csv/nosuch.csv"} {
		y.fails(exitInput, name, append([]string{name}, line.rest...)...)
	}
}

// flag tries wrong values of a flag.
func (y try) flag(line *wholeLine, f *pflag.Flag) {
	kind, _ := pflag.UnquoteUsage(f)
	with := func(value string) []string {
		args := slices.DeleteFunc(slices.Concat(line.files, line.rest), func(word string) bool {
			flag, _, _ := strings.Cut(strings.TrimPrefix(word, "--"), "=")
			return strings.HasPrefix(word, "--") && (flag == f.Name || slices.Contains(instead[f.Name], flag))
		})
		if line.new && f.Name == "out" {
			args = nil
		}
		if more := besides[f.Name]; more != "" {
			args = append(args, more)
		}
		return append(args, "--"+f.Name+"="+value)
	}
	switch f.Value.Type() {
	case "bool":
		y.fails(exitCommand, "--"+f.Name, with("perhaps")...)
		return
	case "string", "stringArray", "stringSlice":
		y.fails(exitCommand, "--"+f.Name+" is empty", with("")...)
	default:
		y.fails(exitCommand, "--"+f.Name, with("")...)
		y.fails(exitCommand, "--"+f.Name, with("much")...)
		return
	}
	if !slices.Contains([]string{"FILE", "FOLDER", "DIR", "PATH"}, kind) || f.Name == unopened {
		return
	}
	if !slices.Contains(written, f.Name) {
		for _, name := range []string{"folder", "empty.csv", "nosuch.csv", "empty.csv/nosuch.csv"} {
			y.fails(exitInput, name, with(name)...)
		}
		return
	}
	end := y.ending(f.Name, kind)
	y.fails(exitCommand, "nosuch", with("nosuch/new"+end)...)
	y.fails(exitCommand, "empty.csv", with("empty.csv/new"+end)...)
	if runtime.GOOS == "linux" {
		y.fails(exitMachine, "cannot write", with("/proc/new"+end)...)
	}
}

// ending returns the end of the name of what a flag writes.
func (y try) ending(flag, kind string) string {
	switch {
	case kind != "FILE":
		return ""
	case flag == "calendar":
		return ".ics"
	case y.words[0] == "report":
		return ".pdf"
	case y.words[0] == "page":
		return ".html"
	case strings.HasPrefix(flag, "plot"):
		return ".png"
	}
	return ".csv"
}

// examplesFolder returns the folder of the sample sites.
func examplesFolder(t *testing.T) string {
	t.Helper()
	_, file, _, ok := runtime.Caller(0)
	if !ok {
		t.Fatal("no folder")
	}
	return filepath.Join(filepath.Dir(file), "../../../scenarios/examples")
}

// everyFile returns the names of all files below this folder.
func everyFile(t *testing.T) (names []string) {
	t.Helper()
	err := filepath.WalkDir(".", func(path string, _ os.DirEntry, err error) error {
		names = append(names, path)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}
