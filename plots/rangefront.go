package plots

import (
	"fmt"
	"math"

	"loamledger/sim/draw"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// withRanges puts on page one what draws say: the answer is no recommendation if they are
// divided on it, and what to measure first follows from them.
func (r *Report) withRanges(s *Study, f *Facts, rows []tally.Row, v verdict) {
	of := f.Ranges
	if of == nil {
		return
	}
	front := &r.Front
	front.Ranges = sentences(s.RangeVerdict(of), s.RangeSaving(of))
	if d := of.decided(); v == saves && d != draw.Always && d != draw.Likely {
		r.Answer = s.RangeVerdict(of)
		front.Ranges = sentences(punctuated(outcome(s, rows)), s.RangeSaving(of))
		front.Steps[2] = "Settle first what divides the draws; until then, " + lowerFirst(s.keepBase())
	}
	front.Notes = append(front.Notes, fmt.Sprintf("Small numbers below: where eight of ten of %s replays with other inputs lie (P10 to P90); "+
		"“same” where they do not differ.", fixed(float64(of.Draws), 0)))
	if of.narrow() { // what was drawn decides nothing: the doubts of the report itself do
		return
	}
	var texts []string
	for _, d := range s.doubts(f) {
		if d.weather { // no draw changes it
			texts = append(texts, d.text)
		}
	}
	for i := range of.Swings {
		if w := &of.Swings[i]; len(texts) < 3 && w.width() > 0 {
			texts = append(texts, s.swingText(of, w))
		}
	}
	if len(texts) > 0 {
		front.Uncertainties = texts
	}
	if of.first() != nil && of.decided() != draw.Never { // then nothing to measure changes the answer
		m := of.first()
		front.Measure = punctuated(fmt.Sprintf("%s It explains about %s of the variance of %s, more than any other measurement.", m.How,
			percent(m.Share), trimComma(s.targetWords(of))))
	}
}

// narrow reports whether the draws neither divide the answer nor move the saving by as
// much as differences that are too small to rely on.
func (r *Ranges) narrow() bool {
	return r.Target == OfSaving && !r.TooClose() && r.Saving.Width() < tooClose*math.Abs(r.Saving.P50)
}

// swingText says what one input does to the saving, without a period.
func (s *Study) swingText(r *Ranges, w *Swing) string {
	u, what := s.Units, "the saving"
	if r.Option == s.base() {
		what = "the water"
	}
	return fmt.Sprintf("%s: at %s %s is %s %s %s, at %s it is %s", quantity.Capital(w.What), w.Low, what, rounded(u.volume(w.SavingM3[0])),
		u.volumeUnit(),
		s.per(), w.High, rounded(u.volume(w.SavingM3[1])))
}
