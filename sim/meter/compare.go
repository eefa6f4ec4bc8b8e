package meter

import "loamledger/weather/cal"

// A Scope is the part of the use that a score is for.
type Scope string

// The scopes.
const (
	Outdoor Scope = "outdoor"
	Whole   Scope = "whole meter"
	Season  Scope = "season"
)

// A ScopeDoc describes a scope.
type ScopeDoc struct {
	Scope Scope
	Doc   string
}

var scopes = [...]ScopeDoc{
	{Outdoor, "metered use less base use, against the replay: all periods, with those of no watering"},
	{Whole, "metered use against the replay plus base use; a large constant base makes it look good for nothing"},
	{Season, "as outdoor, only periods in which the replay waters"},
}

// Scopes returns the scopes. The slice is the caller's.
func Scopes() []ScopeDoc { return append([]ScopeDoc(nil), scopes[:]...) }

// A Pair is one period in a comparison, before and beside any change.
type Pair struct {
	period int
	SimM3  float64 // irrigation in the replay; 0 if the period is outside its days
	BaseM3 float64
	Known  bool // the replay covers the period
	After  bool // after the change
}

// A Comparison is the replay of the strategy as found beside the meter.
type Comparison struct {
	Pairs    []Pair // of every period, also those left out
	Before   []int  // the periods that count, before the change
	After    []int  // and after it
	Bases    []Base
	Base     int // the index of the method that counts; -1 if none gives a value
	Scores   []ScopeScore
	FewWhole bool // too few periods to say much
	Ladder   *Ladder
}

// A ScopeScore is the score of one scope.
type ScopeScore struct {
	Scope Scope
	Score
	OK bool
}

// Compare compares the periods of a site, on which [Bounds] and [ApplyEvents] have
// worked. changed is the day of the change, 0 for none.
func (s *Site) Compare(changed cal.Date) *Comparison {
	c := &Comparison{Base: -1}
	for _, i := range Counted(s.Periods) {
		if changed != 0 && s.Periods[i].From >= changed {
			c.After = append(c.After, i)
		} else {
			c.Before = append(c.Before, i)
		}
	}
	c.Bases = s.Bases(c.Before)
	c.Base = Choose(c.Bases, s.Wanted)
	day, p := 0.0, 0
	if c.Base >= 0 {
		if day = c.Bases[c.Base].M3Day; c.Bases[c.Base].Method.Doc().Fitted {
			p = 1
		}
	}
	for i := range s.Periods {
		one := &s.Periods[i]
		pair := Pair{period: i, BaseM3: day * float64(one.Days()), After: changed != 0 && one.From >= changed}
		if one.From >= s.Days.Start && one.To <= s.Days.End() {
			pair.SimM3, pair.Known = s.Days.Sim(one), true
		}
		c.Pairs = append(c.Pairs, pair)
	}
	for _, doc := range scopes {
		var m, sim []float64
		for _, i := range c.Before {
			use, replayed := s.Periods[i].M3, c.Pairs[i].SimM3
			switch doc.Scope {
			case Outdoor:
				use -= c.Pairs[i].BaseM3
			case Whole:
				replayed += c.Pairs[i].BaseM3
			case Season:
				if use -= c.Pairs[i].BaseM3; replayed == 0 {
					continue
				}
			}
			m, sim = append(m, use), append(sim, replayed)
		}
		sc := ScopeScore{Scope: doc.Scope}
		sc.Score, sc.OK = ScoreOf(m, sim, p)
		sc.OK = sc.OK && c.Base >= 0
		c.Scores = append(c.Scores, sc)
	}
	c.FewWhole = len(c.Before) < LeastPeriods
	c.Ladder = s.Ladder(c.Before)
	return c
}

// Of returns the score of a scope.
func (c *Comparison) Of(scope Scope) *ScopeScore {
	for i := range c.Scores {
		if c.Scores[i].Scope == scope {
			return &c.Scores[i]
		}
	}
	panic("meter: a scope that is not in the list")
}
