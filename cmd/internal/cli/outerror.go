package cli

import (
	"errors"

	"loamledger/cmd/internal/outdir"
)

// outError turns the rejection of an output folder into a usage error: the user
// has to choose another.
func outError(err error) error {
	var f *outdir.Fault
	if !errors.Is(err, outdir.ErrRefused) || !errors.As(err, &f) {
		return err
	}
	return &usageError{f.Code, f.Msg, f.Fix}
}
