package sim

// dryWinterShare is the share of TAW beyond which depletion of the driest quarter
// makes a dry winter day of a day on which plants are dormant.
const dryWinterShare = 0.8

// A short is by how much the draw of a day fell short of ETc [mm]: zone mean,
// mean of the driest quarter, and the mean of 1 − Ks.
type short struct{ zone, quarter, lost float64 }

// earlier is the number of days before a day that its R7 looks back on.
const earlier = R7Days - 1

// forget makes the next day the first that counts.
func (b *Balance) forget() {
	b.carried = false
	b.calmed()
	clear(b.short)
}

// calmed ends the runs of stress days.
func (b *Balance) calmed() {
	b.streak = 0
	for k := range b.moved {
		b.moved[k].streak = 0
	}
}

// begin makes room for n days, from day at of the record on, none of which has
// fallen short yet.
func (b *Balance) begin(g *Growth, at, n int) {
	if need := earlier + n; len(b.short) < need {
		grown := make([]short, need)
		copy(grown, b.short[:min(earlier, len(b.short))])
		b.short = grown
	}
	b.first, b.final, b.rests, b.phases = n, -1, false, nil
	if g != nil {
		if len(b.moved) != len(g.moved) {
			b.moved = append(b.moved[:0], make([]movedStress, len(g.moved))...)
		}
		b.rests, b.phases = g.rests, g.Phase[at:at+n]
	}
}

// missed notes that the draw of day t of those under way falls short.
func (b *Balance) missed(t int, zone, quarter, lost float64) {
	s := &b.short[earlier+t]
	s.zone, s.quarter, s.lost = zone, quarter, lost
	if b.final < 0 {
		b.first = t
	}
	b.final = t
}

// grade adds the stress of the n days under way to sums and to the counts by moved
// marks, and keeps the last six days for the next. The sums of a week are added up
// afresh each day, so nothing drifts: a week without shortfall is exactly 0, and
// only days whose week has one are looked at.
func (b *Balance) grade(g *Growth, at, n int, sums *Sums) {
	first, final := b.first, b.final
	all := b.short[:earlier+n]
	if g == nil || final < 0 && !b.carried {
		if b.carried {
			clear(all[:earlier])
		}
		if final >= 0 {
			clear(all[earlier+first:][:final-first+1])
		}
		b.carried = false
		b.calmed()
		return
	}
	from, to := first, min(final+R7Days, n)
	if b.carried {
		from, to = 0, min(max(to, earlier), n)
	}
	var c Stress
	var severity float64
	c, b.streak, severity = count(all, b.phases[:n], g.WeekETcMM[at:][:n], &g.marks, from, to, b.streak)
	sums.StressDays += c.quarterDays
	sums.StressZoneDays += c.zoneDays
	sums.BrownDays += c.brownDays
	sums.BrownZoneDays += c.brownZoneDays
	sums.LongestStreak = max(sums.LongestStreak, c.longestStreak)
	sums.SeverityDays += severity
	for k := range g.moved {
		m := &b.moved[k]
		c, m.streak, _ = count(all, b.phases[:n], g.WeekETcMM[at:][:n], &g.moved[k], from, to, m.streak)
		m.Stress.Add(&c)
	}
	copy(all[:earlier], all[n:])
	b.carried = final >= n-earlier || b.carried && n < earlier
	if final >= 0 {
		clear(all[earlier+first:][:final-first+1])
	}
}

// count grades the days from..to of those under way, which all, phases and weeks
// describe, by the given marks. streak is the length of the run of stress days
// before the days under way, and run that of the one at their end. The driest
// quarter falls short by at least as much as the zone, so on days on which it is
// above both marks nothing more is to be done.
func count(all []short, phases []Phase, weeks []float64, plants *[2]marks, from, to, streak int) (c Stress, run int, severity float64) {
	if from > 0 {
		streak = 0
	}
	for t := from; t < to; t++ {
		if phases[t]&Active == 0 {
			streak = 0
			continue
		}
		w := (*[R7Days]short)(all[t:])
		severity += w[earlier].lost
		week := weeks[t]
		quarter := w[0].quarter + w[1].quarter + w[2].quarter + w[3].quarter + w[4].quarter + w[5].quarter + w[6].quarter
		m := &plants[phases[t]/Overseeded&1]
		if week < LeastWeekMM || !Below(quarter, week, m.upper) {
			streak = 0
			continue
		}
		zone := w[0].zone + w[1].zone + w[2].zone + w[3].zone + w[4].zone + w[5].zone + w[6].zone
		if Below(quarter, week, m.tolerance) {
			streak++
			c.quarterDays++
			c.longestStreak = max(c.longestStreak, streak)
		} else {
			streak = 0
		}
		if Below(zone, week, m.tolerance) {
			c.zoneDays++
		}
		if Below(quarter, week, m.browning) {
			c.brownDays++
		}
		if Below(zone, week, m.browning) {
			c.brownZoneDays++
		}
	}
	if to < len(phases) {
		streak = 0
	}
	return c, streak, severity
}

// Grading is the stress of one day, as the ledger has it. R7 is meaningless if
// the day has none.
type Grading struct {
	HasR7                     bool // ETc of the last seven days is at least [LeastWeekMM]
	R7Zone, R7Quarter         float64
	StressZone, StressQuarter bool
	BrownZone, BrownQuarter   bool
}

// Grade returns the stress of day i of the record, whose plants have been there since
// day first.
func (g *Growth) Grade(tr *Trace, i, first int) Grading {
	week := g.WeekETcMM[i]
	if week < LeastWeekMM {
		return Grading{}
	}
	zone, quarter := 0.0, 0.0
	for k := max(i-earlier, first); k <= i; k++ {
		zone += tr.ShortMM[k]
		quarter += tr.LowShortMM[k]
	}
	r := Grading{HasR7: true, R7Zone: min(max(1-zone/week, 0), 1), R7Quarter: min(max(1-quarter/week, 0), 1)}
	if g.Phase[i]&Active != 0 {
		tolerance, browning := g.Marks(i)
		r.StressZone, r.StressQuarter = Below(zone, week, tolerance), Below(quarter, week, tolerance)
		r.BrownZone, r.BrownQuarter = Below(zone, week, browning), Below(quarter, week, browning)
	}
	return r
}
