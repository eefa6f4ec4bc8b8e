package bill

import (
	"slices"

	"loamledger/weather/cal"
)

// A Split is rates whose bills depend on a winter average, as two: what a period costs by its own
// volume, and what the winter average costs as if it were the volume of the period. A bill
// is the sum of both, but for the rounding of percentages.
type Split struct {
	Now, Winter *Rates
	Rule        *Winter
	// Lesser is set if the smaller of the period's volume and the average counts.
	Lesser bool
}

// Split splits the rates; ok is false without a winter average, with several of them, or
// with a minimum that tops up the sum of both.
func (r *Rates) Split() (s Split, ok bool) {
	now, winter := *r, *r
	now.Charges, winter.Charges = nil, nil
	var of []string // charges by the winter average
	for _, c := range r.Charges {
		w := c.Basis.Winter
		if w == nil {
			continue
		}
		if s.Rule != nil && (!s.Rule.same(w) || s.Lesser != c.Basis.Lesser) {
			return Split{}, false
		}
		s.Rule, s.Lesser = w, c.Basis.Lesser
		of = append(of, c.Name)
	}
	if s.Rule == nil {
		return Split{}, false
	}
	for _, c := range r.Charges {
		switch m := c.Minimum; {
		case m != nil && m.Covers.Sign() == 0:
			return Split{}, false
		case c.Basis.Winter != nil:
			c.Basis.Winter, c.Basis.Lesser = nil, false
			winter.Charges = append(winter.Charges, c)
		case m != nil && slices.ContainsFunc(m.Of, func(name string) bool { return slices.Contains(of, name) }):
			winter.Charges = append(winter.Charges, c)
		case c.Percent != nil:
			winter.Charges = append(winter.Charges, c)
			now.Charges = append(now.Charges, c)
		default:
			now.Charges = append(now.Charges, c)
		}
	}
	s.Now, s.Winter = &now, &winter
	return s, true
}

// same reports whether two rules give the same average.
func (w *Winter) same(o *Winter) bool {
	if !slices.Equal(w.Months, o.Months) || w.From != o.From || (w.Default == nil) != (o.Default == nil) {
		return false
	}
	return w.Default == nil || w.Default.Cmp(*o.Default) == 0
}

// last returns when the winter whose average is in force on a day ended, and from when its
// periods count.
func (w *Winter) last(on cal.Date) (ended, from cal.Date) {
	y, _, _ := on.YMD()
	if ended = w.begin(y); ended > on {
		y--
		ended = w.begin(y)
	}
	return ended, w.begin(y - 1)
}

// among reports whether a period is one of such a winter.
func (w *Winter) among(o Between, ended, from cal.Date) bool {
	return o.To <= ended && o.From >= from && slices.Contains(w.Months, o.Middle().Month())
}

// Of returns which periods, of those in order before period i, the average of period i is the
// mean of; none if the default counts.
func (w *Winter) Of(periods []Between, i int) (out []int) {
	ended, from := w.last(periods[i].From)
	for k := range i {
		if w.among(periods[k], ended, from) {
			out = append(out, k)
		}
	}
	return out
}

// PerPeriod returns by what a volume for a normal period is multiplied for one of the given
// days, where tiers follow the days.
func (r *Rates) PerPeriod(days int) float64 {
	num, den := r.Tiers.factor(days, r.NormalDays)
	return float64(num) / float64(den)
}
