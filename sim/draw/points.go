package draw

import "math/rand/v2"

// MostInputs is the maximum number of independent inputs: beyond, the points of the sequence hang together.
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
	for i := range out {
		out[i] = make([]float64, inputs)
	}
	r := rand.New(rand.NewPCG(seed, stream))
	for j, base := range primes(inputs) {
		digit := 1 / float64(base)                                 // value of one in this place
		for place := int64(1); 1-digit < 1; place *= int64(base) { // up to 2^62, beyond an int of 32 bits
			order := r.Perm(base)
			for i := range out {
				out[i][j] += float64(float64(order[int64(i)/place%int64(base)]) * digit)
			}
			digit /= float64(base)
		}
	}
	return out
}

// primes returns the first n prime numbers.
func primes(n int) []int {
	var out []int
next:
	for k := 2; len(out) < n; k++ {
		for _, p := range out {
			if p*p > k {
				break
			}
			if k%p == 0 {
				continue next
			}
		}
		out = append(out, k)
	}
	return out
}
