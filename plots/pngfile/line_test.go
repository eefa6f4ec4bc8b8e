package pngfile

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// pixel is a width of pixels to try [pt].
const pixel = 0.375

// TestReduceKeepsTheEnvelope holds that a thinned line has, in every pixel
// column, the same first, last, lowest and highest point.
func TestReduceKeepsTheEnvelope(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 8))
	for range 200 {
		n := 1 + r.IntN(12000)
		line := make([][2]float64, n)
		for i := range line {
			line[i] = [2]float64{10 + 180*float64(i)/float64(n), r.NormFloat64()}
		}
		got := reduce(line, pixel)
		if limit := int(4*180/pixel) + 8; len(got) > min(n, limit) {
			t.Fatalf("%d points became %d, more than %d", n, len(got), limit)
		}
		want, have := envelope(line), envelope(got)
		if len(want) != len(have) {
			t.Fatalf("%d columns became %d", len(want), len(have))
		}
		for column, e := range want {
			if have[column] != e {
				t.Fatalf("%d points, column %d: %v became %v", n, column, e, have[column])
			}
		}
	}
}

type edges struct{ first, last, low, high float64 }

func envelope(line [][2]float64) map[int]edges {
	out := map[int]edges{}
	for _, pt := range line {
		column := int(math.Floor(pt[0] / pixel))
		e, ok := out[column]
		if !ok {
			e = edges{pt[1], pt[1], pt[1], pt[1]}
		}
		e.last, e.low, e.high = pt[1], min(e.low, pt[1]), max(e.high, pt[1])
		out[column] = e
	}
	return out
}

func TestUnbrokenSplitsAtGaps(t *testing.T) {
	nan := math.NaN()
	got := unbroken([]float64{1, 2, 3, 4, 5, 6}, []float64{nan, 2, 3, nan, 5, nan})
	if len(got) != 2 || len(got[0]) != 2 || len(got[1]) != 1 || got[1][0] != [2]float64{5, 5} {
		t.Errorf("got %v, want the runs (2 3) and (5)", got)
	}
}

func TestWrap(t *testing.T) {
	f := newFaces().note
	for _, s := range []string{"", "a", "a few short words that need more than one line", strings.Repeat("W", 300),
		"草地草地草地草地草地草地草地草地草地草地草地草地草地草地",
	} {
		for _, most := range []int{0, 2} {
			lines, cut := wrap(f, s, 90, most)
			if most > 0 && len(lines) > most {
				t.Errorf("%q: %d lines, at most %d allowed", s, len(lines), most)
			}
			for _, l := range lines {
				if wide(f, l) > 90 {
					t.Errorf("%q: line %q is %.1f pt wide", s, l, wide(f, l))
				}
			}
			if !cut && strings.ReplaceAll(strings.Join(lines, ""), " ", "") != strings.ReplaceAll(s, " ", "") {
				t.Errorf("%q lost letters: %q", s, lines)
			}
			if cut && !strings.HasSuffix(lines[len(lines)-1], "…") {
				t.Errorf("%q was cut without a sign: %q", s, lines)
			}
		}
	}
}
