package tally

import (
	"cmp"
	"math"
	"slices"
)

// A Row compares one strategy with the first over the whole site. Depths are
// area-weighted means over the zones.
type Row struct {
	Strategy         string
	M3PerYear        float64 // gross volume a year [m³]
	GrossMMPerYear   float64
	Change           float64 // volume against the first strategy: −0.2 is 20 % less; NaN where the first used nothing
	StressMedian     float64 // stress days in the median year, area-weighted mean over zones; NaN where no year is whole
	StressDry        float64 // the same in the 1-in-10 dry year
	LongestStreak    int     // longest run of stress days of any zone [d]
	StreakZone       string  // the zone of the longest streak
	RunoffEvents     float64 // irrigation runoff days a year, all zones together
	PercMMPerYear    float64 // percolation of irrigation and rain
	PercIrrMMPerYear float64 // percolation of irrigation alone
	Adequacy         float64
	Excess           float64
	ApplicationRatio float64 // gross/requirement; NaN where nothing is required
	SeverityPerYear  float64 // stress severity [day-equivalents a year]
}

// Compare returns a row for each strategy, in order.
func (t *Table) Compare() []Row {
	rows := make([]Row, len(t.Strategies))
	years := float64(t.Days()) / 365.25
	ranked := t.RankYears()
	area := 0.0
	for i := range t.Zones {
		area += t.Zones[i].AreaM2
	}
	first, required := t.volume(0), t.volume(t.LeastWaterIndex())
	for s := range rows {
		r := &rows[s]
		r.Strategy = t.Strategies[s]
		var eta, etc, excess, gross, perc, percIrr, severity float64
		for z := range t.Zones {
			share := t.Zones[z].AreaM2 / area
			sum := t.Total(s, z)
			gross += share * sum.GrossMM
			eta += share * sum.ETaMM
			etc += share * sum.ETcMM
			excess += share * (sum.IrrRunoffMM + sum.PercIrrMM + sum.LossesMM())
			percIrr += share * sum.PercIrrMM
			perc += share * (sum.PercIrrMM + sum.PercRainMM)
			severity += share * sum.SeverityDays
			r.RunoffEvents += float64(sum.RunoffEvents) / years
			if sum.LongestStreak > r.LongestStreak {
				r.LongestStreak, r.StreakZone = sum.LongestStreak, t.Zones[z].Name
			}
		}
		volume := t.volume(s)
		r.M3PerYear = volume / years
		r.GrossMMPerYear, r.PercMMPerYear, r.PercIrrMMPerYear, r.SeverityPerYear = gross/years, perc/years, percIrr/years, severity/years
		r.Adequacy, r.Excess = 1, 0
		if etc > 0 {
			r.Adequacy = eta / etc
		}
		if gross > 0 {
			r.Excess = excess / gross
		}
		r.Change, r.ApplicationRatio = math.NaN(), math.NaN()
		if first > 0 {
			r.Change = volume/first - 1
		}
		if required > 0 {
			r.ApplicationRatio = volume / required
		}
		r.StressMedian, r.StressDry = t.StressDays(s, ranked.Median), t.StressDays(s, ranked.Dry)
	}
	return rows
}

// volume returns the gross volume of strategy s over the record [m³].
func (t *Table) volume(s int) float64 {
	v := 0.0
	for z := range t.Zones {
		v += t.Total(s, z).GrossMM / 1000 * t.Zones[z].AreaM2
	}
	return v
}

// VolumeInYear returns the gross volume of strategy s in year y [m³].
func (t *Table) VolumeInYear(s, y int) float64 {
	v := 0.0
	for z := range t.Zones {
		v += t.Year(s, z, y).GrossMM / 1000 * t.Zones[z].AreaM2
	}
	return v
}

// StressDays returns the area-weighted mean over zones of the stress days of
// strategy s in year y; NaN for year 0.
func (t *Table) StressDays(s, y int) float64 {
	if y == 0 {
		return math.NaN()
	}
	days, area := 0.0, 0.0
	for z := range t.Zones {
		days += float64(t.Year(s, z, y).StressDays) * t.Zones[z].AreaM2
		area += t.Zones[z].AreaM2
	}
	return days / area
}

// Ranked names the years that stand for wet, median and dry. A year is 0 where
// the record has no whole calendar year.
type Ranked struct {
	Years            []int // whole calendar years that count, least need first
	Wet, Median, Dry int
}

// RankYears orders the whole calendar years by the site's need: the volume
// that the least-water reference applies, and names the wet, the median and the
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
