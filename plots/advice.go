package plots

import "slices"

// Advice is what the first page says of the decision itself.
type Advice struct {
	Answer        string   // in one short sentence
	Ranges        string   // what draws say of the answer; empty without draws
	WhyNot        string   // what would make an option ready, and why options that use less water are not recommended
	Uncertainties []string // the three biggest
	Measure       string   // the one measurement to make, in sentences
	Steps         []string // what to do next, in order
	Next          []string // by strategy, the one thing to measure next; empty for nothing simple
}

// NewAdvice gives the advice on study s, the same as its report has.
func NewAdvice(s *Study, f *Facts) *Advice {
	v, at := s.verdict(s.Table.Compare())
	a := s.advice(f, len(s.alarms(f)) > 0, v, at)
	a.Next = s.measureNext(f)
	return a
}

// advice gives advice if verdict v names strategy at; alarmed says that something is
// implausible.
func (s *Study) advice(f *Facts, alarmed bool, v verdict, at int) *Advice {
	rows := s.Table.Compare()
	a := &Advice{Answer: punctuated(answer(s, rows)), WhyNot: sentences(punctuated(s.unusual(v, at)), s.whyNots(f, v, at)),
		Uncertainties: f.Uncertainties, Measure: f.measure}
	doubts := s.doubts(f)
	if len(a.Uncertainties) == 0 {
		for _, d := range doubts {
			a.Uncertainties = append(a.Uncertainties, d.text)
		}
	}
	a.Uncertainties = a.Uncertainties[:min(3, len(a.Uncertainties))]
	for i := 0; a.Measure == "" && i < len(doubts); i++ {
		if d := &doubts[i]; d.measure != "" {
			a.Measure = d.measure + " It comes first because " + d.because + "."
		}
	}
	a.Steps = s.steps(f, v, at, a.Measure != "", alarmed)
	if step := s.cycleStep(f.Cycles, at); step != "" && (at != s.base() || f.Running == "") {
		a.Steps = append(a.Steps, step)
	}
	a.withRanges(s, f, rows, v)
	return a
}

// alarms are the sentences on implausible inputs and results.
func (s *Study) alarms(f *Facts) []string {
	return slices.Concat(f.Warnings, Sentences(Alarms(s.Table, s.Units, f.Kinds)), Sentences(f.Results))
}
