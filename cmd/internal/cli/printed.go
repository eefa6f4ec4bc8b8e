package cli

import "io"

// A kept writer remembers its first fault, so that a result that could not be
// printed, on a full disk say, does not pass for done.
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
