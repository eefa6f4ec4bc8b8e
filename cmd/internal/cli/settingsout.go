package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// placeFile writes one file whole or not at all: beside its place under a
// temporary name, then renamed. An existing file is replaced only by force.
func placeFile(name string, force bool, write func(io.Writer) error) (err error) {
	if info, serr := os.Stat(name); serr == nil {
		if info.IsDir() {
			return &usageError{name + " is a folder", "name a file"}
		}
		if !force {
			return &usageError{name + " exists", "name another file, or replace it with --force"}
		}
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".loamledger-*")
	if errors.Is(err, fs.ErrNotExist) {
		return &usageError{"the folder of " + name + " does not exist", "make it first, or name another"}
	}
	if err != nil {
		return fmt.Errorf("writing %s: %w", name, err)
	}
	defer func() {
		if err != nil {
			_ = os.Remove(f.Name()) // nothing half-written stays
		}
	}()
	b := bufio.NewWriter(f)
	err = errors.Join(write(b), b.Flush(), f.Chmod(0o644), f.Sync())
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err == nil {
		err = os.Rename(f.Name(), name)
	}
	if err != nil {
		return fmt.Errorf("writing %s: %w", name, err)
	}
	return nil
}

// A wholeFile is a file of a folder in the making.
type wholeFile struct {
	name  string
	write func(io.Writer) error
}

// placeFolder writes a new folder of files whole or not at all.
func placeFolder(dir string, files []wholeFile) (err error) {
	if _, serr := os.Lstat(dir); serr == nil {
		return &usageError{dir + " exists", "name another folder, or move this one away"}
	}
	parent := filepath.Dir(filepath.Clean(dir))
	temp, err := os.MkdirTemp(parent, ".loamledger-*")
	if errors.Is(err, fs.ErrNotExist) {
		return &usageError{"the folder " + parent + ", which is to hold it, does not exist", "make it first, or name another"}
	}
	if err != nil {
		return fmt.Errorf("writing %s: %w", dir, err)
	}
	defer func() {
		if err != nil {
			_ = os.RemoveAll(temp)
		}
	}()
	for _, f := range files {
		if err := placeFile(filepath.Join(temp, f.name), false, f.write); err != nil {
			return err
		}
	}
	if err := errors.Join(os.Chmod(temp, 0o755), os.Rename(temp, filepath.Clean(dir))); err != nil {
		return fmt.Errorf("writing %s: %w", dir, err)
	}
	return nil
}
