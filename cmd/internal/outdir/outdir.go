// Package outdir writes an output folder whole or not at all.
//
// Files go to a temporary folder beside the wanted one. Only [Dir.Commit] puts
// it in place, by renaming; until then, and after any fault, what stood there
// before is untouched. The temporary folder and a replaced folder on its way
// out have names that start with ".loamledger-". The next run into the same
// place deletes temporary folders whose run was killed; a replaced folder that a
// killed run left is kept, since it may be the only output.
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

// ErrRefused is wrapped by every error that is the caller's to solve by naming
// another folder or by asking for the replacement, as opposed to faults of the
// machine.
var ErrRefused = errors.New("output folder refused")

// ErrAborted is wrapped by the error of any call after [Dir.Abort].
var ErrAborted = errors.New("output was given up")

// A Dir is an output folder in the making. Its methods may be called from
// several goroutines at once.
type Dir struct {
	path  string // wanted folder, symbolic links followed
	force bool
	open  func(path string) (handle, error)

	mu      sync.Mutex
	temp    string
	release func()         // of the lock that keeps temp from being swept
	files   map[*file]bool // not yet closed
	err     error          // first failed write: the folder is not whole
	state   state
}

type state uint8

const (
	writing state = iota
	committed
	aborted
)

// Create starts an output folder at path, whose parent must exist. An existing
// folder is refused unless force is set, and even then unless it is empty or
// nothing but the output of an earlier run: it must hold run.json and no file
// that no run writes.
func Create(path string, force bool) (*Dir, error) {
	if path == "" {
		return nil, refused(diag.OutputRefused, "name a folder", "it has no name")
	}
	full, err := filepath.Abs(path)
	if err != nil {
		return nil, fault("find", path, err)
	}
	if real, err := filepath.EvalSymlinks(full); err == nil {
		full = real
	} else if _, lerr := os.Lstat(full); lerr == nil {
		return nil, refused(diag.OutputRefused, "delete the link or name another folder", "%s is a link to nothing", path)
	}
	parent := filepath.Dir(full)
	if parent == full {
		return nil, refused(diag.OutputRefused, "name a folder in it", "%s is the root of a disk", path)
	}
	if info, err := os.Stat(parent); errors.Is(err, fs.ErrNotExist) {
		return nil, refused(diag.NoSuchFolder, "make it first, or name another", "the folder %s, which is to hold it, does not exist", parent)
	} else if err != nil {
		return nil, fault("look at", parent, err)
	} else if !info.IsDir() {
		return nil, refused(diag.OutputRefused, "name another folder", "%s is a file, not a folder", parent)
	}
	d := &Dir{path: full, force: force, open: create, files: map[*file]bool{}}
	if _, err := d.standing(); err != nil {
		return nil, err
	}
	if d.temp, d.release, err = PartialFolder(parent); err != nil {
		return nil, fault("write in", parent, err)
	}
	return d, nil
}

// Path returns the wanted folder, absolute.
func (d *Dir) Path() string { return d.path }

// Commit puts the folder in place. It fails if a file is still open or a write
// has failed; after a failed Commit what stood there before stands there again,
// and only [Dir.Abort] is left to call. One failure alone leaves the new folder
// in place: when the one it replaced cannot be deleted, which the error says.
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
	// Looked at again: the run may have taken long.
	standing, err := d.standing()
	if err != nil {
		return err
	}
	syncFolders(d.temp)
	old := ""
	if standing {
		old, err = sibling(filepath.Dir(d.path), "replaced", "", d.moveAside)
		if errors.Is(err, fs.ErrNotExist) {
			old, err = "", nil // another run has just moved it aside
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
			msg := fmt.Sprintf("the output is in place, but the one it replaced could not be deleted: %v", err)
			return &Fault{Code: CodeOf(err), Msg: msg, Fix: "delete " + old, Err: err}
		}
	}
	return nil
}

// putBack restores what stood at d.path, now called old if it was moved aside,
// after the output could not be put there because of err.
func (d *Dir) putBack(old string, err error) error {
	taken := errors.Is(err, fs.ErrExist)
	if taken {
		err = fmt.Errorf("%w: another run has just put its output in %s\n\tfix: run this again, or name another folder", ErrRefused, d.path)
	} else {
		err = fault("put in place", d.path, err)
	}
	if old == "" {
		return err
	}
	var back error
	for range 1000 { // a third run may have moved the other's output aside, for a moment
		if back = os.Rename(old, d.path); back == nil {
			return err
		}
		if standing, _ := d.standing(); standing && taken {
			// Both runs were to replace old, and one has.
			if gone := os.RemoveAll(old); gone != nil {
				return errors.Join(err, fmt.Errorf("the folder that stood there could not be deleted: %w\n\tfix: delete %s", gone, old))
			}
			return err
		}
	}
	return errors.Join(err, fmt.Errorf("the folder that stood there is now %s: %w", old, back))
}

// moveAside renames the standing folder to name, which must not exist: a
// rename onto an empty folder would swallow it on some systems.
func (d *Dir) moveAside(name string) error {
	if _, err := os.Lstat(name); err == nil {
		return fs.ErrExist
	}
	return os.Rename(d.path, name)
}

// Abort deletes everything written so far. It may be called at any time, from
// any goroutine and more than once; after [Dir.Commit] it does nothing, so that
// it can be deferred.
func (d *Dir) Abort() error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.state != writing {
		return nil
	}
	d.state = aborted
	for f := range d.files {
		f.handle.Close() // some systems delete no open file
	}
	clear(d.files)
	defer d.release()
	if err := os.RemoveAll(d.temp); err != nil {
		return &Fault{Code: CodeOf(err), Msg: fmt.Sprintf("cannot delete the unfinished output: %v", err), Fix: "delete " + d.temp, Err: err}
	}
	return nil
}
