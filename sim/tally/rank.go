package tally

import "math"

// Shares of years that are no drier than the one meant, as [rank] takes them.
const (
	wetShare    = 0.1
	medianShare = 0.5
	dryShare    = 0.9 // one year in ten is as dry
)

// rank returns the place, from 0, of the year at a share among n years in order of need, n above 0: rank share·(n+1), rounded and held
// to 1..n (Weibull plotting positions, common practice in hydrology).
func rank(share float64, n int) int {
	return int(min(max(math.Round(share*float64(n+1)), 1), float64(n))) - 1
}
