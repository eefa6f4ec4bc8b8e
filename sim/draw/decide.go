package draw

// A Decision is what draws say about a claim, such as that one option uses less water
// than another.
type Decision uint8

// The decisions.
const (
	TooClose Decision = iota // the draws are divided
	Likely                   // it holds in at least nine tenths of the draws
	Always                   // it holds in every draw
	Unlikely                 // it holds in at most a tenth of the draws
	Never                    // it holds in no draw
)

// Decide decides on a claim that holds in some of n draws. Exactly nine tenths are
// likely, and exactly a tenth is unlikely; both shares are a choice, no source. No draw
// at all decides nothing.
func Decide(holds, n int) Decision {
	switch {
	case n <= 0:
		return TooClose
	case holds >= n:
		return Always
	case holds <= 0:
		return Never
	case 10*holds >= 9*n:
		return Likely
	case 10*holds <= n:
		return Unlikely
	}
	return TooClose
}
