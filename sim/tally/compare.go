package tally

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// A Row has the measures that a verdict needs, by name: one strategy over the
// whole site, depths as area-weighted zone means. Values a year are sums over the
// record if it has no whole year: see [Basis].
type Row struct {
	Strategy         string
	M3PerYear        float64 // gross volume a year [m³]
	GrossMMPerYear   float64
	Change           float64 // volume relative to the baseline: −0.2 is 20% less; NaN if that used nothing
	StressMedian     float64 // stress days of whole zones in the median year, area-weighted zone mean; NaN if no year is whole
	StressDry        float64 // the same in the dry year
	StressPerYear    float64 // the same a year, or over the days of a record without a whole year
	BrownDry         float64 // browning days of the driest quarter in the dry year
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
func (t *Table) Compare() []Row { return t.Cells().Compare() }

// Compare returns a row for each strategy, in order.
func (c *Cells) Compare() []Row {
	t := c.Table
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
			StressPerYear:    c.Site(&stress, s, PerYear),
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
		v += t.ZoneVolumeInYear(s, z, y)
	}
	return v
}

// ZoneVolumeInYear returns what strategy s gives zone z in year y [m³].
func (t *Table) ZoneVolumeInYear(s, z, y int) float64 {
	return float64(t.Year(s, z, y).GrossMM / 1000 * t.Zones[z].AreaM2)
}

// StressDays returns the area-weighted mean of the stress days of whole zones
// under strategy s in year y; NaN for year 0.
func (t *Table) StressDays(s, y int) float64 {
	if y == 0 {
		return math.NaN()
	}
	days, area := 0.0, 0.0
	for z := range t.Zones {
		days += float64(float64(t.Year(s, z, y).StressZoneDays) * t.Zones[z].AreaM2)
		area += t.Zones[z].AreaM2
	}
	return days / area
}

// Ranked names the wet, the median and the dry year. A year is 0 if the record
// has no whole year.
type Ranked struct {
	Years            []int // whole years that count, least dry first
	Wet, Median, Dry int
	South            bool // years run from July to June
}

// TenYears is the least number of whole years that can name a 1-in-10 dry year.
const TenYears = 10

// DryName is what the dry year is: the 1-in-10 dry year or, of fewer than
// [TenYears] whole years, the driest.
func (r *Ranked) DryName() string {
	switch n := len(r.Years); {
	case n >= TenYears:
		return "1-in-10 dry year"
	case n == 1:
		return "only whole year"
	default:
		return fmt.Sprintf("driest of %d years", n)
	}
}

// DryText names the dry year and says what it is; there must be one.
func (r *Ranked) DryText() string {
	if len(r.Years) >= TenYears {
		return r.DryName() + " " + r.Name(r.Dry)
	}
	return fmt.Sprintf("dry year %s (%s)", r.Name(r.Dry), r.DryName())
}

// Name writes year y as in [YearName].
func (r *Ranked) Name(y int) string { return YearName(y, r.South) }

// RankYears orders the whole years by the sum of 0.8·ETo − effective rain of the
// station, a property of the weather alone, and names the wet, the median and the
// dry year among them by [rank].
func (t *Table) RankYears() Ranked {
	if t.ranked != nil {
		return *t.ranked
	}
	return t.RankOf(t.WholeYears())
}

// KeepYears works out basis and ranks of the years once, for a table that is asked for them
// many times and whose weather and years do not change any more.
func (t *Table) KeepYears() {
	basis, ranked := t.Basis(), t.RankYears()
	t.basis, t.ranked = &basis, &ranked
}

// ForgetYears forgets them, before the table is used for another run.
func (t *Table) ForgetYears() { t.basis, t.ranked = nil, nil }

// RankOf orders some of the whole years as [Table.RankYears] does.
func (t *Table) RankOf(years []int) Ranked {
	r := Ranked{Years: slices.Clone(years), South: t.South}
	if len(years) == 0 {
		return r
	}
	dryness := make(map[int]float64, len(years))
	for _, y := range years {
		dryness[y] = t.Dryness(y)
	}
	slices.SortStableFunc(r.Years, func(a, b int) int { return cmp.Compare(dryness[a], dryness[b]) })
	at := func(share float64) int { return r.Years[rank(share, len(r.Years))] }
	r.Wet, r.Median, r.Dry = at(wetShare), at(medianShare), at(dryShare)
	return r
}
