package cli

import (
	"errors"
	"strings"

	"loamledger/cmd/internal/outdir"
)

// outFault makes the refusal of an output folder a fault of the command line:
// the user has to name another.
func outFault(err error) error {
	if !errors.Is(err, outdir.ErrRefused) {
		return err
	}
	msg, fix, _ := strings.Cut(err.Error(), "\n\tfix: ")
	return &usageError{msg, fix}
}
