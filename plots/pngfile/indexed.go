package pngfile

import (
	"cmp"
	"image"
	"image/color"
	"slices"
)

// indexed returns m with at most 256 colours, which makes the file a third of
// the size. The commonest colours stay exact, so fills and lines do; a rare
// blend at the edge of a letter takes the nearest of them.
func indexed(m *image.RGBA) *image.Paletted {
	type shade struct {
		rgb   uint32
		count int
	}
	counts := map[uint32]int{}
	eachRun(m, func(rgb uint32, _, n int) { counts[rgb] += n })
	all := make([]shade, 0, len(counts))
	for rgb, n := range counts {
		all = append(all, shade{rgb, n})
	}
	slices.SortFunc(all, func(a, b shade) int {
		return cmp.Or(cmp.Compare(b.count, a.count), cmp.Compare(a.rgb, b.rgb))
	})
	kept := all[:min(len(all), 256)]
	pal := make(color.Palette, len(kept))
	index := make(map[uint32]uint8, len(all))
	for i, s := range kept {
		pal[i] = color.RGBA{R: uint8(s.rgb >> 16), G: uint8(s.rgb >> 8), B: uint8(s.rgb), A: 0xFF}
		index[s.rgb] = uint8(i)
	}
	for _, s := range all[len(kept):] {
		best, at := 1<<30, 0
		for i, k := range kept {
			if d := distance(s.rgb, k.rgb); d < best {
				best, at = d, i
			}
		}
		index[s.rgb] = uint8(at)
	}
	out := image.NewPaletted(m.Rect, pal)
	eachRun(m, func(rgb uint32, from, n int) {
		i := index[rgb]
		for k := from; k < from+n; k++ {
			out.Pix[k] = i
		}
	})
	return out
}

// eachRun calls f for each run of pixels of one colour, rows one after another;
// from is the pixel's number.
func eachRun(m *image.RGBA, f func(rgb uint32, from, n int)) {
	at := func(i int) uint32 { return uint32(m.Pix[4*i])<<16 | uint32(m.Pix[4*i+1])<<8 | uint32(m.Pix[4*i+2]) }
	total := len(m.Pix) / 4
	for i := 0; i < total; {
		rgb, from := at(i), i
		for i++; i < total && at(i) == rgb; i++ {
		}
		f(rgb, from, i-from)
	}
}

// distance returns the squared distance of two colours.
func distance(a, b uint32) int {
	d := func(shift uint) int { v := int(a>>shift&0xFF) - int(b>>shift&0xFF); return v * v }
	return d(16) + d(8) + d(0)
}
