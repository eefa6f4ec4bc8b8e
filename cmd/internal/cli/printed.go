package cli

import "io"

// A kept writer remembers its first fault, so that a result that could not be
// printed, on a full disk say, does not pass for done.
type kept struct {
	w   io.Writer
	err error
}

func (k *kept) Write(p []byte) (int, error) {
	n, err := k.w.Write(p)
	if err != nil && k.err == nil {
		k.err = err
	}
	return n, err
}
