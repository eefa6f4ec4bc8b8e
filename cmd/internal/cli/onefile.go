package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// free refuses the name of an output file that exists or has no folder.
func free(name string) error {
	if _, err := os.Lstat(name); err == nil {
		return &usageError{name + " exists already and is left as it is", "name another file, or move this one away"}
	}
	if info, err := os.Stat(filepath.Dir(name)); err != nil || !info.IsDir() {
		return &usageError{fmt.Sprintf("the folder %s, which is to hold %s, does not exist", filepath.Dir(name), filepath.Base(name)), "make it first, or name another"}
	}
	return nil
}

// writeWhole writes a single file, whole or not at all: beside its name first,
// then renamed. An existing file is refused.
func writeWhole(name string, write func(io.Writer) error) error {
	if err := free(name); err != nil {
		return err
	}
	temp := filepath.Join(filepath.Dir(name), fmt.Sprintf(".loamledger-partial-%d-%s", os.Getpid(), filepath.Base(name)))
	f, err := os.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return writeFault(name, err)
	}
	err = write(f)
	if err == nil {
		err = f.Sync() // some disks report that they are full only here
	}
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err == nil {
		err = os.Rename(temp, name)
	}
	if err != nil {
		_ = os.Remove(temp) // the first fault is the one to tell
		return writeFault(name, err)
	}
	return nil
}

// writeFault tells a fault of the machine with the name that the user knows
// and what can be done.
func writeFault(name string, err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	fix := ""
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		fix = "\n\tfix: the disk is full: free some space, or name a file on another disk"
	case errors.Is(err, syscall.EROFS):
		fix = "\n\tfix: the disk is read-only: name a file on another disk"
	case errors.Is(err, fs.ErrPermission):
		fix = "\n\tfix: name a file in a folder you may write to"
	}
	return fmt.Errorf("cannot write %s: %w%s", name, err, fix)
}
