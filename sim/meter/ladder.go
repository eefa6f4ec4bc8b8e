package meter

import (
	"slices"

	"loamledger/weather/cal"
)

// A Model is a baseline: what the meter would have shown without a change.
type Model string

// The models, from the one with most knowledge of the site to the one with least.
const (
	AsProgrammed Model = "as programmed"
	Scaled       Model = "as programmed, scaled"
	MonthMean    Model = "calendar-month mean"
	NeedModel    Model = "need regression"
)

// A ModelDoc describes a model.
type ModelDoc struct {
	Model   Model
	Doc     string
	Weather bool // it follows the weather of the days it is asked about
}

var models = [...]ModelDoc{
	{AsProgrammed, "the replay of the strategy as found, plus base use", true},
	{Scaled, "the same, with irrigation times one factor, so that its total is that of the meter", true},
	{MonthMean, "the mean use per day of each calendar month in the reads, whatever the weather", false},
	{NeedModel, "use per day = base + k × max(0, need − threshold), need being 0.8 ETo less effective rain", true},
}

// Doc returns the description of a model.
func (m Model) Doc() ModelDoc {
	return models[slices.IndexFunc(models[:], func(d ModelDoc) bool { return d.Model == m })]
}

// A Site is what baselines know of one meter.
type Site struct {
	Periods []Period
	Days    *Days
	People  float64 // 0 if not given
	South   bool
	Only    bool   // the meter serves irrigation only
	Wanted  Method // of base use; empty for the first that gives a value
	Cycle   Cycle
	Stated  float64 // base use that the scenario states [m³/d]; 0 for none
}

// needs returns the need of every period within the days, 0 for others.
func (s *Site) needs() []float64 {
	out := make([]float64, len(s.Periods))
	for i := range s.Periods {
		if p := &s.Periods[i]; p.From >= s.Days.Start && p.To <= s.Days.End() {
			out[i] = s.Days.need(p)
		}
	}
	return out
}

// Bases returns the base use of the periods at the given indices by every method.
func (s *Site) Bases(at []int) []Base {
	return Bases(&BaseInput{periods: s.Periods, at: at, needMM: s.needs(), persons: s.People, south: s.South, cycle: s.Cycle, Only: s.Only,
		Stated: s.Stated})
}

// BaseOf returns the base use that counts, of the periods at the given indices
// [m³/d]; ok is false if no method gives one.
func (s *Site) BaseOf(at []int) (b Base, ok bool) {
	bases := s.Bases(at)
	i := Choose(bases, s.Wanted)
	if i < 0 {
		return b, false
	}
	return bases[i], true
}

// A predictor returns the use of a period [m³]; ok is false if it cannot.
type predictor func(p *Period) (m3 float64, ok bool)

// fit fits a model to the periods at the given indices and returns it with the
// number of values that were fitted; nil if it cannot be fitted.
func (s *Site) fit(m Model, at []int) (predict predictor, fitted int) {
	switch m {
	case AsProgrammed, Scaled:
		b, ok := s.BaseOf(at)
		if !ok {
			return nil, 0
		}
		if b.Method.Doc().Fitted {
			fitted = 1
		}
		factor := 1.0
		if m == Scaled {
			if factor, ok = s.factor(at, b.M3Day); !ok {
				return nil, 0
			}
			fitted++
		}
		return func(p *Period) (float64, bool) {
			return float64(factor*s.Days.Sim(p)) + float64(b.M3Day*float64(p.Days())), true
		}, fitted
	case NeedModel:
		l, ok := NeedLine(s.Periods, s.needs(), at)
		if !ok {
			return nil, 0
		}
		return func(p *Period) (float64, bool) { return l.PerDay(s.Days.need(p)) * float64(p.Days()), true }, 3
	}
	mean, fitted := s.monthMeans(at)
	if fitted == 0 {
		return nil, 0
	}
	return func(p *Period) (sum float64, ok bool) {
		for d := p.From; d < p.To; d++ {
			v, is := mean[d.Month()]
			if !is {
				return 0, false
			}
			sum += v
		}
		return sum, true
	}, fitted
}

// factor returns metered outdoor use over irrigation in the replay, of the periods at
// the given indices; ok is false unless both are above 0.
func (s *Site) factor(at []int, baseM3Day float64) (f float64, ok bool) {
	var outdoor, sim float64
	for _, i := range at {
		p := &s.Periods[i]
		outdoor, sim = outdoor+p.M3-float64(baseM3Day*float64(p.Days())), sim+s.Days.Sim(p)
	}
	return outdoor / sim, outdoor > 0 && sim > 0
}

// sameCV is the difference of CV(RMSE) [%] within which two models are alike, so that
// the one with more knowledge of the site is chosen.
const sameCV = 1e-9

