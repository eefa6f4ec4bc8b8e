package cli

import (
	"errors"

	"loamledger/cmd/internal/outdir"
)

// outFault makes the refusal of an output folder a fault of the command line:
// the user has to name another.
func outFault(err error) error {
	var f *outdir.Fault
	if !errors.Is(err, outdir.ErrRefused) || !errors.As(err, &f) {
		return err
	}
	return &usageError{f.Code, f.Msg, f.Fix}
}
