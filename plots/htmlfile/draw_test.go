package htmlfile_test

import (
	"bytes"
	"testing"

	"loamledger/plots"
	"loamledger/plots/htmlfile"
	"loamledger/plots/pngfile"
)

func draw(t *testing.T, c *plots.Chart) htmlfile.Figure {
	t.Helper()
	pic := pngfile.Draw(c)
	var b bytes.Buffer
	if err := pic.WriteBare(&b); err != nil {
		t.Fatal(err)
	}
	f := htmlfile.Figure{Chart: c, PNG: b.Bytes()}
	f.WidthPx, f.HighPx = pic.BareSize()
	return f
}
