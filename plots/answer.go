package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim"
	"loamledger/sim/tally"
)

// extraStressDays is how many more stress days a year than the baseline
// still count as the same appearance. No source: a choice, stated in the report.
const extraStressDays = 5

// tooClose is the change of water below which strategies count as equal. No
// source: a choice, stated in the report.
const tooClose = 0.10

// pick returns the strategy with the least water that uses less than the baseline
// and adds no more than extraStressDays, among those that a verdict may name; the
// baseline if there is none.
func pick(s *Study, rows []tally.Row) int {
	best := s.base()
	for _, i := range s.ready() {
		if s.extraStress(rows, i) <= extraStressDays && rows[i].M3PerYear < rows[best].M3PerYear {
			best = i
		}
	}
	return best
}

// judged states the rule of pick and the smallest difference that counts.
func (s *Study) judged() string {
	return fmt.Sprintf("The first sentence of this report picks the strategy with the least water among those that add at most "+
		"%s to those of the baseline%s. "+
		"%s "+
		"Differences in water under %s are too small to rely on.", s.extraWords(), s.inYears("and"), s.ruledOut(), percent(tooClose))
}

// extraWords is the number of extra stress days that pick allows.
func (s *Study) extraWords() string {
	return fmt.Sprintf("%d stress days %s", extraStressDays, s.per())
}

// inYears names the years by which pick judges; empty if no year is whole.
func (s *Study) inYears(conjunction string) string {
	if basis := s.Table.Basis(); !basis.Yearly() {
		return ""
	}
	return ", in the dry year, in the median year " + conjunction + " on average"
}

// extraStress returns how many more stress days strategy i has than the baseline:
// the highest of the dry year, the median year and the mean of the record. A dry
// year alone hides a strategy that falls short in every ordinary one.
func (s *Study) extraStress(rows []tally.Row, i int) float64 {
	extra := s.stressPerYear(i) - s.stressPerYear(s.base())
	for _, d := range []float64{rows[i].StressDry - rows[s.base()].StressDry, rows[i].StressMedian - rows[s.base()].StressMedian} {
		if !math.IsNaN(d) { // without a whole year, the whole record must do
			extra = max(extra, d)
		}
	}
	return math.Round(10*extra) / 10
}

// nearest returns, if pick finds none, the strategy that saves water with the
// fewest extra stress days, or that with the least water if none saves; the
// baseline if there is no other strategy.
func nearest(s *Study, rows []tally.Row) int {
	best := s.base()
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
	for _, i := range s.ready() {
		if best == s.base() || better(i, best) {
			best = i
		}
	}
	return best
}

func (s *Study) stressPerYear(st int) float64 {
	return s.mean(st, func(x *sim.Sums) float64 { return float64(x.StressZoneDays) }) / s.years()
}

// insteadOf compares the stress days of strategy st with those of the baseline, by
// the three measures of pick.
func (s *Study) insteadOf(rows []tally.Row, st int) string {
	mean := fmt.Sprintf("%s instead of %s", fixed(s.stressPerYear(st), 0), fixed(s.stressPerYear(s.base()), 0))
	if math.IsNaN(rows[st].StressDry) {
		return mean + " stress days " + s.onAverage()
	}
	return fmt.Sprintf("%s instead of %s stress days in a dry year, %s instead of %s in a median year, and %s on average",
		fixed(rows[st].StressDry, 0), fixed(rows[s.base()].StressDry, 0),
		fixed(rows[st].StressMedian, 0), fixed(rows[s.base()].StressMedian, 0), mean)
}

// onAverage is what follows the mean of the whole years, or a sum over the days of
// a record without one.
func (s *Study) onAverage() string {
	if basis := s.Table.Basis(); !basis.Yearly() {
		return basis.Words()
	}
	return "a year on average"
}

// A verdict is the kind of answer that a comparison gives.
type verdict uint8

// The verdicts.
const (
	nothingToCompare verdict = iota
	saves                    // a strategy saves water with about as few stress days
	tooCloseToCall           // it does, by too little to rely on
	tradeOff                 // water is saved only with more stress days
	savesNothing             // no strategy clearly saves water
	notReady                 // every strategy breaks rules, browns more or is too thirsty
)

// verdict returns the kind of answer and the strategy that it is about.
func (s *Study) verdict(rows []tally.Row) (v verdict, at int) {
	if rows[s.base()].M3PerYear == 0 || len(s.others()) == 0 {
		return nothingToCompare, s.base()
	}
	if len(s.ready()) == 0 {
		return notReady, s.base()
	}
	best := pick(s, rows)
	at = best
	if best == s.base() {
		at = nearest(s, rows)
	}
	saved := rows[at].Change <= -tooClose
	switch {
	case best != s.base() && saved:
		return saves, at
	case best != s.base():
		return tooCloseToCall, at
	case saved:
		return tradeOff, at
	}
	return savesNothing, at
}

// answer says in one short sentence, in everyday words, what the comparison
// shows and recommends.
func answer(s *Study, rows []tally.Row) string {
	if v, _ := s.verdict(rows); v == saves {
		return "Recommended: " + outcome(s, rows)
	}
	return outcome(s, rows)
}

