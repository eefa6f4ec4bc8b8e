package sim

// R7Days is the number of days in R7, the share of need met in the last week.
const R7Days = 7

// LeastWeekMM is the ETc of the last seven days below which there is no R7 [mm].
const LeastWeekMM = 1

// A Phase is what is true of a zone's plants on one day.
type Phase uint8

// The bits of a phase.
const (
	Active     Phase = 1 << iota // growing; stress is counted on such days only
	WinterOpen                   // dormant, and the ground not frozen: T30 is at least 0 °C
	Overseeded                   // the plant of [Overseed] grows
)

// A Growth is what the plants of a zone do on each day of a record, whatever the
// strategy. Its columns are parallel to the day records.
type Growth struct {
	K         []float64 // plant coefficient
	Activity  []float64 // 0 to 1; without a season 1 if K is above 0, else 0
	Phase     []Phase
	WeekETcMM []float64 // ETc of the last seven days, of the record only [mm]
	// Head is the day records of the spin-up pass, whose first days have another T30
	// than the same days of the record; empty if nothing depends on it.
	Head  []Day
	rests bool     // some days are dormant
	marks [2]marks // of the zone's plant, and of the one sown over it
	moved [][2]marks
}

// marks are the shares R7 below which a plant is stressed and turns brown, and the
// higher of the two.
type marks struct{ tolerance, browning, upper float64 }

func marksOf(tolerance, browning float64) marks {
	return marks{tolerance, browning, max(tolerance, browning)}
}

// activeAbove is the activity at and above which a plant counts as growing, and
// turning is the number of days in a row that make it active or dormant.
const (
	activeAbove = 0.1
	turning     = 7
)

// A rest is whether a plant is dormant, and for how many days in a row its
// activity has said otherwise.
type rest struct {
	known, active bool
	against       int
}

// next takes the activity of the next day. The first day decides at once; later
// the seventh day in a row does.
func (r *rest) next(a float64) bool {
	switch up := a >= activeAbove; {
	case !r.known:
		r.known, r.active = true, up
	case up == r.active:
		r.against = 0
	default:
		if r.against++; r.against == turning {
			r.active, r.against = up, 0
		}
	}
	return r.active
}

// fill computes coefficients, activity and phases, given the first spin days as
// spin-up pass. Without warmth the coefficient is the calendar's, and plants are
// active whenever it is above 0.
func (g *Growth) fill(z *Zone, c *Calendar, w *Warmth, spin int) {
	n := c.Days()
	g.K, g.Activity, g.Phase = resized(g.K, n), resized(g.Activity, n), resized(g.Phase, n)
	g.rests = false
	g.setMarks(z)
	o := z.Overseed
	if o == nil && (z.Season == nil || !w.Known()) {
		for i, month := range c.Month[:n] {
			k, a, phase := z.K[month-1], 0.0, Phase(0)
			if k > 0 {
				a, phase = 1, Active
			}
			g.K[i], g.Activity[i], g.Phase[i] = k, a, phase
		}
		return
	}
	var r rest
	over := false
	// day follows the plant of day i through a mean temperature.
	day := func(i int, t30C float64) (k, a float64, phase Phase) {
		s, table := z.Season, &z.K
		now := o != nil && o.In(c.Month[i], c.Dom[i])
		if now {
			s, table, phase = o.Season, &o.K, Overseeded
		}
		if now != over { // another plant starts as the day finds it
			r, over = rest{}, now
		}
		k = table[c.Month[i]-1]
		if s == nil || !w.Known() {
			if k > 0 {
				return k, 1, phase | Active
			}
			return k, 0, phase
		}
		a = s.Activity(t30C)
		if !s.ActivityOnly {
			k = s.K(a)
		}
		switch {
		case r.next(a):
			phase |= Active
		case t30C >= 0:
			phase |= WinterOpen
		}
		return k, a, phase
	}
	if w.Known() {
		for i := range spin { // for whether the record begins dormant
			t := w.T30C[i]
			if i < len(w.headC) {
				t = w.headC[i]
			}
			day(i, t)
		}
	}
	for i := range n {
		t := 0.0
		if w.Known() {
			t = w.T30C[i]
		}
		g.K[i], g.Activity[i], g.Phase[i] = day(i, t)
		g.rests = g.rests || g.Phase[i]&WinterOpen != 0
	}
}

// setMarks takes the marks of zone z.
func (g *Growth) setMarks(z *Zone) {
	g.marks = [2]marks{marksOf(z.ToleranceR7, z.BrowningR7)}
	if o := z.Overseed; o != nil {
		g.marks[1] = marksOf(o.ToleranceR7, o.BrowningR7)
	}
}

// week sums the ETc of the last seven days of the record, afresh each day.
func (g *Growth) week(days []Day) {
	g.WeekETcMM = resized(g.WeekETcMM, len(days))
	out := g.WeekETcMM[:len(days)]
	var a, b, c, d, e, f float64 // the six days before, oldest first
	for i := range days {
		etc := days[i].ETcMM
		out[i] = a + b + c + d + e + f + etc
		a, b, c, d, e, f = b, c, d, e, f, etc
	}
}

// Marks returns the shares R7 below which the plant of day i is stressed and
// turns brown.
func (g *Growth) Marks(i int) (tolerance, browning float64) {
	m := &g.marks[g.Phase[i]/Overseeded&1]
	return m.tolerance, m.browning
}

// Below reports whether the share of need met, 1 − short/week, is below a mark
// by more than the tolerance of the balance.
func Below(shortMM, weekMM, mark float64) bool { return shortMM > float64((1-mark)*weekMM)+closeTo }

func resized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}
