package plots_test

import (
	"image/color"
	"math"
	"testing"

	"loamledger/plots"
)

// luminance is the relative luminance of WCAG 2.1 (W3C Recommendation, 2018),
// from memory.
func luminance(c color.NRGBA) float64 {
	lin := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
}

func TestPaletteIsInOrderOfLightness(t *testing.T) {
	last := -1.0
	for i, c := range plots.Palette() {
		l := luminance(c)
		if l <= last {
			t.Errorf("color %d %v is no lighter (%.3f) than the one before (%.3f)", i, c, l, last)
		}
		last = l
	}
}

// TestGrayPrintTellsRolesApart holds that roles which meet in one chart differ
// in gray: by luminance, hatch, dash or form.
func TestGrayPrintTellsRolesApart(t *testing.T) {
	last := 2.0
	for class := range 5 {
		l := luminance(plots.Heat.Style(float64(class)).Fill)
		if l >= last*0.85 {
			t.Errorf("stress class %d has luminance %.2f after %.2f: too alike in gray", class, l, last)
		}
		last = l
	}
	// Dots of browning lie on every shade, the darkest too: a white rim sets them
	// off, and classes differ by size.
	small, large := plots.Browned.Style(0), plots.Browned.Style(1)
	if small.CasePt < 0.5 || large.DotPt < 2*small.DotPt {
		t.Errorf("dots of browning are %g and %g pt across with a rim of %g pt", small.DotPt, large.DotPt, small.CasePt)
	}
	flows := []plots.Role{plots.ToPlants, plots.RanOff, plots.Percolated, plots.ToAir}
	for i, a := range flows {
		for _, b := range flows[:i] {
			if a.Style(0).Hatch == b.Style(0).Hatch {
				t.Errorf("roles %d and %d share a hatch", a, b)
			}
		}
	}
	dashes := []plots.Role{plots.Deficit, plots.StressLine, plots.EmptyLine}
	for i, a := range dashes {
		for _, b := range dashes[:i] {
			if len(a.Style(0).DashPt) == len(b.Style(0).DashPt) {
				t.Errorf("lines %d and %d share a dash", a, b)
			}
		}
	}
	// Dots are told apart by size, and both stand out from white: a contrast of
	// 3 to 1 is what WCAG 2.1 asks of graphics (success criterion 1.4.11, from
	// memory).
	cut, today := plots.Cut.Style(0), plots.Today.Style(0)
	if today.DotPt < 2*cut.DotPt {
		t.Errorf("the mark of today is %g pt across, the others %g", today.DotPt, cut.DotPt)
	}
	for _, s := range []plots.Style{cut, today} {
		if ratio := 1.05 / (luminance(s.Fill) + 0.05); ratio < 3 {
			t.Errorf("a mark has a contrast of %.1f to white", ratio)
		}
	}
	for r := range plots.Roles {
		r.Style(0) // every role has a look
	}
}
