package cli_test

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/weather/cal"
)

// TestFoldersAreNotNamed replays the same files, including a second station, from
// two folders: every file written is identical.
func TestFoldersAreNotNamed(t *testing.T) {
	if testing.Short() {
		t.Skip("two replays with all pictures")
	}
	outs := make([]string, 2)
	for i := range outs {
		scenario := yard(t, 2)
		dir := filepath.Dir(scenario)
		text, err := os.ReadFile(scenario)
		text = bytes.Replace(text, []byte("weather: {file: weather.csv}"), []byte("weather: {file: weather.csv, fill_files: [near.csv]}"), 1)
		weather, werr := os.ReadFile(filepath.Join(dir, "weather.csv"))
		// A day without temperatures, to fill from the second station.
		lines := strings.SplitAfter(string(weather), "\n")
		cells := strings.Split(lines[40], ",")
		cells[1], cells[2] = "", ""
		lines[40] = strings.Join(cells, ",")
		err = errors.Join(err, werr, os.WriteFile(scenario, text, 0o666),
			os.WriteFile(filepath.Join(dir, "near.csv"), synthetic(cal.Of(2001, 1, 1), 730), 0o666),
			os.WriteFile(filepath.Join(dir, "weather.csv"), []byte(strings.Join(lines, "")), 0o666))
		if err != nil {
			t.Fatal(err)
		}
		outs[i] = filepath.Join(dir, "out")
		done(t, "replay", scenario, "--out", outs[i])
	}
	seen := 0
	err := fs.WalkDir(os.DirFS(outs[0]), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		first, err := os.ReadFile(filepath.Join(outs[0], name))
		second, err2 := os.ReadFile(filepath.Join(outs[1], name))
		if err := errors.Join(err, err2); err != nil {
			return err
		}
		if seen++; !bytes.Equal(first, second) {
			t.Errorf("%s differs between two folders", name)
		}
		if bytes.Contains(first, []byte(filepath.Dir(outs[0]))) {
			t.Errorf("%s names the folder it was written in", name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen < 6 {
		t.Errorf("%d files", seen)
	}
	if !bytes.Contains(read(t, filepath.Join(outs[0], "report.html")), []byte("near.csv")) {
		t.Error("the report does not name the second station")
	}
}
