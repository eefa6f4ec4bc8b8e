package plots

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/tally"
)

// clearlyMoreWater is how much more water the median year must take than the dry
// year to be worth a note: a schedule of fixed days differs by a day or two.
const clearlyMoreWater = 1.02

// MedianAboveDry says under which strategies the median year has more stress days
// or takes more water than the dry year, and why that can be; empty if there are
// none.
func MedianAboveDry(t *tally.Table, u Units) string {
	r := t.RankYears()
	if r.Median == r.Dry {
		return ""
	}
	var stress, water []string
	for st, name := range t.Strategies {
		median, dry := math.Round(t.StressDays(st, r.Median)), math.Round(t.StressDays(st, r.Dry))
		if median > dry {
			stress = append(stress, fmt.Sprintf("%s (%s and %s days)", quote(name), fixed(median, 0), fixed(dry, 0)))
		}
		inMedian, inDry := t.VolumeInYear(st, r.Median), t.VolumeInYear(st, r.Dry)
		if inMedian > clearlyMoreWater*inDry {
			water = append(water, fmt.Sprintf("%s (%s and %s)", quote(name), u.volumeText(inMedian), u.volumeText(inDry)))
		}
	}
	var parts []string
	if len(stress) > 0 {
		parts = append(parts, "has more stress days than the dry year with "+listedOf(stress))
	}
	if len(water) > 0 {
		parts = append(parts, "takes more water than the dry year with "+listedOf(water))
	}
	if len(parts) == 0 {
		return ""
	}
	median, dry := r.Name(r.Median), r.Name(r.Dry)
	text := fmt.Sprintf("The median year %s: %s ranks as drier over the whole year, by 0.8 ETo less effective rain (%s; %s in %s), "+
		"but stress and watering depend on single weeks. ", strings.Join(parts, " and "), dry, u.depthWords(t.Dryness(r.Dry)),
		u.depthWords(t.Dryness(r.Median)), median)
	if a, b := t.DriestMonths(r.Median), t.DriestMonths(r.Dry); u.shownDepth(a) > u.shownDepth(b) {
		return text + fmt.Sprintf("The driest three months of %s lacked more rain (%s) than those of %s (%s).",
			median, u.depthWords(a), dry, u.depthWords(b))
	}
	return text + fmt.Sprintf("The driest three months of %s lacked no more rain than those of %s, so the timing of heat, rain "+
		"and watering made the difference.", median, dry)
}

// listedOf joins up to three texts and counts the rest.
func listedOf(all []string) string {
	const most = 3
	n := len(all)
	switch {
	case n > most:
		return strings.Join(all[:most], ", ") + fmt.Sprintf(" and %d more", n-most)
	case n > 1:
		return strings.Join(all[:n-1], ", ") + " and " + all[n-1]
	}
	return all[0]
}
