package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// A DeficitView is water use and stress days at scaled run times of a strategy. Slices of a [DeficitCurve] follow Shares.
type DeficitView struct {
	Site     string
	Station  string // station or weather file, as people know it
	From, To cal.Date
	Units    Units
	Strategy string
	DryYear  int // whose stress days are shown; 0 for those of the record, if no year is whole
	Ranked   tally.Ranked
	Basis    tally.Basis
	Shares   []float64 // of the run times, ascending; 1 is today's
	Whole    DeficitCurve
	Zones    []DeficitCurve
}

// A DeficitCurve is one zone, or the site.
type DeficitCurve struct {
	Name       string // not used for the site
	AreaM2     float64
	M3PerYear  []float64
	StressDays []float64
	LeastM3    float64 // per year, of the least-water reference
}

// maxDeficitZones is how many zones get a panel: nobody reads more.
const maxDeficitZones = 23

// DeficitCurves returns water use and stress days: a panel for the site and one
// for each zone. All panels span the same depth of water, so curves can be
// compared, while each axis has its own volumes.
func DeficitCurves(v *DeficitView) Chart {
	c := Chart{
		Kind: DeficitKind, Name: "deficit", Title: "Less water, more stress: " + v.Strategy, Label: Estimated,
		Site: v.Site, Station: v.Station, From: v.From, To: v.To, HeightPt: 92,
	}
	zones := largestCurves(v.Zones, maxDeficitZones)
	if n := len(v.Zones); n > len(zones) {
		c.Notes = append(c.Notes, fmt.Sprintf("The chart shows the %d largest of %d zones.", len(zones), n))
	}
	curves := []DeficitCurve{v.Whole}
	if len(v.Zones) != 1 {
		curves[0].Name = "the whole site"
		curves = append(curves, zones...)
	} else {
		curves[0].Name = v.Zones[0].Name
	}
	deepest, most := 0.0, 0.0
	for i := range curves {
		for k, m3 := range curves[i].M3PerYear {
			deepest = max(deepest, m3/curves[i].AreaM2)
			most = max(most, curves[i].StressDays[k])
		}
		deepest = max(deepest, curves[i].LeastM3/curves[i].AreaM2)
	}
	if !(deepest > 0) {
		deepest = 0.001
	}
	deepest *= 1.1 // room for the last mark and its label
	dry := "stress days " + v.Basis.Words()
	if v.DryYear != 0 {
		dry = "stress days in the dry year " + v.Ranked.Name(v.DryYear)
	}
	c.Y = scaleTo(dry, "days", max(most, 10), 4)
	applied := "water applied in an average year"
	if !v.Basis.Yearly() {
		applied = "water applied " + v.Basis.Words()
	}
	c.X = Axis{Label: applied, Unit: v.Units.volumeUnit()}
	var alt []string
	for i := range curves {
		p := v.panel(&curves[i], deepest)
		c.Panels = append(c.Panels, p)
		alt = append(alt, p.Title+": "+p.Note)
	}
	c.Columns = columns(len(c.Panels))
	c.Keys = []Key{
		{Form: Marks, Role: Cut, Label: "share of today’s run times"}, {Form: Marks, Role: Today, Label: "today"},
		{Form: Post, Role: Need, Label: tally.LeastWater},
	}
	c.Keys = slices.DeleteFunc(c.Keys, func(k Key) bool { return !c.holds(k.Role) })
	c.See = v.see(dry)
	c.Notes = append(c.Notes, "Left of the vertical line no schedule can keep water in the soil from getting scarce, though plants tolerate "+
		"some of that; uneven coverage and losses raise the need further.")
	if len(curves) > 1 {
		c.Notes = append(c.Notes, fmt.Sprintf("All panels span %s of water, so they can be compared.", v.Units.depthWords(1000*deepest)))
		c.Notes = append(c.Notes, "Stress days of the site are averages over zones, weighted by area.")
	}
	c.Notes = append(c.Notes, v.Basis.Sentence())
	c.Alt = fmt.Sprintf("Curves of %s and water %s at scaled run times of %s, for the site and each zone. %s %s.",
		dry, v.Basis.Words(), v.Strategy, c.See, strings.Join(alt, ". "))
	c.punctuate()
	return c
}

// largestCurves returns the n zones of largest area, in the order of the site.
func largestCurves(zones []DeficitCurve, n int) []DeficitCurve {
	if len(zones) <= n {
		return zones
	}
	order := make([]int, len(zones))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(zones[b].AreaM2, zones[a].AreaM2) })
	order = order[:n]
	slices.Sort(order)
	out := make([]DeficitCurve, n)
	for i, z := range order {
		out[i] = zones[z]
	}
	return out
}

