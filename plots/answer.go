package plots

import (
	"fmt"
	"math"

	"loamledger/sim"
	"loamledger/sim/tally"
)

// extraStressDays is how many more stress days a year than the first strategy
// has are still held to be the same appearance. No source: a choice, told in
// the report.
const extraStressDays = 5

// tooClose is the change of water below which strategies are not told apart.
// No source: a choice, told in the report.
const tooClose = 0.10

// pick returns the strategy of least water that uses less than the first and
// adds no more than extraStressDays; 0 where there is none.
func pick(s *Study, rows []tally.Row) int {
	best := 0
	for i := 1; i < s.own(); i++ {
		if s.extraStress(rows, i) <= extraStressDays && rows[i].M3PerYear < rows[best].M3PerYear {
			best = i
		}
	}
	return best
}

// judged tells the rule of pick and the limit of what is told apart.
func judged() string {
	return fmt.Sprintf("The first sentence of this page looks for the least water among strategies that add at most %d stress days a year to those of the first, in the dry year, the median year and the mean of the record alike. Differences of water under %s are too small to build on.",
		extraStressDays, percent(tooClose))
}

// extraStress returns how many more stress days strategy i has than the first:
// the most of the dry year, the median year and the mean of the record. A dry
// year alone hides a strategy that browns in every ordinary one.
func (s *Study) extraStress(rows []tally.Row, i int) float64 {
	extra := s.stressPerYear(i) - s.stressPerYear(0)
	for _, d := range []float64{rows[i].StressDry - rows[0].StressDry, rows[i].StressMedian - rows[0].StressMedian} {
		if !math.IsNaN(d) { // without a whole year, the whole record must do
			extra = max(extra, d)
		}
	}
	return math.Round(10*extra) / 10 // a year is 365 days here and 365.25 there
}

