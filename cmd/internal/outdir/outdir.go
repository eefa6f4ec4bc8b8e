// Package outdir writes an output folder atomically.
//
// Files go to a temporary folder next to the output folder. [Dir.Commit] renames
// it into place; until then, and after any error, an existing folder is
// untouched. The temporary folder, and a replaced folder before it is deleted,
// have names that start with ".loamledger-". The next run with the same parent
// folder deletes the temporary folders of killed runs. It keeps a replaced folder
// that a killed run left, since that may be the only output.
package outdir

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"loamledger/weather/diag"
)

// ErrRefused is wrapped by every error that the caller can fix by choosing
// another folder or forcing a replacement, as opposed to system errors.
var ErrRefused = errors.New("bad output folder")

// ErrAborted is wrapped by the error of any call after [Dir.Abort].
var ErrAborted = errors.New("output was aborted")

// A Dir is an output folder being written. Its methods are safe for concurrent
// use.
type Dir struct {
	path  string // of the output folder, symbolic links resolved
	force bool
	keep  []string // files that must not be replaced, symbolic links resolved
	open  func(path string) (handle, error)

	mu      sync.Mutex
	temp    string
	release func()         // unlocks temp, which the lock protects from sweep
	files   map[*file]bool // not yet closed
	written []Output       // closed
	err     error          // first failed write: the folder is incomplete
	state   state
}

type state uint8

const (
	writing state = iota
	committed
	aborted
)

// Create starts an output folder at path. Its parent must exist. An existing
// folder is replaced only if force is set and it is empty or contains only the
// output of an earlier run: run.json and no file that a run does not write.
// Otherwise the error wraps [ErrRefused].
//
// It is not replaced either if a file in it was changed since that run, as far as
// its run.json says, or is one of keep, the inputs of this run.
func Create(path string, force bool, keep ...string) (*Dir, error) {
	if path == "" {
		return nil, refused(diag.OutputRefused, "name a folder", "the name is empty")
	}
	full, err := filepath.Abs(path)
	if err != nil {
		return nil, fault("find", path, err)
	}
	if real, err := filepath.EvalSymlinks(full); err == nil {
		full = real
	} else if _, lerr := os.Lstat(full); lerr == nil {
		return nil, refused(diag.OutputRefused, "delete the link or choose another name", "%s is a broken link", path)
	}
	parent := filepath.Dir(full)
	if parent == full {
		return nil, refused(diag.OutputRefused, "choose a folder inside it", "%s is the root of a disk", path)
	}
	if info, err := os.Stat(parent); errors.Is(err, fs.ErrNotExist) {
		return nil, refused(diag.NoSuchFolder, "create it or choose another", "folder %s does not exist", parent)
	} else if err != nil {
		return nil, fault("check", parent, err)
	} else if !info.IsDir() {
		return nil, refused(diag.OutputRefused, "choose another folder", "%s is a file, not a folder", parent)
	}
	d := &Dir{path: full, force: force, keep: resolved(keep), open: create, files: map[*file]bool{}}
	if _, err := d.standing(); err != nil {
		return nil, err
	}
	if d.temp, d.release, err = PartialFolder(parent); err != nil {
		return nil, fault("write in", parent, err)
	}
	return d, nil
}

// Path returns the absolute path of the output folder.
func (d *Dir) Path() string { return d.path }

// Commit moves the folder into place. It fails if a file is still open or a write
// has failed. After a failed Commit the earlier folder is back in place, and the
// caller must call [Dir.Abort]. There is one exception: if the replaced folder
// cannot be deleted, the new folder stays in place, and the error says so.
func (d *Dir) Commit() error {
	d.mu.Lock()
	defer d.mu.Unlock()
	switch {
	case d.state == committed:
		return nil
	case d.state == aborted:
		return fmt.Errorf("%s: %w", d.path, ErrAborted)
	case d.err != nil:
		return d.err
	}
	for f := range d.files {
		return fmt.Errorf("output %s: %s is still open", d.path, f.name)
	}
	// Check again: the run may have taken long.
	standing, err := d.standing()
	if err != nil {
		return err
	}
	syncFolders(d.temp)
	old := ""
	if standing {
		old, err = sibling(filepath.Dir(d.path), "replaced", "", d.moveAside)
		if errors.Is(err, fs.ErrNotExist) {
			old, err = "", nil // another run has just moved it
		}
		if err != nil {
			return fault("replace", d.path, err)
		}
	}
	if err := os.Rename(d.temp, d.path); err != nil {
		return d.putBack(old, err)
	}
	d.state = committed
	d.release()
	syncFolder(filepath.Dir(d.path))
	if old != "" {
		if err := os.RemoveAll(old); err != nil {
			msg := fmt.Sprintf("the output was written, but the folder it replaced could not be deleted: %v", err)
			return &Fault{Code: CodeOf(err), Msg: msg, Fix: "delete " + old, Err: err}
		}
	}
	return nil
}

// putBack restores the folder that was at d.path, now called old if it was moved
// aside, after the output could not be moved there because of err.
func (d *Dir) putBack(old string, err error) error {
	taken := errors.Is(err, fs.ErrExist)
	if taken {
		err = fmt.Errorf("%w: another run has just written %s\n\tfix: run this again, or choose another folder", ErrRefused, d.path)
	} else {
		err = fault("create", d.path, err)
	}
	if old == "" {
		return err
	}
	var back error
	for range 1000 { // a third run may have moved the other's output aside briefly
		if back = os.Rename(old, d.path); back == nil {
			return err
		}
		if standing, _ := d.standing(); standing && taken {
			// Both runs were replacing old, and the other has done so.
			if gone := os.RemoveAll(old); gone != nil {
				return errors.Join(err, fmt.Errorf("the earlier folder could not be deleted: %w\n\tfix: delete %s", gone, old))
			}
			return err
		}
	}
	return errors.Join(err, fmt.Errorf("the earlier folder is now %s: %w", old, back))
}

// moveAside renames the existing folder to name, which must not exist: on some
// systems a rename replaces an empty folder.
func (d *Dir) moveAside(name string) error {
	if _, err := os.Lstat(name); err == nil {
		return fs.ErrExist
	}
	return os.Rename(d.path, name)
}

// Abort deletes everything written so far. It may be called at any time, from
// any goroutine and more than once. After a successful [Dir.Commit] it does
// nothing, so it can be deferred.
func (d *Dir) Abort() error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.state != writing {
		return nil
	}
	d.state = aborted
	for f := range d.files {
		f.handle.Close() // some systems cannot delete an open file
	}
	clear(d.files)
	defer d.release()
	if err := os.RemoveAll(d.temp); err != nil {
		return &Fault{Code: CodeOf(err), Msg: fmt.Sprintf("cannot delete the unfinished output: %v", err), Fix: "delete " + d.temp, Err: err}
	}
	return nil
}
