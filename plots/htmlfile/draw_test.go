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
	f := htmlfile.Figure{Chart: c}
	for _, part := range c.Parts() {
		pic := pngfile.Draw(&part)
		var b bytes.Buffer
		if err := pic.WriteBare(&b); err != nil {
			t.Fatal(err)
		}
		w, h := pic.BareSize()
		f.Pictures = append(f.Pictures, htmlfile.Picture{PNG: b.Bytes(), WidthPx: w, HighPx: h})
	}
	return f
}
