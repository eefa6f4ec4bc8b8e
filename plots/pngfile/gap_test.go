package pngfile

import (
	"bytes"
	"math"
	"testing"

	"loamledger/plots"
)

// A gap is drawn as nothing in every form: the picture is that of the same
// series without the mark. The rasterizer below would never come back from a
// path that leads to no place.
func TestGapsAreDrawnAsNothing(t *testing.T) {
	nan := math.NaN()
	axis := plots.Axis{Label: "x", Max: 4, Ticks: []plots.Tick{{At: 0, Label: "0"}, {At: 4, Label: "4"}}}
	draw := func(s plots.Series) []byte {
		c := plots.Chart{Title: "gaps", See: "Nothing.", X: axis, Y: axis, Columns: 1, HeightPt: 40}
		c.Panels = []plots.Panel{{Title: "p", Series: []plots.Series{s}}}
		var b bytes.Buffer
		if err := new(drawer).drawAt(&c, 72).Write(&b); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	empty := draw(plots.Series{Form: plots.Line})
	for _, s := range []plots.Series{
		{Form: plots.Line, X: []float64{1, 2}, Y: []float64{nan, nan}},
		{Form: plots.Line, X: []float64{nan}, Y: []float64{1}},
		{Form: plots.Steps, X: []float64{1}, Y: []float64{nan}, Width: 1},
		{Form: plots.Bars, X: []float64{1, nan, 2}, Y: []float64{nan, 1, 1}, Base: []float64{0, 0, nan}, Width: 1},
		{Form: plots.Spans, X: []float64{nan, 1, 1}, Y: []float64{1, 1, nan}, Base: []float64{0, nan, 0},
			Width: 1, Text: []string{"a", "b", "c"}},
		{Form: plots.Band, X: []float64{1, 2}, Y: []float64{nan, 1}, Base: []float64{0, nan}},
		{Form: plots.Rule, Y: []float64{nan}},
		{Form: plots.Post, X: []float64{nan}},
		{Form: plots.Marks, Role: plots.Today, X: []float64{nan, 1}, Y: []float64{1, nan}, Text: []string{"a", "b"}},
		{Form: plots.Cells, Role: plots.Heat, X: []float64{nan, 1}, Y: []float64{1, nan}, Base: []float64{1, 1}},
	} {
		if !bytes.Equal(draw(s), empty) {
			t.Errorf("form %d: a gap left a mark", s.Form)
		}
	}
}
