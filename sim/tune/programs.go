package tune

import (
	"fmt"
	"math"
	"slices"

	"loamledger/sim/strategy"
)

// An option is a pattern of days and cycles for a program.
type option struct {
	days  strategy.DayRule
	cycle Cycle
	at    int // of the days in the patterns of the search
}

// A choice is an option and a run time for each zone.
type choice struct {
	option  []int // by zone, into the options
	minutes []int
	cost    cost
}

// programs searches for programs, with the percentages or scaling of the kind.
func (s *search) programs(r *Result) error {
	var options []option
	for d := range s.days {
		for _, c := range s.space.Cycles {
			options = append(options, option{s.days[d], c, d})
		}
	}
	find := s.scaled
	if r.Kind == Monthly {
		find = s.monthly
	}
	best, options, parts, err := find(options, r.Kind)
	if err != nil {
		return err
	}
	if err := s.none(best.cost); err != nil {
		return err
	}
	r.Strategy, err = s.fitted("tuned: "+r.Kind.Words(), options, best, parts)
	return err
}

// scaled tries the scalings of a kind. It tries all options under the first
// scaling, and under the others only the options that did well for some zone.
func (s *search) scaled(options []option, kind Kind) (best choice, _ []option, parts []strategy.Part, err error) {
	const served = 3 // options kept for each zone
	var hints [][]int
	top := s.most
	for i, scaling := range s.scalings(kind) {
		extra := scaling.parts
		if scaling.most > 0 {
			s.most = scaling.most
		}
		c, table, err := s.choose(options, hints, extra)
		if err != nil {
			return best, nil, nil, err
		}
		if i == 0 || c.cost.less(best.cost) {
			best, parts, top = c, extra, s.most
		}
		if i > 0 {
			continue
		}
		costs := make([][]cost, len(options))
		for o := range options {
			for z := range s.job.Zones {
				costs[o] = append(costs[o], s.optionCost(z, &options[o], table[o].got[z]))
			}
		}
		suited := s.fitting(costs, func(o int) int { return options[o].at })
		var keep []int
		for z := range s.job.Zones {
			order := make([]int, len(options))
			for o := range order {
				order[o] = o
			}
			slices.SortStableFunc(order, func(a, b int) int {
				ca, cb := suited[a][z], suited[b][z]
				switch {
				case ca.less(cb):
					return -1
				case cb.less(ca):
					return 1
				}
				return 0
			})
			for _, o := range append(order[:min(served, len(order))], c.option[z]) {
				if !slices.Contains(keep, o) {
					keep = append(keep, o)
				}
			}
		}
		slices.Sort(keep)
		some := make([]option, len(keep))
		for k, o := range keep {
			some[k], hints = options[o], append(hints, table[o].minutes)
		}
		for z := range best.option {
			best.option[z] = slices.Index(keep, best.option[z])
		}
		options = some
	}
	s.most = top
	return best, options, parts, nil
}

// etMost is the maximum percentage of a scaled program: an assumption by
// loamledger.
const etMost = 1.5

// A scaling is a set of parts used with programs.
type scaling struct {
	parts []strategy.Part
	most  float64 // their maximum factor; 0 for none
}

// scalings lists the scalings to try for a kind.
func (s *search) scalings(kind Kind) []scaling {
	if kind != ETScaled {
		return []scaling{{}}
	}
	design := s.peakETo()
	var out []scaling
	tops := []float64{etMost}
	if s.timed() {
		tops = append(tops, 1) // if time is short, reserve none for hot days
	}
	for _, top := range tops {
		for _, over := range s.space.AveragedDays {
			for _, rain := range []bool{true, false} {
				out = append(out, scaling{[]strategy.Part{strategy.ETPercent{DesignEToMM: design, Days: over, SubtractRain: rain, Max: top}}, top})
			}
		}
	}
	return out
}

