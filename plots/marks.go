package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// PlantMarks is what other tolerance and browning marks of the plants do to the
// verdict: every strategy, replayed with lower and with higher marks.
type PlantMarks struct{ Cases []MarksCase }

// A MarksCase is the replay with every mark moved by Shift, within 0 to 1.
type MarksCase struct {
	Shift float64 // 0 for the marks as given
	Table *tally.Table
}

// A MarksAnswer is what a comparison with moved marks recommends.
type MarksAnswer struct {
	Shift       float64
	Same        bool   // the verdict is that of the marks as given
	Recommended string // the strategy that saves water with about as few stress days; empty for none
	Text        string // the answer in one sentence
}

// MarksAnswers returns the answer at each case; nil if there is nothing to compare.
func (s *Study) MarksAnswers(m *PlantMarks) []MarksAnswer {
	v, at := s.verdict(s.Table.Compare())
	if m == nil || v == nothingToCompare {
		return nil
	}
	var out []MarksAnswer
	for i := range m.Cases {
		c := s.with(m.Cases[i].Table)
		rows := c.Table.Compare()
		w, other := c.verdict(rows)
		a := MarksAnswer{Shift: m.Cases[i].Shift, Same: w == v && other == at, Text: answer(c, rows)}
		if w == saves {
			a.Recommended = s.Table.Strategies[other]
		}
		out = append(out, a)
	}
	return out
}

// MarksVerdict says whether the verdict holds with other marks, and how the stress
// days of its strategy move; empty if there is nothing to compare.
func (s *Study) MarksVerdict(m *PlantMarks) string {
	answers := s.MarksAnswers(m)
	if len(answers) == 0 {
		return ""
	}
	_, at := s.verdict(s.Table.Compare())
	var days, flips []string
	for i := range answers {
		a := &answers[i]
		days = append(days, fixed(s.with(m.Cases[i].Table).stressPerYear(at), 0)+" with marks "+shifted(a.Shift))
		switch {
		case a.Same:
		case a.Recommended != "":
			flips = append(flips, fmt.Sprintf("With marks %s, %s is recommended: it %s", shifted(a.Shift), quote(a.Recommended),
				strings.TrimPrefix(a.Text, "Recommended: "+quote(a.Recommended)+" ")))
		default:
			flips = append(flips, fmt.Sprintf("With marks %s, no strategy is recommended: %s", shifted(a.Shift), a.Text))
		}
	}
	text := marksHead(len(flips) > 0) + fmt.Sprintf(" (the tolerance and browning marks of every plant). Stress days of %s %s: %s.",
		quote(s.Table.Strategies[at]), s.onAverage(), strings.Join(days, ", "))
	return punctuated(strings.Join(append([]string{text}, flips...), " "))
}

// marksShort says whether the verdict holds with other marks; empty if there is
// nothing to compare.
func (s *Study) marksShort(m *PlantMarks) string {
	if len(s.MarksAnswers(m)) == 0 {
		return ""
	}
	return marksHead(s.marksFlip(m)) + "."
}

func marksHead(flips bool) string {
	if flips {
		return "The verdict flips with marks moved by 0.1"
	}
	return "The verdict is the same with marks 0.1 lower and higher"
}

// marksFlip reports whether other marks change the verdict.
func (s *Study) marksFlip(m *PlantMarks) bool {
	return slices.ContainsFunc(s.MarksAnswers(m), func(a MarksAnswer) bool { return !a.Same })
}

// shifted names a shift of the marks.
func shifted(by float64) string {
	size := quantity.Number(math.Abs(by), 2)
	switch {
	case by < 0:
		return size + " lower"
	case by > 0:
		return size + " higher"
	}
	return "as given"
}
