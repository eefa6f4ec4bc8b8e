package plots

import (
	"fmt"
	"math"
)

// The two grades of stress have the same words in the legends of all charts: the
// pair by which strategies are judged.
const (
	stressKey = "stress (thirsty), whole zone"
	brownKey  = "browning, driest quarter"
)

// grades writes the number of days of both grades.
func grades(stress, brown float64) string {
	return fmt.Sprintf("%s, %s", count(int(math.Round(stress)), "stress day", "stress days"),
		count(int(math.Round(brown)), "browning day", "browning days"))
}

// extremes names the strategies with the most and the fewest days; per follows the
// first number, unless it is empty.
func extremes(what, per string, most, fewest *leader, strategies []string) string {
	if per != "" {
		per = " " + per
	}
	if most.value == fewest.value && len(most.at) > 1 { // all tie
		return fmt.Sprintf("%s: %s%s under every strategy", what, fixed(most.value, 0), per)
	}
	text := fmt.Sprintf("%s: %s%s under %s", what, fixed(most.value, 0), per, most.names(strategies))
	if most.value != fewest.value {
		text += fmt.Sprintf(", %s under %s", fixed(fewest.value, 0), fewest.names(strategies))
	}
	return text
}

// onDays returns bands of role r on the days that are on; the others are gaps.
func onDays(r Role, x []float64, on []bool, ends func(i int) (top, bottom float64)) Series {
	s := Series{Form: Band, Role: r, X: x, Y: make([]float64, len(x)), Base: make([]float64, len(x))}
	for i := range x {
		s.Y[i], s.Base[i] = math.NaN(), math.NaN()
		if on[i] {
			s.Y[i], s.Base[i] = ends(i)
		}
	}
	return s
}

// yes counts the days that are on.
func yes(on []bool) (n int) {
	for _, v := range on {
		if v {
			n++
		}
	}
	return n
}
