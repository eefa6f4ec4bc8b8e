package outdir

import (
	"bytes"
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

// Outputs lists the files closed so far, by name, and an entry for run.json, which
// has the list: its hash is [Unsealed] until [Seal] sets it.
func (d *Dir) Outputs() []Output {
	d.mu.Lock()
	defer d.mu.Unlock()
	out := append(slices.Clone(d.written), Output{marker, Unsealed})
	slices.SortFunc(out, func(a, b Output) int { return cmp.Compare(a.Name, b.Name) })
	return out
}

// Unsealed stands for the hash of run.json in its own list.
const Unsealed = "0000000000000000000000000000000000000000000000000000000000000000"

// Seal replaces the last [Unsealed] in the text of a run.json, whose list is at the
// end, by the hash of that text.
func Seal(text []byte) []byte {
	i := bytes.LastIndex(text, []byte(Unsealed))
	if i < 0 {
		return text
	}
	return slices.Concat(text[:i], []byte(sumOf(text)), text[i+len(Unsealed):])
}

// sealed reports whether the text of a run.json has its own hash, as [Seal] set it.
func sealed(text []byte, sum string) bool {
	return sumOf(bytes.Replace(text, []byte(sum), []byte(Unsealed), 1)) == sum
}

func sumOf(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
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
	wrote, whole, err := outputsOf(filepath.Join(d.path, marker))
	switch {
	case err != nil:
		return d.walked(err)
	case !whole:
		return d.changed(marker)
	case wrote == nil:
		return nil // of a version without hashes
	}
	err = fs.WalkDir(os.DirFS(d.path), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || litter(name) || name == marker {
			return err
		}
		sum, err := hashOf(filepath.Join(d.path, filepath.FromSlash(name)), e)
		if err != nil {
			return err
		}
		if !slices.Contains(wrote, Output{name, sum}) {
			return d.changed(name)
		}
		return nil
	})
	return d.walked(err)
}

// changed rejects a folder because of a file in it.
func (d *Dir) changed(name string) error {
	return refused(diag.OutputRefused, "move that file out, or choose another folder",
		"%s contains %s, which was changed or added since the run and would be deleted", d.path, name)
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

// outputsOf reads the list in a run.json, nil if there is none, and reports whether
// run.json is as it was written, as far as it has its own hash.
func outputsOf(path string) (wrote []Output, whole bool, err error) {
	text, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, true, nil
	}
	var record struct{ Outputs []Output }
	if err != nil || json.Unmarshal(text, &record) != nil {
		return nil, true, err
	}
	for _, o := range record.Outputs {
		if o.Name == marker {
			return record.Outputs, sealed(text, o.SHA256), nil
		}
	}
	return record.Outputs, true, nil
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
