package plots

import (
	"strings"

	"loamledger/weather/quantity"
)

// measureNext says for each strategy the one thing to measure next: what of all that can
// be measured would settle most of what is open about it. Without draws, it is the same
// for all, and briefly said; empty texts if there is nothing simple to measure.
func (s *Study) measureNext(f *Facts) []string {
	out := make([]string, len(s.Table.Strategies))
	r := f.Ranges
	if r == nil || len(r.Options) == 0 || r.narrow() {
		for _, d := range s.doubts(f) {
			if what, _, _ := strings.Cut(d.measure, ". "); d.measure != "" {
				what, _, _ = strings.Cut(what, ", ")
				for st := range out {
					out[st] = "As for every option: " + strings.TrimSuffix(what, ".") + "."
				}
				break
			}
		}
		return out
	}
	for st := range min(len(out), len(r.Options)) {
		o := &r.Options[st]
		if o.First == nil {
			out[st] = "No single measurement would settle much."
			continue
		}
		of := "what it saves"
		switch {
		case o.Target == OfAnswer:
			of = "whether it is better than " + quote(s.Table.Strategies[s.base()])
		case o.Target == OfStress:
			of = "its thirsty days"
		case st == s.base():
			of = "the water it uses"
		}
		share := "about " + percent(o.First.Share)
		if s.alike(r, st) {
			out[st] = punctuated("As for every option: the " + o.First.What + ", " + share + " of the doubt about " + of + ".")
			continue
		}
		out[st] = punctuated(quantity.Capital(o.First.How) + " It settles " + share + " of the doubt about " + of + ".")
	}
	return out
}

// alike reports whether all options are to measure what strategy st is.
func (s *Study) alike(r *Ranges, st int) bool {
	for _, other := range s.others() {
		if o := r.Options[other].First; o == nil || o.How != r.Options[st].First.How {
			return false
		}
	}
	return true
}
