package pngfile

import (
	"image/color"

	"loamledger/plots"
)

// hatch draws hatch h inside rectangle r (left, top, right, bottom).
func (p *pen) hatch(h plots.Hatch, c color.Color, r [4]float64) {
	left, top, right, bottom := r[0], r[1], r[2], r[3]
	switch h {
	case plots.Rising:
		const gap = 3.6
		var lines [][][2]float64
		// Lines x + y = k, from the upper left corner to the lower right one.
		for k := left + top + gap; k < right+bottom; k += gap {
			x0, x1 := max(left, k-bottom), min(right, k-top)
			if x1 > x0 {
				lines = append(lines, [][2]float64{{x0, k - x0}, {x1, k - x1}})
			}
		}
		p.stroke(c, 0.7, nil, lines...)
	case plots.Upright:
		const gap = 3
		var lines [][][2]float64
		for x := left + gap; x < right-0.5; x += gap {
			lines = append(lines, [][2]float64{{x, top}, {x, bottom}})
		}
		p.stroke(c, 0.45, nil, lines...)
	case plots.Dots:
		const gap, size = 3.4, 1.1
		var dots [][4]float64
		for j, y := 0, top+gap/2; y+size < bottom; j, y = j+1, y+gap {
			for x := left + float64(gap/2) + float64(float64(j%2)*gap/2); x+size < right; x += gap {
				dots = append(dots, [4]float64{x, y, x + size, y + size})
			}
		}
		p.fill(c, dots)
	}
}
