package htmlfile_test

import (
	"bytes"
	"testing"

	"loamledger/plots"
	"loamledger/plots/pngfile"
)

func draw(t *testing.T, c *plots.Chart) plots.Figure {
	t.Helper()
	f := plots.Figure{Chart: c}
	for _, part := range c.Parts() {
		pic := pngfile.Draw(&part)
		var b bytes.Buffer
		if err := pic.WriteBare(&b); err != nil {
			t.Fatal(err)
		}
		w, h := pic.BareSize()
		f.Pictures = append(f.Pictures, plots.Picture{PNG: b.Bytes(), WidthPx: w, HighPx: h})
	}
	return f
}
