//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package outdir

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// writerOf is set to the output folder in a process that is a separate run.
const writerOf = "OUTDIR_TEST_WRITER"

// TestWriter is the run in that process: it writes half of an output, prints so,
// and commits it on request.
func TestWriter(t *testing.T) {
	out := os.Getenv(writerOf)
	if out == "" {
		t.Skip("other tests run this in a separate process")
	}
	single, release, err := PartialFile(filepath.Dir(out), "weather.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer release()
	defer os.Remove(single)
	d, err := Create(out, true)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Abort()
	if err := errors.Join(write(d, "run.json", "whole"), write(d, "charts/need.png", "whole")); err != nil {
		t.Fatal(err)
	}
	fmt.Println("half-way")
	if _, err := bufio.NewReader(os.Stdin).ReadString('\n'); err != nil {
		t.Fatal(err)
	}
	// One of many runs may be replacing the folder right now.
	if err := d.Commit(); err != nil {
		fmt.Println("refused:", err)
	}
}

// A writer is a run in a separate process.
type writer struct {
	cmd  *exec.Cmd
	in   io.WriteCloser
	text *bufio.Reader
}

func startWriter(t *testing.T, out string) *writer {
	t.Helper()
	w := &writer{cmd: exec.Command(os.Args[0], "-test.run=^TestWriter$")}
	w.cmd.Env = append(os.Environ(), writerOf+"="+out)
	in, err := w.cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	text, err := w.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := w.cmd.Start(); err != nil {
		t.Skip("cannot start a process: ", err)
	}
	t.Cleanup(func() { w.cmd.Process.Kill() })
	w.in, w.text = in, bufio.NewReader(text)
	return w
}

// halfWay waits until the run has written half.
func (w *writer) halfWay(t *testing.T) {
	t.Helper()
	if line, err := w.text.ReadString('\n'); line != "half-way\n" {
		t.Fatalf("the run said %q (%v)", line, err)
	}
}

// finish lets the run commit its output and returns what it printed.
func (w *writer) finish(t *testing.T) string {
	t.Helper()
	_, err := io.WriteString(w.in, "\n")
	text, rerr := io.ReadAll(w.text)
	if err := errors.Join(err, rerr, w.cmd.Wait()); err != nil {
		t.Errorf("%v: %s", err, text)
	}
	return string(text)
}

func partials(t *testing.T, folder string) []string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(folder, ".loamledger-*"))
	if err != nil {
		t.Fatal(err)
	}
	return names
}

func TestKilledRunIsSweptAndLiveOneIsNot(t *testing.T) {
	root := t.TempDir()
	out := filepath.Join(root, "out")
	killed, live := startWriter(t, out), startWriter(t, out)
	killed.halfWay(t)
	live.halfWay(t)
	if err := errors.Join(killed.cmd.Process.Kill(), ignoreExit(killed.cmd.Wait())); err != nil {
		t.Fatal(err)
	}
	if got := partials(t, root); len(got) != 4 {
		t.Fatalf("%q, want a file and a folder of each run", got)
	}
	output(t, filepath.Join(root, "other"), "x", false)
	got := partials(t, root)
	pid := fmt.Sprintf("-%d-", live.cmd.Process.Pid)
	if len(got) != 2 || slices.ContainsFunc(got, func(name string) bool { return !strings.Contains(name, pid) }) {
		t.Errorf("%q is left, want what the live run%shas", got, pid)
	}
	if text := live.finish(t); strings.Contains(text, "refused") {
		t.Error(text)
	}
	same(t, root, []string{"./", "other/", "other/charts/", "other/charts/need.png=x", "other/run.json=x",
		"out/", "out/charts/", "out/charts/need.png=whole", "out/run.json=whole"})
}

func ignoreExit(err error) error {
	if exit := new(exec.ExitError); errors.As(err, &exit) {
		return nil
	}
	return err
}

// Each of many runs into one folder ends with its output in place or rejected,
// the folder is complete, and nothing else is left.
func TestManyRunsIntoOneFolder(t *testing.T) {
	root := t.TempDir()
	out := filepath.Join(root, "out")
	var runs []*writer
	for range 64 {
		runs = append(runs, startWriter(t, out))
	}
	for _, w := range runs {
		w.halfWay(t)
	}
	refused := make(chan bool)
	for _, w := range runs {
		go func() { refused <- strings.Contains(w.finish(t), "refused") }()
	}
	n := 0
	for range runs {
		if <-refused {
			n++
		}
	}
	if n == len(runs) {
		t.Error("all runs were refused")
	}
	same(t, root, []string{"./", "out/", "out/charts/", "out/charts/need.png=whole", "out/run.json=whole"})
}

// Names that only resemble ours, and links, are left alone.
func TestSweepLeavesWhatIsNotOurs(t *testing.T) {
	root := t.TempDir()
	dead, theirs := filepath.Join(root, ".loamledger-partial-1-0"), filepath.Join(root, ".loamledger-partial-notes")
	target, link := filepath.Join(root, "photos"), filepath.Join(root, ".loamledger-partial-1-1")
	replaced := filepath.Join(root, ".loamledger-replaced-1-0")
	err := errors.Join(os.Mkdir(dead, 0o777), os.Mkdir(theirs, 0o777), os.Mkdir(target, 0o777),
		os.Symlink(target, link), os.Mkdir(replaced, 0o777))
	if err != nil {
		t.Fatal(err)
	}
	sweep(root)
	want := []string{filepath.Base(link), filepath.Base(theirs), filepath.Base(replaced), "photos"}
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q is left, want %q", got, want)
	}
}
