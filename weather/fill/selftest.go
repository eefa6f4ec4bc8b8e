package fill

import (
	"fmt"
	"math"
	"math/rand/v2"

	"loamledger/weather"
)

// A ColumnError is the error of one fill rule, measured on days blanked as a test.
type ColumnError struct {
	Column  weather.Column
	Mark    weather.Mark // the rule
	Days    int          // blanked days that the rule filled
	Bias    float64      // mean of filled − true, in the column's unit
	MeanAbs float64      // mean absolute error, in the column's unit
	Ratio   float64      // sum filled / sum true; meaningful for rain only, NaN if no rain fell
}

// String describes the error in words.
func (e ColumnError) String() string {
	u := e.Column.Unit()
	if e.Column == weather.Rain {
		return fmt.Sprintf("%s, %v: %d days blanked, filled rain is %.2f of true rain, mean absolute error %.2f %s", e.Column.Label(), e.Mark,
			e.Days, e.Ratio, e.MeanAbs, u)
	}
	return fmt.Sprintf("%s, %v: %d days blanked, bias %+.2f, mean absolute error %.2f %s", e.Column.Label(), e.Mark, e.Days, e.Bias, e.MeanAbs,
		u)
}

// gapLengths are the lengths of the test gaps that [SelfTest] cycles through [d].
var gapLengths = [...]int{1, 2, 3, 5, 10}

// selfTestSpacing is the mean number of days between test gaps.
const selfTestSpacing = 60

// SelfTest blanks known days of s, fills them by the rules of o and returns the
// error of each rule by column. The limits on years do not apply. It does not
// change s; equal seeds blank equal days.
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
	for _, c := range o.needed() {
		for i, b := range blanked {
			if b {
				w.data[c][i], w.mark[c][i] = nan, weather.Missing
			}
		}
	}
	w.run()
	w.order()
	var list []ColumnError
	for _, c := range o.needed() {
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

// score compares the values that rule m filled on the blanked days of c with
// the true ones.
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
