package portable

import (
	"math"
	"math/rand/v2"
)

// perRoot2Pi is 1/√(2π).
const perRoot2Pi = 0.39894228040143267794

// bell returns the density of the standard normal distribution. The square is split, so that its rounding does not grow.
func bell(x float64) float64 {
	const cells = 16
	if x > 40 || x < -40 {
		return 0
	}
	near := float64(math.Trunc(x*cells) / cells)
	return perRoot2Pi * Exp(-float64(near*near/2)) * Exp(-float64((x-near)*(x+near)/2))
}

// above returns the share of the standard normal distribution above x ≥ 0.
//
// Source: Abramowitz and Stegun (1964), 26.2.11 and 26.2.14, from memory.
func above(x float64) float64 {
	const far = 1.5 // from where the continued fraction is short
	if x < far {
		term, sum := x, x
		for n := 3.0; ; n += 2 {
			term = float64(term * x * x / n)
			next := sum + term
			if next == sum {
				return 0.5 - float64(bell(x)*sum)
			}
			sum = next
		}
	}
	if x > 40 {
		return 0
	}
	t := x
	for n := float64(20 + int(300/float64(x*x))); n >= 1; n-- {
		t = x + n/t
	}
	return bell(x) / t
}

// NormalCDF returns the share of the standard normal distribution at or below x. The relative error is below 4e-15 for x above -37;
// further down it gives 0. NaN gives NaN.
func NormalCDF(x float64) float64 {
	switch {
	case x != x:
		return x
	case x < 0:
		return above(-x)
	}
	return 1 - above(x)
}

// NormalQuantile returns the x with [NormalCDF] p. The error is below 1e-15 times 1 + |x|. 0 gives -Inf, 1 gives +Inf, other numbers
// beyond 0 to 1 and NaN give NaN.
//
// Source: Abramowitz and Stegun (1964), 26.2.23, from memory, then three steps of Halley.
func NormalQuantile(p float64) float64 {
	switch {
	case !(p >= 0 && p <= 1):
		return math.NaN()
	case p == 0:
		return math.Inf(-1)
	case p == 1:
		return math.Inf(1)
	case p > 0.5:
		return upperQuantile(1 - p)
	}
	return -upperQuantile(p)
}

// upperQuantile returns the x ≥ 0 that the share q ≤ ½ is above.
func upperQuantile(q float64) float64 {
	if q == 0.5 {
		return 0
	}
	x := roughly(q)
	for range 3 {
		d := bell(x)
		if d == 0 {
			break
		}
		off := (above(x) - q) / d
		x += off / (1 - float64(off*x/2))
	}
	return x
}

// roughly returns the same for any q, ½ to 0, to 0.00045.
func roughly(q float64) float64 {
	t := math.Sqrt(float64(-2 * Log(q)))
	return max(0, t-(2.515517+float64(t*(0.802853+float64(t*0.010328))))/(1+float64(t*(1.432788+float64(t*(0.189269+float64(t*0.001308)))))))
}

// Normal draws from the standard normal distribution: the numbers of [rand.Rand.NormFloat64], whose tails have other last digits on
// other machines.
//
// Source: Marsaglia and Tsang (2000), The ziggurat method for generating random variables, Journal of Statistical Software 5(8), in
// the order of draws of Go's math/rand/v2.
func Normal(r *rand.Rand) float64 {
	for {
		u := r.Uint64()
		j := int32(u)
		i := u >> 32 & (layers - 1)
		x := float64(j) * float64(layerWidths[i])
		if max(int64(j), -int64(j)) < int64(layerInner[i]) {
			return x
		}
		if i == 0 {
			for {
				x = float64(-Log(r.Float64()) * (1.0 / lastLayer))
				y := -Log(r.Float64())
				if y+y >= float64(x*x) {
					break
				}
			}
			if j > 0 {
				return lastLayer + x
			}
			return -lastLayer - x
		}
		if layerHeights[i]+float32(float32(r.Float64())*(layerHeights[i-1]-layerHeights[i])) < float32(Exp(float64(-0.5*x)*x)) {
			return x
		}
	}
}

const (
	layers    = 128
	lastLayer = 3.442619855899 // where the tail begins, of Marsaglia and Tsang
)
