package plots

// A Judgment is a verdict without its words.
type Judgment struct {
	Strategy int    // that it names
	named    bool   // the strategy saves water by the rules, and so is better than the baseline
	Worth    []bool // by strategy: it saves water and keeps the rules by which a verdict may name it
}

// Judge returns the verdict on the table of the study, without its words. A saving under
// the smallest difference that counts is a saving here: how firm it is, draws show.
func (s *Study) Judge() Judgment {
	rows := s.Table.Compare()
	j := Judgment{Strategy: s.base(), Worth: make([]bool, len(rows))}
	if rows[s.base()].M3PerYear == 0 {
		return j
	}
	for _, st := range s.ready() {
		j.Worth[st] = s.extraStress(rows, st) <= extraStressDays && rows[st].M3PerYear < rows[s.base()].M3PerYear
	}
	if best := pick(s, rows); best != s.base() {
		j.Strategy, j.named = best, true
	}
	return j
}

// Option returns the strategy whose saving is looked at more closely: the one that the
// verdict is about, else the one with the least water; the baseline if there is no
// other.
func (s *Study) Option() int {
	rows := s.Table.Compare()
	if v, at := s.verdict(rows); v != notReady && at != s.base() {
		return at
	}
	best := s.base()
	for _, st := range s.others() {
		if best == s.base() || rows[st].M3PerYear < rows[best].M3PerYear {
			best = st
		}
	}
	return best
}
