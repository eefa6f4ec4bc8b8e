package draw

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// MostInputs is the maximum number of independent inputs: the sequence has no more
// dimensions.
const MostInputs = 1000

// stream tells the random numbers of the points from others with the same seed.
const stream = 0x68616c74

// Points returns n points in the unit cube of the given number of inputs, 0 to
// [MostInputs], as rows: the Halton sequence with randomly permuted digits. Each input
// of a point is uniform over all seeds, and the points are more even than random ones.
// Source: Owen (2017), A randomized Halton algorithm in R, arXiv 1706.02808.
func Points(n, inputs int, seed uint64) [][]float64 {
	out := make([][]float64, n)
	if n == 0 || inputs == 0 {
		return out
	}
	source := rand.NewPCG(seed, stream)
	batch := mat.NewDense(n, inputs, nil)
	samplemv.Halton{Kind: samplemv.Owen, Q: distmv.NewUnitUniform(inputs, source), Src: source}.Sample(batch)
	for i := range out {
		out[i] = batch.RawRowView(i)
	}
	return out
}
