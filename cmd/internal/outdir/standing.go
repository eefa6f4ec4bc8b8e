package outdir

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"strings"

	"loamledger/weather/diag"
)

// marker is the file by which the output of an earlier run is known.
const marker = "run.json"

// charts is the folder of the pictures, inputs that of a demonstration's own
// scenario and weather.
const (
	charts = "charts"
	inputs = "inputs"
)

// ours reports whether a run may write name, a slash-separated path in the
// output folder. A folder that holds anything else is not replaced, so a new
// kind of output has to be entered here before it can be written.
func ours(name string) bool {
	switch name {
	case "ledger.parquet", "ledger.csv", "tally.csv", "compliance.csv", "coming.csv", marker, "report.html", charts, inputs:
		return true
	}
	dir, base := path.Split(name)
	return dir == charts+"/" && strings.HasSuffix(base, ".png") ||
		dir == inputs+"/" && (strings.HasSuffix(base, ".csv") || strings.HasSuffix(base, ".yaml"))
}

// litter reports names that desktops leave in every folder they show.
func litter(name string) bool {
	base := path.Base(name)
	return base == ".DS_Store" || base == "Thumbs.db" || base == "desktop.ini"
}

// standing reports whether a folder stands at d.path, and refuses one that may
// not be replaced.
func (d *Dir) standing() (bool, error) {
	info, err := os.Lstat(d.path)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, fault("look at", d.path, err)
	}
	if !info.IsDir() {
		return false, refused(diag.OutputRefused, "name another folder", "%s is a file, not a folder", d.path)
	}
	if !d.force {
		return false, refused(diag.Exists, "name another folder, or replace it with --force", "%s exists", d.path)
	}
	empty, marked := true, false
	err = fs.WalkDir(os.DirFS(d.path), ".", func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case name == ".":
			return nil
		case litter(name):
			return nil
		}
		empty = false
		marked = marked || name == marker
		if !ours(name) {
			return refused(diag.OutputRefused, "move it out, or name another folder",
				"%s holds %s, which no run of loamledger writes, and would be deleted", d.path, name)
		}
		return nil
	})
	if errors.Is(err, ErrRefused) {
		return false, err
	}
	if err != nil {
		return false, fault("look into", d.path, err)
	}
	if !empty && !marked {
		return false, refused(diag.OutputRefused, "name another folder", "%s is not the output of an earlier run: it holds no %s", d.path, marker)
	}
	return true, nil
}
