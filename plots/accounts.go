package plots

import (
	"fmt"
	"math"
	"slices"

	"loamledger/sim/draw"
	"loamledger/weather/cal"
)

// An AccountsView is what charts of many accounts show.
type AccountsView struct {
	Program, Station string
	From, To         cal.Date
	Units            Units
	Currency         string
	Notes            []string // footnotes of every chart, such as what is assumed
	RankedBy         string   // by what accounts are ranked, such as simulated bills; empty for no ranking
	Smallest         int      // fewest accounts of which a mark is drawn
	Measures         []AccountsMeasure
}

// An AccountsMeasure is one measure. Slices over accounts are parallel, except Late.
type AccountsMeasure struct {
	Name                string
	SavedM3             []float64 // a year; below 0 if the account uses more
	Ratio               []float64 // application ratio as found; NaN for none
	Saves, Stays, Rises float64   // shares
	Late                []float64 // savings in the order of a ranking by earlier bills; nil without one
	Costs               []CostPoint
	Avoided             float64 // [currency/m³]
}

// A CostPoint is a program for the first accounts of a ranking.
type CostPoint struct {
	Share     float64 // of the accounts
	Accounts  int
	M3PerYear float64 // net saving of all of them
	PerM3     float64 // levelized [currency/m³]; +Inf if nothing is saved
}

// AccountsCharts returns the charts of many accounts.
func AccountsCharts(v *AccountsView) []Chart {
	out := []Chart{v.histogram(), v.cumulative(), v.byRatio()}
	if slices.ContainsFunc(v.Measures, func(m AccountsMeasure) bool { return len(m.Costs) > 0 }) {
		out = append(out, v.costs())
	}
	for i := range out {
		out[i].Notes = append(out[i].Notes, v.Notes...)
		out[i].punctuate()
	}
	return out
}

func (v *AccountsView) frame(kind Kind, name, title string, high float64) Chart {
	return Chart{Kind: kind, Name: name, Title: title, Label: Estimated, Site: v.Program, Station: v.Station, From: v.From, To: v.To,
		HeightPt: high, Columns: columns(len(v.Measures))}
}

func (v *AccountsView) perYear() string { return v.Units.volumeUnit() + "/yr" }

// bins is about how many bars a histogram has.
const bins = 40

// histogram counts accounts by their saving.
func (v *AccountsView) histogram() Chart {
	c := v.frame(AccountsKind, "account-savings", "How savings spread over accounts", 110)
	low, high := 0.0, 0.0
	for i := range v.Measures {
		sorted := slices.Sorted(slices.Values(v.Measures[i].SavedM3))
		low = min(low, v.Units.volume(draw.Quantile(sorted, 0.01)))
		high = max(high, v.Units.volume(draw.Quantile(sorted, 0.99)))
	}
	step := roundStep(max(high-low, 1e-9) / bins)
	first, last := math.Floor(low/step), math.Ceil(high/step)
	if last <= first {
		last = first + 1
	}
	left, most := 0, 0.0
	for i := range v.Measures {
		m := &v.Measures[i]
		counts := make([]float64, int(last-first))
		for _, m3 := range m.SavedM3 {
			k := int(math.Floor(v.Units.volume(m3)/step) - first)
			counts[min(max(k, 0), len(counts)-1)]++
		}
		saves, more := Series{Form: Bars, Role: SavesWater, Width: step}, Series{Form: Bars, Role: UsesMore, Width: step}
		for k, n := range counts {
			if int(n) < v.Smallest {
				left += int(n)
				continue
			}
			to := &saves
			if first+float64(k) < 0 {
				to = &more
			}
			to.X, to.Y = append(to.X, float64((first+float64(k)+0.5)*step)), append(to.Y, n)
			most = max(most, n)
		}
		c.Panels = append(c.Panels, Panel{Title: m.Name, Note: fmt.Sprintf("%s save, %s stay, %s rise", percent(m.Saves), percent(m.Stays),
			percent(m.Rises)), Series: []Series{saves, more, {Form: Post, Role: Deficit, X: []float64{0}, Y: []float64{0}}}})
	}
	c.X, c.Y = spanTo("saving of an account", v.perYear(), first*step, last*step), scaleTo("how many", "accounts", most*1.02, 4)
	c.Keys = []Key{{Form: Bars, Role: SavesWater, Label: "save"}, {Form: Bars, Role: UsesMore, Label: "use more"}}
	m := &v.Measures[0]
	for i := range v.Measures {
		if v.Measures[i].Rises > m.Rises {
			m = &v.Measures[i]
		}
	}
	c.See = "No account uses clearly more water."
	if m.Rises > 0 {
		c.See = fmt.Sprintf("Under %s, %s of the accounts use clearly more water: bars left of zero.", quote(m.Name), percent(m.Rises))
	}
	c.Notes = append(c.Notes, "The outermost bars have all accounts beyond them.")
	if left > 0 {
		c.Notes = append(c.Notes, fmt.Sprintf("Bars of fewer than %d accounts are not drawn: %s", v.Smallest, v.notDrawn(left)))
	}
	c.Alt = "Histogram of the yearly saving of accounts under each measure. " + c.See
	return c
}

