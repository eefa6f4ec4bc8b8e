package tune

import (
	"cmp"
	"slices"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// fitted builds the strategy of a choice. If its sheet does not fit the window,
// it also moves zones to the same patterns on other days, and returns whichever
// does better under the limits.
func (s *search) fitted(name string, options []option, c choice, parts []strategy.Part) (strategy.Strategy, error) {
	st := s.build(name, options, c.option, c.minutes, parts)
	if s.limits == nil || len(c.minutes) < 2 {
		return st, nil
	}
	sheet, err := s.fit(&st)
	if err != nil || len(sheet.Misfits) == 0 || s.stopped {
		return st, nil // a strategy without a program is reported at the end
	}
	moved, of := s.spread(options, c)
	variants := []variant{{hint: c.minutes, build: func(minutes []int) strategy.Strategy { return s.build(name, moved, of, minutes, parts) }}}
	for z, o := range of {
		variants[0].most = append(variants[0].most, s.mostMinutes(z, moved[o].cycle))
	}
	found, err := s.fewest(variants)
	if err != nil {
		return st, err
	}
	if s.stopped {
		return st, nil
	}
	other := s.build(name, moved, of, found[0].minutes, parts)
	otherSheet, err := s.fit(&other)
	if err != nil {
		return st, err
	}
	a, err := s.sheetCost(sheet)
	if err != nil {
		return st, s.halted(err)
	}
	b, err := s.sheetCost(otherSheet)
	if err == nil && b.less(a) {
		st = other
	}
	return st, s.halted(err)
}

// sheetCost returns the cost of a sheet as it runs under the limits.
func (s *search) sheetCost(sheet *settings.Sheet) (sum cost, err error) {
	got, err := s.measureUnder(s.limits, s.job.Zones, []strategy.Strategy{sheet.Strategy()})
	if err != nil {
		return sum, err
	}
	for z, m := range got[0] {
		sum = sum.plus(s.cost(z, m))
	}
	return sum, nil
}

// spread gives each zone its pattern of days, or the same pattern shifted, to
// make the busiest day as short as possible. Zones are placed one by one, longest
// run times first.
func (s *search) spread(options []option, c choice) (all []option, of []int) {
	calendar := s.calendar()
	n := min(calendar.Days(), 366)
	load := make([]float64, n)
	order := make([]int, len(c.option))
	for z := range order {
		order[z] = z
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(c.minutes[b], c.minutes[a]) })
	of = make([]int, len(c.option))
	for _, z := range order {
		was := options[c.option[z]]
		best, least := was.days, -1.0
		for _, days := range s.legalFor(z, shifts(was.days)) {
			most := 0.0
			for i := range n {
				if days.Runs(calendar, i) {
					most = max(most, load[i]+float64(c.minutes[z]))
				}
			}
			if least < 0 || most < least {
				best, least = days, most
			}
		}
		for i := range n {
			if best.Runs(calendar, i) {
				load[i] += float64(c.minutes[z])
			}
		}
		o := option{days: best, cycle: was.cycle, at: was.at}
		if of[z] = slices.Index(all, o); of[z] < 0 {
			of[z] = len(all)
			all = append(all, o)
		}
	}
	return all, of
}

// shifts lists a pattern of days and its shifts to other days.
func shifts(r strategy.DayRule) []strategy.DayRule {
	list := []strategy.DayRule{r}
	switch r.Kind {
	case strategy.OddDays:
		list = append(list, strategy.DayRule{Kind: strategy.EvenDays})
	case strategy.EvenDays:
		list = append(list, strategy.DayRule{Kind: strategy.OddDays})
	case strategy.Interval:
		for k := 1; k < r.Every; k++ {
			t := r
			t.From += cal.Date(k)
			list = append(list, t)
		}
	case strategy.Weekdays:
		for k := 1; k < 7; k++ {
			t := r
			for d := range r.Weekdays {
				t.Weekdays[(d+k)%7] = r.Weekdays[d]
			}
			list = append(list, t)
		}
	}
	return list
}
