package cli

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"loamledger/plots"
	"loamledger/plots/pngfile"
	"loamledger/weather/diag"
)

// freePNG rejects the name of a picture that does not end in .png, or cannot be
// written, before anything is read; an empty name passes.
func freePNG(name string, e existing, example string) error {
	if name == "" {
		return nil
	}
	if strings.ToLower(filepath.Ext(name)) != ".png" {
		return &usageError{diag.BadFlag, fmt.Sprintf("--plot %s must end in .png", name), "choose a name such as " + example}
	}
	return e.free(name)
}

// writePNG draws a chart to a file, atomically.
func writePNG(name string, e existing, chart *plots.Chart) error {
	return writeWhole(name, e, func(w io.Writer) error { return pngfile.Draw(chart).Write(w) })
}
