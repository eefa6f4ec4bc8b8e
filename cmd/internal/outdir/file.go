package outdir

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// handle is what Dir needs of an open file.
type handle interface {
	io.WriteCloser
	Sync() error
}

func create(path string) (handle, error) {
	return os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
}

// A file is one file of a Dir. It is for one goroutine at a time.
type file struct {
	dir    *Dir
	name   string // as the user will know it
	handle handle
}

// File creates a file in the folder; name is slash-separated, such as
// "charts/need.png", and must be one that a run may write. The file must be
// closed before [Dir.Commit]; a failed write or close makes Commit fail too.
func (d *Dir) File(name string) (io.WriteCloser, error) {
	if !ours(name) || name == charts {
		return nil, fmt.Errorf("output %s: %q is not on the list of files that a run writes", d.path, name)
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.state != writing {
		return nil, fmt.Errorf("%s: %w", name, ErrAborted)
	}
	f := &file{dir: d, name: filepath.Join(d.path, filepath.FromSlash(name))}
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

// failed keeps the first fault; d.mu is held.
func (d *Dir) failed(err error) error {
	if d.err == nil {
		d.err = err
	}
	return err
}

func (f *file) Write(p []byte) (int, error) {
	n, err := f.handle.Write(p)
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

// Close hands the file to the disk and closes it. A second Close does nothing.
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
	// Some disks report that they are full only here.
	err := f.handle.Sync()
	if cerr := f.handle.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		return d.failed(fault("write", f.name, err))
	}
	return nil
}

// Cause returns what the machine said in err, without the path that stands in
// it, which may be a temporary one.
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

// syncFolders hands the folder and those in it to the disk, so that a power cut
// after the rename finds their entries. Not all systems can; none of those
// that cannot is the worse for trying.
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
