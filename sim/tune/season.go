package tune

import (
	"math"

	"loamledger/sim/strategy"
)

// A row is twelve percentages, in steps.
type row [12]int

// smoothed smooths twelve months and returns them as shares of the highest. A
// month is at least half of itself plus a quarter of each neighbor, so a single
// month cannot drop out of the season or fall far below it.
func smoothed(v [12]float64) [12]float64 {
	var out [12]float64
	for m := range v {
		out[m] = max(v[m], (v[(m+11)%12]+2*v[m]+v[(m+1)%12])/4)
	}
	return shape(out)
}

// shape returns twelve months as shares of the highest.
func shape(v [12]float64) (share [12]float64) {
	greatest := 0.0
	for _, x := range v {
		greatest = max(greatest, x)
	}
	for m, x := range v {
		if share[m] = 1; greatest > 0 {
			share[m] = x / greatest
		}
	}
	return share
}

// nearestRow rounds shares to the nearest step.
func nearestRow(share [12]float64, full int) (r row) {
	for m, x := range share {
		r[m] = min(int(math.Round(x*float64(full))), full)
	}
	return r.closed()
}

// rowAbove rounds shares up to a step.
func rowAbove(share [12]float64, full int) (r row) {
	for m, x := range share {
		r[m] = min(int(math.Ceil(float64(x*float64(full))-1e-9)), full)
	}
	return r.closed()
}

// closed gives one step to every month that is off between months that are on.
// Only the longest run of months that are off, counted across the year end, stays
// without watering.
func (r row) closed() row {
	best, at, run := 0, 0, 0
	for i := range 24 {
		if r[i%12] != 0 {
			run = 0
			continue
		}
		if run++; run > best {
			best, at = run, i-run+1
		}
	}
	if best >= 12 {
		return r
	}
	for m := range r {
		if off := (m - at%12 + 12) % 12; r[m] == 0 && off >= best {
			r[m] = 1
		}
	}
	return r
}

// shares returns the row as shares of the run times.
func (r row) shares(full int) (out [12]float64) {
	for m := range r {
		out[m] = float64(r[m]) / float64(full)
	}
	return out
}

// halfMonth is how long before a month the system must be on for it to count [d].
const halfMonth = 15

// countedMonths returns the months in which stress counts against a goal: all if no
// part of the season has dates, else those that are within the dates from half a
// month before.
func countedMonths(season []strategy.Part) (counted [12]bool) {
	ends := [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	for m := range counted {
		before := (m + 11) % 12
		counted[m] = true
		for _, p := range season {
			s, ok := p.(strategy.Season)
			if !ok {
				continue
			}
			for day := 1; day <= ends[m]; day++ {
				counted[m] = counted[m] && s.Within(100*(m+1)+day)
			}
			for day := ends[before] - halfMonth + 1; day <= ends[before]; day++ {
				counted[m] = counted[m] && s.Within(100*(before+1)+day)
			}
		}
	}
	return counted
}