// nearest returns, for when pick finds none, the strategy that saves water at
// the least price in stress days, or that of least water where none saves; 0
// where there is no other strategy.
func nearest(s *Study, rows []tally.Row) int {
	best := 0
	better := func(i, than int) bool {
		a, b := &rows[i], &rows[than]
		saves, saved := a.Change <= -tooClose, b.Change <= -tooClose
		if saves != saved {
			return saves
		}
		if x, y := s.extraStress(rows, i), s.extraStress(rows, than); saves && x != y {
			return x < y
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

// insteadOf tells the stress days of strategy st beside those of the first, by
// the same three measures that pick judges by.
func (s *Study) insteadOf(rows []tally.Row, st int) string {
	mean := fmt.Sprintf("%s instead of %s", fixed(s.stressPerYear(st), 0), fixed(s.stressPerYear(0), 0))
	if math.IsNaN(rows[st].StressDry) {
		return mean + " stress days a year in the mean of the record"
	}
	return fmt.Sprintf("%s instead of %s stress days in a dry year, %s instead of %s in a median one, and %s in the mean of the record",
		fixed(rows[st].StressDry, 0), fixed(rows[0].StressDry, 0), fixed(rows[st].StressMedian, 0), fixed(rows[0].StressMedian, 0), mean)
}

// answer says in one short sentence what the comparison comes to: the one
// decision that it speaks for.
func answer(s *Study, rows []tally.Row) string {
	first := &rows[0]
	switch {
	case first.M3PerYear == 0:
		return fmt.Sprintf("%s applies no water, so nothing can be saved against it.", quote(first.Strategy))
	case s.own() == 1:
		return fmt.Sprintf("%s uses an estimated %s a year; no other strategy was given to compare.", quote(first.Strategy), s.Units.volumeText(first.M3PerYear))
	}
	best := pick(s, rows)
	at := best
	if best == 0 {
		at = nearest(s, rows)
	}
	name, change := quote(rows[at].Strategy), rows[at].Change
	saving := fmt.Sprintf("%s saves an estimated %s of what %s uses, %s.", name, percent(-change), quote(first.Strategy), s.inStress(rows, at))
	switch {
	case best > 0 && change <= -tooClose:
		return saving
	case best > 0:
		return fmt.Sprintf("Too close to call: %s uses an estimated %s than %s, within what such an estimate can be wrong by.", name, moreOrLess(change), quote(first.Strategy))
	case change <= -tooClose:
		return "Best trade: " + saving
	}
	return fmt.Sprintf("Nothing here clearly saves water: the nearest, %s, uses an estimated %s, %s.", name, moreOrLess(change), s.inStress(rows, at))
}

// inStress tells the price of strategy st in stress days: of the dry year, the
// median year and the mean of the record the one least in its favour, as the
// numbers stand in the table.
func (s *Study) inStress(rows []tally.Row, st int) string {
	extra, when := math.Round(s.stressPerYear(st))-math.Round(s.stressPerYear(0)), "a year on average"
	if d := math.Round(rows[st].StressMedian) - math.Round(rows[0].StressMedian); d >= extra {
		extra, when = d, "in a median year"
	}
	if d := math.Round(rows[st].StressDry) - math.Round(rows[0].StressDry); d >= extra {
		extra, when = d, "in a dry year"
	}
	days := "stress days"
	if math.Abs(extra) == 1 {
		days = "stress day"
	}
	switch {
	case extra > 0:
		return fmt.Sprintf("at %s more %s %s", fixed(extra, 0), days, when)
	case extra < 0:
		return fmt.Sprintf("with %s fewer %s %s", fixed(-extra, 0), days, when)
	}
	return "with no more stress days " + when
}

// detail follows the answer with its numbers and the rule that it was found by;
// empty where the answer says all.
func detail(s *Study, rows []tally.Row) string {
	first := &rows[0]
	if first.M3PerYear == 0 || s.own() == 1 {
		return ""
	}
	if best := pick(s, rows); best > 0 {
		return fmt.Sprintf("%s uses an estimated %s water than %s, %s a year, with %s.", quote(rows[best].Strategy), moreOrLess(rows[best].Change), quote(first.Strategy),
			s.Units.volumeText(first.M3PerYear-rows[best].M3PerYear), s.insteadOf(rows, best))
	}
	at := nearest(s, rows)
	return fmt.Sprintf("None of the other strategies uses less water than %s without adding more than %d stress days a year, be it in the dry year, the median year or the mean of the record; the nearest is %s: an estimated %s water, with %s.",
		quote(first.Strategy), extraStressDays, quote(rows[at].Strategy), moreOrLess(rows[at].Change), s.insteadOf(rows, at))
}

// basis warns that the first strategy is not counted as it was asked for: the
// comparison is then against less water than really runs.
func basis(s *Study, f *Facts) string {
	if f.leftOut(0) == 0 {
		return ""
	}
	return fmt.Sprintf("%s is counted as the limits cut it, without %s of its minutes a year: what runs today may use more.",
		quote(s.Table.Strategies[0]), rounded(f.leftOut(0)/s.years()))
}

// The bounds of what is told apart by diagnosis are a choice, no source.
const (
	clearlyLess = 0.7
	clearlyMore = 1.3
)

// diagnosis tells how the first strategy stands to the need, and to what
// uneven coverage and losses make of the need: a surplus that only reaches the
// quarter watered least can not be saved by the clock.
func diagnosis(s *Study, rows []tally.Row) string {
	ratio, asked := rows[0].ApplicationRatio, s.askedRatio()
	name, stress := quote(rows[0].Strategy), rows[0].StressDry
	when := "in a dry year"
	if math.IsNaN(stress) {
		stress, when = s.stressPerYear(0), "a year"
	}
	if math.IsNaN(ratio) {
		return "The plants need no watering in this record."
	}
	text := fmt.Sprintf("%s applies %s times the least that avoids stress, and has %s stress days %s", name, fixed(ratio, 2), fixed(stress, 0), when)
	if asked > 1.05 {
		text += fmt.Sprintf("; uneven coverage and losses alone ask for about %s times that least", fixed(asked, 2))
	}
	switch {
	case ratio < clearlyLess*asked && stress > extraStressDays:
		return text + ". A strategy that meets the need will use more water than it, not less."
	case ratio > clearlyMore*asked:
		return text + ": there is water to save."
	case ratio > clearlyMore && asked-1 > (ratio-1)/2:
		return text + ". Most of the surplus goes into uneven coverage and losses: repair before cutting minutes."
	}
	return text + ": there is little to save without stress."
}

// askedRatio returns how many times the need of the site has to be applied for
// uneven coverage and losses alone: the mean over the zones of the run-time
// multiplier over what the losses leave, weighted by what each zone needs, as
// the application ratio is.
func (s *Study) askedRatio() float64 {
	sum, weight := 0.0, 0.0
	for z := range s.Table.Zones {
		zone := &s.Table.Zones[z]
		need := s.Table.Total(s.Table.LeastWaterIndex(), z)
		sum += zone.AppliedToNeeded() * need.GrossMM * zone.AreaM2
		weight += need.GrossMM * zone.AreaM2
	}
	return sum / weight
}
