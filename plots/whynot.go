package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/tally"
)

// whyNot says why options that use less water than strategy at, which the verdict
// is about, are not recommended.
// It is empty if there are none.
func (s *Study) whyNot(v verdict, at int) string {
	if v != saves && v != tradeOff {
		return ""
	}
	rows := s.Table.Compare()
	var least thirst
	reasons := map[BarCode]int{}
	n := 0
	for _, st := range s.others() {
		if rows[st].M3PerYear > (1-tooClose)*rows[at].M3PerYear { // a smaller difference is too small to rely on
			continue
		}
		t := s.thirst(rows, st)
		if n == 0 || t.days < least.days {
			least = t
		}
		code := BarCode("")
		if bars := s.bars(st); len(bars) > 0 {
			code = bars[0].Code
		}
		reasons[code]++
		n++
	}
	switch n {
	case 0:
		return ""
	case 1:
		why := "has " + least.words()
		if bars := s.bars(least.strategy); len(bars) > 0 {
			why = s.barWords(&bars[0])
		}
		return fmt.Sprintf("%s uses even less water (%s) but %s, so it is not recommended.", quote(rows[least.strategy].Strategy),
			moreOrLess(rows[least.strategy].Change), why)
	}
	why := strings.Join(s.reasons(reasons), ", ")
	if len(reasons) == 1 {
		why = "they " + strings.TrimPrefix(why, fixed(float64(n), 0)+" ")
	}
	return fmt.Sprintf("%s options use even less water but are not recommended: %s.", fixed(float64(n), 0), why)
}

// reasons counts what keeps several options from being recommended. Every option
// counts once; the empty code stands for thirsty days over the whole site.
func (s *Study) reasons(of map[BarCode]int) (out []string) {
	base := quote(s.Table.Strategies[s.base()])
	for _, r := range []struct {
		code BarCode
		one  string
		many string
	}{
		{breaksRules, "breaks local rules", "break local rules"},
		{brownsMore, "browns part of a zone on more days than " + base, "brown part of a zone on more days than " + base},
		{tooThirsty, "leaves a zone too thirsty", "leave a zone too thirsty"},
		{"", fmt.Sprintf("adds more than %d thirsty days", extraStressDays), fmt.Sprintf("add more than %d thirsty days", extraStressDays)},
	} {
		switch n := of[r.code]; n {
		case 0:
		case 1:
			out = append(out, "1 "+r.one)
		default:
			out = append(out, fixed(float64(n), 0)+" "+r.many)
		}
	}
	return out
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

// shaky says that small changes of what plants tolerate, or of the design ETo, change the verdict; empty
// if they do not.
func (s *Study) shaky(f *Facts) string {
	var ifs []string
	if s.marksFlip(f.Marks) {
		ifs = append(ifs, "if plants tolerate a little less or a little more thirst than assumed")
	}
	if f.Design != nil && len(f.Design.Strategies) > 0 && len(s.designFlips(f.Design)) > 0 {
		ifs = append(ifs, "if controllers are set for a design ETo that is 25% off")
	}
	if len(ifs) == 0 {
		return ""
	}
	return "Not firm: the verdict changes " + strings.Join(ifs, " or ") + "."
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
	t := thirst{st, math.Round(s.stressPerYear(st)) - math.Round(s.stressPerYear(s.base())), s.onAverage()}
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
