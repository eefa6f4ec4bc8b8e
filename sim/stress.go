package sim

// Stress counts the days on which plants are short of water by one set of marks.
// The fields are those of [Sums].
type Stress struct {
	quarterDays   int // [Sums.StressDays]
	zoneDays      int // [Sums.StressZoneDays]
	brownDays     int
	brownZoneDays int
	longestStreak int
}

// Add adds b to a.
func (a *Stress) Add(b *Stress) {
	a.quarterDays += b.quarterDays
	a.zoneDays += b.zoneDays
	a.brownDays += b.brownDays
	a.brownZoneDays += b.brownZoneDays
	a.longestStreak = max(a.longestStreak, b.longestStreak)
}

// PutIn replaces the counts in sums.
func (a *Stress) PutIn(sums *Sums) {
	sums.StressDays, sums.StressZoneDays = a.quarterDays, a.zoneDays
	sums.BrownDays, sums.BrownZoneDays, sums.LongestStreak = a.brownDays, a.brownZoneDays, a.longestStreak
}

// movedStress is the stress by one of the moved marks.
type movedStress struct {
	Stress
	streak int
}

// MovedMark returns a mark, a share from 0 to 1, moved by a shift, within 0 to 1.
func MovedMark(mark, by float64) float64 { return min(max(mark+by, 0), 1) }

// MoveMarks makes replays also count the stress days of zone z by marks moved by
// each of the shifts: see [Balance.Moved].
func (g *Growth) MoveMarks(z *Zone, shifts []float64) {
	g.moved = g.moved[:0]
	for _, by := range shifts {
		both := [2]marks{marksOf(MovedMark(z.ToleranceR7, by), MovedMark(z.BrowningR7, by))}
		if o := z.Overseed; o != nil {
			both[1] = marksOf(MovedMark(o.ToleranceR7, by), MovedMark(o.BrowningR7, by))
		}
		g.moved = append(g.moved, both)
	}
}

// Moved returns the stress days by the marks that [Growth.MoveMarks] moved by the
// shift at k, counted since the last call for k or the last [Balance.Reset].
func (b *Balance) Moved(k int) (c Stress) {
	if k < len(b.moved) { // else no day has been replayed
		c, b.moved[k].Stress = b.moved[k].Stress, c
	}
	return c
}
