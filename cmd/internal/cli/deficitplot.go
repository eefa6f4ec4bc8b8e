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

// freePNG refuses the name of a picture that does not end in .png, or cannot
// be written, before anything is read; an empty name passes.
func freePNG(name string, e existing, example string) error {
	if name == "" {
		return nil
	}
	if strings.ToLower(filepath.Ext(name)) != ".png" {
		return &usageError{diag.BadFlag, fmt.Sprintf("--plot %s does not end in .png, and a PNG is written", name), "name a file such as " + example}
	}
	return e.free(name)
}

// writePNG draws a chart, whole or not at all.
func writePNG(name string, e existing, chart *plots.Chart) error {
	return writeWhole(name, e, func(w io.Writer) error { return pngfile.Draw(chart).Write(w) })
}
