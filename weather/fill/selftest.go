package fill

import (
	"fmt"
	"math"
	"math/rand/v2"

	"loamledger/weather"
)

// A ColumnError is what one rule got wrong on days that were blanked to see.
type ColumnError struct {
	Column  weather.Column
	Mark    weather.Mark // the rule
	Days    int          // blanked days that the rule filled
	Bias    float64      // mean of filled − true, in the column's unit
	MeanAbs float64      // mean absolute error, in the column's unit
	Ratio   float64      // sum filled / sum true; of use for rain only, NaN if nothing fell
}

// String puts the error in words for a person.
func (e ColumnError) String() string {
	u := e.Column.Unit()
	if e.Column == weather.Rain {
		return fmt.Sprintf("%s, %v: %d days blanked, filled rain is %.2f of the true one, mean absolute error %.2f %s", e.Column.Label(), e.Mark, e.Days, e.Ratio, e.MeanAbs, u)
	}
	return fmt.Sprintf("%s, %v: %d days blanked, bias %+.2f, mean absolute error %.2f %s", e.Column.Label(), e.Mark, e.Days, e.Bias, e.MeanAbs, u)
}

// gapLengths are the gaps that [SelfTest] makes, in turn [d].
var gapLengths = [...]int{1, 2, 3, 5, 10}

// selfTestSpacing is the mean number of days from one made gap to the next.
const selfTestSpacing = 60

// SelfTest blanks days of s that are known, fills them by the rules of o and
// tells by how much each rule was off, by column and rule. The limits on years
// do not apply. It does not change s; equal seeds blank equal days.
func SelfTest(s *weather.Series, o Options, seed uint64) []ColumnError {
	o = o.withDefaults()
	w := newWork(s, o)
	r := rand.New(rand.NewPCG(seed, 0))
	nan := math.NaN()
	blanked := make([]bool, s.Days)
	for k, i := 0, r.IntN(selfTestSpacing); i < s.Days; k++ {
		length := gapLengths[k%len(gapLengths)]
		for j := i; j < min(i+length, s.Days); j++ {
			blanked[j] = true
		}
		i += length + selfTestSpacing/2 + r.IntN(selfTestSpacing)
	}
	for _, c := range needed {
		for i, b := range blanked {
			if b {
				w.data[c][i], w.mark[c][i] = nan, weather.Missing
			}
		}
	}
	w.run()
	w.order()
	var list []ColumnError
	for _, c := range needed {
		if !s.Has(c) {
			continue
		}
		for _, m := range [...]weather.Mark{weather.Interpolated, weather.Donated, weather.Climatology} {
			if e := w.score(c, m, blanked); e.Days > 0 {
				list = append(list, e)
			}
		}
	}
	return list
}

// score compares what rule m put on the blanked days of c with what was there.
func (w *work) score(c weather.Column, m weather.Mark, blanked []bool) ColumnError {
	e := ColumnError{Column: c, Mark: m}
	var filled, want, abs float64
	for i, b := range blanked {
		v := w.s.Data[c][i]
		if !b || w.mark[c][i] != m || math.IsNaN(v) || w.s.Mark[c][i].Filled() {
			continue
		}
		e.Days++
		filled, want, abs = filled+w.data[c][i], want+v, abs+math.Abs(w.data[c][i]-v)
	}
	e.Bias, e.MeanAbs, e.Ratio = (filled-want)/float64(e.Days), abs/float64(e.Days), math.NaN()
	if want > 0 {
		e.Ratio = filled / want
	}
	return e
}
