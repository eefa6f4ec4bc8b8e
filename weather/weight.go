package weather

// A Weight says how much a finding can change a result. Weights are ordered:
// the heavier, the greater.
type Weight uint8

// The weights.
const (
	Note     Weight = iota // worth knowing; results hold
	Notable                // printed in full with every result, but cannot change it much: single days, and what is not used
	Doubtful               // may be wrong: stops a study until someone has looked at the file
	Decisive               // a whole column, the rain or the dates are probably wrong, and results would be, too: stops, and stays on page one
	weights
)

func (w Weight) String() string { return [weights]string{"note", "notable", "doubtful", "decisive"}[w] }

// Stops reports whether a study with a finding of this weight waits for someone to
// accept it.
func (w Weight) Stops() bool { return w >= Doubtful }
