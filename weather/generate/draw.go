package generate

import (
	"math"
	"math/rand/v2"

	"loamledger/weather/portable"
)

// gamma draws from the gamma distribution with the given shape and scale 1.
//
// Source: Marsaglia and Tsang (2000), A simple method for generating gamma
// variables, ACM Transactions on Mathematical Software 26(3), 363-372, with
// their boost for shapes below 1. From memory. The library draws in a different
// order and would change the weather of every seed.
func gamma(r *rand.Rand, shape float64) float64 {
	boost := 1.0
	if shape < 1 {
		boost = portable.Pow(1-float64(r.Float64()), 1/shape) // 1-u is never 0
		shape++
	}
	d := shape - 1.0/3
	c := 1 / math.Sqrt(9*d)
	for {
		x := portable.Normal(r)
		v := 1 + float64(c*x)
		if v <= 0 {
			continue
		}
		v = float64(v * v * v)
		if portable.Log(1-float64(r.Float64())) < float64(0.5*x*x)+d-float64(d*v)+float64(d*portable.Log(v)) {
			return boost * d * v
		}
	}
}

// cappedMean returns the mean of a lognormal variable capped at most, whose
// logarithm has mean mu and standard deviation s > 0.
//
//	E = exp(mu + s²/2) Φ((ln most - mu - s²)/s) + most (1 - Φ((ln most - mu)/s))
func cappedMean(mu, s, most float64) float64 {
	up := (portable.Log(most) - mu) / s
	return float64(portable.Exp(mu+float64(s*s/2))*portable.NormalCDF(up-s)) + float64(most*portable.NormalCDF(-up))
}

// lognormal returns the mean mu and standard deviation s of the logarithm of a
// variable that, capped at most, has the given mean and, as closely as a
// maximum s allows, the given standard deviation. mean is within 0 to most.
func lognormal(mean, dev, most float64) (mu, s float64) {
	const widest, rounds, near = 1.2, 60, 1e-9
	s = min(math.Sqrt(portable.Log(1+dev*dev/(mean*mean))), widest)
	mu = portable.Log(mean) - float64(s*s/2)
	if s == 0 {
		return mu, s
	}
	for range rounds {
		off := portable.Log(mean / cappedMean(mu, s, most))
		mu += off
		if math.Abs(off) < near {
			break
		}
	}
	return mu, s
}
