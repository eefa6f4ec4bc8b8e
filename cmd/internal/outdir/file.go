package outdir

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// handle is the part of an open file that Dir uses.
type handle interface {
	io.WriteCloser
	Sync() error
}

func create(path string) (handle, error) {
	return os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
}

// A file is one file in a Dir. It is not safe for concurrent use.
type file struct {
	dir    *Dir
	name   string // its final path
	handle handle
	local  string // name in the folder
	sum    hash.Hash
}

// File creates a file in the folder; name is slash-separated, such as
// "charts/need.png", and must be one that a run may write. The caller must close
// the file before [Dir.Commit]; a failed write or close makes Commit fail too.
func (d *Dir) File(name string) (io.WriteCloser, error) {
	if !ours(name) || name == charts {
		return nil, fmt.Errorf("output %s: %q is not in the list of files that a run writes", d.path, name)
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.state != writing {
		return nil, fmt.Errorf("%s: %w", name, ErrAborted)
	}
	f := &file{dir: d, name: filepath.Join(d.path, filepath.FromSlash(name)), local: name, sum: sha256.New()}
	full := filepath.Join(d.temp, filepath.FromSlash(name))
	err := os.MkdirAll(filepath.Dir(full), 0o777)
	if err == nil {
		f.handle, err = d.open(full)
	}
	if err != nil {
		return nil, d.failed(fault("write", f.name, err))
	}
	d.files[f] = true
	return f, nil
}

// failed records the first error; d.mu must be locked.
func (d *Dir) failed(err error) error {
	if d.err == nil {
		d.err = err
	}
	return err
}

func (f *file) Write(p []byte) (int, error) {
	n, err := f.handle.Write(p)
	f.sum.Write(p[:max(n, 0)]) // a hash never fails
	if err == nil {
		return n, nil
	}
	d := f.dir
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.state == aborted {
		return n, fmt.Errorf("%s: %w", f.name, ErrAborted)
	}
	return n, d.failed(fault("write", f.name, err))
}

// Close syncs the file to disk and closes it. A second Close does nothing.
func (f *file) Close() error {
	d := f.dir
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.state == aborted {
		return fmt.Errorf("%s: %w", f.name, ErrAborted)
	}
	if !d.files[f] {
		return nil
	}
	delete(d.files, f)
	// Some disks report that they are full only now.
	err := f.handle.Sync()
	if cerr := f.handle.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		return d.failed(fault("write", f.name, err))
	}
	d.written = append(d.written, Output{f.local, hex.EncodeToString(f.sum.Sum(nil))})
	return nil
}

// Cause returns the system's error in err without the path, which may be a
// temporary one.
func Cause(err error) error {
	var at *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &at):
		return at.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}

// syncFolders syncs the folder and its subfolders to disk, so that their entries
// survive a power failure after the rename. Not all systems support this; trying
// does no harm.
func syncFolders(root string) {
	filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err == nil && e.IsDir() {
			syncFolder(path)
		}
		return nil
	})
}

func syncFolder(path string) {
	if f, err := os.Open(path); err == nil {
		f.Sync()
		f.Close()
	}
}
