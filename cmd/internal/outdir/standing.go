package outdir

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"strings"

	"loamledger/weather/diag"
)

// marker is the file that identifies the output of an earlier run.
const marker = "run.json"

// charts is the folder of charts, inputs the folder of the demo's scenario and
// weather.
const (
	charts = "charts"
	inputs = "inputs"
)

// ours reports whether a run may write name, a slash-separated path in the
// output folder. A folder with anything else in it is never replaced, so a new
// kind of output must be listed here before it can be written.
func ours(name string) bool {
	switch name {
	case "ledger.parquet", "ledger.csv", "tally.csv", "bills.csv", "compliance.csv", "outlook.csv", marker, "report.html",
		"report.pdf", charts, inputs,
		"results.parquet", "months.parquet", "accounts.parquet", "bills.parquet", "failed.csv", "excluded.csv":
		return true
	}
	dir, base := path.Split(name)
	return dir == charts+"/" && strings.HasSuffix(base, ".png") ||
		dir == inputs+"/" && (strings.HasSuffix(base, ".csv") || strings.HasSuffix(base, ".yaml"))
}

// litter reports whether name is a file that desktops leave in folders.
func litter(name string) bool {
	base := path.Base(name)
	return base == ".DS_Store" || base == "Thumbs.db" || base == "desktop.ini"
}

// standing reports whether d.path exists, and rejects a folder that must not be
// replaced.
func (d *Dir) standing() (bool, error) {
	info, err := os.Lstat(d.path)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, fault("check", d.path, err)
	}
	if !info.IsDir() {
		return false, refused(diag.OutputRefused, "choose another name", "%s is a file, not a folder", d.path)
	}
	if !d.force {
		return false, refused(diag.Exists, "choose another name, or replace it with --force", "%s already exists", d.path)
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
			return refused(diag.OutputRefused, "move that file out, or choose another folder",
				"%s contains %s, which is not from loamledger and would be deleted", d.path, name)
		}
		return nil
	})
	if err := d.walked(err); err != nil {
		return false, err
	}
	if err := d.spare(); err != nil {
		return false, err
	}
	if !empty && !marked {
		return false, refused(diag.OutputRefused, "choose another folder", "%s is not the output of an earlier run: it has no %s", d.path, marker)
	}
	return true, nil
}