// outcome is what the comparison shows, without the word of recommendation.
func outcome(s *Study, rows []tally.Row) string {
	first := &rows[s.base()]
	v, at := s.verdict(rows)
	if v == nothingToCompare {
		if first.M3PerYear == 0 {
			return fmt.Sprintf("%s applies no water, so there is nothing to save.", quote(first.Strategy))
		}
		return fmt.Sprintf("%s uses an estimated %s %s; there is no other option to compare.",
			quote(first.Strategy), s.Units.volumeText(first.M3PerYear), s.per())
	}
	if v == notReady {
		return s.notReadyText()
	}
	name, change := quote(rows[at].Strategy), rows[at].Change
	saving := fmt.Sprintf("%s saves an estimated %s %s, %s of what %s uses, %s.",
		name, s.Units.volumeText(first.M3PerYear-rows[at].M3PerYear), s.per(), percent(-change), quote(first.Strategy),
		s.inThirst(rows, at)+s.worstZone(at))
	switch v {
	case saves:
		return saving
	case tooCloseToCall:
		if sameWater(change) {
			return fmt.Sprintf("Too close to call: %s %s %s.", name, usesWater(change), quote(first.Strategy))
		}
		return fmt.Sprintf("Too close to call: %s %s %s, less than the error of such an estimate.",
			name, usesWater(change), quote(first.Strategy))
	case tradeOff:
		return "Best trade-off: " + saving
	}
	uses := "uses about as much"
	if !sameWater(change) {
		uses = "uses an estimated " + moreOrLess(change)
	}
	return fmt.Sprintf("No option clearly saves water: the closest, %s, %s, %s.", name, uses, s.inThirst(rows, at))
}

// usesWater compares the water of an option with that of the strategy named next.
func usesWater(change float64) string {
	if sameWater(change) {
		return "uses about as much water as"
	}
	return "uses an estimated " + moreOrLess(change) + " water than"
}

// inThirst states the price of strategy st in stress days, with their everyday
// name.
func (s *Study) inThirst(rows []tally.Row, st int) string {
	return "with " + s.thirst(rows, st).words()
}

// detail gives the numbers behind the answer and the rule that it follows; empty
// if the answer says all.
func detail(s *Study, rows []tally.Row) string {
	first := &rows[s.base()]
	v, at := s.verdict(rows)
	name, change := quote(rows[at].Strategy), moreOrLess(rows[at].Change)
	switch v {
	case nothingToCompare:
		return ""
	case notReady:
		return s.whatToTry()
	case saves, tooCloseToCall:
		if sameWater(rows[at].Change) {
			return fmt.Sprintf("%s %s %s, with %s.", name, usesWater(rows[at].Change), quote(first.Strategy), s.insteadOf(rows, at))
		}
		return fmt.Sprintf("%s %s %s, %s %s, with %s.",
			name, usesWater(rows[at].Change), quote(first.Strategy), s.Units.volumeText(first.M3PerYear-rows[at].M3PerYear),
			s.per(), s.insteadOf(rows, at))
	}
	return fmt.Sprintf("No other strategy uses less water than %s without adding more than %s%s; "+
		"the closest is %s: an estimated %s water, with %s.",
		quote(first.Strategy), s.extraWords(), s.inYears("or"), name, change, s.insteadOf(rows, at))
}

// basis says what the limits do to the baseline: either they cut it, and the
// comparison is with less water than is really used, or it counts as it ran, and
// part of a change is due to the limits. It also says from when they hold.
func basis(s *Study, f *Facts, rows []tally.Row, v verdict, at int) string {
	base := s.base()
	var text []string
	if cut := s.Table.Cut; cut > 0 {
		text = append(text, fmt.Sprintf("%s counts as it ran, with what the limits forbid. Cut to the limits it would use %s %s, %s.",
			quote(rows[base].Strategy), s.Units.volumeText(rows[cut].M3PerYear), s.per(), moreOrLess(rows[cut].Change)))
		if v != nothingToCompare && v != notReady && rows[cut].M3PerYear > 0 {
			text = append(text, fmt.Sprintf("Against that, %s uses %s.", quote(rows[at].Strategy),
				moreOrLess(rows[at].M3PerYear/rows[cut].M3PerYear-1)))
		}
	}
	if f.leftOut(base) > 0 {
		text = append(text, fmt.Sprintf("The site’s limits cut %s min %s from %s; actual use today may be higher.",
			rounded(f.leftOut(base)/s.years()), s.per(), quote(s.Table.Strategies[base])))
	}
	if f.Since != "" {
		text = append(text, f.Since)
	}
	return strings.Join(text, " ")
}

// The bounds of diagnosis are a choice, no source.
const (
	clearlyLess = 0.7
	clearlyMore = 1.3
)

// diagnosis compares the baseline with the need, and with what uneven
// coverage and losses make of the need: run times cannot save a surplus that
// only serves the driest quarter.
func diagnosis(s *Study, rows []tally.Row) string {
	ratio, asked := rows[s.base()].ApplicationRatio, s.Table.UnevenRatio()
	name, stress := quote(rows[s.base()].Strategy), rows[s.base()].StressDry
	when := "in a dry year"
	if math.IsNaN(stress) {
		stress, when = s.stressPerYear(s.base()), s.per()
	}
	if math.IsNaN(ratio) {
		return "The plants need no watering in this record."
	}
	text := fmt.Sprintf("%s applies %s times the "+tally.LeastWater+" and has %s stress days %s",
		name, fixed(ratio, 2), fixed(stress, 0), when)
	if asked > 1.05 {
		text += fmt.Sprintf("; uneven coverage and losses account for about %s times that minimum", fixed(asked, 2))
	}
	switch {
	case ratio < clearlyLess*asked && stress > extraStressDays:
		return text + ". A strategy that meets the need will use more water, not less."
	case ratio > clearlyMore*asked:
		return text + ", so there is water to save."
	case ratio > clearlyMore && asked-1 > (ratio-1)/2:
		return text + ". Uneven coverage and losses take most of the surplus: repair before you cut run times."
	}
	return text + ", so there is little to save without stress."
}
