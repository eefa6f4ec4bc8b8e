//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd)

package outdir

import "os"

// tryLock locks nothing. On these systems an open folder cannot be renamed, so a
// lock cannot last until the output is in place, and nothing is swept.
func tryLock(*os.File) (locked, free bool) { return false, true }
