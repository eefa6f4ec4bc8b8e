package draw

import (
	"cmp"
	"math"
	"slices"
)

// mostClasses and leastPerClass bound the classes of [Explained]: enough to follow a
// curve, and enough draws in each for a mean.
const (
	mostClasses   = 20
	leastPerClass = 25
)

// Explained returns the share of the variance of result, 0 to 1, that one input
// explains: by how much the variance is expected to shrink if that input becomes known.
// input and result are parallel. It is the variance of the mean of the result given the
// input, from draws in classes of equal number along the input, less what classes
// explain by chance. Shares of independent inputs add up to at most 1, apart from
// the error of the draws.
//
// Sources: Sobol' (1993), the index of first order; Saltelli et al. (2008), Global
// Sensitivity Analysis, section 4.5, for the reading as an expected reduction; the
// correction for chance is that of Kelley (1935), ε².
func Explained(input, result []float64) float64 {
	n := len(input)
	classes := min(n/leastPerClass, mostClasses)
	total := Variance(result)
	if classes < 2 || !(total > 0) {
		return 0
	}
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(input[a], input[b]) })
	mean, within := Mean(result), 0.0
	between := 0.0
	for c := range classes {
		own := order[c*n/classes : (c+1)*n/classes]
		sum := 0.0
		for _, i := range own {
			sum += result[i]
		}
		m := sum / float64(len(own))
		between += float64(float64(len(own)) * (m - mean) * (m - mean))
		for _, i := range own {
			within += float64((result[i] - m) * (result[i] - m))
		}
	}
	chance := float64(classes-1) * within / float64(n-classes)
	return min(max((between-chance)/(between+within), 0), 1)
}

// ChanceShare is about the share of variance that [Explained] finds in n draws of an
// input that explains nothing, at worst one time in twenty: shares below it count for
// nothing.
func ChanceShare(n int) float64 {
	classes := float64(min(n/leastPerClass, mostClasses))
	if classes < 2 {
		return 1
	}
	// The mean square between classes scatters by sqrt(2/(classes − 1)) of itself.
	return 1.645 * math.Sqrt(2*(classes-1)) / float64(n)
}
