// Package sample answers how many accounts a survey needs, and how far a mean of some
// accounts may be from the mean of all.
package sample

import (
	"fmt"
	"math"

	"loamledger/weather/portable"
)

// A Need is the size of a sample.
type Need struct {
	Z       float64 // the quantile used, to three decimals
	Exact   float64 // before rounding up
	Samples int
}

// Needed returns how many accounts must be drawn at random so that a mean is within a
// share of itself, precision, with the given confidence: n = (z·cv ÷ precision)², and
// for a population of N accounts n ÷ (1 + n/N); population 0 is an unlimited one. cv is
// the coefficient of variation: standard deviation divided by mean. The result is rounded
// up, and at least 2.
//
// All arguments but population must be above 0, confidence below 1; an error says which is
// not.
//
// Source: n for a mean and its correction for a finite population, Cochran (1977), Sampling
// techniques, 3rd edition, chapter 4 (from memory). z has three decimals, as in printed
// tables: 1.645 for 90%, 1.282 for 80%.
func Needed(cv, precision, confidence float64, population int) (Need, error) {
	switch {
	case !(cv > 0) || math.IsInf(cv, 0):
		return Need{}, fmt.Errorf("coefficient of variation %g is not above 0", cv)
	case !(precision > 0) || math.IsInf(precision, 0):
		return Need{}, fmt.Errorf("precision %g is not above 0", precision)
	case !(confidence > 0 && confidence < 1):
		return Need{}, fmt.Errorf("confidence %g is not between 0 and 1", confidence)
	case population < 0:
		return Need{}, fmt.Errorf("population %d is below 0", population)
	}
	z := math.Round(1000*portable.NormalQuantile(0.5+float64(confidence/2))) / 1000
	n := z * cv / precision
	n *= n
	if population > 0 {
		n /= 1 + n/float64(population)
	}
	if n > 1e9 {
		return Need{}, fmt.Errorf("the sample would have %.3g accounts", n)
	}
	size := max(int(math.Ceil(n-1e-9)), 2)
	if population > 0 {
		size = min(size, population)
	}
	return Need{z, n, size}, nil
}

// An Interval is where the mean of all accounts lies.
type Interval struct {
	T         float64 // the quantile of Student's t used
	Error     float64 // standard error of the mean
	Low, High float64
	Precision float64 // half the width as a share of the mean; NaN if the mean is 0
}

// Around returns the interval of the mean of n accounts drawn at random, n from 2, with
// standard deviation sd: mean ± t·sd/√n, t of Student with n − 1 degrees of freedom. If
// the accounts are a part of a population, the standard error is multiplied by
// √((N − n)/(N − 1)); population 0 is an unlimited one. Savings are skewed: with few
// accounts the interval then has the mean less often than it says.
func Around(mean, sd float64, n int, confidence float64, population int) (Interval, error) {
	switch {
	case n < 2:
		return Interval{}, fmt.Errorf("%d accounts have no standard deviation", n)
	case !(sd >= 0) || math.IsInf(sd, 0) || math.IsNaN(mean) || math.IsInf(mean, 0):
		return Interval{}, fmt.Errorf("mean %g or standard deviation %g is not valid", mean, sd)
	case !(confidence > 0 && confidence < 1):
		return Interval{}, fmt.Errorf("confidence %g is not between 0 and 1", confidence)
	case population != 0 && population < n:
		return Interval{}, fmt.Errorf("population %d is smaller than the sample of %d", population, n)
	}
	i := Interval{T: portable.StudentQuantile(float64(n-1), 0.5+float64(confidence/2)), Error: sd / math.Sqrt(float64(n))}
	if population > 1 {
		i.Error *= math.Sqrt(float64(population-n) / float64(population-1))
	}
	half := float64(i.T * i.Error)
	i.Low, i.High, i.Precision = mean-half, mean+half, half/math.Abs(mean)
	if mean == 0 {
		i.Precision = math.NaN()
	}
	return i, nil
}
