package weather

// A Weight says how much a finding can change a result. Weights are ordered:
// the heavier, the greater.
type Weight uint8

// The weights.
const (
	Note     Weight = iota // worth knowing; results hold
	Doubtful               // may be wrong: someone should look at the file
	Decisive               // a whole column, the rain or the dates are probably wrong: results would be, too
	weights
)

func (w Weight) String() string { return [weights]string{"note", "doubtful", "decisive"}[w] }
