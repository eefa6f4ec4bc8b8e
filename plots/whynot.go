package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/tally"
)

// whyNot says why options that use less water than strategy at, which the verdict
// is about, are not recommended: the thirsty days that they add to the baseline.
// It is empty if there are none.
func (s *Study) whyNot(v verdict, at int) string {
	if v != saves && v != tradeOff {
		return ""
	}
	rows := s.Table.Compare()
	var least, most thirst
	n := 0
	for _, st := range s.others() {
		if rounded(s.Units.volume(rows[st].M3PerYear)) == rounded(s.Units.volume(rows[at].M3PerYear)) ||
			rows[st].M3PerYear >= rows[at].M3PerYear { // as the table shows it
			continue
		}
		t := s.thirst(rows, st)
		if n == 0 || t.days < least.days {
			least = t
		}
		if n == 0 || t.days > most.days {
			most = t
		}
		n++
	}
	switch n {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf("%s uses even less water (%s) but has %s, so it is not recommended.", quote(rows[least.strategy].Strategy),
			moreOrLess(rows[least.strategy].Change), least.words())
	}
	return fmt.Sprintf("%s options use even less water but are not recommended. Compared with %s, they have from %s with %s (%s water) "+
		"to %s with %s (%s water).", fixed(float64(n), 0), quote(rows[s.base()].Strategy),
		least.words(), quote(rows[least.strategy].Strategy), moreOrLess(rows[least.strategy].Change),
		most.words(), quote(rows[most.strategy].Strategy), moreOrLess(rows[most.strategy].Change))
}

// greener names the option with the fewest thirsty days in a dry year, if strategy
// at has more and saves more; empty if there is none.
func (s *Study) greener(v verdict, at int) string {
	if v != saves && v != tradeOff {
		return ""
	}
	rows := s.Table.Compare()
	best := at
	for _, st := range s.others() {
		if math.Round(rows[st].StressDry) < math.Round(rows[best].StressDry) {
			best = st
		}
	}
	if best == at || math.IsNaN(rows[best].StressDry) {
		return ""
	}
	return fmt.Sprintf("%s has the fewest thirsty days (%s in a dry year) but saves less water (%s).", quote(rows[best].Strategy),
		fixed(rows[best].StressDry, 0), moreOrLess(rows[best].Change))
}

// shaky says that small changes of what plants tolerate change the verdict; empty
// if they do not.
func (s *Study) shaky(m *PlantMarks) string {
	if !s.marksFlip(m) {
		return ""
	}
	return "Too close to call firm: another option is recommended if plants tolerate a little less or a little more thirst than assumed " +
		"(see Plant marks under " + theNumbers + ")."
}

// A thirst is how many more thirsty days than the baseline a strategy has, in
// the least favorable of the dry year, the median year and the mean of the record,
// as the table shows them.
type thirst struct {
	strategy int
	days     float64
	when     string
}

func (s *Study) thirst(rows []tally.Row, st int) thirst {
	t := thirst{st, math.Round(rows[st].StressPerYear) - math.Round(rows[s.base()].StressPerYear), s.onAverage()}
	if d := math.Round(rows[st].StressMedian) - math.Round(rows[s.base()].StressMedian); d >= t.days {
		t.days, t.when = d, "in a typical year"
	}
	if d := math.Round(rows[st].StressDry) - math.Round(rows[s.base()].StressDry); d >= t.days {
		t.days, t.when = d, "in a dry year"
	}
	return t
}

// words says how many more or fewer thirsty days there are, and when.
func (t thirst) words() string {
	days := "thirsty days"
	if math.Abs(t.days) == 1 {
		days = "thirsty day"
	}
	switch {
	case t.days > 0:
		return fmt.Sprintf("%s more %s %s", fixed(t.days, 0), days, t.when)
	case t.days < 0:
		return fmt.Sprintf("%s fewer %s %s", fixed(-t.days, 0), days, t.when)
	}
	return "no more thirsty days " + t.when
}

// upperFirst makes the first letter of an ASCII text a capital.
func upperFirst(text string) string { return strings.ToUpper(text[:1]) + text[1:] }
