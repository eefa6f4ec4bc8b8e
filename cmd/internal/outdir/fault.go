package outdir

import (
	"errors"
	"fmt"
	"io/fs"

	"loamledger/weather/diag"
)

// A Fault is a rejected folder or a system error, with a remedy.
type Fault struct {
	Code diag.Code
	Msg  string
	Fix  string // empty if there is no known remedy
	Err  error  // [ErrRefused], or the system's error
}

func (f *Fault) Error() string {
	if f.Fix == "" {
		return f.Msg
	}
	return f.Msg + "\n\tfix: " + f.Fix
}

// Unwrap returns the underlying error.
func (f *Fault) Unwrap() error { return f.Err }

// refused returns an error that the caller can fix.
func refused(code diag.Code, fix, format string, args ...any) error {
	return &Fault{Code: code, Msg: ErrRefused.Error() + ": " + fmt.Sprintf(format, args...), Fix: fix, Err: ErrRefused}
}

// CodeOf returns the code of a system error.
func CodeOf(err error) diag.Code {
	var f *Fault
	switch {
	case errors.As(err, &f):
		return f.Code
	case isFull(err):
		return diag.DiskFull
	case isReadOnly(err):
		return diag.DiskReadOnly
	case errors.Is(err, fs.ErrPermission):
		return diag.NotWritable
	}
	return diag.System
}

// fault wraps a system error with the path and a remedy. The path is the one the
// user knows, not the temporary one in err.
func fault(do, path string, err error) error {
	err = Cause(err)
	f := &Fault{Code: CodeOf(err), Msg: fmt.Sprintf("cannot %s %s: %v", do, path, err), Err: err}
	switch {
	case f.Code == diag.DiskFull:
		f.Fix = "free some disk space, omit the daily ledger, or write to another disk"
	case f.Code == diag.DiskReadOnly:
		f.Fix = "the disk is read-only: write to another disk"
	case f.Code == diag.NotWritable:
		f.Fix = writableFix
	case isInUse(err):
		f.Fix = inUseFix
	}
	return f
}
