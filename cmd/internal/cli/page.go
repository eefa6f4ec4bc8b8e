package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/cmd/internal/engine"
	"loamledger/scenarios/webfile"
	"loamledger/weather/diag"
)

// pageOptions are the flags of the page command.
type pageOptions struct {
	Out   string
	Force bool
}

func newPage(s Streams) *cobra.Command {
	var o pageOptions
	cmd := &cobra.Command{
		Use:   "page [--out FILE]",
		Short: "Write one HTML file that computes, without a network",
		Long: `Writes a page that does in a browser what loamledger does: it asks ten questions,
or opens a scenario with its files, compares the options, and saves the scenario
for the commands. The engine is inside the page as WebAssembly, so the page needs
no network and sends nothing.

A released program has the engine inside. Any other copy builds it first, which
needs Go and the source of loamledger.`,
		Example: "  loamledger page --out yard.html",
		Args:    exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if !strings.EqualFold(filepath.Ext(o.Out), ".html") {
				return &usageError{diag.BadFlag, fmt.Sprintf("--out %s must end in .html", o.Out), "choose a name such as yard.html"}
			}
			if err := forced(o.Force).free(o.Out); err != nil {
				return err
			}
			return o.write(cmd.Context(), s)
		},
	}
	f := cmd.Flags()
	f.StringVarP(&o.Out, "out", "o", "yard.html", "`FILE` to write, ending in .html")
	f.BoolVar(&o.Force, "force", false, "replace the file")
	return cmd
}

// pageEngine gets the engine of pages.
func pageEngine(ctx context.Context) (*webfile.Engine, error) {
	e, err := engine.Get(ctx, Version)
	if errors.Is(err, engine.ErrNone) {
		return nil, &usageError{diag.NoEngine, "this copy of loamledger has no engine for pages inside, and cannot build one",
			"use a released copy, or run: go run ./cmd/loamledger page, in the folder of its source, with Go installed"}
	}
	return e, err
}

func (o *pageOptions) write(ctx context.Context, s Streams) error {
	e, err := pageEngine(ctx)
	if err != nil {
		return err
	}
	var page bytes.Buffer
	if err := webfile.Write(&page, e, nil); err != nil {
		return err
	}
	err = writeWhole(o.Out, forced(o.Force), func(w io.Writer) error {
		_, err := w.Write(page.Bytes())
		return err
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(s.Out, "Wrote %s (%.1f MB, of which the engine is %.1f MB compressed): open it in a browser.\n", o.Out,
		float64(page.Len())/1e6, float64(len(e.Wasm))/1e6)
	return nil
}
