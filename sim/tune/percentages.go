package tune

import (
	"math"
	"slices"

	"loamledger/sim"
	"loamledger/sim/strategy"
)

func (s *search) calendar() *sim.Calendar {
	return sim.NewCalendar(s.job.Weather.Start, s.job.Weather.Days())
}

// peakETo returns the mean reference ET of the calendar month in which it is
// greatest, to a tenth of a millimetre.
func (s *search) peakETo() float64 {
	var sum, days [12]float64
	for i, m := range s.calendar().Month {
		sum[m-1] += s.job.Weather.EToMM[i]
		days[m-1]++
	}
	peak := 0.1
	for m := range sum {
		if days[m] > 0 {
			peak = max(peak, math.Round(10*sum[m]/days[m])/10)
		}
	}
	return peak
}

// A row is twelve percentages, in steps.
type row [12]int

// percentages looks for better percentages than share, with the options of a
// choice: months are moved one at a time by large, then small steps, then two
// at a time, each time with the fewest minutes that go with them, as long as
// water is saved.
func (s *search) percentages(options []option, c choice, share [12]float64) (choice, []strategy.Part, error) {
	full := int(math.Round(1 / s.space.PercentStep))
	var now row
	for m := range now {
		now[m] = int(math.Round(share[m] * float64(full)))
	}
	best := found{minutes: c.minutes, cost: c.cost}
	improve := func(rows []row) (bool, error) {
		got, err := s.rows(options, c.option, best.minutes, rows, full)
		if err != nil {
			return false, err
		}
		better := false
		for i := range got {
			if got[i].cost.less(best.cost) {
				best, now, better = got[i], rows[i], true
			}
		}
		return better, nil
	}
	for step := max(full/5, 1); step >= 1; step /= 2 {
		for {
			better, err := improve(single(now, step, full))
			if err != nil {
				return c, nil, err
			}
			if better {
				continue
			}
			if step > 1 {
				break
			}
			if better, err = improve(pairs(now, full)); err != nil {
				return c, nil, err
			}
			if !better {
				break
			}
		}
	}
	c.minutes, c.cost = best.minutes, best.cost
	return c, []strategy.Part{monthly(now, full)}, nil
}

func monthly(r row, full int) strategy.Monthly {
	var m strategy.Monthly
	for i := range r {
		m.Share[i] = float64(r[i]) / float64(full)
	}
	return m
}

// single lists the rows that differ in one month by a step.
func single(now row, step, full int) (rows []row) {
	for m := range now {
		for _, to := range []int{max(now[m]-step, 0), min(now[m]+step, full)} {
			if r := now; to != now[m] {
				r[m] = to
				rows = append(rows, r)
			}
		}
	}
	return rows
}

// pairs lists the rows in which two months differ by one step each.
func pairs(now row, full int) (rows []row) {
	for a := range now {
		for b := range a {
			for _, da := range []int{-1, 1} {
				for _, db := range []int{-1, 1} {
					r := now
					r[a] += da
					r[b] += db
					if min(r[a], r[b]) >= 0 && max(r[a], r[b]) <= full {
						rows = append(rows, r)
					}
				}
			}
		}
	}
	return rows
}

// rows finds the fewest minutes under each row of percentages.
func (s *search) rows(options []option, of, hint []int, rows []row, full int) ([]found, error) {
	variants := make([]variant, len(rows))
	for i, r := range rows {
		parts := []strategy.Part{monthly(r, full)}
		most := make([]int, len(of))
		for z := range most {
			most[z] = s.mostMinutes(z, options[of[z]].cycle)
		}
		variants[i] = variant{most: most, hint: slices.Clone(hint), build: func(minutes []int) strategy.Strategy {
			return s.build("", options, of, minutes, parts)
		}}
	}
	return s.fewest(variants)
}
