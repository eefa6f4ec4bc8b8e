package tally

import (
	"cmp"
	"math"
	"slices"
)

// A Row has the measures that a verdict needs, by name: one strategy over the
// whole site, depths as area-weighted zone means.
type Row struct {
	Strategy         string
	M3PerYear        float64 // gross volume a year [m³]
	GrossMMPerYear   float64
	Change           float64 // volume relative to the first strategy: −0.2 is 20% less; NaN if the first used nothing
	StressMedian     float64 // stress days of whole zones in the median year, area-weighted zone mean; NaN if no year is whole
	StressDry        float64 // the same in the 1-in-10 dry year
	BrownDry         float64 // browning days of the driest quarter in that year
	LongestStreak    int     // longest run of stress days of the driest quarter of any zone [d]
	StreakZone       string  // the zone of the longest streak
	RunoffEvents     float64 // irrigation runoff days a year, all zones together
	PercMMPerYear    float64 // percolation of irrigation and rain
	PercIrrMMPerYear float64 // percolation of irrigation alone
	NeedMet          float64
	ShareLost        float64
	ApplicationRatio float64 // gross/requirement; NaN if nothing is required
	SeverityPerYear  float64 // stress severity [full-stress days a year]
}

// Compare returns a row for each strategy, in order.
func (t *Table) Compare() []Row {
	c := t.Cells()
	water, depth, less, stress, streak, events := volume(), gross(), change(), stressZone(), longestStreak(), runoffEvents()
	drained, drainedIrr, met, lost := percolation(), percolationOfIrrigation(), needMet(), shareLost()
	ratio, severe, brown := applicationRatio(), severity(), brownQuarter()
	rows := make([]Row, len(t.Strategies))
	for s := range rows {
		longest, zone := c.Worst(&streak, s, Record)
		rows[s] = Row{
			Strategy:         t.Strategies[s],
			M3PerYear:        c.Site(&water, s, PerYear),
			GrossMMPerYear:   c.Site(&depth, s, PerYear),
			Change:           c.Site(&less, s, Record),
			StressMedian:     c.Site(&stress, s, MedianYear),
			StressDry:        c.Site(&stress, s, DryYear),
			BrownDry:         c.Site(&brown, s, DryYear),
			LongestStreak:    int(longest),
			StreakZone:       zone,
			RunoffEvents:     c.Site(&events, s, PerYear),
			PercMMPerYear:    c.Site(&drained, s, PerYear),
			PercIrrMMPerYear: c.Site(&drainedIrr, s, PerYear),
			NeedMet:          c.Site(&met, s, Record),
			ShareLost:        c.Site(&lost, s, Record),
			ApplicationRatio: c.Site(&ratio, s, Record),
			SeverityPerYear:  c.Site(&severe, s, PerYear),
		}
	}
	return rows
}

// VolumeInYear returns the gross volume of strategy s in year y [m³].
func (t *Table) VolumeInYear(s, y int) float64 {
	v := 0.0
	for z := range t.Zones {
		v += t.Year(s, z, y).GrossMM / 1000 * t.Zones[z].AreaM2
	}
	return v
}

// StressDays returns the area-weighted mean of the stress days of whole zones
// under strategy s in year y; NaN for year 0.
func (t *Table) StressDays(s, y int) float64 {
	if y == 0 {
		return math.NaN()
	}
	days, area := 0.0, 0.0
	for z := range t.Zones {
		days += float64(t.Year(s, z, y).StressZoneDays) * t.Zones[z].AreaM2
		area += t.Zones[z].AreaM2
	}
	return days / area
}

// Ranked names the wet, the median and the dry year. A year is 0 if the record
// has no whole calendar year.
type Ranked struct {
	Years            []int // whole calendar years that count, least need first
	Wet, Median, Dry int
}

// RankYears orders the whole calendar years by the site's need, the volume that
// the least-water reference applies, and names the wet, the median and the
// 1-in-10 dry year among them by [Rank].
func (t *Table) RankYears() Ranked {
	var r Ranked
	years, whole := t.Years()
	need := map[int]float64{}
	for i, y := range years {
		if whole[i] && t.Counts(y) {
			r.Years = append(r.Years, y)
			need[y] = t.VolumeInYear(t.LeastWaterIndex(), y)
		}
	}
	if len(r.Years) == 0 {
		return r
	}
	slices.SortStableFunc(r.Years, func(a, b int) int { return cmp.Compare(need[a], need[b]) })
	at := func(share float64) int { return r.Years[Rank(share, len(r.Years))] }
	r.Wet, r.Median, r.Dry = at(WetShare), at(MedianShare), at(DryShare)
	return r
}
