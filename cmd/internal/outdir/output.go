package outdir

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"loamledger/weather/diag"
)

// An Output is a file that a run has written, by its name in the folder.
type Output struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
}

// Outputs lists the files closed so far, by name: all but run.json, which has the
// list.
func (d *Dir) Outputs() []Output {
	d.mu.Lock()
	defer d.mu.Unlock()
	out := slices.Clone(d.written)
	slices.SortFunc(out, func(a, b Output) int { return cmp.Compare(a.Name, b.Name) })
	return out
}

// resolved returns absolute paths without symbolic links, of files that exist.
func resolved(names []string) (out []string) {
	for _, name := range names {
		if full, err := filepath.Abs(name); err == nil {
			if real, err := filepath.EvalSymlinks(full); err == nil {
				out = append(out, real)
			}
		}
	}
	return out
}

// spare rejects a folder whose replacement would delete an input of this run, or a
// file that was changed or added since the run that wrote it.
func (d *Dir) spare() error {
	for _, name := range d.keep {
		if rel, err := filepath.Rel(d.path, name); err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
			return refused(diag.OutputRefused, "choose another folder", "%s contains %s, an input of this run", d.path, filepath.ToSlash(rel))
		}
	}
	wrote, ok := outputsOf(filepath.Join(d.path, marker))
	if !ok {
		return nil // of a version without hashes
	}
	err := fs.WalkDir(os.DirFS(d.path), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || litter(name) || name == marker {
			return err
		}
		sum, err := hashOf(filepath.Join(d.path, filepath.FromSlash(name)), e)
		if err != nil {
			return err
		}
		if !slices.Contains(wrote, Output{name, sum}) {
			return refused(diag.OutputRefused, "move that file out, or choose another folder",
				"%s contains %s, which was changed or added since the run and would be deleted", d.path, name)
		}
		return nil
	})
	return d.walked(err)
}

// walked is the error of looking through a folder that other runs may replace.
func (d *Dir) walked(err error) error {
	switch {
	case err == nil, errors.Is(err, ErrRefused):
		return err
	case errors.Is(err, fs.ErrNotExist):
		return refused(diag.OutputRefused, "run this again, or choose another folder", "another run is just writing %s", d.path)
	}
	return fault("read", d.path, err)
}

// outputsOf reads the list in a run.json; false if it has none.
func outputsOf(path string) ([]Output, bool) {
	data, err := os.ReadFile(path)
	var record struct{ Outputs []Output }
	if err != nil || json.Unmarshal(data, &record) != nil {
		return nil, false
	}
	return record.Outputs, record.Outputs != nil
}

// hashOf is the hash of a file; empty for a link, which no run writes.
func hashOf(path string, e fs.DirEntry) (string, error) {
	if !e.Type().IsRegular() {
		return "", nil
	}
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	_, err = io.Copy(h, f)
	return hex.EncodeToString(h.Sum(nil)), err
}