// monthMeans gives every day of a period the period's use per day and returns the
// mean of each calendar month that has a day [m³/d], and their number.
func (s *Site) monthMeans(at []int) (mean map[int]float64, months int) {
	var sum, days [13]float64
	for _, i := range at {
		p := &s.Periods[i]
		for d := p.From; d < p.To; d++ {
			sum[d.Month()] += p.PerDay()
			days[d.Month()]++
		}
	}
	mean = map[int]float64{}
	for m := 1; m <= 12; m++ {
		if days[m] > 0 {
			mean[m] = sum[m] / days[m]
		}
	}
	return mean, len(mean)
}

// A Year is twelve months of reads, from the day of the first read or its
// anniversary.
type Year struct {
	From, To cal.Date // To is the day after the last
	At       []int    // the periods that count and lie within, by their middles
}

// The shares of the days of a year that periods must cover: for a figure of a year
// (CalTRACK 2.0, 2.2.1.2), and to be held out, where periods are scored one by one
// (our choice).
const (
	leastOfYear = 0.9
	leastOfHeld = 0.5
)

// Years splits the periods at the given indices into years, of which they must cover at
// least nine tenths; what is left at the end is not among them.
func (s *Site) Years(at []int) (out []Year) { return s.years(at, leastOfYear) }

func (s *Site) years(at []int, least float64) (out []Year) {
	if len(at) == 0 {
		return nil
	}
	first, last := s.Periods[at[0]].From, s.Periods[at[len(at)-1]].To
	y0, m0, d0 := first.YMD()
	for k := 0; ; k++ {
		y := Year{From: cal.Of(y0+k, m0, d0), To: cal.Of(y0+k+1, m0, d0)}
		if y.From >= last {
			return out
		}
		days := 0
		for _, i := range at {
			p := &s.Periods[i]
			if middle := (p.From + p.To) / 2; middle >= y.From && middle < y.To {
				y.At = append(y.At, i)
				days += p.Days()
			}
		}
		if float64(days) >= least*float64(y.To-y.From) {
			out = append(out, y)
		}
	}
}

// A Rung is one model of the ladder.
type Rung struct {
	Model  Model
	Fit    Score // on all periods before the change
	FitOK  bool
	Held   Score // of years held out, together; nothing was fitted to them
	HeldOK bool
	Missed int     // periods held out that it could not predict
	Years  []Score // of each held-out year; N is 0 if it could not be scored
}

// A Ladder compares the models on the whole meter.
type Ladder struct {
	Years  []Year // the years held out in turn; none if there are fewer than two
	Rungs  []Rung // in the order of knowledge
	Chosen int    // the rung with the lowest CV(RMSE) on years held out; -1 if none has one
	// Follows is the best among those that follow the weather; -1 if none has one.
	Follows int
}

// Ladder fits every model to the periods at the given indices, and to all but each
// of their years in turn.
func (s *Site) Ladder(at []int) *Ladder {
	l := &Ladder{Years: s.years(at, leastOfHeld), Chosen: -1, Follows: -1}
	if len(l.Years) < 2 {
		l.Years = nil
	}
	for _, doc := range models {
		r := Rung{Model: doc.Model}
		if predict, p := s.fit(doc.Model, at); predict != nil {
			m, sim, _ := s.pairs(at, predict)
			r.Fit, r.FitOK = ScoreOf(m, sim, p)
		}
		var held, want []float64
		for _, y := range l.Years {
			rest := slices.DeleteFunc(slices.Clone(at), func(i int) bool { return slices.Contains(y.At, i) })
			predict, _ := s.fit(doc.Model, rest)
			var one Score
			if predict == nil {
				r.Missed += len(y.At)
			} else {
				m, sim, missed := s.pairs(y.At, predict)
				one, _ = ScoreOf(m, sim, 0)
				want, held, r.Missed = append(want, m...), append(held, sim...), r.Missed+missed
			}
			r.Years = append(r.Years, one)
		}
		r.Held, r.HeldOK = ScoreOf(want, held, 0)
		l.Rungs = append(l.Rungs, r)
	}
	better := func(i, than int) bool {
		a := &l.Rungs[i]
		return a.HeldOK && a.Missed == 0 && (than < 0 || a.Held.CV < l.Rungs[than].Held.CV-sameCV)
	}
	for i := range l.Rungs {
		if better(i, l.Chosen) {
			l.Chosen = i
		}
		if l.Rungs[i].Model.Doc().Weather && better(i, l.Follows) {
			l.Follows = i
		}
	}
	return l
}

// pairs returns metered and predicted use of the periods at the given indices, and
// how many could not be predicted.
func (s *Site) pairs(at []int, predict predictor) (m, sim []float64, missed int) {
	for _, i := range at {
		v, ok := predict(&s.Periods[i])
		if !ok {
			missed++
			continue
		}
		m, sim = append(m, s.Periods[i].M3), append(sim, v)
	}
	return m, sim, missed
}
