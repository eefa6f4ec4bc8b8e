//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package outdir

import (
	"errors"
	"os"
	"syscall"
)

// tryLock locks an open file or folder. It is not free if somebody else has
// locked it; where the disk knows no such locks, it is free and not locked.
func tryLock(f *os.File) (locked, free bool) {
	for {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if !errors.Is(err, syscall.EINTR) {
			return err == nil, !errors.Is(err, syscall.EWOULDBLOCK)
		}
	}
}
