//go:build !windows

package outdir

import (
	"errors"
	"syscall"
)

func isFull(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT)
}

func isReadOnly(err error) bool { return errors.Is(err, syscall.EROFS) }

func isInUse(err error) bool {
	return errors.Is(err, syscall.EBUSY) || errors.Is(err, syscall.EXDEV)
}

const (
	inUseFix    = "the folder is in use or is a disk: choose a folder inside it"
	writableFix = "choose a folder for which you have write permission"
)
