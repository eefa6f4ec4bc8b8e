package strategy

import (
	"math"
	"math/rand/v2"
	"slices"

	"loamledger/weather/cal"
)

// A Term is when a part is in force. The zero Term is always.
type Term struct {
	From  cal.Date // first day; 0 for the start
	Until cal.Date // last day; 0 for no end
	Off   []Days   // days on which it is switched off, such as unplugged
	Lasts *Life    // how long it keeps working after it is installed; nil for ever
}

// Days are the days from From to To, both included.
type Days struct{ From, To cal.Date }

// In reports whether the part is in force on a date. before is set for the time before
// every date of a strategy.
func (t *Term) In(date cal.Date, before bool) bool {
	if before {
		return t.From == 0
	}
	return t.From <= date && (t.Until == 0 || date <= t.Until) &&
		!slices.ContainsFunc(t.Off, func(d Days) bool { return d.From <= date && date <= d.To })
}

// Dates returns the dates on which the term changes.
func (t *Term) Dates() (dates []cal.Date) {
	if t.From != 0 {
		dates = append(dates, t.From)
	}
	if t.Until != 0 {
		dates = append(dates, t.Until+1)
	}
	for _, d := range t.Off {
		dates = append(dates, d.From, d.To+1)
	}
	return dates
}

// A Life is how long parts of a kind keep working. It counts years since installation
// and has nothing to do with the years of a record.
type Life struct {
	Years      float64 // mean life; 0 for no failure
	FailsAt    float64 // age at failure, if it is given instead; 0 for none
	Unplugged  float64 // share of those in use that is switched off for good each year, 0 to 1
	Overridden float64 // share that is overridden from the start, 0 to 1
	Seed       uint64  // of a drawn age
}

// wear is the shape of the distribution of lives: failures become more frequent with
// age, in proportion to it. Source: a choice of ours.
const wear = 2

// scale is the scale of the Weibull distribution of lives whose mean is Years.
func (l *Life) scale() float64 { return l.Years / math.Gamma(1+1.0/wear) }

// Intact returns the share that has not failed at an age [years]:
//
//	R = exp(−(age/scale)²),  scale = life/Γ(3/2)
func (l *Life) Intact(age float64) float64 {
	switch {
	case l.FailsAt > 0:
		if age < l.FailsAt {
			return 1
		}
		return 0
	case l.Years == 0:
		return 1
	}
	return math.Exp(-math.Pow(age/l.scale(), wear))
}

// Working returns the share that is working in the middle of a year since installation,
// the first being 1: not failed, not unplugged and not overridden.
func (l *Life) Working(year int) float64 {
	age := float64(year) - 0.5
	return (1 - l.Overridden) * math.Pow(1-l.Unplugged, age) * l.Intact(age)
}

// Drawn returns the age at failure of one part, drawn with the seed [years]; +Inf if it
// never fails.
func (l *Life) Drawn() float64 {
	switch {
	case l.FailsAt > 0:
		return l.FailsAt
	case l.Years == 0:
		return math.Inf(1)
	}
	u := rand.New(rand.NewPCG(l.Seed, 0x6c696665)).Float64()
	return l.scale() * math.Pow(-math.Log(1-u), 1.0/wear)
}

// Lacking returns the strategy without part i.
func (st *Strategy) Lacking(i int) Strategy {
	out := *st
	if len(st.Stretches) == 0 {
		out.Parts = slices.Delete(slices.Clone(st.Parts), i, i+1)
		if len(st.Terms) > 0 {
			out.Terms = slices.Delete(slices.Clone(st.Terms), i, i+1)
		}
		return out
	}
	out.Stretches = slices.Clone(st.Stretches)
	for k := range out.Stretches {
		without := make([]bool, len(st.Parts))
		copy(without, out.Stretches[k].Without)
		without[i] = true
		out.Stretches[k].Without = without
	}
	return out
}
