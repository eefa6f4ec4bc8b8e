package cli_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A pipe is named as one, wherever a file is wanted: reading it could wait forever.
func TestPipesAreNotRead(t *testing.T) {
	dir := t.TempDir()
	pipe := filepath.Join(dir, "weather.csv")
	yard, err := os.ReadFile("testdata/yard.yaml")
	err = errors.Join(err, syscall.Mkfifo(pipe, 0o666), os.WriteFile(filepath.Join(dir, "yard.yaml"), yard, 0o666))
	if err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"replay", filepath.Join(dir, "yard.yaml")}, {"check", pipe}, {"weather", pipe},
		{"generate", "--fit", pipe, "--seed", "1", "--out", filepath.Join(dir, "made.csv")},
		{"score", pipe, "--weather", pipe}, {"weather", pipe, "--layout-file", pipe}} {
		code, out, errs := run(t.Context(), args...)
		if code != 3 || out != "" || !strings.Contains(errs, "this is a FIFO (a pipe), not a file") {
			t.Errorf("%q: exit code %d, printed %q and %q", args, code, out, errs)
		}
	}
}
