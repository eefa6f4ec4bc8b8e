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

// steps rounds a share up to a step of the percentages.
func steps(share float64, full int) int { return min(int(math.Ceil(share*float64(full)-1e-9)), full) }

// monthly searches programs and percentages: options and minutes under two
// likely rows of percentages, then better rows.
func (s *search) monthly(options []option, _ Kind) (choice, []option, []strategy.Part, error) {
	fail := func(err error) (choice, []option, []strategy.Part, error) { return choice{}, nil, nil, err }
	full := int(math.Round(1 / s.space.PercentStep))
	site := strategy.Site{Weather: s.job.Weather, Calendar: s.calendar()}
	var best choice
	var now row
	for i, share := range [][12]float64{shape(s.needM3), strategy.MonthlyFromETo(&site)} {
		var r row
		for m := range r {
			r[m] = steps(share[m], full)
		}
		c, _, err := s.choose(options, nil, []strategy.Part{monthly(r, full)})
		if err != nil {
			return fail(err)
		}
		if r, err = s.descend(options, &c, r, full, false); err != nil {
			return fail(err)
		}
		if i == 0 || c.cost.less(best.cost) {
			best, now = c, r
		}
	}
	now, err := s.descend(options, &best, now, full, true)
	if err != nil {
		return fail(err)
	}
	return best, options, []strategy.Part{monthly(now, full)}, nil
}

// descend looks for better percentages with the options of a choice: months
// are moved one at a time and all together by large, then small steps, each
// time with the fewest minutes that go with them; then two at a time, with the
// minutes left alone; as long as water is saved. thorough adds the latter.
func (s *search) descend(options []option, c *choice, now row, full int, thorough bool) (row, error) {
	improve := func(list []row, alone bool) (bool, error) {
		measure := s.rows
		if alone {
			measure = s.rowsAt
		}
		got, err := measure(options, c.option, c.minutes, list, full)
		if err != nil {
			return false, err
		}
		better := false
		for i := range got {
			if got[i].cost.less(c.cost) {
				c.minutes, c.cost, now, better = got[i].minutes, got[i].cost, list[i], true
			}
		}
		return better, nil
	}
	for step := max(full/5, 1); step >= 1; step /= 2 {
		for {
			better, err := improve(single(now, step, full), false)
			if err != nil {
				return now, err
			}
			if !better && step == 1 && thorough {
				if better, err = improve(pairs(now, full), true); err != nil {
					return now, err
				}
			}
			if !better {
				break
			}
		}
	}
	return now, nil
}

func monthly(r row, full int) strategy.Monthly {
	var m strategy.Monthly
	for i := range r {
		m.Share[i] = float64(r[i]) / float64(full)
	}
	return m
}

// single lists the rows that differ in one month, or in all, by a step.
func single(now row, step, full int) (rows []row) {
	for m := range now {
		for _, to := range []int{max(now[m]-step, 0), min(now[m]+step, full)} {
			if r := now; to != now[m] {
				r[m] = to
				rows = append(rows, r)
			}
		}
	}
	for _, by := range []int{-step, step} { // all that are on together
		r := now
		for m := range r {
			if r[m] > 0 {
				r[m] = min(max(r[m]+by, 0), full)
			}
		}
		if r != now {
			rows = append(rows, r)
		}
	}
	return rows
}

// pairs lists the rows in which one month has a step more and another one or
// two less.
func pairs(now row, full int) (rows []row) {
	for a := range now {
		for b := range now {
			for less := 1; less <= 2; less++ {
				r := now
				r[a]++
				r[b] -= less
				if a != b && r[b] >= 0 && r[a] <= full {
					rows = append(rows, r)
				}
			}
		}
	}
	return rows
}

// rowsAt measures each row of percentages with the minutes given.
func (s *search) rowsAt(options []option, of, minutes []int, rows []row, full int) ([]found, error) {
	var list []strategy.Strategy
	for _, r := range rows {
		list = append(list, s.build("", options, of, minutes, []strategy.Part{monthly(r, full)}))
	}
	got, err := s.measure(list)
	if err != nil {
		return nil, err
	}
	out := make([]found, len(rows))
	for i := range out {
		out[i] = found{minutes: minutes, got: got[i]}
		for z, m := range got[i] {
			out[i].cost = out[i].cost.plus(s.cost(z, m))
		}
	}
	return out, nil
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
