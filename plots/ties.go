package plots

import (
	"math"

	"loamledger/weather/portable"
)

// A leader finds the strategies with the highest or lowest value, as rounded for
// a sentence.
type leader struct {
	value float64
	at    []int // none before the first offer
}

// offer adds the value of strategy st; a tie joins, a better value takes over.
func (l *leader) offer(st int, value float64, better func(a, b float64) bool) {
	switch {
	case len(l.at) == 0 || better(value, l.value):
		l.value, l.at = value, []int{st}
	case value == l.value:
		l.at = append(l.at, st)
	}
}

func more(a, b float64) bool  { return a > b }
func fewer(a, b float64) bool { return a < b }

// names quotes the first and counts the rest, so that no sentence picks one of
// several equals.
func (l *leader) names(strategies []string) string {
	text := quote(strategies[l.at[0]])
	if n := len(l.at) - 1; n > 0 {
		text += " and " + otherWords(n)
	}
	return text
}

// otherWords counts the others after a name: small numbers in words.
func otherWords(n int) string {
	words := [...]string{1: "one other", 2: "two others", 3: "three others", 4: "four others"}
	if n < len(words) {
		return words[n]
	}
	return count(n, "other", "others")
}

// shownDepth converts a depth to the number that a sentence shows.
func (u Units) shownDepth(mm float64) float64 {
	scale := portable.Pow(10, float64(u.depthDigits()))
	return math.Round(u.depth(mm)*scale) / scale
}