// today returns the index of the share 1, or -1.
func (v *DeficitView) today() int { return slices.Index(v.Shares, 1) }

// namedShares have a label.
var namedShares = [...]float64{0.5, 1.5}

// panel draws one curve on an axis that ends at deepest m³ per m².
func (v *DeficitView) panel(d *DeficitCurve, deepest float64) Panel {
	u := v.Units
	p := Panel{Title: d.Name}
	ax := scaleTo("", "", u.volume(deepest*d.AreaM2), 4)
	ax.Max = u.volume(deepest * d.AreaM2)
	ax.Ticks = slices.DeleteFunc(ax.Ticks, func(t Tick) bool { return t.At > ax.Max })
	p.X = &ax
	line := Series{Form: Line, Role: Cut}
	dots := Series{Form: Marks, Role: Cut}
	for i, share := range v.Shares {
		x, y, text := u.volume(d.M3PerYear[i]), d.StressDays[i], ""
		line.X, line.Y = append(line.X, x), append(line.Y, y)
		if share == 1 {
			continue // has its own mark
		}
		if slices.Contains(namedShares[:], share) {
			text = percent(share)
		}
		dots.X, dots.Y, dots.Text = append(dots.X, x), append(dots.Y, y), append(dots.Text, text)
	}
	p.Series = []Series{{Form: Post, Role: Need, X: []float64{u.volume(d.LeastM3)}}, line}
	if i := v.today(); i >= 0 {
		p.Series = append(p.Series, dots, Series{
			Form: Marks, Role: Today, X: []float64{u.volume(d.M3PerYear[i])}, Y: []float64{d.StressDays[i]}, Text: []string{"today"},
		})
		p.Note = fmt.Sprintf("today %s, %s; least %s", u.volumeText(d.M3PerYear[i]),
			count(int(math.Round(d.StressDays[i])), "day", "days"), rounded(u.volume(d.LeastM3)))
	} else {
		p.Series = append(p.Series, dots)
		p.Note = "least " + u.volumeText(d.LeastM3)
	}
	return p
}

// see says how far run times can be cut before a zone has clearly more stress
// than today, or what the first cut costs. It judges by zone: a mean over the
// site would hide the one that dries out.
func (v *DeficitView) see(dry string) string {
	at := v.today()
	switch {
	case at < 0:
		return "Stress rises to the left, as water is cut: where a curve is steep, a little less water means many more stress days."
	case v.Whole.M3PerYear[at] == 0:
		return "The strategy applies no water, so there is nothing to cut."
	case at == 0:
		return fmt.Sprintf("The site has %s at today’s run times.", v.days(dry, v.Whole.StressDays[at]))
	}
	fit := at
	for fit > 0 && v.extra(fit-1) <= extraStressDays {
		fit--
	}
	now := v.days(dry, v.Whole.StressDays[at])
	if fit == at {
		z := v.worst(at - 1)
		return fmt.Sprintf("At %s of today’s run times, with %s water, %s already has %s instead of %s; the site has %s today.",
			percent(v.Shares[at-1]), v.less(at-1), quote(v.Zones[z].Name), v.days(dry, v.Zones[z].StressDays[at-1]),
			fixed(v.Zones[z].StressDays[at], 0), fixed(v.Whole.StressDays[at], 0))
	}
	return fmt.Sprintf("Down to %s of today’s run times, with %s water, no zone gains more than %d stress days; the site has %s today.",
		percent(v.Shares[fit]), v.less(fit), extraStressDays, now)
}

func (v *DeficitView) days(dry string, n float64) string {
	r := int(math.Round(n))
	if r == 1 {
		return "1 " + strings.Replace(dry, "days", "day", 1)
	}
	return fixed(float64(r), 0) + " " + dry
}

// less compares the water of share i with today's.
func (v *DeficitView) less(i int) string {
	return moreOrLess(v.Whole.M3PerYear[i]/v.Whole.M3PerYear[v.today()] - 1)
}

// worst returns the zone that gains the most stress days at share i.
func (v *DeficitView) worst(i int) int {
	worst, most := 0, math.Inf(-1)
	for z := range v.Zones {
		if gain := v.Zones[z].StressDays[i] - v.Zones[z].StressDays[v.today()]; gain > most {
			worst, most = z, gain
		}
	}
	return worst
}

// extra returns how many stress days that zone gains.
func (v *DeficitView) extra(i int) float64 {
	z := v.worst(i)
	return v.Zones[z].StressDays[i] - v.Zones[z].StressDays[v.today()]
}
