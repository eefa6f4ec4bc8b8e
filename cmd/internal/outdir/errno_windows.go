package outdir

import (
	"errors"
	"slices"
	"syscall"
)

// System errors of Windows that package syscall does not name; the numbers are those of winerror.h.
const (
	notSameDevice    syscall.Errno = 17
	writeProtect     syscall.Errno = 19
	sharingViolation syscall.Errno = 32
	lockViolation    syscall.Errno = 33
	handleDiskFull   syscall.Errno = 39
	diskFull         syscall.Errno = 112
	busy             syscall.Errno = 170
	diskQuota        syscall.Errno = 1295
)

// oneOf reports whether err is one of the given errors of the system.
func oneOf(err error, list ...syscall.Errno) bool {
	var e syscall.Errno
	return errors.As(err, &e) && slices.Contains(list, e)
}

func isFull(err error) bool { return oneOf(err, diskFull, handleDiskFull, diskQuota) }

func isReadOnly(err error) bool { return oneOf(err, writeProtect) }

func isInUse(err error) bool { return oneOf(err, sharingViolation, lockViolation, busy, notSameDevice) }

// A folder with an open file in it cannot be renamed, and Windows may call that a lack of permission.
const (
	inUseFix    = "close the programs that have its files open, or choose another folder"
	writableFix = "close the programs that have its files open, or choose a folder for which you have write permission"
)
