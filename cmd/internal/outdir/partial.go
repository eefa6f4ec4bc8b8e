package outdir

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
)

// partialName matches the name of an unfinished file or folder: the process ID, a
// counter, and the final name of a file.
var partialName = regexp.MustCompile(`^\.loamledger-partial-[0-9]+-[0-9]+(-.*)?$`)

// PartialFile creates an empty file in folder, to be written and then renamed to
// name. Other runs do not sweep it until release is called; call it after
// renaming or deleting the file. PartialFile first deletes what killed runs left
// in the folder.
func PartialFile(folder, name string) (path string, release func(), err error) {
	return partial(folder, "-"+name, func(path string) error {
		f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if err != nil {
			return err
		}
		return f.Close()
	})
}

// PartialFolder is [PartialFile] for a folder.
func PartialFolder(parent string) (path string, release func(), err error) {
	return partial(parent, "", func(path string) error { return os.Mkdir(path, 0o777) })
}

func partial(parent, suffix string, make func(path string) error) (path string, release func(), err error) {
	sweep(parent)
	var lock *os.File
	path, err = sibling(parent, "partial", suffix, func(path string) error {
		if err := make(path); err != nil {
			return err
		}
		var free bool
		if lock, free = hold(path); !free {
			return fs.ErrExist // a sweep took it before it was locked: try the next name
		}
		return nil
	})
	return path, func() { lock.Close() }, err // closing a nil file does nothing
}

// sweep deletes the unfinished output of killed runs from folder. A run locks its
// own, and the system releases the lock when the process ends for any reason.
// What cannot be deleted is left; it does no harm.
func sweep(folder string) {
	entries, _ := os.ReadDir(folder)
	for _, e := range entries {
		if !partialName.MatchString(e.Name()) || !e.IsDir() && !e.Type().IsRegular() {
			continue
		}
		path := filepath.Join(folder, e.Name())
		if lock, free := hold(path); free && lock != nil {
			_ = os.RemoveAll(path)
			lock.Close()
		}
	}
}

// hold locks the file or folder at path until lock is closed. free is false if it
// is locked elsewhere, in this process or another, or was deleted. On systems
// without locks, lock is nil and free is true.
func hold(path string) (lock *os.File, free bool) {
	f, err := os.Open(path)
	if err != nil {
		return nil, !errors.Is(err, fs.ErrNotExist)
	}
	locked, free := tryLock(f)
	if locked {
		// Between opening and locking, a sweep may have deleted it and a new
		// run may have reused the name.
		was, werr := f.Stat()
		is, ierr := os.Lstat(path)
		if werr == nil && ierr == nil && os.SameFile(was, is) {
			return f, true
		}
		free = false
	}
	f.Close()
	return nil, free
}

// sibling creates an unused name in parent: it calls make with one name after
// another until it succeeds.
func sibling(parent, what, suffix string, make func(path string) error) (string, error) {
	var err error
	for i := range 10_000 {
		path := filepath.Join(parent, fmt.Sprintf(".loamledger-%s-%d-%d%s", what, os.Getpid(), i, suffix))
		if err = make(path); !errors.Is(err, fs.ErrExist) {
			return path, err
		}
	}
	return "", err
}
