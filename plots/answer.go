package plots

import (
	"fmt"
	"math"

	"loamledger/sim"
	"loamledger/sim/tally"
)

// extraStressDays is how many more stress days in a dry year than the first
// strategy has are still held to be the same appearance. No source: a choice,
// told in the report.
const extraStressDays = 5

// tooClose is the change of water below which strategies are not told apart.
// No source: a choice, told in the report.
const tooClose = 0.10

// pick returns the strategy of least water that uses less than the first and
// adds no more than extraStressDays; 0 where there is none.
func pick(s *Study, rows []tally.Row) int {
	best := 0
	for i := 1; i < s.own(); i++ {
		extra := rows[i].StressDry - rows[0].StressDry
		if math.IsNaN(extra) { // no whole year: the whole record must do
			extra = s.stressPerYear(i) - s.stressPerYear(0)
		}
		if extra <= extraStressDays && rows[i].M3PerYear < rows[best].M3PerYear {
			best = i
		}
	}
	return best
}

// nearest returns, for when pick finds none, the strategy that saves water at
// the least price in stress days, or that of least water where none saves; 0
// where there is no other strategy.
func nearest(s *Study, rows []tally.Row) int {
	best := 0
	better := func(i, than int) bool {
		a, b := &rows[i], &rows[than]
		saves, saved := a.Change <= -tooClose, b.Change <= -tooClose
		switch {
		case saves != saved:
			return saves
		case saves && a.StressDry != b.StressDry:
			return a.StressDry < b.StressDry
		}
		return a.M3PerYear < b.M3PerYear
	}
	for i := 1; i < s.own(); i++ {
		if best == 0 || better(i, best) {
			best = i
		}
	}
	return best
}

func (s *Study) stressPerYear(st int) float64 {
	return s.mean(st, func(x *sim.Sums) float64 { return float64(x.StressDays) }) / s.years()
}

// answer says in one sentence what the comparison comes to.
func answer(s *Study, rows []tally.Row) string {
	first := &rows[0]
	best := &rows[pick(s, rows)]
	switch {
	case first.M3PerYear == 0:
		return fmt.Sprintf("%s applies no water, so nothing can be saved against it.", quote(first.Strategy))
	case s.own() == 1:
		return fmt.Sprintf("%s uses an estimated %s a year; no other strategy was given to compare.", quote(first.Strategy), s.Units.volumeText(first.M3PerYear))
	case best == first:
		text := fmt.Sprintf("None of the other strategies uses less water than %s without adding more than %d stress days in a dry year", quote(first.Strategy), extraStressDays)
		other := &rows[nearest(s, rows)]
		if math.IsNaN(other.StressDry) {
			return text + "."
		}
		return text + fmt.Sprintf("; the nearest is %s: an estimated %s water, with %s such days instead of %s.", quote(other.Strategy), moreOrLess(other.Change), fixed(other.StressDry, 0), fixed(first.StressDry, 0))
	case best.Change > -tooClose:
		return fmt.Sprintf("Too close to call: %s uses an estimated %s than %s, and differences under %s are within what such an estimate can be wrong by.",
			quote(best.Strategy), moreOrLess(best.Change), quote(first.Strategy), percent(tooClose))
	}
	text := fmt.Sprintf("%s uses an estimated %s water than %s, %s a year", quote(best.Strategy), moreOrLess(best.Change), quote(first.Strategy),
		s.Units.volumeText(first.M3PerYear-best.M3PerYear))
	if math.IsNaN(best.StressDry) {
		return text + "."
	}
	return text + fmt.Sprintf(", with %s stress days in a dry year instead of %s.", fixed(best.StressDry, 0), fixed(first.StressDry, 0))
}

// diagnosis tells how the first strategy stands to the need. The bounds 0.7
// and 1.3 are a choice, no source.
func diagnosis(s *Study, rows []tally.Row) string {
	ratio := rows[0].ApplicationRatio
	name := quote(rows[0].Strategy)
	switch {
	case math.IsNaN(ratio):
		return "The plants need no watering in this record."
	case ratio < 0.7:
		return fmt.Sprintf("%s applies %s times the least that avoids stress. A strategy that meets the need will use more water than it, not less.", name, fixed(ratio, 2))
	case ratio > 1.3:
		return fmt.Sprintf("%s applies %s times the least that avoids stress: there is water to save.", name, fixed(ratio, 2))
	}
	return fmt.Sprintf("%s applies %s times the least that avoids stress: there is little to save without stress.", name, fixed(ratio, 2))
}