// notDrawn counts accounts that are in no bar, over all panels: each panel has every account.
func (v *AccountsView) notDrawn(n int) string {
	each := len(v.Measures[0].SavedM3)
	if len(v.Measures) == 1 {
		return fmt.Sprintf("%d of %s.", n, count(each, "account", "accounts"))
	}
	return fmt.Sprintf("%s in all panels together, of %d in each.", count(n, "account", "accounts"), each)
}

// shareStep is the distance between two points of a cumulative curve.
const shareStep = 0.05

// cumulative draws the share of all savings that the first accounts have.
func (v *AccountsView) cumulative() Chart {
	c := v.frame(SharesKind, "savings-by-rank", "How few accounts have how much of the saving", 130)
	c.X = Axis{Label: "share of the ranked accounts", Unit: "%", Max: 100}
	for k := 0; k <= 100; k += 20 {
		c.X.Ticks = append(c.X.Ticks, Tick{float64(k), fixed(float64(k), 0)})
	}
	top, bottom, ranked := 100.0, 0.0, false
	for i := range v.Measures {
		m := &v.Measures[i]
		p := Panel{Title: m.Name}
		best := slices.Clone(m.SavedM3)
		if m.Late != nil {
			best = slices.Clone(m.Late) // the same years as those of the other line
		}
		slices.SortFunc(best, func(a, b float64) int { return -compareFloat(a, b) })
		hind := Series{Form: Line, Role: Hindsight}
		if v.shares(&hind, best) {
			p.Series = append(p.Series, hind)
			top = max(top, slices.Max(hind.Y))
		}
		if m.Late != nil {
			line := Series{Form: Line, Role: Observed}
			if v.shares(&line, m.Late) {
				p.Series = append(p.Series, line)
				ranked = true
				top, bottom = max(top, slices.Max(line.Y)), min(bottom, slices.Min(line.Y))
				if share := at(&line, 20); !math.IsNaN(share) {
					p.Note = fmt.Sprintf("by %s, the first 20%% have %s", v.RankedBy, percent(share/100))
				} else {
					p.Note = "too few accounts to name the first 20%"
				}
			}
		}
		if len(p.Series) == 0 {
			p.Note = "all accounts together save too little to share"
		}
		p.Series = append(p.Series, Series{Form: Line, Role: Deficit, X: []float64{0, 100}, Y: []float64{0, 100}})
		c.Panels = append(c.Panels, p)
	}
	c.Y = spanTo("share of their saving", "%", bottom, top)
	c.Keys = []Key{{Form: Line, Role: Hindsight, Label: "in hindsight: a bound"}, {Form: Line, Role: Deficit, Label: "picked at random"}}
	c.See = "A line above 100% means that the other accounts use more water: without them the program saves more."
	if ranked {
		c.Keys = append(c.Keys, Key{Form: Line, Role: Observed, Label: "by earlier " + v.RankedBy + ", later years"})
		c.See = "The closer the solid line is to the dashed one, the better bills find the accounts that save."
	}
	c.Notes = append(
		c.Notes,
		"In hindsight accounts are ranked by the saving itself, which nobody knows before: no offer can follow that line.",
	)
	c.Alt = "Curves of the cumulative share of savings over ranked accounts. " + c.See
	return c
}

