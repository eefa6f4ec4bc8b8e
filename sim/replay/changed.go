package replay

import (
	"slices"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// A stretch is the days of the record between two changes of a strategy, with the
// site as its strategy finds it then.
type stretch struct {
	*strategy.Stretch
	from int // first day of the record; the first stretch begins with the spin-up pass
	own  strategy.Strategy
	site strategy.Site
	// courseOf, shares and reference are by zone, as those of the stage.
	courseOf  []int
	shares    [][]float64
	reference []sim.Zone
}

// A Piece is the days of one zone under one strategy between two changes of that
// zone.
type Piece struct {
	from, to int // days of the record, to excluded
	Zone     *sim.Zone
	Forcing  []sim.Day
	growth   *sim.Growth
	plan     *sim.Plan
	// since is the first day on which the plants were there.
	since int

	need      sim.Plan // of the least-water reference
	reference *sim.Zone
	course    int
	stretch   int     // of the strategy's, with which it begins
	share     float64 // of the area of the job's zone
	roots     float64
	anew      bool
}

// layOutChanged lays out the stretches of every strategy that changes zones. A
// stretch that ends before the record begins, or begins after it ends, is left out.
func (s *stage) layOutChanged() {
	s.changed = grow(s.changed, len(s.job.Strategies))
	for i := range s.job.Strategies {
		s.changed[i] = s.stretches(&s.job.Strategies[i])
	}
}

func (s *stage) stretches(st *strategy.Strategy) []stretch {
	var out []stretch
	days := s.job.Weather.Days()
	for k := range st.Stretches {
		from := max(int(st.Stretches[k].From-s.job.Weather.Start), 0)
		if k == 0 {
			from = 0
		}
		if from >= days {
			break
		}
		if from == 0 {
			out = out[:0]
		}
		out = append(out, stretch{Stretch: &st.Stretches[k], from: from, own: st.In(k)})
	}
	for k := range out {
		s.furnish(&out[k])
	}
	return out
}

// furnish computes the day records of the zones of a stretch that no zone before
// shares.
func (s *stage) furnish(t *stretch) {
	n := len(t.Zones)
	t.site = s.site
	t.site.Zones = t.Zones
	t.site.Growth, t.site.Known, t.site.Forcing = make([]sim.Growth, n), make([][]sim.Day, n), make([][]sim.Day, n)
	t.courseOf, t.shares, t.reference = make([]int, n), make([][]float64, n), make([]sim.Zone, n)
	for z := range t.Zones {
		zone := &t.Zones[z]
		at := s.findCourse(zone)
		c := &s.courses[at]
		s.course(c)
		t.courseOf[z], t.site.Forcing[z], t.site.Known[z] = at, c.forcing, c.known
		t.site.Growth[z].Share(&c.growth, zone)
		t.site.Growth[z].MoveMarks(zone, s.job.MarkShifts)
		t.shares[z] = sim.Shares(zone.Strips, zone.DULQ)
		t.reference[z] = strategy.ReferenceZone(*zone)
	}
}

// compileChanged works out the plans of a strategy that changes zones: those of each
// stretch as if it had lasted throughout, except that what the strategy keeps in mind
// goes on from the stretch before. Of each plan a zone takes the days between its
// changes.
func (w *worker) compileChanged(s int, t *tally.Table) {
	stretches := w.changed[s]
	zones := len(w.job.Zones)
	w.apart, w.pieces = false, make([][]Piece, zones)
	plans := make([]sim.Plan, zones*len(stretches))
	days := w.job.Weather.Days()
	look := w.compiler.Look
	w.compiler.Carry = strategy.NewCarry(&w.job.Strategies[s], zones)
	for k := range stretches {
		p, to := &stretches[k], days
		if k+1 < len(stretches) {
			to = stretches[k+1].from
		}
		own := plans[k*zones:][:zones]
		if w.compiler.Look = nil; look != nil && look.Day >= p.site.Spin+p.from && look.Day < p.site.Spin+to {
			w.compiler.Look = look
		}
		for z := range own {
			own[z].KeepRuns = w.keep || look != nil && z == look.Zone
		}
		w.compiler.Carry.Next(p.Stretch, p.site.Spin+p.from, p.site.Spin+to)
		w.compiler.Compile(&p.site, &p.own, p.shares, own)
		for _, b := range w.compiler.Breaches {
			if i := int(b.Date - w.job.Weather.Start); i >= p.from && i < to {
				t.Breaches[s] = append(t.Breaches[s], b)
			}
		}
		for z := range own {
			own[z].Gate = own[z].Gate.Clone() // the compiler's is that of the next stretch soon
			w.addPiece(s, z, k, &own[z], to)
		}
	}
	w.compiler.Look, w.compiler.Carry = look, nil
}

// addPiece adds the days of stretch k of strategy s to those of zone z, whose last piece
// goes on if the zone is the same.
func (w *worker) addPiece(s, z, k int, plan *sim.Plan, to int) {
	list, p := w.pieces[z], &w.changed[s][k]
	if n := len(list); n > 0 && list[n-1].Zone.Same(&p.Zones[z]) && list[n-1].plan.Joins(plan) {
		last := &list[n-1]
		last.plan.Splice(plan, last.plan.Spin+p.from, last.Zone.Strips)
		last.to = to
		return
	}
	piece := Piece{from: p.from, to: to, Zone: &p.Zones[z], Forcing: p.site.Forcing[z], growth: &p.site.Growth[z], plan: plan,
		reference: &p.reference[z], course: p.courseOf[z], stretch: k, roots: 1}
	if piece.share = 1; p.Zones[z].AreaM2 != w.job.Zones[z].AreaM2 {
		piece.share = p.Zones[z].AreaM2 / w.job.Zones[z].AreaM2
	}
	if n := len(list); n > 0 {
		if piece.since = list[n-1].since; p.Anew != nil && p.Anew[z] {
			piece.anew, piece.since = true, p.from
		}
		if p.Roots != nil {
			piece.roots = p.Roots[z]
		}
	}
	list = append(list, piece)
	firstWeek(list)
	w.pieces[z] = list
}

// firstWeek makes the need of the last seven days, on the first days of the last of the
// pieces, that of the plants that grew on them: R7 of plants that are new looks back on
// no day before them.
func firstWeek(list []Piece) {
	p := &list[len(list)-1]
	var own []float64
	for i := p.from; i < min(p.from+sim.R7Days-1, p.to); i++ {
		sum := 0.0
		for k := max(i-sim.R7Days+1, p.since); k <= i; k++ {
			sum += on(list, k).Forcing[k].ETcMM
		}
		if sum == p.growth.WeekETcMM[i] {
			continue
		}
		if own == nil {
			own = slices.Clone(p.growth.WeekETcMM)
		}
		own[i] = sum
	}
	if own != nil {
		growth := *p.growth
		growth.WeekETcMM = own
		p.growth = &growth
	}
}

// on returns the piece of day i.
func on(list []Piece, i int) *Piece {
	for k := range list {
		if i < list[k].to {
			return &list[k]
		}
	}
	return &list[len(list)-1]
}

// replayPieces takes one zone through its pieces, as [worker.replay] does through a
// plan. Sums are means over the area of the job's zone.
func (w *worker) replayPieces(pieces []Piece, t *tally.Table, months []sim.Sums, moved []tally.MovedStress, tr *sim.Trace) {
	first := &pieces[0]
	w.begin(first.Zone, first.growth, first.Forcing, first.plan)
	for m, span := range w.site.Calendar.Spans {
		months[m] = sim.Sums{}
		for k := range pieces {
			p := &pieces[k]
			from, to := max(span.From, p.from), min(span.To, p.to)
			if from >= to {
				continue
			}
			if k > 0 && from == p.from {
				w.enter(p, tr)
			}
			part := w.weatherSums(p, m, from, to)
			w.balance.Replay(p.Forcing[from:to], p.growth, p.plan, p.plan.Spin+from, &part, tr, from)
			leak := float64(p.Zone.LeakMMDay * float64(to-from))
			part.GrossMM += leak
			part.LeakMM += leak
			if p.share != 1 {
				part.Scale(p.share)
			}
			months[m].Add(&part)
			for i := range moved {
				moved[i].Add(t, m, w.balance.Moved(i))
			}
		}
		if months[m].WateringDays > 0 {
			months[m].SeasonDays = span.To - span.From
		}
	}
}

// enter makes the change with which a piece begins.
func (w *worker) enter(p *Piece, tr *sim.Trace) {
	added := w.balance.Change(p.Zone, p.roots, p.anew)
	if tr != nil {
		tr.Steps = append(tr.Steps, sim.SoilStep{Day: p.from, MM: added})
	}
}

// weatherSums returns the sums of days from..to of span m that weather alone decides.
func (w *worker) weatherSums(p *Piece, m, from, to int) sim.Sums {
	if span := w.site.Calendar.Spans[m]; from == span.From && to == span.To {
		return w.courses[p.course].weather[m]
	}
	return sim.WeatherSums(p.Zone, w.site.Weather, p.Forcing, sim.Span{From: from, To: to})
}

// need replays the least-water reference with the zone as the pieces have it, for
// what a strategy that changes zones requires.
func (w *worker) need(pieces []Piece, t *tally.Table, months []sim.Sums) {
	for k := range pieces {
		p := &pieces[k]
		ref := p.reference
		strategy.LeastWater(ref, p.Forcing, p.growth.Head, w.site.Spin, w.site.StartShare*ref.TAWMM, &p.need)
	}
	lean := make([]Piece, len(pieces))
	for k := range pieces {
		lean[k] = pieces[k]
		lean[k].Zone, lean[k].plan = pieces[k].reference, &pieces[k].need
	}
	w.replayPieces(lean, t, months, nil, nil)
}
