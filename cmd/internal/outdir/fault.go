package outdir

import (
	"errors"
	"fmt"
	"io/fs"
	"syscall"

	"loamledger/weather/diag"
)

// A Fault is a refusal or a fault of the machine, with what can be done.
type Fault struct {
	Code diag.Code
	Msg  string
	Fix  string // empty where no remedy can be named
	Err  error  // [ErrRefused], or what the machine said
}

func (f *Fault) Error() string {
	if f.Fix == "" {
		return f.Msg
	}
	return f.Msg + "\n\tfix: " + f.Fix
}

// Unwrap returns the error beneath.
func (f *Fault) Unwrap() error { return f.Err }

// refused returns a fault that is the caller's to solve.
func refused(code diag.Code, fix, format string, args ...any) error {
	return &Fault{Code: code, Msg: ErrRefused.Error() + ": " + fmt.Sprintf(format, args...), Fix: fix, Err: ErrRefused}
}

// CodeOf returns the code of an error of the machine.
func CodeOf(err error) diag.Code {
	var f *Fault
	switch {
	case errors.As(err, &f):
		return f.Code
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return diag.DiskFull
	case errors.Is(err, syscall.EROFS):
		return diag.DiskReadOnly
	case errors.Is(err, fs.ErrPermission):
		return diag.NotWritable
	}
	return diag.System
}

// fault wraps an error of the machine with the place and what can be done. The
// place is the one the user knows, not the temporary one in err.
func fault(do, path string, err error) error {
	err = Cause(err)
	f := &Fault{Code: CodeOf(err), Msg: fmt.Sprintf("cannot %s %s: %v", do, path, err), Err: err}
	switch {
	case f.Code == diag.DiskFull:
		f.Fix = "the disk is full: free some space, leave out the daily ledger, or name a folder on another disk"
	case f.Code == diag.DiskReadOnly:
		f.Fix = "the disk is read-only: name a folder on another disk"
	case f.Code == diag.NotWritable:
		f.Fix = "name a folder you may write to"
	case errors.Is(err, syscall.EBUSY), errors.Is(err, syscall.EXDEV):
		f.Fix = "the folder is in use or is itself a disk: name a folder in it"
	}
	return f
}
