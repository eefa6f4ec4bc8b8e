package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"loamledger/cmd/internal/outdir"
	"loamledger/weather/diag"
)

// existing says what becomes of a file that has the name of an output.
type existing uint8

const (
	keepIt    existing = iota // it is left as it is, and the command refused
	askFirst                  // the same, for a command that has --force
	replaceIt                 // it is replaced
)

// forced is for commands that have --force.
func forced(force bool) existing {
	if force {
		return replaceIt
	}
	return askFirst
}

// free refuses the name of an output file that is taken or has no folder.
func (e existing) free(name string) error {
	_, err := os.Lstat(name)
	target, _ := os.Stat(name) // a link may lead to a folder
	switch {
	case err != nil:
	case e == keepIt:
		return &usageError{diag.Exists, name + " exists already and is left as it is", "name another file, or move this one away"}
	case target != nil && target.IsDir():
		return &usageError{diag.Exists, name + " is a folder", "name a file"}
	case e == askFirst:
		return &usageError{diag.Exists, name + " exists", "name another file, or replace it with --force"}
	}
	if info, err := os.Stat(filepath.Dir(name)); err == nil && info.IsDir() {
		return nil
	}
	if e == keepIt {
		return &usageError{diag.NoSuchFolder, fmt.Sprintf("the folder %s, which is to hold %s, does not exist", filepath.Dir(name), filepath.Base(name)), "make it first, or name another"}
	}
	return &usageError{diag.NoSuchFolder, "the folder of " + name + " does not exist", "make it first, or name another"}
}

// writeWhole writes a single file, whole or not at all: beside its name first,
// then renamed.
func writeWhole(name string, e existing, write func(io.Writer) error) error {
	if err := e.free(name); err != nil {
		return err
	}
	temp, release, err := outdir.PartialFile(filepath.Dir(name), filepath.Base(name))
	if err != nil {
		return writeFault(name, err)
	}
	defer release()
	if err := put(temp, name, write); err != nil {
		return err
	}
	if err := os.Rename(temp, name); err != nil {
		_ = os.Remove(temp) // the first fault is the one to tell
		return writeFault(name, err)
	}
	return nil
}

// put writes the file at path, which the user knows as name; nothing stays of
// one that could not be written.
func put(path, name string, write func(io.Writer) error) error {
	f, err := os.Create(path)
	if err != nil {
		return writeFault(name, err)
	}
	b := bufio.NewWriter(f)
	err = write(b)
	if err == nil {
		err = b.Flush()
	}
	if err == nil {
		err = f.Sync() // some disks report that they are full only here
	}
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		_ = os.Remove(path) // the first fault is the one to tell
		return writeFault(name, err)
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
		return &usageError{diag.Exists, dir + " exists", "name another folder, or move this one away"}
	}
	dir = filepath.Clean(dir)
	parent := filepath.Dir(dir)
	temp, release, err := outdir.PartialFolder(parent)
	if errors.Is(err, fs.ErrNotExist) {
		return &usageError{diag.NoSuchFolder, "the folder " + parent + ", which is to hold it, does not exist", "make it first, or name another"}
	}
	if err != nil {
		return writeFault(dir, err)
	}
	defer func() {
		if err != nil {
			_ = os.RemoveAll(temp)
		}
		release()
	}()
	for _, f := range files {
		if err := put(filepath.Join(temp, f.name), filepath.Join(dir, f.name), f.write); err != nil {
			return err
		}
	}
	if err = os.Rename(temp, dir); err != nil {
		return writeFault(dir, err)
	}
	return nil
}

// writeFault tells a fault of the machine with the name that the user knows
// and what can be done.
func writeFault(name string, err error) error {
	err = outdir.Cause(err)
	f := &outdir.Fault{Code: outdir.CodeOf(err), Msg: fmt.Sprintf("cannot write %s: %v", name, err), Err: err}
	switch f.Code {
	case diag.DiskFull:
		f.Fix = "the disk is full: free some space, or name a file on another disk"
	case diag.DiskReadOnly:
		f.Fix = "the disk is read-only: name a file on another disk"
	case diag.NotWritable:
		f.Fix = "name a file in a folder you may write to"
	}
	return f
}
