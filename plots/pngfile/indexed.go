package pngfile

import (
	"cmp"
	"encoding/binary"
	"image"
	"image/color"
	"slices"
)

// An indexer replaces colors by numbers, in its own memory.
type indexer struct {
	runs   []run
	shades []shade
	known  map[uint32]int32 // number of each shade, in order of appearance
	recent [4096]recent     // the latest of known, found faster
	pix    []uint8
}

// A run is a number of pixels of one shade.
type run struct{ shade, pixels int32 }

// A shade is one color, as in 0xRRGGBB, and its number of pixels.
type shade struct {
	rgb    uint32
	number int32
	count  int
}

type recent struct {
	rgb    uint32
	number int32 // from 1; 0 for none
}

// indexed returns m with at most 256 colors, which makes the file a third of the
// size. The most frequent colors, of fills and lines, stay exact; a rare
// blend at the edge of a letter takes the nearest of them. The picture is valid
// until the next call.
func (x *indexer) indexed(m *image.RGBA) *image.Paletted {
	x.scan(m)
	all := x.shades
	slices.SortFunc(all, func(a, b shade) int {
		return cmp.Or(cmp.Compare(b.count, a.count), cmp.Compare(a.rgb, b.rgb))
	})
	kept := all[:min(len(all), 256)]
	pal := make(color.Palette, len(kept))
	index := make([]uint8, len(all))
	for i, s := range kept {
		pal[i] = color.RGBA{R: uint8(s.rgb >> 16), G: uint8(s.rgb >> 8), B: uint8(s.rgb), A: 0xFF}
		index[s.number] = uint8(i)
	}
	for _, s := range all[len(kept):] {
		best, at := 1<<30, 0
		for i, k := range kept {
			if d := distance(s.rgb, k.rgb); d < best {
				best, at = d, i
			}
		}
		index[s.number] = uint8(at)
	}
	if n := len(m.Pix) / 4; cap(x.pix) < n {
		x.pix = make([]uint8, n)
	}
	out := &image.Paletted{Pix: x.pix[:len(m.Pix)/4], Stride: m.Rect.Dx(), Rect: m.Rect, Palette: pal}
	at := 0
	for _, r := range x.runs {
		v := index[r.shade]
		part := out.Pix[at : at+int(r.pixels)]
		for k := range part {
			part[k] = v
		}
		at += len(part)
	}
	return out
}

// scan finds the runs of m, rows one after another, and counts its shades.
func (x *indexer) scan(m *image.RGBA) {
	x.runs, x.shades, x.known, x.recent = x.runs[:0], x.shades[:0], map[uint32]int32{}, [4096]recent{}
	for pix := m.Pix; len(pix) >= 4; {
		v := binary.LittleEndian.Uint32(pix)
		n, twice := 4, uint64(v)<<32|uint64(v)
		for len(pix) >= n+8 && binary.LittleEndian.Uint64(pix[n:]) == twice {
			n += 8
		}
		for len(pix) >= n+4 && binary.LittleEndian.Uint32(pix[n:]) == v {
			n += 4
		}
		number := x.number(uint32(pix[0])<<16 | uint32(pix[1])<<8 | uint32(pix[2]))
		x.shades[number].count += n / 4
		x.runs = append(x.runs, run{number, int32(n / 4)})
		pix = pix[n:]
	}
}

// number returns the number of a color, a new one for a new color.
func (x *indexer) number(rgb uint32) int32 {
	r := &x.recent[rgb*0x9E3779B1>>20]
	if r.number > 0 && r.rgb == rgb {
		return r.number - 1
	}
	n, ok := x.known[rgb]
	if !ok {
		n = int32(len(x.shades))
		x.known[rgb] = n
		x.shades = append(x.shades, shade{rgb: rgb, number: n})
	}
	*r = recent{rgb, n + 1}
	return n
}

// distance returns the squared distance of two colors.
func distance(a, b uint32) int {
	d := func(shift uint) int { v := int(a>>shift&0xFF) - int(b>>shift&0xFF); return v * v }
	return d(16) + d(8) + d(0)
}
