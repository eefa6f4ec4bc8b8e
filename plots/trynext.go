package plots

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A NextTry is an option that was replayed with more run time in the zones that
// fell short, and then met every rule of the verdict.
type NextTry struct {
	Strategy int
	Enter    []NextEntry
	Change   float64 // of water, relative to the baseline
}

// A NextEntry is what to enter for a zone: minutes in a program or, without one, a
// percentage of its run time.
type NextEntry struct {
	Zone        string
	Program     string
	Now, Enter  float64 // [min]
	PercentTime float64 // 120 is 20% more; 0 with minutes
}

// words says what to enter.
func (n *NextTry) words(s *Study) string {
	var enter []string
	for _, e := range n.Enter {
		switch {
		case e.PercentTime > 0:
			enter = append(enter, fmt.Sprintf("%s%% of its run time in %s", fixed(e.PercentTime, 0), quote(e.Zone)))
		default:
			enter = append(enter, fmt.Sprintf("%s min in %s instead of the %s that it has now (program %s)", fixed(e.Enter, 0), quote(e.Zone),
				fixed(e.Now, 0), quote(e.Program)))
		}
	}
	return fmt.Sprintf("One changed version looks good, and is not in the table yet: %s with %s. Replayed once, it uses %s water than %s "+
		"and meets the rule.",
		quote(s.Table.Strategies[n.Strategy]),
		strings.Join(enter, ", "), moreOrLess(n.Change), quote(s.Table.Strategies[s.base()]))
}

// Nearest lists the options that fall short, without those that break rules or
// clearly save nothing: the one that lacks the fewest days comes first.
func (s *Study) Nearest() (list []int) {
	rows, lack := s.Table.Compare(), map[int]float64{}
	for _, st := range s.others() {
		bars := s.bars(st)
		if rows[st].Change > -tooClose || len(bars) == 0 || slices.ContainsFunc(bars, func(b Bar) bool { return b.Code == breaksRules }) {
			continue
		}
		for _, b := range bars {
			lack[st] += b.Days - b.Base
		}
		list = append(list, st)
	}
	slices.SortStableFunc(list, func(a, b int) int {
		return cmp.Or(cmp.Compare(lack[a], lack[b]), cmp.Compare(rows[a].M3PerYear, rows[b].M3PerYear))
	})
	return list
}

// Named reports whether the verdict recommends strategy st, or names it as the best
// trade-off.
func (s *Study) Named(st int) bool {
	v, at := s.verdict(s.Table.Compare())
	return (v == saves || v == tradeOff) && at == st
}
