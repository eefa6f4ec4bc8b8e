package cli

import "io"

// A kept writer remembers its first error, so that a result that could not be
// printed, for example on a full disk, is not reported as done.
type kept struct {
	w     io.Writer
	begun bool // something was written
	err   error
}

func (k *kept) Write(p []byte) (int, error) {
	k.begun = k.begun || len(p) > 0
	n, err := k.w.Write(p)
	if err != nil && k.err == nil {
		k.err = err
	}
	return n, err
}
