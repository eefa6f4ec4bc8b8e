//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package outdir

import (
	"errors"
	"os"
	"syscall"
)

// tryLock locks an open file or folder. free is false if another process has
// locked it. On a disk without such locks it is free and not locked.
func tryLock(f *os.File) (locked, free bool) {
	for {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if !errors.Is(err, syscall.EINTR) {
			return err == nil, !errors.Is(err, syscall.EWOULDBLOCK)
		}
	}
}
