package soilwater

import "math"

// StuckDays is the number of days in a row with one and the same reading from which on
// a sensor may be stuck: no rain, no plant and no season has moved it. Our choice.
const StuckDays = 45

// Stuck returns the longest run of days with the same reading: the index of its first
// day and its length. Days without a reading end a run.
func (l *Level) Stuck() (from, days int) {
	at := 0
	for i, v := range l.Theta {
		if i > 0 && v != l.Theta[i-1] {
			at = i
		}
		if n := i - at + 1; !math.IsNaN(v) && n > days {
			from, days = at, n
		}
	}
	return from, days
}