func compareFloat(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// at returns the height of a line at its point x; NaN if it has none there.
func at(s *Series, x float64) float64 {
	for i := range s.X {
		if math.Abs(s.X[i]-x) < 1e-6 {
			return s.Y[i]
		}
	}
	return math.NaN()
}

// leastNet is how much of all changes must be left as a saving, or shares of it mean
// nothing: our choice.
const leastNet = 0.1

// shares sets the points of a cumulative curve of savings in their order; false if those
// who save and those who use more nearly cancel, or nothing is saved.
func (v *AccountsView) shares(s *Series, saved []float64) bool {
	total, all := 0.0, 0.0
	for _, x := range saved {
		total += x
		all += math.Abs(x)
	}
	if !(total > leastNet*all) {
		return false
	}
	s.X, s.Y = []float64{0}, []float64{0}
	sum, next, last := 0.0, 0, 0
	for k := 1; float64(k)*shareStep <= 1+1e-9; k++ {
		for end := int(math.Round(float64(k) * shareStep * float64(len(saved)))); next < end; next++ {
			sum += saved[next]
		}
		if rest := len(saved) - next; next-last >= v.Smallest && (rest == 0 || rest >= v.Smallest) {
			last = next
			s.X, s.Y = append(s.X, math.Round(float64(k)*shareStep*100)), append(s.Y, 100*sum/total)
		}
	}
	return true
}

// ratioStep is the width of a class of application ratios in a chart.
const ratioStep = 0.2

// byRatio draws savings over the application ratio as found.
func (v *AccountsView) byRatio() Chart {
	c := v.frame(RatiosKind, "savings-by-ratio", "Who saves: accounts by application ratio", 120)
	low, high, widest, left := 0.0, 0.0, 1.0, 0
	for i := range v.Measures {
		m := &v.Measures[i]
		byBin := map[int][]float64{}
		for a, r := range m.Ratio {
			if !math.IsNaN(r) {
				byBin[int(math.Floor(r/ratioStep+1e-9))] = append(byBin[int(math.Floor(r/ratioStep+1e-9))], v.Units.volume(m.SavedM3[a]))
			}
		}
		spread := Series{Form: Bars, Role: Spread, Width: ratioStep * 0.8}
		middle := Series{Form: Marks, Role: Cut}
		for k := range slicesSorted(byBin) {
			values := byBin[k]
			if len(values) < v.Smallest {
				if i == 0 { // the classes of all measures have the same accounts
					left += len(values)
				}
				continue
			}
			q := draw.SpreadOf(values)
			x := float64((float64(k) + 0.5) * ratioStep)
			spread.X, spread.Y, spread.Base = append(spread.X, x), append(spread.Y, q.P90), append(spread.Base, q.P10)
			middle.X, middle.Y, middle.Base = append(middle.X, x), append(middle.Y, q.P50), append(middle.Base, 0)
			low, high, widest = min(low, q.P10), max(high, q.P90), max(widest, x+ratioStep)
		}
		p := Panel{Title: m.Name, Series: []Series{spread, {Form: Rule, Role: Deficit, Y: []float64{0}},
			{
				Form: Post,
				Role: StressLine,
				X:    []float64{0.7},
				Y:    []float64{0},
			}, {Form: Post, Role: StressLine, X: []float64{1.3}, Y: []float64{0}}, middle}}
		c.Panels = append(c.Panels, p)
	}
	c.X, c.Y = scaleTo("water applied as found", "times the requirement", widest, 5), spanTo("saving of an account", v.perYear(), low, high)
	c.Keys = []Key{{Form: Bars, Role: Spread, Label: "P10 to P90"}, {Form: Marks, Role: Cut, Label: "median"},
		{Form: Post, Role: StressLine, Label: "0.7 and 1.3"}}
	c.See = "Accounts that applied less than their plants need, left of 1, save little or use more; those far above it save most."
	c.Notes = append(c.Notes, "The application ratio is water applied divided by the requirement.")
	if left > 0 {
		c.Notes = append(c.Notes, fmt.Sprintf("Classes of fewer than %d accounts are not drawn: %s in all.", v.Smallest,
			count(left, "account", "accounts")))
	}
	c.Alt = "Bars of savings from P10 to P90 by application ratio, with medians. " + c.See
	return c
}

// slicesSorted returns the keys of a map in order.
func slicesSorted(m map[int][]float64) func(yield func(int) bool) {
	var keys []int
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return slices.Values(keys)
}

// mostOfAvoided is how many times the avoided cost a chart of costs is high at most.
const mostOfAvoided = 3.0

// costs draws the levelized cost of offers to more and more accounts.
func (v *AccountsView) costs() Chart {
	c := v.frame(CostsKind, "cost-of-saved-water", "What saved water costs, and what it spares", 120)
	unit, factor, wide := "AF", 1233.48183754752, "AF/yr"
	per := 1 / factor
	if v.Units == SI {
		unit, factor, wide, per = "1,000 m³", 1000, "m³/yr", 1
	}
	high, most, avoided, above := 0.0, 0.0, 0.0, 0
	c.Panels = nil
	for i := range v.Measures {
		m := &v.Measures[i]
		if len(m.Costs) == 0 {
			continue
		}
		avoided = max(avoided, m.Avoided*factor)
		dots := Series{Form: Marks, Role: Cut}
		for _, p := range m.Costs {
			y := p.PerM3 * factor
			if p.Accounts < v.Smallest {
				continue
			}
			if y > mostOfAvoided*m.Avoided*factor {
				above++
				continue
			}
			x := p.M3PerYear * per
			dots.X, dots.Y, dots.Base = append(dots.X, x), append(dots.Y, y), append(dots.Base, 0)
			text := ""
			if k := math.Round(10 * p.Share); k == 1 || k == 5 || k == 10 {
				text = percent(p.Share)
			}
			dots.Text = append(dots.Text, text)
			high, most = max(high, y), max(most, x)
		}
		p := Panel{
			Title:  m.Name,
			Series: append(segments(&dots), Series{Form: Rule, Role: AllowedWater, Y: []float64{m.Avoided * factor}}, dots),
		}
		if len(dots.X) == 0 {
			p.Note = "every point is off the chart"
		}
		c.Panels = append(c.Panels, p)
	}
	c.Columns = columns(len(c.Panels))
	c.X, c.Y = scaleTo(
		"net saving of the first year",
		wide,
		most*1.1,
		4,
	), scaleTo(
		"levelized cost",
		v.Currency+"/"+unit,
		max(high, avoided)*1.15,
		4,
	)
	c.Keys = []Key{
		{Form: Marks, Role: Cut, Label: "offered to a tenth, two tenths …"},
		{Form: Rule, Role: AllowedWater, Label: "avoided cost"},
	}
	c.See = "Below the line of the avoided cost, saving water is cheaper than supplying it."
	if above > 0 {
		c.Notes = append(
			c.Notes,
			fmt.Sprintf("Not drawn because they cost more than %g times the avoided cost, or save nothing: %s.", mostOfAvoided,
				count(above, "offer", "offers")),
		)
	}
	c.Alt = "Levelized cost over net saving, for offers to more and more accounts. " + c.See
	return c
}

// segments joins marks by lines, each of which runs to the right: a curve may bend back,
// where the accounts that are added use more.
func segments(dots *Series) (out []Series) {
	for i := 1; i < len(dots.X); i++ {
		a, b := i-1, i
		if dots.X[a] > dots.X[b] {
			a, b = b, a
		}
		out = append(out, Series{Form: Line, Role: Cut, X: []float64{dots.X[a], dots.X[b]}, Y: []float64{dots.Y[a], dots.Y[b]}})
	}
	return out
}
