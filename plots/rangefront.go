package plots

import (
	"fmt"
	"math"

	"loamledger/sim/draw"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// withRanges puts what draws say into the advice: the answer is no recommendation if they
// are divided on it, and what to measure first follows from them.
func (a *Advice) withRanges(s *Study, f *Facts, rows []tally.Row, v verdict) {
	of := f.Ranges
	if of == nil {
		return
	}
	a.Ranges = s.RangeVerdict(of)
	if v == saves || v == tradeOff || v == tooCloseToCall { // else nobody is to bank on it
		a.Ranges = sentences(a.Ranges, s.RangeSaving(of))
	}
	if d := of.decided(); v == saves && d != draw.Always && d != draw.Likely {
		a.Answer = s.RangeVerdict(of)
		a.Ranges = sentences(punctuated(outcome(s, rows)), s.RangeSaving(of))
		a.Steps = append(a.Steps[:enterStep:enterStep], "Settle first what these tries disagree on; until then, "+
			lowerFirst(s.keepBase(f)))
	}
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
		a.Uncertainties = texts
	}
	if of.decided() == draw.Never {
		a.Measure += " But in no try does a better value change the answer above."
	} else if m := of.first(); m != nil {
		a.Measure = punctuated(fmt.Sprintf("%s Of what can be measured, this settles most: about %s of the doubt about %s.", m.How,
			percent(m.Share), trimComma(s.targetWords(of))))
	}
}

// rangeNotes say what the range below each number is; none without draws.
func (s *Study) rangeNotes(of *Ranges) []Item {
	if of == nil {
		return nil
	}
	return []Item{{"Range", fmt.Sprintf("below each number, where eight of ten of %s tries lie, each a replay with "+
		"other values of the inputs that are in doubt. “%s”: it follows from inputs given as one number, such as run times and "+
		"sprinkler rates; if these are off, so is it.", fixed(float64(of.Draws), 0), quantity.Capital(notVaried))}}
}

// notVaried is the range of water or money that no draw changes.
const notVaried = "not varied"

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
