package draw

import (
	"math"
	"math/rand/v2"

	"loamledger/weather/portable"
)

// blockStream tells the random numbers of the bootstrap from those of the points.
const blockStream = 0x626c6f63

// BlockLength returns the length of the blocks for a series of n values: the cube root
// of n, rounded, at least 1. Source: the rate of Künsch (1989) for a mean; the constant
// 1 is our choice.
func BlockLength(n int) int { return max(int(math.Round(portable.Pow(float64(n), 1.0/3))), 1) }

// BlockMeans returns the means of times resamplings of a series, such as one value a
// year, by the moving-block bootstrap: blocks of consecutive values are drawn with
// replacement, so that runs of dry years stay together. Their spread is how much the
// mean would differ in another series as long. Source: Künsch (1989), The jackknife
// and the bootstrap for general stationary observations, Annals of Statistics 17.
func BlockMeans(series []float64, times int, seed uint64) []float64 {
	n := len(series)
	if n == 0 {
		return nil
	}
	r := rand.New(rand.NewPCG(seed, blockStream))
	length := BlockLength(n)
	out := make([]float64, times)
	for t := range out {
		sum := 0.0
		for k := 0; k < n; {
			from := r.IntN(n - length + 1)
			for i := from; i < from+length && k < n; i, k = i+1, k+1 {
				sum += series[i]
			}
		}
		out[t] = sum / float64(n)
	}
	return out
}