// choose finds the run time of every zone under every option, and then the
// options with the least cost over all zones, at most one per allowed program.
// hints, if not nil, gives the starting run times for each option.
func (s *search) choose(options []option, hints [][]int, parts []strategy.Part) (choice, []found, error) {
	variants := make([]variant, len(options))
	zones := len(s.job.Zones)
	all := make([][]int, len(options)) // every zone under the option
	for o := range options {
		most := make([]int, zones)
		all[o] = slices.Repeat([]int{o}, zones)
		for z := range most {
			most[z] = s.mostMinutes(z, options[o].cycle)
		}
		var hint []int
		if hints != nil {
			hint = hints[o]
		}
		variants[o] = variant{most: most, hint: hint, build: func(minutes []int) strategy.Strategy {
			return s.build("", options, all[o], minutes, parts)
		}}
	}
	table, err := s.fewest(variants)
	if err != nil {
		return choice{}, nil, err
	}
	costs := make([][]cost, len(options))
	for o := range options {
		for z := range zones {
			costs[o] = append(costs[o], s.optionCost(z, &options[o], table[o].got[z]))
		}
	}
	c := choice{option: pick(s.fitting(costs, func(o int) int { return options[o].at }), s.space.Timer.Programs)}
	for z, o := range c.option {
		c.minutes = append(c.minutes, table[o].minutes[z])
		c.cost = c.cost.plus(costs[o][z])
	}
	return c, table, nil
}

// pick returns one of at most n options for each zone, to make the sum of
// costs[option][zone] small. It adds the option that saves most until there are n,
// then swaps options while that saves more.
func pick(costs [][]cost, n int) []int {
	zones := len(costs[0])
	serve := func(chosen []int) (sum cost, of []int) {
		of = make([]int, zones)
		for z := range of {
			of[z] = chosen[0]
			for _, o := range chosen[1:] {
				if costs[o][z].less(costs[of[z]][z]) {
					of[z] = o
				}
			}
			sum = sum.plus(costs[of[z]][z])
		}
		return sum, of
	}
	var chosen []int
	var total cost
	for len(chosen) < min(n, len(costs)) {
		best, at := cost{math.Inf(1), 0}, -1
		for o := range costs {
			if sum, _ := serve(append(slices.Clone(chosen), o)); sum.less(best) {
				best, at = sum, o
			}
		}
		if at < 0 || len(chosen) > 0 && !best.less(total) {
			break
		}
		chosen, total = append(chosen, at), best
	}
	for improved := true; improved; {
		improved = false
		for i := range chosen {
			for o := range costs {
				try := slices.Clone(chosen)
				try[i] = o
				if sum, _ := serve(try); sum.less(total) {
					chosen, total, improved = try, sum, true
				}
			}
		}
	}
	_, of := serve(chosen)
	return of
}

// programName returns a name from the program's days that is not in the list;
// of is that of its controller, empty on a site with one.
func programName(list []strategy.Program, days strategy.DayRule, of string) string {
	base := strategy.DaysText(days)
	if days.Kind == strategy.Interval && days.Every > 1 {
		base = fmt.Sprintf("every %d days", days.Every)
	}
	if of != "" {
		base += " on " + of
	}
	for n := 1; ; n++ {
		name := base
		if n > 1 {
			name = fmt.Sprintf("%s (%d)", base, n)
		}
		if !slices.ContainsFunc(list, func(p strategy.Program) bool { return p.Name == name }) {
			return name
		}
	}
}

// build makes the strategy of zones under the given options.
func (s *search) build(name string, options []option, of, minutes []int, parts []strategy.Part) strategy.Strategy {
	var list []strategy.Program
	var clocks []string // of the programs
	for z, o := range of {
		if minutes[z] <= 0 {
			continue
		}
		begin, of := s.open[z].at, ""
		if c, several := s.clockOf(z); several {
			of = c.Name
		}
		k := 0
		for ; k < len(list); k++ {
			p := &list[k]
			if p.Days == options[o].days && p.Cycle == options[o].cycle.CycleMin && p.Soak == options[o].cycle.SoakMin &&
				p.Starts[0] == begin && clocks[k] == of {
				break
			}
		}
		if k == len(list) {
			clocks = append(clocks, of)
			list = append(list, strategy.Program{Name: programName(list, options[o].days, of), Days: options[o].days,
				Cycle:  options[o].cycle.CycleMin,
				Soak:   options[o].cycle.SoakMin,
				Starts: []int{begin}, Minutes: make([]float64, len(minutes))})
		}
		list[k].Minutes[z] = float64(minutes[z])
	}
	all := append([]strategy.Part{strategy.Programs{List: list}}, parts...)
	return strategy.Strategy{Name: name, Parts: append(all, s.season...)}
}
