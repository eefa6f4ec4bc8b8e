package cli

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"loamledger/cmd/internal/outdir"
	"loamledger/weather/diag"
)

// existing says what to do if the output file already exists.
type existing uint8

const (
	keepIt    existing = iota // an error
	askFirst                  // an error that mentions --force
	replaceIt                 // replace it
)

// forced returns the value for a command with a --force flag.
func forced(force bool) existing {
	if force {
		return replaceIt
	}
	return askFirst
}

// free rejects the name of an output file that exists, has no folder, or cannot be written.
func (e existing) free(name string) error {
	_, err := os.Lstat(name)
	target, _ := os.Stat(name) // a link may point to a folder
	switch {
	case err != nil:
	case e == keepIt:
		return &usageError{diag.Exists, name + " already exists", "choose another name, or move the file away"}
	case target != nil && target.IsDir():
		return &usageError{diag.Exists, name + " is a folder", "choose another name"}
	case e == askFirst:
		return &usageError{diag.Exists, name + " already exists", "choose another name, or replace it with --force"}
	}
	return writable(name)
}

// freeFolder rejects the name of an output folder that exists, has no folder, or cannot be written.
func freeFolder(name string) error {
	if _, err := os.Lstat(name); err == nil {
		return &usageError{diag.Exists, name + " already exists", "choose another name, or move the folder away"}
	}
	return writable(filepath.Clean(name))
}

// writable tries whether a file can be created beside the name of an output, so that nobody waits for a result that cannot be
// written.
func writable(name string) error {
	folder := filepath.Dir(name)
	if info, err := os.Stat(folder); err != nil || !info.IsDir() {
		return noFolder(folder)
	}
	temp, release, err := outdir.PartialFile(folder, filepath.Base(name))
	if err != nil {
		return writeError(name, err)
	}
	defer release()
	return os.Remove(temp)
}

// spare rejects an output that is one of the files read: --force replaces results,
// never what they were made of.
func (in *inputs) spare(name string) error {
	out, err := os.Stat(name)
	if err != nil {
		return nil
	}
	for _, read := range in.names() {
		if is, err := os.Stat(read); err == nil && os.SameFile(is, out) {
			return &usageError{diag.Exists, name + " is an input of this run", "choose another name"}
		}
	}
	return nil
}

// ownTable rejects a CSV file to be replaced whose heading is not that of the new one:
// it was not written by this command.
func ownTable(name, temp string) error {
	if strings.ToLower(filepath.Ext(name)) != ".csv" {
		return nil
	}
	was, err := firstLine(name)
	if err != nil {
		return nil // there is none
	}
	if is, err := firstLine(temp); err != nil || is == was {
		return err
	}
	return &usageError{diag.Exists, name + " has other columns, so it is not from this command", "choose another name, or move the file away"}
}

// firstLine returns the first line of a file, at most a page of it.
func firstLine(name string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, 4096))
	line, _, _ := strings.Cut(string(b), "\n")
	return line, err
}

// noFolder reports that the folder for an output does not exist.
func noFolder(folder string) error {
	return &usageError{diag.NoSuchFolder, "folder " + folder + " does not exist", "create it or choose another"}
}

// writeWhole writes a single file atomically: it writes a temporary file in the
// same folder and renames it.
func writeWhole(name string, e existing, write func(io.Writer) error) error {
	if err := e.free(name); err != nil {
		return err
	}
	temp, release, err := outdir.PartialFile(filepath.Dir(name), filepath.Base(name))
	if err != nil {
		return writeError(name, err)
	}
	defer release()
	if err := put(temp, name, write); err != nil {
		return err
	}
	if err := ownTable(name, temp); err != nil {
		_ = os.Remove(temp) // the first error is the one to report
		return err
	}
	if err := os.Rename(temp, name); err != nil {
		_ = os.Remove(temp) // the first error is the one to report
		return writeError(name, err)
	}
	return nil
}

// put writes the file at path, which the user knows as name. If that fails, it
// deletes the file.
func put(path, name string, write func(io.Writer) error) error {
	f, err := os.Create(path)
	if err != nil {
		return writeError(name, err)
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
		_ = os.Remove(path) // the first error is the one to report
		return writeError(name, err)
	}
	return nil
}

// A wholeFile is one file of a folder to write.
type wholeFile struct {
	name  string
	write func(io.Writer) error
}

// placeFolder writes a new folder of files atomically.
func placeFolder(dir string, files []wholeFile) (err error) {
	if err := freeFolder(dir); err != nil {
		return err
	}
	dir = filepath.Clean(dir)
	temp, release, err := outdir.PartialFolder(filepath.Dir(dir))
	if err != nil {
		return writeError(dir, err)
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
		return writeError(dir, err)
	}
	return nil
}

// writeError returns a system error with the file name that the user knows and
// a remedy.
func writeError(name string, err error) error {
	err = outdir.Cause(err)
	f := &outdir.Fault{Code: outdir.CodeOf(err), Msg: fmt.Sprintf("cannot write %s: %v", name, err), Err: err}
	switch f.Code {
	case diag.DiskFull:
		f.Fix = "free some disk space, or write to another disk"
	case diag.DiskReadOnly:
		f.Fix = "the disk is read-only: write to another disk"
	case diag.NotWritable:
		f.Fix = "write to a folder for which you have write permission"
	}
	return f
}
